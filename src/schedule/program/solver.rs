//! The model handed to a solver, and the answer held against the model.

use super::model::{Column, Model, ModelFault, Row};
use super::whole::{Limits, WholeStatus, solve_whole};
use super::{modelled, pure};
use thiserror::Error;

/// An answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Solution {
    /// Values of the columns.
    pub values: Vec<f64>,
    /// Sum of the costs.
    pub cost: f64,
}

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum SolveError {
    /// The model or the answer is faulty.
    #[error(transparent)]
    Fault(#[from] ModelFault),
    /// No values keep all rows.
    #[error("no values keep all rows")]
    Infeasible,
    /// The cost falls without end.
    #[error("the cost falls without end")]
    Unbounded,
    /// The solver gave up.
    #[error("the solver gave up: {0}")]
    Solver(String),
}

/// Finds the cheapest answer; whole columns are searched to the proven optimum.
///
/// The model goes to a solver through `good_lp`, and the answer is held against the model as given. If it misses a row,
/// or there is none, a second solver is asked: the first has been seen to call sound models infeasible or unbounded and
/// to drift off its rows. It has also been seen to turn in circles on columns without lower bound; such a model goes to
/// the second alone.
///
/// # Errors
/// [`SolveError`], the second solver's where both fail.
pub fn solve(model: &Model) -> Result<Solution, SolveError> {
    if model.has_whole_columns() {
        let whole = solve_whole(model, None, &Limits::default())?;
        return match whole.status {
            WholeStatus::Proven => Ok(Solution { values: whole.values, cost: whole.cost }),
            _ => Err(SolveError::Solver("it stopped before its answer was proven".to_owned())),
        };
    }
    model.check()?;
    if modelled::MAY_STALL && model.columns.iter().any(|column| column.lower.is_infinite()) {
        return accepted(model, pure::solve(model));
    }
    accepted(model, modelled::solve(model)).or_else(|_| accepted(model, pure::solve(model)))
}

/// Finds the cheapest answer of a model without whole columns to the last digits, as differences of costs need it: the
/// second solver first, which holds its answer closer to the rows.
pub(super) fn solve_closely(model: &Model) -> Result<Solution, SolveError> {
    model.check()?;
    match accepted(model, pure::solve(model)) {
        Err(SolveError::Fault(_) | SolveError::Solver(_)) => solve(model),
        answer => answer,
    }
}

/// Takes an answer that keeps the model.
pub(super) fn accepted(model: &Model, values: Result<Vec<f64>, SolveError>) -> Result<Solution, SolveError> {
    let values = values?;
    model.check_answer(&values)?;
    Ok(Solution { cost: model.cost(&values), values })
}

/// Far outside any plan: pieces or minutes. Whole columns without upper bound end there, for their solver asks for one.
pub(super) const FAR: f64 = 1e9;

/// Whether a column without upper bound stands where only a bound set far out holds it.
pub(super) fn runs_away((column, value): (&Column, &f64)) -> bool {
    column.upper > FAR && *value > 0.99 * FAR
}

/// A row without terms holds or not, whatever the values.
pub(super) fn empty_row_holds(row: &Row) -> Result<(), SolveError> {
    if row.lower > 0.0 || row.upper < 0.0 { Err(SolveError::Infeasible) } else { Ok(()) }
}

#[cfg(test)]
mod tests {
    use super::super::model::Model;
    use super::{SolveError, solve};

    #[test]
    fn infeasible_and_unbounded_are_told_apart() {
        let mut model = Model::default();
        let x = model.column("x".into(), f64::INFINITY, -1.0);
        assert_eq!(solve(&model).unwrap_err(), SolveError::Unbounded);
        model.at_most("cap".into(), vec![(x, 1.0)], 3.0);
        assert!((solve(&model).unwrap().cost + 3.0).abs() < 1e-9);
        model.at_most("floor".into(), vec![(x, -1.0)], -4.0);
        assert_eq!(solve(&model).unwrap_err(), SolveError::Infeasible);
    }

    #[test]
    fn a_free_column_goes_below_zero_and_no_further_than_told() {
        let mut model = Model::default();
        let x = model.free_column("x".into(), 1.0);
        assert_eq!(solve(&model).unwrap_err(), SolveError::Unbounded);
        model.at_least("floor".into(), vec![(x, 2.0)], -7.0);
        assert!((solve(&model).unwrap().values[0] + 3.5).abs() < 1e-9);
    }

    #[test]
    fn terms_of_a_column_named_twice_add_up() {
        let mut model = Model::default();
        let x = model.column("x".into(), f64::INFINITY, -1.0);
        model.at_most("cap".into(), vec![(x, 1.0), (x, 2.0)], 6.0);
        assert!((solve(&model).unwrap().values[0] - 2.0).abs() < 1e-9);
        model.columns[0].whole = true;
        assert!((solve(&model).unwrap().values[0] - 2.0).abs() < 1e-9);
    }
}
