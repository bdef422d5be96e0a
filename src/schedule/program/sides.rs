//! What a unit fewer and a unit more of a right side cost, by solving again, and how far a price holds.

use super::model::{Model, Row};
use super::prices::solve_priced;
use super::resolver::Resolver;
use super::solver::{SolveError, solve};

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
/// Exact, by two linear programs: with the right side as a column of its own, an answer keeps the price just as long as
/// its cost, less the price for each unit of the right side, is that of the answer now. Of those answers, the least and
/// the largest right side are sought. Whole columns stay as they are in the answer.
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
    let side = Side::of(own, own.sum(&priced.values));
    let bound = if side == Side::Lower { own.lower } else { own.upper };
    if !bound.is_finite() {
        return Ok(PriceRange { least: f64::NEG_INFINITY, largest: f64::INFINITY });
    }
    let price = priced.row_prices[row];
    let (parametric, right) = parametric(model, row, side);
    let end = |direction: f64| {
        let limit = priced.cost - price * bound;
        // The rounding of the answer now must not leave the program without one.
        for slack in [0.0, 1e-9, 1e-7] {
            let mut kept = parametric.clone();
            let mut terms: Vec<(usize, f64)> =
                model.columns.iter().map(|column| column.cost).enumerate().collect();
            terms.push((right, -price));
            terms.retain(|(_, factor)| *factor != 0.0);
            kept.at_most("price".into(), terms, limit + slack * limit.abs().max(1.0));
            kept.columns.iter_mut().for_each(|column| column.cost = 0.0);
            kept.columns[right].cost = -direction;
            match solve(&kept) {
                Ok(answer) => return Ok(answer.values[right]),
                Err(SolveError::Unbounded) => return Ok(direction * f64::INFINITY),
                Err(SolveError::Infeasible) => {}
                Err(error) => return Err(error),
            }
        }
        Err(SolveError::Infeasible)
    };
    Ok(PriceRange { least: end(-1.0)?.min(bound), largest: end(1.0)?.max(bound) })
}

/// The model with the right side of a row as a column, and the place of that column.
fn parametric(model: &Model, row: usize, side: Side) -> (Model, usize) {
    let mut parametric = model.clone();
    let right = parametric.free_column("right side".into(), 0.0);
    let own = parametric.rows[row].clone();
    let mut terms = own.terms.clone();
    terms.push((right, -1.0));
    let (lower, upper) = match side {
        Side::Both => (0.0, 0.0),
        Side::Lower => (0.0, f64::INFINITY),
        Side::Upper => (f64::NEG_INFINITY, 0.0),
    };
    parametric.rows[row] = Row { name: own.name.clone(), lower, upper, terms };
    // The other bound of a row with two stays where it is.
    match side {
        Side::Lower if own.upper.is_finite() => parametric.at_most(own.name, own.terms, own.upper),
        Side::Upper if own.lower.is_finite() => parametric.at_least(own.name, own.terms, own.lower),
        Side::Both | Side::Lower | Side::Upper => {}
    }
    (parametric, right)
}
