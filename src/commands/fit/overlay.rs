//! The constants as TOML to lay over a scenario, each figure with its provenance.

use super::group::Axis;
use super::worked::{Found, Worked};
use super::{FitRequest, Method};
use crate::calibrate::{Estimate, Family};
use crate::commands::failure::Failure;
use crate::diag::escaped;
use crate::input::Origin;
use crate::quantity::significant;
use std::fmt::Write;

/// The text of the overlay.
///
/// # Errors
/// A group whose constants are none: no speed, no tool or material known, life that does not fall with speed.
pub(super) fn overlay(request: &FitRequest, worked: &[Worked<'_>]) -> Result<String, Failure> {
    let name = match &request.log {
        Origin::Path(path) => {
            path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned())
        }
        Origin::Text { name, .. } => name.clone(),
        Origin::Demo => "demo".to_owned(),
    };
    let mut text = format!(
        "# Life constants from {}, by `wearland fit`. Lay over a scenario: wearland plan SCENARIO --overlay THIS-FILE\n",
        one_line(&name)
    );
    let mut seen: Vec<(&str, &str)> = Vec::new();
    for fit in worked {
        let (tool, group) = place(fit)?;
        if seen.contains(&(tool, group)) {
            return Err(Failure::Usage(format!(
                "the log holds several materials or coolants for `{tool}` in ISO group {group}, and an overlay holds one law for them: \
                 keep one, such as with --material and a log of it alone"
            )));
        }
        seen.push((tool, group));
        text.push('\n');
        text.push_str(&table(request, fit, (tool, group), &one_line(&name))?);
    }
    Ok(text)
}

/// Tool and ISO group that a table is for.
fn place<'a>(fit: &'a Worked<'_>) -> Result<(&'a str, &'static str), Failure> {
    let refuse = |why: &str| Failure::Usage(format!("no overlay for {}: {why}", fit.group.name()));
    let tool = fit.known.tool.as_ref().ok_or_else(|| refuse("its tool is not known"))?;
    let material = fit.known.material.as_ref().ok_or_else(|| refuse("its material is not known"))?;
    match fit.n() {
        None => Err(refuse("the log gives no speed")),
        Some(n) if !(0.05..=0.8).contains(&n.value) => Err(refuse(&format!(
            "its n of {} is outside 0.05 to 0.8, in which a scenario takes it",
            significant(n.value, 4)
        ))),
        Some(_) => Ok((&tool.key, material.group.letter())),
    }
}

fn table(
    request: &FitRequest,
    fit: &Worked<'_>,
    (tool, group): (&str, &str),
    log: &str,
) -> Result<String, Failure> {
    let index = fit.known.material.as_ref().map_or(1.0, |material| material.speed_index.value);
    let edges: u32 = fit.group.lives.iter().map(|life| life.count).sum();
    let at = format!(
        "{log}: {edges} edges, {}{}",
        method(fit),
        if fit.with_prior { ", joined with the catalog" } else { "" }
    );
    let figure = |value: String, estimate: &Estimate| {
        let ends = estimate.interval.map_or_else(String::new, |(low, high)| {
            format!(", note = \"95 % from {} to {}\"", significant(low, 4), significant(high, 4))
        });
        format!(
            "{{ value = {value}, source = \"shop-log\", at = {}, standing = \"shop log\"{ends} }}",
            quoted(&at)
        )
    };
    let missing =
        |what: &str| Failure::Usage(format!("no overlay for {}: the log gives no {what}", fit.group.name()));
    let speed = fit.reference_value(Axis::Speed).ok_or_else(|| missing("speed"))?;
    let n = fit.n().ok_or_else(|| missing("speed"))?;
    let life = fit.life();
    let mut text = String::new();
    let mut line = |entry: String| {
        // Writing to a text cannot fail.
        let _ = writeln!(text, "{entry}");
    };
    if (index - 1.0).abs() > 1e-12 {
        line(format!(
            "# Speeds are brought from {} to the reference material of the group, by its speed index.",
            fit.group.material.as_deref().unwrap_or("the material")
        ));
    }
    line(format!("[tool.\"{tool}\".life.{group}]"));
    let given = Estimate { value: speed, interval: None };
    line(format!("speed = {}", figure(quoted(&format!("{} m/min", significant(speed / index, 6))), &given)));
    let per = if fit.known.tool.as_ref().is_some_and(|tool| tool.geometry.teeth.is_some()) {
        "mm/tooth"
    } else {
        "mm/rev"
    };
    if let Some(feed) = fit.reference_value(Axis::Feed) {
        line(format!("feed = \"{} {per}\"", significant(feed, 6)));
    }
    if let Some(depth) = fit.reference_value(Axis::Depth) {
        line(format!("depth = \"{} mm\"", significant(depth, 6)));
    }
    line(format!("life = {}", figure(quoted(&format!("{} min", significant(life.value, 6))), &life)));
    if let Some(limit) = fit.group.limit {
        line(format!("wear = \"{} mm\"", significant(limit.to_mm(), 6)));
    }
    line(format!("n = {}", figure(significant(n.value, 6), &n)));
    for (axis, key) in [(Axis::Feed, "feed_exponent"), (Axis::Depth, "depth_exponent")] {
        if let Some(exponent) = fit.exponent(axis) {
            line(format!("{key} = {}", figure(significant(exponent.value.clamp(0.0, 2.0), 6), &exponent)));
        }
    }
    if let Some(coolant) = &fit.group.coolant {
        line(format!("coolant = {}", quoted(coolant)));
    }
    if let Some((low, high)) = fit.group.ends(Axis::Speed) {
        line(format!(
            "speeds = \"{} .. {} m/min\"",
            significant(low / index, 6),
            significant(high / index, 6)
        ));
    }
    if let (Some(variation), Found::Censored(found)) = (fit.variation(), &fit.found) {
        let value = significant(variation.value.clamp(0.02, 1.5), 6);
        line(format!("variation = {}", figure(value, &variation)));
        line(format!(
            "family = \"{}\"",
            if found.family == Family::Weibull { "weibull" } else { "lognormal" }
        ));
    }
    if request.method == Method::LeastSquares {
        line("# Least squares gives the median life and no scatter; that of the catalog stays.".to_owned());
    }
    Ok(text)
}

fn method(fit: &Worked<'_>) -> &'static str {
    match &fit.found {
        Found::Censored(found) if found.family == Family::Weibull => "censored Weibull regression",
        Found::Censored(_) => "censored lognormal regression",
        Found::Line(_) => "least squares of ln T",
    }
}

fn one_line(text: &str) -> String {
    escaped(text).replace(['\n', '\r'], " ")
}

fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}
