//! A program without the columns that are fixed and the rows that no longer bind.

use super::super::program::{Column, Model, Row, SolveError};

/// The smaller program, and what became of the columns.
#[derive(Debug, Clone)]
pub(super) struct Shrunk {
    pub(super) model: Model,
    /// Place of each column in the smaller program; none for those that are fixed.
    places: Vec<Option<usize>>,
    /// Values of those that are fixed.
    fixed: Vec<f64>,
}

/// Bounds this near make a column fixed.
const SAME: f64 = 1e-9;

/// Rows seen through this many times at most.
const PASSES: usize = 6;

impl Shrunk {
    /// Takes fixed columns out, turns rows with one column into bounds, and again, until nothing changes.
    ///
    /// # Errors
    /// [`SolveError::Infeasible`] where a row of fixed columns does not hold.
    pub(super) fn of(model: &Model) -> Result<Self, SolveError> {
        Self::within(model, bounds_of(model))
    }

    /// The same with other bounds of the columns.
    ///
    /// # Errors
    /// As [`Shrunk::of`].
    pub(super) fn within(model: &Model, mut bounds: Vec<(f64, f64)>) -> Result<Self, SolveError> {
        let mut live = vec![true; model.rows.len()];
        for _ in 0..PASSES {
            let mut changed = false;
            for (row, live) in model.rows.iter().zip(&mut live).filter(|(_, live)| **live) {
                match seen(row, &bounds) {
                    Seen::Many => {}
                    Seen::Holds => *live = false,
                    Seen::Broken => return Err(SolveError::Infeasible),
                    Seen::Bound(column, lower, upper) => {
                        *live = false;
                        changed |= narrow(&mut bounds[column], (lower, upper), &model.columns[column])?;
                    }
                }
            }
            if !changed {
                break;
            }
        }
        Ok(Self::built(model, &bounds, &live))
    }

    fn built(model: &Model, bounds: &[(f64, f64)], live: &[bool]) -> Self {
        let mut small = Model::default();
        let mut places = Vec::with_capacity(bounds.len());
        let mut fixed = vec![0.0; bounds.len()];
        for ((column, (lower, upper)), fixed) in model.columns.iter().zip(bounds).zip(&mut fixed) {
            if upper - lower <= SAME {
                *fixed = if column.whole { lower.round() } else { *lower };
                places.push(None);
            } else {
                places.push(Some(small.columns.len()));
                let name = String::new();
                small.columns.push(Column { name, lower: *lower, upper: *upper, ..*column });
            }
        }
        for (row, _) in model.rows.iter().zip(live).filter(|(_, live)| **live) {
            let mut known = 0.0;
            let mut terms = Vec::with_capacity(row.terms.len());
            for (column, factor) in &row.terms {
                match places[*column] {
                    Some(place) => terms.push((place, *factor)),
                    None => known += factor * fixed[*column],
                }
            }
            if !terms.is_empty() {
                let name = String::new();
                small.rows.push(Row { name, lower: row.lower - known, upper: row.upper - known, terms });
            }
        }
        Self { model: small, places, fixed }
    }

    /// Values of all columns from those of the smaller program.
    pub(super) fn expanded(&self, values: &[f64]) -> Vec<f64> {
        let value = |(place, fixed): (&Option<usize>, &f64)| place.map_or(*fixed, |place| values[place]);
        self.places.iter().zip(&self.fixed).map(value).collect()
    }

    /// Values of the smaller program from those of all columns.
    pub(super) fn shrunk(&self, values: &[f64]) -> Vec<f64> {
        let kept = self.places.iter().zip(values).filter(|(place, _)| place.is_some());
        let columns = self.model.columns.iter();
        kept.zip(columns).map(|((_, value), column)| value.clamp(column.lower, column.upper)).collect()
    }
}

/// Bounds of the columns.
pub(super) fn bounds_of(model: &Model) -> Vec<(f64, f64)> {
    model.columns.iter().map(|of| (of.lower, of.upper)).collect()
}

enum Seen {
    Many,
    Holds,
    Broken,
    Bound(usize, f64, f64),
}

fn seen(row: &Row, bounds: &[(f64, f64)]) -> Seen {
    let mut known = 0.0;
    let mut size = 1.0_f64;
    let mut open = None;
    for (column, factor) in &row.terms {
        let (lower, upper) = bounds[*column];
        if upper - lower <= SAME {
            known += factor * lower;
            size = size.max((factor * lower).abs());
        } else if open.is_some() || *factor == 0.0 {
            return Seen::Many;
        } else {
            open = Some((*column, *factor));
        }
    }
    let Some((column, factor)) = open else {
        let slack = 1e-6 * size;
        let holds = known <= row.upper + slack && known >= row.lower - slack;
        return if holds { Seen::Holds } else { Seen::Broken };
    };
    let sides = ((row.lower - known) / factor, (row.upper - known) / factor);
    let (lower, upper) = if factor > 0.0 { sides } else { (sides.1, sides.0) };
    Seen::Bound(column, lower, upper)
}

/// Narrows bounds and says whether that fixed the column.
fn narrow(bounds: &mut (f64, f64), to: (f64, f64), column: &Column) -> Result<bool, SolveError> {
    let (lower, upper) = to;
    let (lower, upper) =
        if column.whole { ((lower - 1e-6).ceil(), (upper + 1e-6).floor()) } else { (lower, upper) };
    bounds.0 = bounds.0.max(lower);
    bounds.1 = bounds.1.min(upper);
    if bounds.1 < bounds.0 {
        if bounds.1 < bounds.0 - 1e-6 * bounds.0.abs().max(1.0) {
            return Err(SolveError::Infeasible);
        }
        bounds.1 = bounds.0;
    }
    Ok(bounds.1 - bounds.0 <= SAME)
}
