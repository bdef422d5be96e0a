//! `HiGHS` through its own safe interface: prices, whole numbers with a start and a bound, and solving again.

use super::model::{Model, Row};
use super::solver::{SolveError, empty_row_holds};
use super::whole::{Found, Limits, Watch, rounded};
use highs::{Col, HighsModelStatus, HighsSolutionStatus, RowProblem, Sense, SolvedModel};

/// Columns above which the interior-point method is quicker than the simplex method.
const MANY_COLUMNS: usize = 400_000;

/// The method for a linear program of so many columns.
pub(super) fn method(columns: usize) -> &'static str {
    if columns > MANY_COLUMNS { "ipm" } else { "choose" }
}

/// The cheapest values and the prices of the rows.
pub(super) fn priced(model: &Model) -> Result<(Vec<f64>, Vec<f64>), SolveError> {
    let (problem, places) = built(model)?;
    let solved = solved(quiet(problem, model)?)?;
    optimal(&solved)?;
    let solution = solved.get_solution();
    let duals = solution.dual_rows();
    let price = |(row, place): (&Row, &Option<usize>)| place.map_or(0.0, |at| duals[at] / row.size() + 0.0);
    let prices = model.rows.iter().zip(&places).map(price).collect();
    Ok((clean(solution.columns()), prices))
}

/// Nodes of the first slice of a search that may be stopped; each further slice is twice as long.
const SLICE: u64 = 500;

/// Looks for the cheapest whole numbers.
///
/// The safe interface cannot break off a running search. One that may be stopped runs in slices of nodes, each from the
/// best answer of the one before.
pub(super) fn search(model: &Model, start: Option<&[f64]>, limits: &Limits) -> Result<Found, SolveError> {
    let watch = Watch::started();
    let mut slice = if limits.stop.is_some() { SLICE } else { u64::MAX };
    let mut found = Found { values: start.map(<[f64]>::to_vec), bound: f64::NEG_INFINITY, nodes: 0 };
    loop {
        let left = limits.nodes.map_or(u64::MAX, |nodes| nodes.saturating_sub(found.nodes));
        let seconds = watch.left(limits);
        let (next, done) = slice_of(model, found.values.as_deref(), limits.gap, (left.min(slice), seconds))?;
        found.nodes += next.nodes;
        found.bound = found.bound.max(next.bound);
        let cheaper = |values: &Vec<f64>| {
            found.values.as_ref().is_none_or(|known| model.cost(values) < model.cost(known))
        };
        if let Some(values) = next.values.and_then(|values| rounded(model, values).ok()).filter(cheaper) {
            found.values = Some(values);
        }
        let used_up = limits.nodes.is_some_and(|nodes| nodes <= found.nodes);
        if done || used_up || limits.is_stopped() || watch.left(limits).is_some_and(|left| left <= 0.0) {
            return Ok(found);
        }
        slice = slice.saturating_mul(2);
    }
}

/// One slice, and whether the search is done.
fn slice_of(
    model: &Model,
    start: Option<&[f64]>,
    gap: f64,
    (nodes, seconds): (u64, Option<f64>),
) -> Result<(Found, bool), SolveError> {
    let mut problem = quiet(built(model)?.0, model)?;
    set(&mut problem, "mip_rel_gap", gap)?;
    set(&mut problem, "mip_abs_gap", 0.0)?;
    set(&mut problem, "mip_max_nodes", i32::try_from(nodes).unwrap_or(i32::MAX))?;
    set(&mut problem, "time_limit", seconds.unwrap_or(f64::INFINITY))?;
    if let Some(start) = start {
        let given = problem.try_set_solution(Some(start), None, None, None);
        given.map_err(|status| SolveError::Solver(format!("it refused the start: {status:?}")))?;
    }
    let solved = solved(problem)?;
    let done = match solved.status() {
        HighsModelStatus::Optimal => true,
        HighsModelStatus::Infeasible => return Err(SolveError::Infeasible),
        HighsModelStatus::ReachedSolutionLimit
        | HighsModelStatus::ReachedTimeLimit
        | HighsModelStatus::ReachedIterationLimit
        | HighsModelStatus::ReachedInterrupt => false,
        other => return Err(SolveError::Solver(format!("it ended as {other:?}"))),
    };
    let has_values = solved.primal_solution_status() == HighsSolutionStatus::Feasible;
    let found = Found {
        values: has_values.then(|| clean(solved.get_solution().columns())),
        bound: solved.double_info_value(c"mip_dual_bound").unwrap_or(f64::NEG_INFINITY),
        nodes: solved.int_info_value(c"mip_node_count").map_or(0, |nodes| u64::try_from(nodes).unwrap_or(0)),
    };
    Ok((found, done))
}

