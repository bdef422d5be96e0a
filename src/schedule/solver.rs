//! The model handed to a solver, and the answer held against the model.

use super::model::{Model, ModelFault, Row};
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

/// Finds the cheapest answer.
///
/// The model goes to a solver through `good_lp`, and the answer is held against the model as given. If it misses a row,
/// or there is none, a second solver is asked: the first has been seen to call sound models infeasible or unbounded and
/// to drift off its rows. A column without upper bound gets one far outside any plan, so that "unbounded" is no solver's
/// false alarm.
///
/// # Errors
/// [`SolveError`], the second solver's where both fail.
pub fn solve(model: &Model) -> Result<Solution, SolveError> {
    model.check()?;
    let answer = accepted(model, first::solve(model)).or_else(|_| accepted(model, second::solve(model)))?;
    let far = model
        .columns
        .iter()
        .zip(&answer.values)
        .any(|(column, value)| column.upper > FAR && *value > 0.99 * FAR);
    if far { Err(SolveError::Unbounded) } else { Ok(answer) }
}

/// Far outside any plan: pieces or minutes.
const FAR: f64 = 1e9;

fn accepted(model: &Model, values: Result<Vec<f64>, SolveError>) -> Result<Solution, SolveError> {
    let values = values?;
    model.check_answer(&values)?;
    Ok(Solution { cost: model.cost(&values), values })
}

/// Largest coefficient of a row; rows are divided by it before a solver sees them.
fn size(row: &Row) -> f64 {
    row.terms.iter().map(|(_, factor)| factor.abs()).fold(0.0, f64::max)
}

/// A row without terms holds or not, whatever the values.
fn empty_row_holds(row: &Row) -> Result<(), SolveError> {
    if row.lower > 0.0 || row.upper < 0.0 { Err(SolveError::Infeasible) } else { Ok(()) }
}

/// Through `good_lp`, with its pure-Rust solver or with `HiGHS`.
mod first {
    use super::{FAR, Model, SolveError, empty_row_holds, size};
    use good_lp::{
        Expression, ProblemVariables, ResolutionError, Solution as _, SolverModel, Variable, variable,
    };

    #[cfg(not(feature = "highs"))]
    use good_lp::solvers::microlp::microlp as backend;

    #[cfg(feature = "highs")]
    use good_lp::solvers::highs::highs as backend;

    pub(super) fn solve(model: &Model) -> Result<Vec<f64>, SolveError> {
        let mut variables = ProblemVariables::new();
        let columns: Vec<Variable> = model
            .columns
            .iter()
            .map(|column| {
                variables.add(variable().min(column.lower).max(column.upper.min(FAR)).name(&column.name))
            })
            .collect();
        let mut objective = Expression::with_capacity(model.columns.len());
        for (column, variable) in model.columns.iter().zip(&columns).filter(|(column, _)| column.cost != 0.0)
        {
            objective.add_mul(column.cost, *variable);
        }
        let mut problem = variables.minimise(objective).using(backend);
        for row in &model.rows {
            let size = size(row);
            if size == 0.0 {
                empty_row_holds(row)?;
                continue;
            }
            let mut sum = Expression::with_capacity(row.terms.len());
            for (at, factor) in &row.terms {
                sum.add_mul(factor / size, columns[*at]);
            }
            #[expect(clippy::float_cmp, reason = "equal bounds are set from one number")]
            if row.lower == row.upper {
                problem.add_constraint(sum.eq(row.upper / size));
            } else {
                if row.upper.is_finite() {
                    problem.add_constraint(sum.clone().leq(row.upper / size));
                }
                if row.lower.is_finite() {
                    problem.add_constraint(sum.geq(row.lower / size));
                }
            }
        }
        let answer = problem.solve().map_err(|error| match error {
            ResolutionError::Infeasible => SolveError::Infeasible,
            ResolutionError::Unbounded => SolveError::Unbounded,
            other => SolveError::Solver(other.to_string()),
        })?;
        Ok(columns.iter().map(|column| answer.value(*column) + 0.0).collect())
    }
}

/// A later version of the pure-Rust solver, which `good_lp` does not reach.
mod second {
    use super::{FAR, Model, SolveError, empty_row_holds, size};
    use microlp::{ComparisonOp, Error, OptimizationDirection, Problem, Variable};

    pub(super) fn solve(model: &Model) -> Result<Vec<f64>, SolveError> {
        let mut problem = Problem::new(OptimizationDirection::Minimize);
        let columns: Vec<Variable> = model
            .columns
            .iter()
            .map(|column| problem.add_var(column.cost, (column.lower, column.upper.min(FAR))))
            .collect();
        for row in &model.rows {
            let size = size(row);
            if size == 0.0 {
                empty_row_holds(row)?;
                continue;
            }
            let terms: Vec<(Variable, f64)> =
                row.terms.iter().map(|(at, factor)| (columns[*at], factor / size)).collect();
            #[expect(clippy::float_cmp, reason = "equal bounds are set from one number")]
            if row.lower == row.upper {
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
        let explain = |error: Error| match error {
            Error::Infeasible => SolveError::Infeasible,
            Error::Unbounded => SolveError::Unbounded,
            other => SolveError::Solver(other.to_string()),
        };
        let answer = problem.solve().map_err(explain)?;
        let answer =
            answer.into_solution().map_err(|_| SolveError::Solver("it was interrupted".to_owned()))?;
        Ok(columns.iter().map(|column| answer.var_value(*column) + 0.0).collect())
    }
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
}
