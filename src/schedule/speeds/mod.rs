//! Cutting speeds chosen inside the plan: an hour of a machine that holds the plan back is worth its price in the linear program,
//! an hour of an idle one its rate; each operation has the speeds that cost least by that.

mod choose;
mod free;
mod settings;

pub use free::{FreeError, FreedSpeeds, SpeedSearch, free_speeds};
