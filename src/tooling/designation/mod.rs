//! Designations of the standards, decoded position by position: ISO 1832 for inserts, ISO 513 for grades.

mod corner;
mod decode;
mod grade;
mod letters;
mod meaning;
mod size;

#[cfg(test)]
mod decoded;

pub use decode::{DesignationError, Insert, Position, decode_insert};
pub use grade::{GradePosition, decode_grade};
