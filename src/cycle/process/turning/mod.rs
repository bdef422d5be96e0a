//! Turning along, across, into and by rolling.

mod across;
mod along;
mod outline;
mod passes;
mod rolling;

use super::super::setting::{CutError, Setting};
use super::super::work::TurningWork;
use super::{Motion, spin, spin_at};
use crate::quantity::Record;

pub(super) fn motion(
    at: &Setting<'_>,
    work: &TurningWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    match work {
        TurningWork::Along { end: None, .. } => along::motion(at, work, record),
        TurningWork::Along { end: Some(_), .. } | TurningWork::Profile { .. } => {
            outline::motion(at, work, record)
        }
        TurningWork::Face { .. }
        | TurningWork::Part { .. }
        | TurningWork::Groove { .. }
        | TurningWork::Form { .. } => across::motion(at, work, record),
        TurningWork::Knurl { .. } | TurningWork::Burnish { .. } => rolling::motion(at, work, record),
    }
}
