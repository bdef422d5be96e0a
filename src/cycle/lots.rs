//! How pieces go through an operation in lots: families of setups, least lots, boxes, firms outside.

use crate::quantity::{Duration, Money};

/// How an operation is laid in lots. The default: each setup anew, lots of any size, pieces move on from shift to shift.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Lots {
    /// Family of work that is set up alike, and time to set up after work of it.
    pub family: Option<Family>,
    /// Pieces that a setup must be followed by, unless fewer are wanted in all.
    pub least: u32,
    /// Boxes in which pieces move on; `None`: from the next shift on.
    pub boxes: Option<Boxes>,
    /// Firms outside that do the operation too, or alone.
    pub outside: Vec<Outside>,
}

/// A family of work that is set up alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Family {
    /// Place of its name among the families of the shop.
    pub id: usize,
    /// Time to set up after work of the same family.
    pub setup: Duration,
}

/// Boxes in which pieces move on to the next operation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boxes {
    /// Pieces in a box.
    pub pieces: u32,
    /// Time on the way, from the last piece of a box on.
    pub time: Duration,
}

/// An operation done outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outside {
    /// The firm.
    pub firm: usize,
    /// Price of a piece.
    pub price: Money,
}

impl Lots {
    /// Least price of a piece outside.
    #[must_use]
    pub fn least_price(&self) -> Option<Money> {
        let prices = self.outside.iter().map(|outside| outside.price);
        prices.min_by(|a, b| a.amount().total_cmp(&b.amount()))
    }
}
