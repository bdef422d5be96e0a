//! Every rule of a plan looked at again, by the minute, from the plan and the problem alone.
//!
//! Nothing here comes from the linear program or the floor, so that a fault there is found here. Times in a plan are whole
//! seconds, and so a second either way is never held against it. A rule that is hurt is told once for each lot, edge place
//! or step, in the order of the clock.

mod audit;
mod clock;
mod edges;
mod goods;
mod turns;
mod people;
mod pieces;
mod places;
mod queue;
mod rules;
mod sheet;
mod standing;
mod stock;
mod wear;

pub use audit::audit;
pub(super) use audit::claimed;
pub use rules::{Violation, verify};
