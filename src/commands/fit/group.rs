//! The rows of a log that belong together: one tool, one material, one coolant.

use crate::calibrate::{Outcome as End, PowerLife, Row};
use crate::cycle::Feed;
use crate::diag::Span;
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
    /// What its feeds are for.
    pub(super) per: Per,
    /// Edges of which the readings say nothing.
    pub(super) silent: Vec<String>,
    /// Whether each change has an id, so that equal rows are different edges.
    pub(super) named: bool,
}

/// What a feed is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Per {
    Rev,
    Tooth,
    Stroke,
}

impl Per {
    pub(super) fn of(feed: Feed) -> Self {
        match feed {
            Feed::PerRev(_) => Self::Rev,
            Feed::PerTooth(_) => Self::Tooth,
            Feed::PerStroke(_) => Self::Stroke,
        }
    }

    /// Behind the unit of a length: `/rev`.
    pub(super) fn text(self) -> &'static str {
        match self {
            Self::Rev => "/rev",
            Self::Tooth => "/tooth",
            Self::Stroke => "/stroke",
        }
    }
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

    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Speed => "speed",
            Self::Feed => "feed",
            Self::Depth => "depth",
        }
    }

    /// Its value in m/min or mm, if the row has it.
    pub(super) fn of(self, life: &Life) -> Option<f64> {
        match self {
            Self::Speed => life.speed.map(CuttingSpeed::to_m_per_min),
            Self::Feed => life.feed.map(Length::to_mm),
            Self::Depth => life.depth.map(Length::to_mm),
        }
    }
}

/// Logarithm up to which two settings are one, as in the fit.
const SAME: f64 = 0.005;

impl Group {
    /// A column that some rows leave empty, and the first line that does.
    pub(super) fn patchy(&self) -> Option<(Axis, u32)> {
        Axis::ALL.into_iter().find_map(|axis| {
            let empty = self.lives.iter().find(|life| axis.of(life).is_none())?;
            self.lives.iter().any(|life| axis.of(life).is_some()).then_some((axis, empty.line))
        })
    }

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
        let varied = |axis: Axis| self.ends(axis).is_some_and(|(low, high)| (high / low).ln() > SAME);
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
