//! A linear program through `good_lp`, with its pure-Rust solver or with `HiGHS`.

use super::model::Model;
use super::solver::{SolveError, empty_row_holds};
use good_lp::{
    Expression, ProblemVariables, ResolutionError, Solution as _, SolverModel, Variable, variable,
};

/// Finds the cheapest values; whole columns count as any other.
pub(super) fn solve(model: &Model) -> Result<Vec<f64>, SolveError> {
    let mut variables = ProblemVariables::new();
    let columns: Vec<Variable> = model
        .columns
        .iter()
        .map(|column| variables.add(variable().min(column.lower).max(column.upper).name(&column.name)))
        .collect();
    let mut objective = Expression::with_capacity(model.columns.len());
    for (column, variable) in model.columns.iter().zip(&columns).filter(|(column, _)| column.cost != 0.0) {
        objective.add_mul(column.cost, *variable);
    }
    let mut problem = backend::problem(variables.minimise(objective), model.columns.len());
    for row in &model.rows {
        let size = row.size();
        if size == 0.0 {
            empty_row_holds(row)?;
            continue;
        }
        let mut sum = Expression::with_capacity(row.terms.len());
        for (at, factor) in &row.terms {
            sum.add_mul(factor / size, columns[*at]);
        }
        if row.is_equation() {
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

/// Whether columns without lower bound have been seen to keep the solver from ending.
pub(super) const MAY_STALL: bool = cfg!(not(feature = "highs"));

#[cfg(not(feature = "highs"))]
mod backend {
    use good_lp::solvers::microlp::{MicroLpProblem, microlp};
    use good_lp::variable::UnsolvedProblem;

    pub(super) fn problem(unsolved: UnsolvedProblem, _columns: usize) -> MicroLpProblem {
        unsolved.using(microlp)
    }
}

#[cfg(feature = "highs")]
mod backend {
    use super::super::native::method;
    use good_lp::solvers::highs::{HighsProblem, highs};
    use good_lp::variable::UnsolvedProblem;

    pub(super) fn problem(unsolved: UnsolvedProblem, columns: usize) -> HighsProblem {
        // One number of threads everywhere: the solver keeps a single pool for the process.
        unsolved.using(highs).set_threads(1).set_option("solver", method(columns))
    }
}
