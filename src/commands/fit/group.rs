//! The rows of a log that belong together: one tool, one material, one coolant.

use super::FitRequest;
use crate::calibrate::{
    FitError, Outcome as End, PowerLife, Row, WearLife, fit_power_curve, power_life, power_start, wear_life,
};
use crate::commands::failure::Failure;
use crate::diag::Span;
use crate::input::log::{Log, Outcome, WearTest};
use crate::quantity::{CuttingSpeed, Duration, Length};

/// One edge, or several alike.
#[derive(Debug, Clone)]
pub(super) struct Life {
    pub(super) name: String,
    pub(super) speed: Option<CuttingSpeed>,
    pub(super) feed: Option<Length>,
    pub(super) depth: Option<Length>,
    pub(super) life: Duration,
    pub(super) end: End,
    pub(super) outcome: &'static str,
    pub(super) count: u32,
    pub(super) line: u32,
    pub(super) span: Span,
    /// Life by a power curve through all readings.
    pub(super) curve: Option<PowerLife>,
}

/// Edges of one tool in one material with one coolant.
#[derive(Debug, Clone)]
pub(super) struct Group {
    pub(super) tool: Option<String>,
    pub(super) material: Option<String>,
    pub(super) coolant: Option<String>,
    pub(super) lives: Vec<Life>,
    /// Wear land at which readings end a life.
    pub(super) limit: Option<Length>,
}

/// What life may hang on, in the order of the coefficients.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Axis {
    Speed,
    Feed,
    Depth,
}

impl Axis {
    pub(super) const ALL: [Self; 3] = [Self::Speed, Self::Feed, Self::Depth];

    /// Its value in m/min or mm, if the row has it.
    pub(super) fn of(self, life: &Life) -> Option<f64> {
        match self {
            Self::Speed => life.speed.map(CuttingSpeed::to_m_per_min),
            Self::Feed => life.feed.map(Length::to_mm),
            Self::Depth => life.depth.map(Length::to_mm),
        }
    }
}

impl Group {
    /// In words: `turn-80-08 in C45, soluble-flood`.
    pub(super) fn name(&self) -> String {
        let tool = self.tool.as_deref().unwrap_or("edges");
        let material = self.material.as_ref().map(|material| format!(" in {material}"));
        let coolant = self.coolant.as_ref().map(|coolant| format!(", {coolant}"));
        format!("{tool}{}{}", material.unwrap_or_default(), coolant.unwrap_or_default())
    }

    /// What was varied or, for the speed, at least written down; the rest the log cannot tell.
    pub(super) fn axes(&self) -> Vec<Axis> {
        let written = |axis: Axis| self.lives.iter().all(|life| axis.of(life).is_some());
        let varied = |axis: Axis| {
            let mut values = self.lives.iter().filter_map(|life| axis.of(life));
            let first = values.next().unwrap_or(0.0);
            values.any(|value| (value - first).abs() > 1e-9 * first.abs())
        };
        Axis::ALL
            .into_iter()
            .filter(|axis| written(*axis) && (*axis == Axis::Speed || varied(*axis)))
            .collect()
    }

    /// Rows for the fit, logarithms of what `axes` gives.
    pub(super) fn rows(&self) -> Vec<Row> {
        let axes = self.axes();
        let row = |life: &Life| Row {
            x: axes.iter().map(|axis| axis.of(life).unwrap_or(1.0).ln()).collect(),
            life: life.life.to_min(),
            outcome: life.end,
            weight: f64::from(life.count),
        };
        self.lives.iter().map(row).collect()
    }

    /// Geometric mean of what the edges ran at.
    pub(super) fn middle(&self, axis: Axis) -> Option<f64> {
        let (mut sum, mut count) = (0.0, 0.0);
        for life in &self.lives {
            sum += f64::from(life.count) * axis.of(life)?.ln();
            count += f64::from(life.count);
        }
        Some((sum / count).exp())
    }

