//! What a unit fewer and a unit more of a right side cost, by solving again, and how far a price holds.

use super::model::{Model, Row};
use super::prices::{Priced, solve_priced};
use super::resolver::Resolver;
use super::solver::{SolveError, solve, solve_closely};

/// Change of the cost for a unit of the right side, on either side of where it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneSided {
    /// Cost now less the cost with fewer, for one unit; none where nothing keeps the rows then.
    pub fewer: Option<f64>,
    /// Cost with more less the cost now, for one unit; none where nothing keeps the rows then.
    pub more: Option<f64>,
}

/// Solves again with `step` fewer and `step` more on the right side of a row, whole numbers found anew.
///
/// Of a row with two bounds, the one moves that the answer lies nearer to; an equation moves as a whole.
///
/// # Errors
/// [`SolveError`] of the model as it stands, and any but "infeasible" of the moved ones.
pub fn one_sided(model: &Model, row: usize, step: f64) -> Result<OneSided, SolveError> {
    let mut resolver = Resolver::new(model.clone());
    let now = resolver.solve()?;
    let own = &model.rows[row];
    let side = Side::of(own, own.sum(&now.values));
    let mut moved = |by: f64| {
        let (lower, upper) = side.moved(own, by);
        if lower > upper {
            return Ok(None);
        }
        resolver.set_right_side(row, lower, upper);
        match resolver.solve() {
            Ok(answer) => Ok(Some((answer.cost - now.cost) / by)),
            Err(SolveError::Infeasible) => Ok(None),
            Err(error) => Err(error),
        }
    };
    Ok(OneSided { fewer: moved(-step)?, more: moved(step)? })
}

/// The bound of a row that moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Both,
    Lower,
    Upper,
}

impl Side {
    /// The bound nearest to where the row stands.
    fn of(row: &Row, sum: f64) -> Self {
        if row.is_equation() {
            Self::Both
        } else if (sum - row.lower).abs() < (sum - row.upper).abs() {
            Self::Lower
        } else {
            Self::Upper
        }
    }

    fn moved(self, row: &Row, by: f64) -> (f64, f64) {
        match self {
            Self::Both => (row.lower + by, row.upper + by),
            Self::Lower => (row.lower + by, row.upper),
            Self::Upper => (row.lower, row.upper + by),
        }
    }
}

/// Right sides between which a price holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PriceRange {
    /// Least right side; minus infinite where there is none.
    pub least: f64,
    /// Largest right side; infinite where there is none.
    pub largest: f64,
}

/// The right sides of a row for which its price holds.
///
/// Exact, by two linear programs: as long as the prices hold, a column that keeps a reduced cost stays at its bound, and
/// so does every other row with a price. Of the answers that are left, those are sought in which the row adds up to
/// least and to most. Whole columns stay as they are in the answer.
///
/// # Errors
/// [`SolveError`].
pub fn range_of_price(model: &Model, row: usize) -> Result<PriceRange, SolveError> {
    if model.has_whole_columns() {
        let whole = solve(model)?;
        return range_of_price(&model.with_whole_columns_at(&whole.values), row);
    }
    let priced = solve_priced(model)?;
    let own = &model.rows[row];
    let price = priced.row_prices[row];
    let side = match price {
        _ if own.is_equation() => Side::Both,
        price if price > NO_PRICE => Side::Lower,
        price if price < -NO_PRICE => Side::Upper,
        _ => Side::of(own, own.sum(&priced.values)),
    };
    let bound = if side == Side::Lower { own.lower } else { own.upper };
    let mut range = PriceRange { least: f64::NEG_INFINITY, largest: f64::INFINITY };
    if !bound.is_finite() {
        return Ok(range);
    }
    let kept = with_prices_kept(model, &priced, row, side);
    let is_free = price.abs() <= NO_PRICE;
    // A bound that costs nothing may move away from the row as far as it likes.
    if !(is_free && side == Side::Lower) {
        range.least = end(&kept, row, 1.0)?.min(bound);
    }
    if !(is_free && side == Side::Upper) {
        range.largest = end(&kept, row, -1.0)?.max(bound);
    }
    Ok(range)
}

/// Size below which a price is only the rounding of none.
const NO_PRICE: f64 = 1e-6;

/// Least sum of the row, or largest where the sign is below zero.
fn end(kept: &Model, row: usize, sign: f64) -> Result<f64, SolveError> {
    let mut sought = kept.clone();
    for (at, factor) in &kept.rows[row].terms {
        sought.columns[*at].cost += sign * factor;
    }
    match solve_closely(&sought) {
        Ok(answer) => Ok(kept.rows[row].sum(&answer.values)),
        Err(SolveError::Unbounded) => Ok(-sign * f64::INFINITY),
        Err(error) => Err(error),
    }
}

/// The answers that go with the prices, at no cost, whatever the bound of the row.
fn with_prices_kept(model: &Model, priced: &Priced, row: usize, side: Side) -> Model {
    let mut kept = model.clone();
    for (column, reduced) in kept.columns.iter_mut().zip(&priced.reduced_costs) {
        column.cost = 0.0;
        held(&mut column.lower, &mut column.upper, *reduced);
    }
    for (other, price) in kept.rows.iter_mut().zip(&priced.row_prices) {
        held(&mut other.lower, &mut other.upper, *price);
    }
    let own = &model.rows[row];
    (kept.rows[row].lower, kept.rows[row].upper) = match side {
        Side::Both => (f64::NEG_INFINITY, f64::INFINITY),
        Side::Lower => (f64::NEG_INFINITY, own.upper),
        Side::Upper => (own.lower, f64::INFINITY),
    };
    kept
}

/// Holds what has a price at the bound that the price belongs to.
fn held(lower: &mut f64, upper: &mut f64, price: f64) {
    if price > NO_PRICE {
        *upper = *lower;
    } else if price < -NO_PRICE {
        *lower = *upper;
    }
}
