//! Cutting speeds for what a minute of the machine and an edge are worth.
//!
//! Feeds and depths stay as given. Of every cut a curve is worked out once: time in cut and share of a life over the speeds it
//! may run at. What a whole life is worth in minutes then says the speed of each cut: one edge, one such figure, and so with
//! one exponent of Taylor the same life for all cuts of an edge. Channels that work beside each other share the worth of a
//! minute so that none is quicker than it need be. Whole pieces, scatter and the rules of the change are then looked for edge by
//! edge on the true cost; the speeds as written always stay in the choice.

mod balance;
mod change;
mod choice;
mod curve;
mod edge;
mod frontier;
mod span;
mod worths;

pub use change::{SpeedChange, SpeedRule};
pub use choice::{PricedOperation, SpeedChoice, priced_operation};
pub use frontier::{lower_hull, speed_frontier};
pub use worths::{MinuteWorth, Worths};
