//! Advice on a plan: what an hour is worth, why an order is late, what would make it.

mod base;
mod worth;

pub use base::Value;
pub use worth::{Difference, Scarce, Worth, worths};
