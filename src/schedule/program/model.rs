//! A linear model with named rows and columns, apart from any solver.

use std::borrow::Cow;
use thiserror::Error;

/// A variable.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Name.
    pub name: String,
    /// Least value; may be minus infinite.
    pub lower: f64,
    /// Largest value; may be infinite.
    pub upper: f64,
    /// Cost of one unit, to be minimised.
    pub cost: f64,
    /// Takes whole numbers alone.
    pub whole: bool,
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
    /// Columns and coefficients; those of a column named twice add up.
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

impl Row {
    /// Sum of the terms.
    #[must_use]
    pub fn sum(&self, values: &[f64]) -> f64 {
        self.terms.iter().map(|(at, factor)| factor * values[*at]).sum()
    }

    /// Whether both bounds are one number.
    #[must_use]
    #[expect(clippy::float_cmp, reason = "equal bounds are set from one number")]
    pub fn is_equation(&self) -> bool {
        self.lower == self.upper
    }

    /// Whether it has two bounds that differ.
    #[must_use]
    pub fn is_two_sided(&self) -> bool {
        self.lower.is_finite() && self.upper.is_finite() && !self.is_equation()
    }

    /// Largest coefficient; rows are divided by it before a solver sees them.
    pub(super) fn size(&self) -> f64 {
        self.terms.iter().map(|(_, factor)| factor.abs()).fold(0.0, f64::max)
    }

    /// The terms with each column once, in the order of first mention.
    pub(super) fn single_terms(&self) -> Cow<'_, [(usize, f64)]> {
        let mut columns: Vec<usize> = self.terms.iter().map(|(at, _)| *at).collect();
        columns.sort_unstable();
        if columns.windows(2).all(|pair| pair[0] != pair[1]) {
            return Cow::Borrowed(&self.terms);
        }
        let mut single: Vec<(usize, f64)> = Vec::new();
        for (at, factor) in &self.terms {
            match single.iter_mut().find(|(column, _)| column == at) {
                Some((_, sum)) => *sum += factor,
                None => single.push((*at, *factor)),
            }
        }
        Cow::Owned(single)
    }
}

impl Model {
    /// Adds a variable from zero up and returns its place.
    pub fn column(&mut self, name: String, upper: f64, cost: f64) -> usize {
        self.columns.push(Column { name, lower: 0.0, upper, cost, whole: false });
        self.columns.len() - 1
    }

    /// Adds a variable that takes whole numbers from zero up and returns its place.
    pub fn whole_column(&mut self, name: String, upper: f64, cost: f64) -> usize {
        self.columns.push(Column { name, lower: 0.0, upper, cost, whole: true });
        self.columns.len() - 1
    }

    /// Adds a variable without bounds and returns its place.
    pub fn free_column(&mut self, name: String, cost: f64) -> usize {
        let (lower, upper) = (f64::NEG_INFINITY, f64::INFINITY);
        self.columns.push(Column { name, lower, upper, cost, whole: false });
        self.columns.len() - 1
    }

    /// Adds a constraint `terms <= upper`.
    pub fn at_most(&mut self, name: String, terms: Vec<(usize, f64)>, upper: f64) {
        self.rows.push(Row { name, lower: f64::NEG_INFINITY, upper, terms });
    }

    /// Adds a constraint `terms >= lower`.
    pub fn at_least(&mut self, name: String, terms: Vec<(usize, f64)>, lower: f64) {
        self.rows.push(Row { name, lower, upper: f64::INFINITY, terms });
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

    /// Whether any column takes whole numbers alone.
    #[must_use]
    pub fn has_whole_columns(&self) -> bool {
        self.columns.iter().any(|column| column.whole)
    }

    /// The same model with no whole columns: its cost bounds the cost of this one.
    #[must_use]
    pub fn relaxed(&self) -> Self {
        let mut model = self.clone();
        model.columns.iter_mut().for_each(|column| column.whole = false);
        model
    }

    /// The same model with the whole columns held at the given values, rounded.
    #[must_use]
    pub fn with_whole_columns_at(&self, values: &[f64]) -> Self {
        let mut model = self.relaxed();
        for ((column, own), value) in model.columns.iter_mut().zip(&self.columns).zip(values) {
            if own.whole {
                (column.lower, column.upper) = (value.round(), value.round());
            }
        }
        model
    }
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
    /// A row names a column that does not exist.
    #[error("{place} names a column that is not there")]
    NoColumn {
        /// Name of the row.
        place: String,
    },
    /// Values for another number of columns.
    #[error("{got} values for {wanted} columns")]
    Length {
        /// Values given.
        got: usize,
        /// Columns of the model.
        wanted: usize,
    },
    /// An answer breaks a row or a bound.
    #[error("the solver's answer misses {place} by {by:e}")]
    Missed {
        /// Name of the row or column.
        place: String,
        /// By how much, relative to the size of the row.
        by: f64,
    },
    /// A value that should be whole is not.
    #[error("the solver's answer has {place} {by:e} from a whole number")]
    NotWhole {
        /// Name of the column.
        place: String,
        /// Distance to the next whole number.
        by: f64,
    },
    /// A price has the sign of a bound that is not there.
    #[error("the price of {place} has the wrong sign: {by:e}")]
    Price {
        /// Name of the row or column.
        place: String,
        /// The price.
        by: f64,
    },
    /// What the prices are worth is not the cost.
    #[error("the prices are worth {worth}, the answer costs {cost}")]
    Duality {
        /// Cost of the answer.
        cost: f64,
        /// What all bounds are worth at their prices.
        worth: f64,
    },
}
