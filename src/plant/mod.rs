//! The shop: machines, firms outside, shifts, people, and the calendar on which they work.

mod calendar;
mod firm;
mod machine;

pub use calendar::{Bucket, BucketKind, Calendar, ShiftId, SkillId, seconds_from};
pub use firm::Firm;
pub use machine::{AtBreaks, Attendance, Chuck, Machine, MachineKind, Spindle};
