//! Cutting speeds for what minutes and edges are worth: against textbooks, against plain arithmetic, on the built-in demo.

mod book;
mod demo;
mod free;
mod lanes;
mod profit;
mod shop;
