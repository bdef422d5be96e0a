//! The plan model against published planning examples, and plans of random problems against their bounds and the verifier.

mod bounds;
mod by_the_minute;
mod corruption;
mod examples;
mod free_speeds;
mod layout;
mod mapping;
mod random;
mod steady;
