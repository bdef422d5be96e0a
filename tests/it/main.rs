//! All tests that look at the crate from outside, one binary.

#![expect(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "tests read files and stop at the first thing that is not as it should be"
)]

mod advice;
mod errors;
mod families;
mod fits;
mod golden;
mod house;
mod logs;
mod lots;
mod orderings;
mod outline;
mod plant;
mod plans;
mod program;
mod programs;
mod properties;
mod proposal;
mod published;
mod replacement;
mod replans;
mod speeds;
mod trade;
mod wear;
