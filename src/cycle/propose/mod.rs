//! From drawing to cuts: order, tools, passes, speeds and feeds of a turned part, each with its reason.
//!
//! Every candidate is worked out by the same calculation that plans use, so nothing is proposed that a plan would refuse.

mod choice;
mod holes;
mod outside;
mod route;

pub use choice::{Proposed, Reason};
pub use route::{Proposal, ProposeError, propose};
