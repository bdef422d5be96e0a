//! A scenario and its estimates brought into the form of a planning problem.

mod activities;
mod built;
mod edges;
mod resources;

pub use built::{BuiltProblem, build_problem};
