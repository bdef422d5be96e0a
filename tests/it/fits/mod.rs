//! Constants from lives: what must be refused, what must be found out, and whether known constants come back.

mod bias;
pub(crate) mod data;
mod recovery;
mod refusals;
mod suspects;
