//! Readers: each turns one value of the tree into what a key asks for, or says what is wrong with it.
//!
//! A reader is a function from [`Node`](super::Node) to [`Reading`]; those that need to know more, such as the bounds
//! or the currency, are made by a function that takes it. They are given to [`Fields`](super::Fields) with a key.

mod found;
mod measured;
mod plain;
mod structure;

pub(super) use found::short;

pub use found::Reading;
pub use measured::{
    Bounds, gear_module, money, money_per_kilogram, money_rate, number, number_between, number_range,
    quantity, range, share,
};
pub use plain::{choice, count, count_or_zero, flag, grade, integer, name, stamp, text};
pub use structure::{entry, list, one_or_list, table};
