//! Formulas of the cut: speeds, feeds, travel, time, force, power and finish.
//!
//! Pure functions of quantities: no catalog, no file, no machine. Beside each stands its [`Formula`](crate::quantity::Formula),
//! so that whoever composes a cycle can show the workings. Inputs are taken as given; a value outside the stated range
//! of a formula gives a figure that is not finite or is of no use, never a panic.

pub mod bar;
pub mod broaching;
pub mod correction;
pub mod drilling;
pub mod finish;
pub mod force;
pub mod grinding;
pub mod gears;
pub mod hobbing;
pub mod limits;
pub mod milling;
pub mod roll_test;
pub mod sawing;
pub mod station;
pub mod threading;
pub mod turning;
pub mod unit_power;
