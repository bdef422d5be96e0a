//! The constants as TOML to lay over a scenario, each figure with its provenance.

use super::FitRequest;
use super::group::{Axis, Per};
use super::worked::{Found, Worked};
use crate::calibrate::{Estimate, Family};
use crate::diag::{Code, Diagnostic, escaped};
use crate::input::Origin;
use crate::quantity::significant;
use crate::tooling::LifeShape;
use std::fmt::Write;

/// The text of the overlay, or what stands against it at the rows of the log.
pub(super) fn overlay(request: &FitRequest, worked: &[Worked<'_>]) -> Result<String, Vec<Diagnostic>> {
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
    let mut seen: Vec<(String, &str)> = Vec::new();
    let mut mistakes = Vec::new();
    for fit in worked {
        let refuse = |why: &str, help: &str| {
            Box::new(
                Diagnostic::new(Code::CannotTell, format!("no overlay for {}: {why}", fit.group.name()))
                    .at(fit.group.lives[0].span, "from here on")
                    .help(help.to_owned()),
            )
        };
        match table(fit, &one_line(&name), &refuse) {
            Ok((place, _)) if seen.contains(&place) => mistakes.push(*refuse(
                "an overlay holds one law for a tool in an ISO group, and another material or coolant of this log has it",
                "fit a log of one material and coolant alone",
            )),
            Ok((place, table)) => {
                seen.push(place);
                text.push('\n');
                text.push_str(&table);
            }
            Err(mistake) => mistakes.push(*mistake),
        }
    }
    if mistakes.is_empty() { Ok(text) } else { Err(mistakes) }
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
            let high = if high.is_finite() { significant(high, 4) } else { "no end".to_owned() };
            format!(", note = \"95 % from {} to {high}\"", significant(low, 4))
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
        let teeth = self.fit.known.teeth;
        let per = if teeth > 1.0 { Per::Tooth } else { self.fit.group.per };
        if let Some(feed) = self.fit.reference_value(Axis::Feed) {
            self.line(&format!("feed = \"{} mm{}\"", significant(feed / teeth, 6), per.text()));
        }
        if let Some(depth) = self.fit.reference_value(Axis::Depth) {
            self.line(&format!("depth = \"{} mm\"", significant(depth, 6)));
        }
        if let Some(missing) = self.fit.missing() {
            self.line(&format!(
                "# The log gives no {missing}: the life is taken to be that at the catalog's reference cut."
            ));
        }
        let life = self.fit.mean_life();
        self.figure("life", &quoted(&format!("{} min", significant(life.value, 6))), &life);
        if let Some(limit) = self.fit.group.limit {
            self.line(&format!("wear = \"{} mm\"", significant(limit.to_mm(), 6)));
        }
    }

    /// Exponents of speed, feed and depth.
    fn exponents(&mut self, n: &Estimate) {
        self.figure("n", &significant(n.value, 6), n);
        for (axis, key) in [(Axis::Feed, "feed_exponent"), (Axis::Depth, "depth_exponent")] {
            match self.fit.exponent(axis) {
                Some(exponent) if (0.0..=2.0).contains(&exponent.value) => {
                    self.figure(key, &significant(exponent.value, 6), &exponent);
                }
                Some(exponent) => {
                    let value = significant(exponent.value, 4);
                    self.line(&format!("# {key} of {value} is outside 0 to 2: that of the catalog stays."));
                }
                None => {}
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

/// A table, with the tool and ISO group that it is for.
fn table(
    fit: &Worked<'_>,
    log: &str,
    refuse: &dyn Fn(&str, &str) -> Box<Diagnostic>,
) -> Result<((String, &'static str), String), Box<Diagnostic>> {
    let known = &fit.known;
    let (Some(tool), Some(material)) = (&known.tool, &known.material) else {
        return Err(refuse("its tool or material is not known", "name them with --tool and --material"));
    };
    let (Some(speed), Some(n)) = (fit.reference_value(Axis::Speed), fit.n()) else {
        return Err(refuse("the log gives no speed", "add a column `speed`"));
    };
    if !(0.05..=0.8).contains(&n.value) {
        let why = format!(
            "its n of {} is outside 0.05 to 0.8, in which a scenario takes it",
            significant(n.value, 4)
        );
        return Err(refuse(&why, "log changes at speeds further apart, or join the catalog with --prior"));
    }
    if fit.group.coolant.is_none() && known.law().is_none() {
        return Err(refuse(
            "neither the log nor a law of the tool names a coolant",
            "name it with --coolant",
        ));
    }
    if known.law().is_some_and(|law| matches!(law.shape, LifeShape::Colding(_))) {
        return Err(refuse(
            "the tool's law is Colding's, which counts in place of the constants of this one",
            "take `colding` out of the tool, or fit under the name of a tool without it",
        ));
    }
    let edges: u32 = fit.group.lives.iter().map(|life| life.count).sum();
    let joined = if fit.with_prior { ", joined with the catalog" } else { "" };
    let mut writer = Writer {
        fit,
        at: format!("{log}: {edges} edges, {}{joined}", method(fit)),
        index: known.index(),
        text: String::new(),
    };
    if (writer.index - 1.0).abs() > 1e-12 {
        writer.line(&format!(
            "# Speeds are brought from {} as it was cut to the reference material of the group.",
            one_line(&material.key)
        ));
    }
    let group = material.group.letter();
    writer.line(&format!("[tool.{}.life.{group}]", quoted(&tool.key)));
    writer.reference(speed);
    writer.exponents(&n);
    writer.rest();
    Ok(((tool.key.clone(), group), writer.text))
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
