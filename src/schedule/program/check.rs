//! A model held against what a solver may see, and an answer held against the model.

use super::model::{Model, ModelFault};

/// Relative slack within which a row counts as kept, and distance within which a number counts as whole.
pub(super) const TOLERANCE: f64 = 1e-6;

impl Model {
    /// Looks for numbers and terms that no solver should see.
    ///
    /// # Errors
    /// The first fault found.
    pub fn check(&self) -> Result<(), ModelFault> {
        for column in &self.columns {
            let place = || format!("column {}", column.name);
            if !column.cost.is_finite() || !are_bounds(column.lower, column.upper) {
                return Err(ModelFault::NotANumber { place: place() });
            }
            if column.lower > column.upper {
                return Err(ModelFault::Crossed { place: place() });
            }
        }
        for row in &self.rows {
            let place = || format!("row {}", row.name);
            for (column, factor) in &row.terms {
                if !factor.is_finite() {
                    return Err(ModelFault::NotANumber { place: place() });
                }
                if *column >= self.columns.len() {
                    return Err(ModelFault::NoColumn { place: place() });
                }
            }
            if !are_bounds(row.lower, row.upper) {
                return Err(ModelFault::NotANumber { place: place() });
            }
            if row.lower > row.upper {
                return Err(ModelFault::Crossed { place: place() });
            }
        }
        Ok(())
    }

    /// Holds an answer against every bound, row and whole number.
    ///
    /// # Errors
    /// The first thing missed.
    pub fn check_answer(&self, values: &[f64]) -> Result<(), ModelFault> {
        if values.len() != self.columns.len() {
            return Err(ModelFault::Length { got: values.len(), wanted: self.columns.len() });
        }
        for (column, value) in self.columns.iter().zip(values) {
            let place = || format!("column {}", column.name);
            if let Some(by) = miss(value - column.upper, column.lower - value, value.abs()) {
                return Err(ModelFault::Missed { place: place(), by });
            }
            let by = (value - value.round()).abs();
            if column.whole && by > TOLERANCE {
                return Err(ModelFault::NotWhole { place: place(), by });
            }
        }
        for row in &self.rows {
            let sum = row.sum(values);
            let size = row.terms.iter().map(|(at, factor)| (factor * values[*at]).abs()).fold(0.0, f64::max);
            if let Some(by) = miss(sum - row.upper, row.lower - sum, size) {
                return Err(ModelFault::Missed { place: format!("row {}", row.name), by });
            }
        }
        Ok(())
    }
}

/// Bounds may be infinite, each on its own side.
fn are_bounds(lower: f64, upper: f64) -> bool {
    !lower.is_nan() && !upper.is_nan() && lower < f64::INFINITY && upper > f64::NEG_INFINITY
}

fn miss(above: f64, below: f64, size: f64) -> Option<f64> {
    let worst = above.max(below) / size.max(1.0);
    (worst > TOLERANCE || worst.is_nan()).then_some(worst)
}

#[cfg(test)]
mod tests {
    use super::super::model::{Model, ModelFault};

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
        assert!(matches!(model().check_answer(&[]), Err(ModelFault::Length { got: 0, wanted: 1 })));
    }

    #[test]
    fn a_whole_column_takes_whole_numbers() {
        let mut whole = model();
        whole.columns[0].whole = true;
        assert!(whole.check_answer(&[3.0]).is_ok());
        let refused = whole.check_answer(&[2.5]).unwrap_err();
        assert!(matches!(&refused, ModelFault::NotWhole { place, .. } if place == "column x"), "{refused}");
    }

    #[test]
    fn numbers_that_are_none_never_reach_a_solver() {
        let mut wrong = model();
        wrong.rows[0].terms[0].1 = f64::NAN;
        assert!(matches!(wrong.check(), Err(ModelFault::NotANumber { .. })));
        let mut wrong = model();
        wrong.columns[0].lower = f64::INFINITY;
        assert!(matches!(wrong.check(), Err(ModelFault::NotANumber { .. })));
        let mut crossed = model();
        crossed.columns[0].lower = 11.0;
        assert!(matches!(crossed.check(), Err(ModelFault::Crossed { .. })));
    }

    #[test]
    fn a_row_names_columns_that_are_there() {
        let mut absent = model();
        absent.rows[0].terms[0].0 = 1;
        assert!(matches!(absent.check(), Err(ModelFault::NoColumn { .. })));
    }
}
