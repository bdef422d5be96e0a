//! A linear model with named rows and columns, apart from any solver.

use thiserror::Error;

/// A variable.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Name.
    pub name: String,
    /// Least value.
    pub lower: f64,
    /// Largest value; may be infinite.
    pub upper: f64,
    /// Cost of one unit, to be minimised.
    pub cost: f64,
}

/// A constraint: `lower <= terms <= upper`.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Name.
    pub name: String,
    /// Least value; may be minus infinite.
    pub lower: f64,
    /// Largest value; may be infinite.
    pub upper: f64,
    /// Columns and coefficients.
    pub terms: Vec<(usize, f64)>,
}

/// Columns and rows; the sum of column costs is minimised.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Model {
    /// Variables.
    pub columns: Vec<Column>,
    /// Constraints.
    pub rows: Vec<Row>,
}

/// What is wrong with a model or an answer to it.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ModelFault {
    /// A coefficient, cost or bound is not a number.
    #[error("{place} is not a number")]
    NotANumber {
        /// Name of the row or column.
        place: String,
    },
    /// A lower bound above its upper bound.
    #[error("{place} has its lower bound above its upper bound")]
    Crossed {
        /// Name of the row or column.
        place: String,
    },
    /// An answer breaks a row or a bound.
    #[error("the solver's answer misses {place} by {by:e}")]
    Missed {
        /// Name of the row or column.
        place: String,
        /// By how much, relative to the size of the row.
        by: f64,
    },
}

/// Relative slack within which a row counts as kept.
const TOLERANCE: f64 = 1e-6;

impl Model {
    /// Adds a variable and returns its place.
    pub fn column(&mut self, name: String, upper: f64, cost: f64) -> usize {
        self.columns.push(Column { name, lower: 0.0, upper, cost });
        self.columns.len() - 1
    }

    /// Adds a constraint `terms <= upper`.
    pub fn at_most(&mut self, name: String, terms: Vec<(usize, f64)>, upper: f64) {
        self.rows.push(Row { name, lower: f64::NEG_INFINITY, upper, terms });
    }

    /// Adds a constraint `terms = value`.
    pub fn equal(&mut self, name: String, terms: Vec<(usize, f64)>, value: f64) {
        self.rows.push(Row { name, lower: value, upper: value, terms });
    }

    /// Cost of an answer.
    #[must_use]
    pub fn cost(&self, values: &[f64]) -> f64 {
        self.columns.iter().zip(values).map(|(column, value)| column.cost * value).sum()
    }

    /// Looks for numbers that no solver should see.
    ///
    /// # Errors
    /// The first fault found.
    pub fn check(&self) -> Result<(), ModelFault> {
        for column in &self.columns {
            let place = || format!("column {}", column.name);
            if !column.cost.is_finite() || !column.lower.is_finite() || column.upper.is_nan() {
                return Err(ModelFault::NotANumber { place: place() });
            }
            if column.lower > column.upper {
                return Err(ModelFault::Crossed { place: place() });
            }
        }
        for row in &self.rows {
            let place = || format!("row {}", row.name);
            if row.lower.is_nan()
                || row.upper.is_nan()
                || row.terms.iter().any(|(_, factor)| !factor.is_finite())
            {
                return Err(ModelFault::NotANumber { place: place() });
            }
            if row.lower > row.upper {
                return Err(ModelFault::Crossed { place: place() });
            }
        }
        Ok(())
    }

    /// Holds an answer against every bound and row.
    ///
    /// # Errors
    /// The first row or bound missed.
    pub fn check_answer(&self, values: &[f64]) -> Result<(), ModelFault> {
        for (column, value) in self.columns.iter().zip(values) {
            miss(value - column.upper, column.lower - value, value.abs()).map_or(Ok(()), |by| {
                Err(ModelFault::Missed { place: format!("column {}", column.name), by })
            })?;
        }
        for row in &self.rows {
            let sum: f64 = row.terms.iter().map(|(at, factor)| factor * values[*at]).sum();
            let size = row.terms.iter().map(|(at, factor)| (factor * values[*at]).abs()).fold(0.0, f64::max);
            miss(sum - row.upper, row.lower - sum, size)
                .map_or(Ok(()), |by| Err(ModelFault::Missed { place: format!("row {}", row.name), by }))?;
        }
        Ok(())
    }
}

fn miss(above: f64, below: f64, size: f64) -> Option<f64> {
    let worst = above.max(below) / size.max(1.0);
    (worst > TOLERANCE || worst.is_nan()).then_some(worst)
}

#[cfg(test)]
mod tests {
    use super::{Model, ModelFault};

    fn model() -> Model {
        let mut model = Model::default();
        let x = model.column("x".into(), 10.0, 1.0);
        model.at_most("cap".into(), vec![(x, 2.0)], 8.0);
        model
    }

    #[test]
    fn a_wrong_answer_is_refused_by_name() {
        assert!(model().check_answer(&[4.0]).is_ok());
        let missed = model().check_answer(&[5.0]).unwrap_err();
        assert!(matches!(&missed, ModelFault::Missed { place, .. } if place == "row cap"), "{missed}");
        assert!(model().check_answer(&[-1.0]).is_err());
        assert!(model().check_answer(&[f64::NAN]).is_err());
    }

    #[test]
    fn numbers_that_are_none_never_reach_a_solver() {
        let mut wrong = model();
        wrong.rows[0].terms[0].1 = f64::NAN;
        assert!(matches!(wrong.check(), Err(ModelFault::NotANumber { .. })));
        let mut crossed = model();
        crossed.columns[0].lower = 11.0;
        assert!(matches!(crossed.check(), Err(ModelFault::Crossed { .. })));
    }
}
