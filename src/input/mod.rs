//! From text to a scenario: bytes, spanned tree, fields of a table, values with units.
//!
//! Mistakes are collected in file order with the place of each; nothing is computed while an error stands.

mod decode;

mod depth;
mod syntax;
mod tree;

mod fields;
mod figure;
pub mod read;

pub use decode::{LARGEST_FILE, Unreadable, decode};
pub use fields::{Fields, Spanned};
pub use figure::Figured;
pub use tree::{Entry, Node, Table, Value, merge, parse};
