//! The later version of the pure-Rust solver, which `good_lp` does not reach: it proves bounds and can be stopped.

use super::model::Model;
use super::solver::{FAR, SolveError, empty_row_holds};
use super::whole::{Found, Limits};
use microlp::{
    ComparisonOp, Error, OptimizationDirection, Problem, ResumeOptions, SolveOptions, SolveOutcome, Stats,
    TerminationReason, Variable,
};
use std::time::Duration;

/// Finds the cheapest values of a model without whole columns.
pub(super) fn solve(model: &Model) -> Result<Vec<f64>, SolveError> {
    let (problem, columns) = built(model)?;
    let answer = problem.solve().or_else(|error| match error {
        // Degenerate programs have been seen to defeat it one way and not the other.
        Error::InternalError(_) => {
            let mut options = SolveOptions::default();
            options.presolve = false;
            options.tolerances.feasibility = 1e-8;
            problem.solve_with(options)
        }
        other => Err(other),
    });
    let answer = answer.map_err(explained)?;
    values(&answer, &columns).ok_or_else(|| SolveError::Solver("it was interrupted".to_owned()))
}

/// Nodes after which the stop flag is looked at.
const SLICE: u64 = 50;

/// Looks for the cheapest whole numbers, slice by slice, so that a stop is heeded between slices.
pub(super) fn search(model: &Model, start: Option<&[f64]>, limits: &Limits) -> Result<Found, SolveError> {
    let (problem, columns) = built(model)?;
    let mut options = SolveOptions::default();
    options.mip_gap = limits.gap;
    options.warm_start = start.map(|start| columns.iter().copied().zip(start.iter().copied()).collect());
    (options.node_limit, options.time_limit) = slice(limits, Stats::default());
    let mut outcome = problem.solve_with(options).map_err(explained)?;
    loop {
        let stats = outcome.stats();
        let found = Found {
            values: values(&outcome, &columns),
            bound: stats.best_bound.unwrap_or(f64::NEG_INFINITY),
            nodes: stats.nodes_solved,
        };
        let used_up = limits.nodes.is_some_and(|nodes| nodes <= stats.nodes_solved);
        let cut = outcome.termination_reason() == TerminationReason::NodeLimit;
        if !cut || used_up || limits.is_stopped() {
            return Ok(found);
        }
        let mut options = ResumeOptions::default();
        options.mip_gap = Some(limits.gap);
        (options.node_limit, options.time_limit) = slice(limits, stats);
        outcome = match outcome.resume_with(options) {
            Ok(outcome) => outcome,
            Err(_) if found.values.is_some() => return Ok(found),
            Err(error) => return Err(explained(error)),
        };
    }
}

/// Nodes and time of the next slice.
fn slice(limits: &Limits, used: Stats) -> (Option<u64>, Option<Duration>) {
    let nodes = limits.nodes.map_or(SLICE, |nodes| nodes.saturating_sub(used.nodes_solved).min(SLICE));
    let left = limits.seconds.map(|seconds| (seconds - used.elapsed.as_secs_f64()).max(0.0));
    (Some(nodes), left.and_then(|left| Duration::try_from_secs_f64(left).ok()))
}

fn built(model: &Model) -> Result<(Problem, Vec<Variable>), SolveError> {
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    let columns: Vec<Variable> = model
        .columns
        .iter()
        .map(|column| {
            if column.whole {
                let (lower, upper) = (column.lower.max(-FAR).ceil(), column.upper.min(FAR).floor());
                problem.add_integer_var(column.cost, (whole_number(lower), whole_number(upper)))
            } else {
                problem.add_var(column.cost, (column.lower, column.upper))
            }
        })
        .collect();
    for row in &model.rows {
        let size = row.size();
        if size == 0.0 {
            empty_row_holds(row)?;
            continue;
        }
        let terms: Vec<(Variable, f64)> =
            row.single_terms().iter().map(|(at, factor)| (columns[*at], factor / size)).collect();
        if row.is_equation() {
            problem.add_constraint(terms, ComparisonOp::Eq, row.upper / size);
        } else {
            if row.upper.is_finite() {
                problem.add_constraint(terms.clone(), ComparisonOp::Le, row.upper / size);
            }
            if row.lower.is_finite() {
                problem.add_constraint(terms, ComparisonOp::Ge, row.lower / size);
            }
        }
    }
    Ok((problem, columns))
}

/// A bound within [`FAR`] of zero.
#[expect(
    clippy::cast_possible_truncation,
    reason = "the bounds are whole and far inside the range of an i32"
)]
fn whole_number(bound: f64) -> i32 {
    bound as i32
}

fn values(outcome: &SolveOutcome, columns: &[Variable]) -> Option<Vec<f64>> {
    let solution = outcome.solution()?;
    Some(columns.iter().map(|column| solution.var_value(*column) + 0.0).collect())
}

fn explained(error: Error) -> SolveError {
    match error {
        Error::Infeasible => SolveError::Infeasible,
        Error::Unbounded => SolveError::Unbounded,
        other => SolveError::Solver(other.to_string()),
    }
}
