//! One entry of a table, with its sort.

use crate::quantity::{Fraction, Measure, Quantity};

/// One entry of a table.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Words.
    Text(String),
    /// A number of things.
    Count(i64),
    /// A number with its kind; the writer picks the unit.
    Quantity(Measure),
    /// A part of a whole, 1 being all of it; load may be above 1.
    Share(f64),
    /// A ratio, an exponent or a number whose unit the column names.
    Number(f64),
    /// A time of the calendar, `2027-03-01 06:42`.
    Stamp(String),
    /// Not known or not apt: a dash in text, empty in CSV, `null` in JSON, never 0.
    Missing,
}

impl Cell {
    /// A time of the calendar, already in the form in which it is shown.
    #[must_use]
    pub fn stamp(time: impl Into<String>) -> Self {
        Self::Stamp(time.into())
    }

    /// A part of a whole that may be more than the whole, such as a load.
    #[must_use]
    pub const fn share(value: f64) -> Self {
        Self::Share(value)
    }
}

impl<Q: Quantity> From<Q> for Cell {
    fn from(quantity: Q) -> Self {
        Self::Quantity(quantity.measure())
    }
}

impl From<Measure> for Cell {
    fn from(measure: Measure) -> Self {
        Self::Quantity(measure)
    }
}

impl From<Fraction> for Cell {
    fn from(share: Fraction) -> Self {
        Self::Share(share.value())
    }
}

impl From<f64> for Cell {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<i64> for Cell {
    fn from(count: i64) -> Self {
        Self::Count(count)
    }
}

impl From<u32> for Cell {
    fn from(count: u32) -> Self {
        Self::Count(i64::from(count))
    }
}

impl From<usize> for Cell {
    fn from(count: usize) -> Self {
        i64::try_from(count).map_or(Self::Missing, Self::Count)
    }
}

impl<T: Into<Cell>> From<Option<T>> for Cell {
    fn from(known: Option<T>) -> Self {
        known.map_or(Self::Missing, Into::into)
    }
}
