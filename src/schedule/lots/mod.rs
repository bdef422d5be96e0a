//! Lots and setups: how much of what is made in which slot after which setup, and a bound that counts setups.
//!
//! Machines that are alike are taken together while the lots are sought, and apart again in the end. A plan comes from linear
//! programs with setups spread over lots, then from parts solved anew in whole numbers; the bound from the program of the
//! pools with rows added that every plan in whole numbers keeps.

mod bound;
mod cuts;
mod engine;
mod limits;
mod polish;
mod pools;
mod scaling;
mod search;
mod setup_model;
mod shrink;
mod spread;

pub use engine::{lot_plan, lots_again, plan_without_setups, setup_bound};
pub use limits::{Effort, LotLimits, LotPlan, LotStatus};
pub use setup_model::CarryOver;
