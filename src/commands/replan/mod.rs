//! A plan from a moment on: the status of the floor and the last plan turned into scenario and problem, and what changed since.

mod changes;
mod last;
mod stage;
mod status;

pub(super) use changes::changed;
pub(super) use stage::Stage;
