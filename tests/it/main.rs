//! All tests that look at the crate from outside, one binary.

mod properties;
mod published;
