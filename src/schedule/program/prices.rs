//! What one unit more of a right side is worth, proven by the two sides of duality.

use super::check::TOLERANCE;
use super::dual;
use super::model::{Model, ModelFault, Row};
#[cfg(feature = "highs")]
use super::native;
use super::solver::{SolveError, solve, solve_closely};

/// An answer and its prices.
#[derive(Debug, Clone, PartialEq)]
pub struct Priced {
    /// Values of the columns.
    pub values: Vec<f64>,
    /// Sum of the costs.
    pub cost: f64,
    /// Change of the cost with the bound of each row that holds the answer: zero or below for an upper bound, zero or
    /// above for a lower one. Where the optimum is degenerate, one of several valid prices.
    pub row_prices: Vec<f64>,
    /// Cost of each column less what its row prices pay: above zero it stays at its lower bound, below at its upper.
    pub reduced_costs: Vec<f64>,
}

/// Finds the cheapest answer and its prices.
///
/// The prices are those of the dual program; they are handed on only if they are signed as the bounds demand and their
/// worth equals the cost. With whole columns, the prices are those of the other columns around the whole numbers found.
///
/// # Errors
/// [`SolveError`]; [`ModelFault::Price`] or [`ModelFault::Duality`] names what the prices miss.
pub fn solve_priced(model: &Model) -> Result<Priced, SolveError> {
    if model.has_whole_columns() {
        let whole = solve(model)?;
        return solve_priced(&model.with_whole_columns_at(&whole.values));
    }
    #[cfg(feature = "highs")]
    if let Ok(priced) = native::priced(model).and_then(|(values, prices)| proven(model, values, prices)) {
        return Ok(priced);
    }
    let answer = solve_closely(model)?;
    proven(model, answer.values, dual::row_prices(model)?)
}

/// Holds prices against the model and the answer.
fn proven(model: &Model, values: Vec<f64>, mut row_prices: Vec<f64>) -> Result<Priced, SolveError> {
    model.check_answer(&values)?;
    let size = row_prices.iter().fold(1.0, |size: f64, price| size.max(price.abs()));
    let mut worth = 0.0;
    for (row, price) in model.rows.iter().zip(&mut row_prices) {
        let place = || format!("row {}", row.name);
        worth += gain(price, (row.lower, row.upper), size)
            .ok_or_else(|| ModelFault::Price { place: place(), by: *price })?;
    }
    let (mut reduced_costs, sizes) = reduced_costs(model, &row_prices);
    for ((column, reduced), size) in model.columns.iter().zip(&mut reduced_costs).zip(sizes) {
        let place = || format!("column {}", column.name);
        worth += gain(reduced, (column.lower, column.upper), size)
            .ok_or_else(|| ModelFault::Price { place: place(), by: *reduced })?;
    }
    let cost = model.cost(&values);
    if (cost - worth).abs() <= TOLERANCE * cost.abs().max(worth.abs()).max(1.0) {
        Ok(Priced { values, cost, row_prices, reduced_costs })
    } else {
        Err(ModelFault::Duality { cost, worth }.into())
    }
}

/// What a price earns on the bound it belongs to; a price of the wrong sign within the tolerance is none.
fn gain(price: &mut f64, (lower, upper): (f64, f64), size: f64) -> Option<f64> {
    let bound = if *price > 0.0 { lower } else { upper };
    if *price != 0.0 && bound.is_finite() {
        return Some(*price * bound);
    }
    let is_none = price.abs() <= TOLERANCE * size;
    *price = 0.0;
    is_none.then_some(0.0)
}

/// Reduced costs, and the size of the largest number in each.
fn reduced_costs(model: &Model, row_prices: &[f64]) -> (Vec<f64>, Vec<f64>) {
    let mut reduced: Vec<f64> = model.columns.iter().map(|column| column.cost).collect();
    let mut sizes: Vec<f64> = reduced.iter().map(|cost| cost.abs().max(1.0)).collect();
    for (Row { terms, .. }, price) in model.rows.iter().zip(row_prices) {
        for (at, factor) in terms {
            reduced[*at] -= factor * price;
            sizes[*at] = sizes[*at].max((factor * price).abs());
        }
    }
    (reduced, sizes)
}

#[cfg(test)]
mod tests {
    use super::super::model::{Model, ModelFault};
    use super::super::solver::SolveError;
    use super::{proven, solve_priced};

    /// Two products on three machines: the windows and doors of Hillier and Lieberman.
    fn windows() -> Model {
        let mut model = Model::default();
        let door = model.column("door".into(), f64::INFINITY, -3.0);
        let window = model.column("window".into(), f64::INFINITY, -5.0);
        model.at_most("first".into(), vec![(door, 1.0)], 4.0);
        model.at_most("second".into(), vec![(window, 2.0)], 12.0);
        model.at_most("third".into(), vec![(door, 3.0), (window, 2.0)], 18.0);
        model
    }

    #[test]
    fn hours_of_the_tight_machines_have_a_price() {
        let priced = solve_priced(&windows()).unwrap();
        for (got, expected) in priced.row_prices.iter().zip([0.0, -1.5, -1.0]) {
            assert!((got - expected).abs() < 1e-9, "{priced:?}");
        }
    }

    #[test]
    fn wrong_prices_are_refused_by_name() {
        let (model, values) = (windows(), vec![2.0, 6.0]);
        let refused = |prices: Vec<f64>| match proven(&model, values.clone(), prices) {
            Err(SolveError::Fault(fault)) => fault,
            other => panic!("{other:?}"),
        };
        let fault = refused(vec![0.5, -1.5, -1.0]);
        assert!(matches!(&fault, ModelFault::Price { place, .. } if place == "row first"), "{fault}");
        let fault = refused(vec![0.0, -1.5, -0.5]);
        assert!(matches!(&fault, ModelFault::Price { place, .. } if place == "column door"), "{fault}");
        let fault = refused(vec![-0.5, -1.5, -1.0]);
        assert!(matches!(fault, ModelFault::Duality { .. }), "{fault}");
    }
}
