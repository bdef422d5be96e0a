//! A model solved again and again with other costs and right sides.

use super::model::Model;
#[cfg(feature = "highs")]
use super::native::Kept;
#[cfg(feature = "highs")]
use super::solver::accepted;
use super::solver::{Solution, SolveError, solve, solve_closely};

/// Keeps a model between solves. With `HiGHS`, a linear program starts from the last answer; else each solve is anew.
#[derive(Debug)]
pub struct Resolver {
    model: Model,
    #[cfg(feature = "highs")]
    kept: Option<Kept>,
}

impl Resolver {
    /// Takes a model.
    #[must_use]
    pub fn new(model: Model) -> Self {
        Self {
            model,
            #[cfg(feature = "highs")]
            kept: None,
        }
    }

    /// The model as it stands.
    #[must_use]
    pub fn model(&self) -> &Model {
        &self.model
    }

    /// Gives a column another cost.
    pub fn set_cost(&mut self, column: usize, cost: f64) {
        self.model.columns[column].cost = cost;
        #[cfg(feature = "highs")]
        if let Some(kept) = &mut self.kept {
            kept.set_cost(column, cost);
        }
    }

    /// Gives a row other bounds.
    pub fn set_right_side(&mut self, row: usize, lower: f64, upper: f64) {
        (self.model.rows[row].lower, self.model.rows[row].upper) = (lower, upper);
        #[cfg(feature = "highs")]
        if let Some(kept) = &mut self.kept {
            kept.set_right_side(row, lower, upper);
        }
    }

    /// Finds the cheapest answer to the last digits; whole columns are searched to the proven optimum.
    ///
    /// # Errors
    /// Those of [`solve`].
    pub fn solve(&mut self) -> Result<Solution, SolveError> {
        #[cfg(feature = "highs")]
        if !self.model.has_whole_columns() {
            self.model.check()?;
            let kept = match self.kept.take() {
                Some(kept) => Ok(kept),
                None => Kept::new(&self.model),
            };
            if let Ok((kept, values)) = kept.and_then(Kept::solve) {
                self.kept = Some(kept);
                if let Ok(answer) = accepted(&self.model, Ok(values)) {
                    return Ok(answer);
                }
            }
        }
        if self.model.has_whole_columns() { solve(&self.model) } else { solve_closely(&self.model) }
    }
}
