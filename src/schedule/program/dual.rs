//! The dual of a linear program, written out as a linear program of its own.

use super::model::{Model, Row};
use super::solver::{SolveError, solve_closely};

/// A price of a row as a column of the dual: the row, and the sign with which the column counts.
struct Part {
    row: usize,
    sign: f64,
    column: usize,
}

/// Prices of the rows, from the dual solved as a program of its own.
///
/// Every column x with cost c is measured from a finite bound b. Its reduced cost is z = c - the prices times its
/// coefficients; the dual gains b * z, less (upper - lower) * s where z would be negative by s.
pub(super) fn row_prices(model: &Model) -> Result<Vec<f64>, SolveError> {
    let (dual, parts) = dual(model);
    let answer = solve_closely(&dual)?;
    let mut prices = vec![0.0; model.rows.len()];
    for part in &parts {
        prices[part.row] += part.sign * answer.values[part.column];
    }
    Ok(prices)
}

fn dual(model: &Model) -> (Model, Vec<Part>) {
    let mut dual = Model::default();
    let parts = add_prices(model, &mut dual);
    let mut terms = vec![Vec::new(); model.columns.len()];
    for part in &parts {
        for (at, factor) in model.rows[part.row].single_terms().iter() {
            terms[*at].push((part.column, part.sign * factor));
        }
    }
    for (column, mut terms) in model.columns.iter().zip(terms) {
        let name = column.name.clone();
        match (column.lower.is_finite(), column.upper.is_finite()) {
            (true, true) if column.lower < column.upper => {
                let below = dual.column(format!("below[{name}]"), f64::INFINITY, column.upper - column.lower);
                terms.push((below, -1.0));
                dual.at_most(name, terms, column.cost);
            }
            // A fixed column takes any reduced cost.
            (true, true) => {}
            (true, false) => dual.at_most(name, terms, column.cost),
            (false, true) => dual.at_least(name, terms, column.cost),
            (false, false) => dual.equal(name, terms, column.cost),
        }
    }
    (dual, parts)
}

/// One column for each bound of each row; its cost is what the bound is worth, negated because costs are minimised.
fn add_prices(model: &Model, dual: &mut Model) -> Vec<Part> {
    let mut parts = Vec::new();
    for (row, own) in model.rows.iter().enumerate() {
        let moved = moved(model, own);
        if own.is_equation() {
            let column = dual.free_column(own.name.clone(), moved - own.upper);
            parts.push(Part { row, sign: 1.0, column });
            continue;
        }
        for (bound, sign) in [(own.lower, 1.0), (own.upper, -1.0)] {
            if bound.is_finite() {
                let column = dual.column(own.name.clone(), f64::INFINITY, sign * (moved - bound));
                parts.push(Part { row, sign, column });
            }
        }
    }
    parts
}

/// What the row adds up to where every column stands at the bound it is measured from.
fn moved(model: &Model, row: &Row) -> f64 {
    let base = |at: usize| {
        let column = &model.columns[at];
        [column.lower, column.upper].into_iter().find(|bound| bound.is_finite()).unwrap_or(0.0)
    };
    row.terms.iter().map(|(at, factor)| factor * base(*at)).sum()
}