    /// Least and most of what the edges ran at.
    pub(super) fn ends(&self, axis: Axis) -> Option<(f64, f64)> {
        let values = self.lives.iter().filter_map(|life| axis.of(life));
        values.fold(None, |ends: Option<(f64, f64)>, value| {
            Some(ends.map_or((value, value), |(low, high)| (low.min(value), high.max(value))))
        })
    }
}

/// The groups of a log, in the order in which they first come.
pub(super) fn groups(request: &FitRequest, log: Log) -> Result<Vec<Group>, Failure> {
    let mut groups: Vec<Group> = Vec::new();
    let mut add = |names: [Option<String>; 3], limit: Option<Length>, life: Life| {
        let [tool, material, coolant] = names;
        let tool = tool.or_else(|| request.tool.clone());
        let material = material.or_else(|| request.material.clone());
        let coolant = coolant.or_else(|| request.coolant.clone());
        let same =
            |group: &&mut Group| group.tool == tool && group.material == material && group.coolant == coolant;
        match groups.iter_mut().find(same) {
            Some(group) => group.lives.push(life),
            None => groups.push(Group { tool, material, coolant, lives: vec![life], limit }),
        }
    };
    match log {
        Log::Changes(changes) => {
            for change in changes {
                let (end, outcome) = match change.outcome {
                    Outcome::Worn => (End::Failed, "worn"),
                    Outcome::Broken => (End::Failed, "broken"),
                    Outcome::Early => (End::RightCensored, "early"),
                };
                let life = Life {
                    name: format!("line {}", change.line),
                    speed: Some(change.speed),
                    feed: change.feed,
                    depth: change.depth,
                    life: change.life,
                    end,
                    outcome,
                    count: change.count,
                    line: change.line,
                    span: change.span,
                    curve: None,
                };
                add([change.tool, change.material, change.coolant], None, life);
            }
        }
        Log::Readings(tests) => {
            let Some(limit) = request.limit else {
                return Err(Failure::Usage(
                    "this log holds wear readings: say at which wear land an edge is worn, --limit \"0.3 mm\"".to_owned(),
                ));
            };
            for test in tests {
                let names =
                    [test.setting.tool.clone(), test.setting.material.clone(), test.setting.coolant.clone()];
                if let Some(life) = read_off(&test, limit) {
                    add(names, Some(limit), life);
                }
            }
        }
    }
    if groups.is_empty() {
        return Err(Failure::Usage("the log holds no edge whose life could be read".to_owned()));
    }
    Ok(groups)
}

/// The life of an edge at a wear land: where its readings cross it, or longer than its last reading. An edge read only
/// when new says nothing.
fn read_off(test: &WearTest, limit: Length) -> Option<Life> {
    let readings: Vec<(f64, f64)> =
        test.readings.iter().map(|reading| (reading.time.to_min(), reading.wear.to_mm())).collect();
    let last = test.readings.last()?;
    let read: Result<WearLife, FitError> = wear_life(&readings, limit.to_mm());
    let (minutes, end, outcome) = match read.ok()? {
        WearLife::Reached(minutes) => (minutes, End::Failed, "read at the limit"),
        WearLife::NotReached(minutes) => (minutes, End::RightCensored, "limit not reached"),
        WearLife::AtFirstReading(minutes) => (minutes, End::Failed, "worn at the first reading"),
    };
    (minutes > 0.0).then(|| Life {
        name: test.edge.clone(),
        speed: test.setting.speed,
        feed: test.setting.feed,
        depth: test.setting.depth,
        life: Duration::min(minutes),
        end,
        outcome,
        count: 1,
        line: last.line,
        span: last.span,
        curve: curve(&readings, limit),
    })
}

/// Life by VB = a t^b through all readings of an edge that show wear.
fn curve(readings: &[(f64, f64)], limit: Length) -> Option<PowerLife> {
    let worn: Vec<(f64, f64)> =
        readings.iter().copied().filter(|(time, wear)| *time > 0.0 && *wear > 0.0).collect();
    let fit = fit_power_curve(&worn, power_start(&worn).ok()?).ok()?;
    power_life(&fit, limit.to_mm())
}
