//! Linear programs from outside: duality of random ones, whole numbers against every combination, files, worked examples.

mod duality;
mod whole_numbers;
mod limits;
mod sides;
mod mps_reader;
mod mps;
mod layout;
mod examples;
