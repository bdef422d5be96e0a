//! Where a formula or a figure holds, and the caution that is due outside.

use super::{Measure, Quantity};

/// A closed range of a quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range<Q> {
    /// Smallest value inside.
    pub low: Q,
    /// Largest value inside.
    pub high: Q,
}

impl<Q: Quantity + PartialOrd> Range<Q> {
    /// Whether the value lies inside, ends included; rounding in the last digits does not put it outside.
    #[must_use]
    pub fn contains(&self, value: Q) -> bool {
        let slack = 1e-9 * value.base().abs();
        self.low.base() <= value.base() + slack && value.base() - slack <= self.high.base()
    }

    /// A caution if the value lies outside.
    #[must_use]
    pub fn check(
        &self,
        subject: &'static str,
        value: Q,
        remark: &'static str,
        source: &str,
    ) -> Option<Caution> {
        (!self.contains(value)).then(|| Caution {
            subject,
            value: value.measure(),
            limit: Limit::Within(self.low.measure(), self.high.measure()),
            remark,
            source: source.to_owned(),
        })
    }
}

/// A share of a whole, 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Fraction(f64);

impl Fraction {
    /// The whole.
    pub const ONE: Self = Self(1.0);
    /// Half of it.
    pub const HALF: Self = Self(0.5);
    /// Nothing.
    pub const ZERO: Self = Self(0.0);

    /// From a number between 0 and 1; `None` outside or not a number.
    #[must_use]
    pub fn new(value: f64) -> Option<Self> {
        (0.0..=1.0).contains(&value).then_some(Self(value))
    }

    /// As a number between 0 and 1.
    #[must_use]
    pub const fn value(self) -> f64 {
        self.0
    }
}

/// What a value is held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limit {
    /// It ought not to be above this.
    AtMost(Measure),
    /// It ought not to be below this.
    AtLeast(Measure),
    /// It ought to lie between these.
    Within(Measure, Measure),
}

/// A figure outside the range for which its formula or its catalog row was made. The figure is still given.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// Which figure: `cutting speed`.
    pub subject: &'static str,
    /// Its value.
    pub value: Measure,
    /// The limit it misses.
    pub limit: Limit,
    /// What follows from that, in a few words.
    pub remark: &'static str,
    /// Key of the source of the limit.
    pub source: String,
}
