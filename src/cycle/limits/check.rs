//! One limit held against what a cut asks.

use crate::quantity::Term;

/// Name of the limit of the spindle's power.
pub(in crate::cycle) const POWER: &str = "power";

/// Which side of a limit is allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sense {
    /// The figure may not be above the limit.
    AtMost,
    /// The figure may not be below the limit.
    AtLeast,
}

/// What would bring a cut within a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remedy {
    /// A lower spindle speed.
    SpindleSpeed,
    /// A lower cutting speed.
    CuttingSpeed,
    /// A lower feed.
    Feed,
    /// Neither: another tool, hold, machine or drawing.
    Other(&'static str),
}

impl Remedy {
    /// In words: `lower the feed`.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::SpindleSpeed => "lower the spindle speed",
            Self::CuttingSpeed => "lower the cutting speed",
            Self::Feed => "lower the feed",
            Self::Other(words) => words,
        }
    }
}

/// Whose limit it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitOf {
    /// Of the machine.
    Machine,
    /// Of the chuck or the bar.
    Hold,
    /// Of the tool.
    Tool,
    /// Of the drawing.
    Drawing,
    /// A rule of thumb: to be kept for good work, and no mistake of the scenario where it is not.
    Rule,
}

impl LimitOf {
    /// In one word.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Machine => "machine",
            Self::Hold => "hold",
            Self::Tool => "tool",
            Self::Drawing => "drawing",
            Self::Rule => "rule",
        }
    }
}

/// A limit held against what a cut asks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LimitCheck {
    /// Which limit: `power`.
    pub limit: &'static str,
    /// Whose it is.
    pub of: LimitOf,
    /// What is asked.
    pub asked: Term,
    /// What is allowed.
    pub allowed: Term,
    /// Which side is allowed.
    pub sense: Sense,
    /// What would help.
    pub remedy: Remedy,
    /// Key of the source of the limit; `scenario` where machine, tool or drawing sets it.
    pub source: &'static str,
}

impl LimitCheck {
    /// A figure that may not be above a limit.
    pub(super) fn at_most(
        (limit, of): (&'static str, LimitOf),
        asked: impl Into<Term>,
        allowed: impl Into<Term>,
        remedy: Remedy,
    ) -> Self {
        let (asked, allowed) = (asked.into(), allowed.into());
        Self { limit, of, asked, allowed, sense: Sense::AtMost, remedy, source: "scenario" }
    }

    /// A figure that may not be below a limit.
    pub(super) fn at_least(
        named: (&'static str, LimitOf),
        asked: impl Into<Term>,
        allowed: impl Into<Term>,
        remedy: Remedy,
    ) -> Self {
        Self { sense: Sense::AtLeast, ..Self::at_most(named, asked, allowed, remedy) }
    }

    /// The same limit with the key of its source.
    pub(super) fn sourced(self, source: &'static str) -> Self {
        Self { source, ..self }
    }

    /// Share of the limit that is used.
    #[must_use]
    pub fn used(&self) -> f64 {
        match self.sense {
            Sense::AtMost => plain(self.asked) / plain(self.allowed),
            Sense::AtLeast => plain(self.allowed) / plain(self.asked),
        }
    }

    /// Whether the limit is passed.
    #[must_use]
    pub fn passed(&self) -> bool {
        self.used() > 1.0 + 1e-9
    }

    /// Whether a limit that binds is passed: a mistake of the cut. A rule of thumb never binds.
    #[must_use]
    pub fn broken(&self) -> bool {
        self.of != LimitOf::Rule && self.passed()
    }
}

fn plain(term: Term) -> f64 {
    match term {
        Term::Measure(measure) => measure.base,
        Term::Plain(number) => number,
    }
}
