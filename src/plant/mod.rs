//! The shop: machines, shifts, people, and the calendar on which they work.

mod calendar;
mod machine;

pub use calendar::{Bucket, Calendar, ShiftId, SkillId};
pub use machine::{AtBreaks, Attendance, Chuck, Machine, MachineKind, Spindle};