/// A linear program that stays in the solver between solves.
///
/// Right sides can be moved because every row ends in a column of its own, whose bounds are the bounds of the row.
#[derive(Debug)]
pub(super) struct Kept {
    model: highs::Model,
    columns: Vec<Col>,
    /// Column that ends each row, and the size the row was divided by; none for a row without terms.
    ends: Vec<Option<(Col, f64)>>,
}

impl Kept {
    pub(super) fn new(model: &Model) -> Result<Self, SolveError> {
        let mut problem = RowProblem::new();
        let columns = add_columns(model, &mut problem);
        let mut ends = Vec::new();
        for row in &model.rows {
            let size = row.size();
            if size == 0.0 {
                empty_row_holds(row)?;
                ends.push(None);
                continue;
            }
            let end = problem.add_column(0.0, row.lower / size..=row.upper / size);
            let terms = row.single_terms();
            let terms = terms.iter().map(|(at, factor)| (columns[*at], factor / size));
            problem.add_row(0.0..=0.0, terms.chain([(end, -1.0)]));
            ends.push(Some((end, size)));
        }
        Ok(Self { model: quiet(problem, model)?, columns, ends })
    }

    pub(super) fn set_cost(&mut self, column: usize, cost: f64) {
        self.model.change_column_cost(self.columns[column], cost);
    }

    pub(super) fn set_right_side(&mut self, row: usize, lower: f64, upper: f64) {
        if let Some((end, size)) = self.ends[row] {
            self.model.change_column_bounds(end, lower / size..=upper / size);
        }
    }

    /// Solves from where the last solve ended.
    pub(super) fn solve(self) -> Result<(Self, Vec<f64>), SolveError> {
        let Self { model, columns, ends } = self;
        let solved = solved(model)?;
        optimal(&solved)?;
        let values = clean(&solved.get_solution().columns()[..columns.len()]);
        Ok((Self { model: solved.into(), columns, ends }, values))
    }
}

/// The model as rows, and the place of each row that has terms.
fn built(model: &Model) -> Result<(RowProblem, Vec<Option<usize>>), SolveError> {
    let mut problem = RowProblem::new();
    let columns = add_columns(model, &mut problem);
    let mut places = Vec::new();
    for row in &model.rows {
        let size = row.size();
        if size == 0.0 {
            empty_row_holds(row)?;
            places.push(None);
            continue;
        }
        places.push(Some(problem.num_rows()));
        let terms: Vec<(Col, f64)> =
            row.single_terms().iter().map(|(at, factor)| (columns[*at], factor / size)).collect();
        problem.add_row(row.lower / size..=row.upper / size, terms);
    }
    Ok((problem, places))
}

fn add_columns(model: &Model, problem: &mut RowProblem) -> Vec<Col> {
    let columns = model.columns.iter().map(|column| {
        problem.add_column_with_integrality(column.cost, column.lower..=column.upper, column.whole)
    });
    columns.collect()
}

/// A silent solver of one thread with a fixed seed: the same model gives the same bytes.
fn quiet(problem: RowProblem, model: &Model) -> Result<highs::Model, SolveError> {
    let mut problem = problem
        .try_optimise(Sense::Minimise)
        .map_err(|status| SolveError::Solver(format!("it refused the model: {status:?}")))?;
    problem.make_quiet();
    set(&mut problem, "threads", 1)?;
    set(&mut problem, "random_seed", 0)?;
    set(&mut problem, "solver", method(model.columns.len()))?;
    Ok(problem)
}

fn set(
    problem: &mut highs::Model,
    option: &str,
    value: impl highs::HighsOptionValue,
) -> Result<(), SolveError> {
    let done = problem.try_set_option(option, value);
    done.map_err(|_| SolveError::Solver(format!("it does not know the option {option}")))
}

fn solved(problem: highs::Model) -> Result<SolvedModel, SolveError> {
    problem.try_solve().map_err(|status| SolveError::Solver(format!("it failed: {status:?}")))
}

fn optimal(solved: &SolvedModel) -> Result<(), SolveError> {
    match solved.status() {
        HighsModelStatus::Optimal => Ok(()),
        HighsModelStatus::Infeasible => Err(SolveError::Infeasible),
        HighsModelStatus::Unbounded => Err(SolveError::Unbounded),
        other => Err(SolveError::Solver(format!("it ended as {other:?}"))),
    }
}

/// Values without the sign of zero.
fn clean(values: &[f64]) -> Vec<f64> {
    values.iter().map(|value| value + 0.0).collect()
}
