//! Plans machining from one scenario: cutting data, cycle times, tool wear, tool change points, capacity, shift boards.
//!
//! The modules form a one-way street: each uses only those above it in this list.

pub mod quantity;

/// Mistakes in the user's text, where they are and what to write instead.
pub mod diag;

/// From text to values with units.
pub mod input;
