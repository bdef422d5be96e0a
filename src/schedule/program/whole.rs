//! Whole numbers: the cheapest answer with whole columns, and how far it is proven.

use super::branch;
use super::check::TOLERANCE;
use super::model::Model;
#[cfg(feature = "highs")]
use super::native;
use super::pure;
use super::solver::{SolveError, accepted, runs_away, solve, solve_closely};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

/// When a search may end before its answer is proven.
///
/// With `seconds` the answer depends on the speed of the computer; with `nodes` alone it is the same on every run.
#[derive(Debug, Clone, Copy, Default)]
pub struct Limits<'a> {
    /// Difference of cost and bound, relative to the cost, that is good enough.
    pub gap: f64,
    /// Seconds.
    pub seconds: Option<f64>,
    /// Nodes of the search tree.
    pub nodes: Option<u64>,
    /// Set by the user's interrupt; looked at between slices of nodes, not within a single linear program.
    pub stop: Option<&'a AtomicBool>,
}

impl Limits<'_> {
    pub(super) fn is_stopped(&self) -> bool {
        self.stop.is_some_and(|stop| stop.load(Ordering::Relaxed))
    }
}

/// How far an answer is proven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WholeStatus {
    /// No answer is cheaper by more than a millionth.
    Proven,
    /// The bound is within the gap asked for.
    GapReached,
    /// A limit or the user ended the search; the bound still holds.
    StoppedEarly,
    /// A limit or the user ended the search before any answer was found; there may be one.
    NoneFound,
}

/// An answer in whole numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Whole {
    /// Values of the columns, whole columns rounded; empty where none were found.
    pub values: Vec<f64>,
    /// Sum of the costs; infinite where no values were found.
    pub cost: f64,
    /// No answer costs less; minus infinite where nothing is proven. Never above the cost.
    pub bound: f64,
    /// Nodes of the search tree.
    pub nodes: u64,
    /// How far the answer is proven.
    pub status: WholeStatus,
}

/// What a search has found.
#[derive(Debug, Clone)]
pub(super) struct Found {
    pub(super) values: Option<Vec<f64>>,
    pub(super) bound: f64,
    pub(super) nodes: u64,
}

/// Finds the cheapest answer in whole numbers, from a known answer if there is one.
///
/// Whole columns of the answer are rounded and held against the model; if the other columns then no longer fit, they are
/// solved for again. Where a solver fails or its answer does not hold, a plain search over linear programs takes over.
/// A model without whole columns is solved as it is, without heed to the limits.
///
/// # Errors
/// [`SolveError`]; a start that breaks the model is refused.
pub fn solve_whole(model: &Model, start: Option<&[f64]>, limits: &Limits) -> Result<Whole, SolveError> {
    model.check()?;
    if let Some(start) = start {
        model.check_answer(start)?;
    }
    if !model.has_whole_columns() {
        let answer = solve(model)?;
        let (values, cost) = (answer.values, answer.cost);
        return Ok(Whole { values, cost, bound: cost, nodes: 0, status: WholeStatus::Proven });
    }
    let found = searched(model, start, limits)?;
    Ok(judged(model, found, start, limits))
}

/// Asks one solver after another until an answer holds.
fn searched(model: &Model, start: Option<&[f64]>, limits: &Limits) -> Result<Found, SolveError> {
    let watch = Watch::started();
    let left = || Limits { seconds: watch.left(limits), ..*limits };
    #[cfg(feature = "highs")]
    match native::search(model, start, &left()).and_then(|found| sound(model, found)) {
        // A start is a proof that there is an answer.
        Err(SolveError::Infeasible) if start.is_none() => return Err(SolveError::Infeasible),
        Err(_) => {}
        Ok(found) => return Ok(found),
    }
    match pure::search(model, start, &left()).and_then(|found| sound(model, found)) {
        Err(SolveError::Infeasible) if start.is_none() => Err(SolveError::Infeasible),
        Err(_) => sound(model, branch::search(model, start, &left())?),
        Ok(found) => Ok(found),
    }
}

/// Rounds the whole columns of what was found, so that the answer keeps the model with them whole.
fn sound(model: &Model, mut found: Found) -> Result<Found, SolveError> {
    found.values = found.values.map(|values| rounded(model, values)).transpose()?;
    Ok(found)
}

/// The answer with its whole columns rounded, the others solved for again where that is needed.
pub(super) fn rounded(model: &Model, mut values: Vec<f64>) -> Result<Vec<f64>, SolveError> {
    let off = |value: &f64| (value - value.round()).abs();
    let worst = model.columns.iter().zip(&values).filter(|(column, _)| column.whole);
    if worst.map(|(_, value)| off(value)).fold(0.0, f64::max) > 10.0 * TOLERANCE {
        return Err(SolveError::Solver("its whole numbers are not whole".to_owned()));
    }
    for (column, value) in model.columns.iter().zip(&mut values).filter(|(column, _)| column.whole) {
        *value = value.round().clamp(column.lower, column.upper) + 0.0;
    }
    let mut whole = model.columns.iter().zip(&values).filter(|(column, _)| column.whole);
    if whole.any(runs_away) {
        return Err(SolveError::Unbounded);
    }
    if model.check_answer(&values).is_ok() {
        return Ok(values);
    }
    let rest = solve_closely(&model.with_whole_columns_at(&values))?;
    accepted(model, Ok(rest.values)).map(|answer| answer.values)
}

fn judged(model: &Model, found: Found, start: Option<&[f64]>, limits: &Limits) -> Whole {
    let Found { values, bound, nodes } = found;
    let known = [values, start.map(<[f64]>::to_vec)].into_iter().flatten();
    let best = known.min_by(|one, other| model.cost(one).total_cmp(&model.cost(other)));
    let Some(values) = best else {
        let (values, cost) = (Vec::new(), f64::INFINITY);
        return Whole { values, cost, bound, nodes, status: WholeStatus::NoneFound };
    };
    let cost = model.cost(&values);
    let bound = bound.min(cost);
    let status = if cost - bound <= TOLERANCE * cost.abs().max(1.0) {
        WholeStatus::Proven
    } else if cost - bound <= limits.gap * cost.abs() {
        WholeStatus::GapReached
    } else {
        WholeStatus::StoppedEarly
    };
    Whole { values, cost, bound, nodes, status }
}

/// Time used, for a limit in seconds alone.
pub(super) struct Watch(Instant);

impl Watch {
    #[expect(
        clippy::disallowed_methods,
        reason = "a limit in seconds needs a clock; no other limit reads it"
    )]
    pub(super) fn started() -> Self {
        Self(Instant::now())
    }

    /// What is left of the limit.
    pub(super) fn left(&self, limits: &Limits) -> Option<f64> {
        limits.seconds.map(|seconds| (seconds - self.0.elapsed().as_secs_f64()).max(0.0))
    }
}
