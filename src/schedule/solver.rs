//! The model handed to a solver through `good_lp`, and the answer held against the model.

use super::model::{Model, ModelFault};
use good_lp::{
    Expression, ProblemVariables, ResolutionError, Solution as _, SolverModel, Variable, variable,
};
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
/// Rows are scaled to a largest coefficient of one before the solver sees them; the answer is held against the model as
/// given. A column without upper bound gets one far outside any plan, so that "unbounded" is never a solver's false alarm.
///
/// # Errors
/// [`SolveError`].
pub fn solve(model: &Model) -> Result<Solution, SolveError> {
    model.check()?;
    let mut variables = ProblemVariables::new();
    let columns: Vec<Variable> = model
        .columns
        .iter()
        .map(|column| {
            variables.add(variable().min(column.lower).max(column.upper.min(FAR)).name(&column.name))
        })
        .collect();
    let costs = model.columns.iter().zip(&columns).filter(|(column, _)| column.cost != 0.0);
    let mut objective = Expression::with_capacity(model.columns.len());
    for (column, variable) in costs {
        objective.add_mul(column.cost, *variable);
    }
    let mut problem = variables.minimise(objective).using(BACKEND);
    for row in &model.rows {
        let size = row.terms.iter().map(|(_, factor)| factor.abs()).fold(0.0, f64::max);
        if size == 0.0 {
            if row.lower > 0.0 || row.upper < 0.0 {
                return Err(SolveError::Infeasible);
            }
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
    let answer = problem.solve().map_err(explain)?;
    let values: Vec<f64> = columns.iter().map(|column| answer.value(*column) + 0.0).collect();
    let far =
        model.columns.iter().zip(&values).any(|(column, value)| column.upper > FAR && *value > 0.99 * FAR);
    if far {
        return Err(SolveError::Unbounded);
    }
    model.check_answer(&values)?;
    Ok(Solution { cost: model.cost(&values), values })
}

/// Far outside any plan: pieces or minutes.
const FAR: f64 = 1e9;

#[cfg(not(feature = "highs"))]
use good_lp::solvers::microlp::microlp as BACKEND;

#[cfg(feature = "highs")]
use good_lp::solvers::highs::highs as BACKEND;

fn explain(error: ResolutionError) -> SolveError {
    match error {
        ResolutionError::Infeasible => SolveError::Infeasible,
        ResolutionError::Unbounded => SolveError::Unbounded,
        other => SolveError::Solver(other.to_string()),
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
