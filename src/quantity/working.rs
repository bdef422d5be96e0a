//! The workings of a figure: formula, numbers put in, result, source - kept by the calculation itself.

use super::{Measure, Quantity};

/// A formula as it is shown to the person who asks "why this figure?".
#[derive(Debug, PartialEq, Eq)]
pub struct Formula {
    /// The figure it gives: `spindle speed`.
    pub figure: &'static str,
    /// In symbols: `n = v_c / (pi * d)`.
    pub text: &'static str,
    /// Key of its source in `catalogs/sources.toml`.
    pub source: &'static str,
}

/// A value put into or got from a formula.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Term {
    /// With a unit.
    Measure(Measure),
    /// A count, ratio or exponent.
    Plain(f64),
}

impl Term {
    /// The number, in base units if it has a unit.
    #[must_use]
    pub fn base(self) -> f64 {
        match self {
            Self::Measure(measure) => measure.base,
            Self::Plain(number) => number,
        }
    }
}

impl<Q: Quantity> From<Q> for Term {
    fn from(quantity: Q) -> Self {
        Self::Measure(quantity.measure())
    }
}

/// One formula worked with numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What was worked.
    pub formula: &'static Formula,
    /// Symbols and the values put in, in the order of the formula.
    pub inputs: Vec<(&'static str, Term)>,
    /// What came out.
    pub result: Term,
}

/// Takes the steps of a calculation as it goes.
pub trait Record {
    /// Keeps a step; `inputs` is called only if steps are kept.
    fn step(
        &mut self,
        formula: &'static Formula,
        result: Term,
        inputs: impl FnOnce() -> Vec<(&'static str, Term)>,
    );
}

/// Keeps every step.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Workings(pub Vec<Step>);

impl Record for Workings {
    fn step(
        &mut self,
        formula: &'static Formula,
        result: Term,
        inputs: impl FnOnce() -> Vec<(&'static str, Term)>,
    ) {
        self.0.push(Step { formula, inputs: inputs(), result });
    }
}

/// Keeps nothing and costs nothing: for searches that try many settings.
#[derive(Debug, Clone, Copy, Default)]
pub struct NoWorkings;

impl Record for NoWorkings {
    fn step(&mut self, _: &'static Formula, _: Term, _: impl FnOnce() -> Vec<(&'static str, Term)>) {}
}
