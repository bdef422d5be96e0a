//! The constants as TOML to lay over a scenario, each figure with its provenance.

use super::FitRequest;
use super::group::Axis;
use super::worked::{Found, Worked};
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
        text.push_str(&table(fit, (tool, group), &one_line(&name))?);
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

/// What the figures of one table have in common.
struct Writer<'a> {
    fit: &'a Worked<'a>,
    /// Provenance.
    at: String,
    /// Speed index of the material.
    index: f64,
    text: String,
}

impl Writer<'_> {
    fn line(&mut self, entry: &str) {
        // Writing to a text cannot fail.
        let _ = writeln!(self.text, "{entry}");
    }

    /// A figure with its provenance and ends.
    fn figure(&mut self, key: &str, value: &str, estimate: &Estimate) {
        let ends = estimate.interval.map_or_else(String::new, |(low, high)| {
            format!(", note = \"95 % from {} to {}\"", significant(low, 4), significant(high, 4))
        });
        let at = quoted(&self.at);
        self.line(&format!(
            "{key} = {{ value = {value}, source = \"shop-log\", at = {at}, standing = \"shop log\"{ends} }}"
        ));
    }

    /// Speed, feed and depth of the reference cut, and its life.
    fn reference(&mut self, speed: f64) {
        let text = quoted(&format!("{} m/min", significant(speed / self.index, 6)));
        self.figure("speed", &text, &Estimate { value: speed, interval: None });
        let toothed = self.fit.known.tool.as_ref().is_some_and(|tool| tool.geometry.teeth.is_some());
        let per = if toothed { "mm/tooth" } else { "mm/rev" };
        if let Some(feed) = self.fit.reference_value(Axis::Feed) {
            self.line(&format!("feed = \"{} {per}\"", significant(feed, 6)));
        }
        if let Some(depth) = self.fit.reference_value(Axis::Depth) {
            self.line(&format!("depth = \"{} mm\"", significant(depth, 6)));
        }
        let life = self.fit.life();
        self.figure("life", &quoted(&format!("{} min", significant(life.value, 6))), &life);
        if let Some(limit) = self.fit.group.limit {
            self.line(&format!("wear = \"{} mm\"", significant(limit.to_mm(), 6)));
        }
    }

    /// Exponents of speed, feed and depth.
    fn exponents(&mut self, n: &Estimate) {
        self.figure("n", &significant(n.value, 6), n);
        for (axis, key) in [(Axis::Feed, "feed_exponent"), (Axis::Depth, "depth_exponent")] {
            if let Some(exponent) = self.fit.exponent(axis) {
                self.figure(key, &significant(exponent.value.clamp(0.0, 2.0), 6), &exponent);
            }
        }
    }

    /// Coolant, range of speeds, scatter.
    fn rest(&mut self) {
        if let Some(coolant) = &self.fit.group.coolant {
            self.line(&format!("coolant = {}", quoted(coolant)));
        }
        if let Some((low, high)) = self.fit.group.ends(Axis::Speed) {
            let (low, high) = (significant(low / self.index, 6), significant(high / self.index, 6));
            self.line(&format!("speeds = \"{low} .. {high} m/min\""));
        }
        match (self.fit.variation(), &self.fit.found) {
            (Some(variation), Found::Censored(found)) => {
                let value = significant(variation.value.clamp(0.02, 1.5), 6);
                self.figure("variation", &value, &variation);
                let family = if found.family == Family::Weibull { "weibull" } else { "lognormal" };
                self.line(&format!("family = \"{family}\""));
            }
            _ => {
                self.line("# Least squares gives the median life and no scatter; that of the catalog stays.")
            }
        }
    }
}

fn table(fit: &Worked<'_>, (tool, group): (&str, &str), log: &str) -> Result<String, Failure> {
    let edges: u32 = fit.group.lives.iter().map(|life| life.count).sum();
    let joined = if fit.with_prior { ", joined with the catalog" } else { "" };
    let missing = || Failure::Usage(format!("no overlay for {}: the log gives no speed", fit.group.name()));
    let speed = fit.reference_value(Axis::Speed).ok_or_else(missing)?;
    let n = fit.n().ok_or_else(missing)?;
    let mut writer = Writer {
        fit,
        at: format!("{log}: {edges} edges, {}{joined}", method(fit)),
        index: fit.known.material.as_ref().map_or(1.0, |material| material.speed_index.value),
        text: String::new(),
    };
    if (writer.index - 1.0).abs() > 1e-12 {
        let material = fit.group.material.as_deref().unwrap_or("the material");
        writer.line(&format!(
            "# Speeds are brought from {} to the reference material of the group, by its speed index.",
            one_line(material)
        ));
    }
    writer.line(&format!("[tool.\"{tool}\".life.{group}]"));
    writer.reference(speed);
    writer.exponents(&n);
    writer.rest();
    Ok(writer.text)
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
