//! Plans machining from one scenario: cutting data, cycle times, tool wear, tool change points, capacity, shift boards.
//!
//! The modules form a one-way street: each uses only those above it in this list.

pub mod quantity;
pub mod cutting;
pub mod tooling;
pub mod plant;
pub mod cycle;
pub mod schedule;
pub mod calibrate;
pub mod diag;
pub mod input;
pub mod report;
pub mod commands;
