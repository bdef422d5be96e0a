//! Linear programs, with and without whole numbers: the model, its solvers, its prices, its file form.
//!
//! A [`Model`] knows no plan and no solver. Every answer is held against the model as given before it is handed on,
//! whatever solver found it.

mod model;
mod check;
mod solver;
mod modelled;
mod pure;
#[cfg(feature = "highs")]
mod native;
mod whole;
mod branch;
mod dual;
mod prices;
mod sides;
mod resolver;
mod mps;

pub use model::{Column, Model, ModelFault, Row};
pub use mps::write_mps;
pub use prices::{Priced, solve_priced};
pub use resolver::Resolver;
pub use sides::{OneSided, PriceRange, one_sided, range_of_price};
pub use solver::{Solution, SolveError, solve};
pub use whole::{Limits, Whole, WholeStatus, solve_whole};
