//! Limits of machine, workholding, tool and drawing, and rules of thumb, held against what a cut asks.
//!
//! A limit whose figure is not given does not bind.

mod bending;
mod check;
mod drawing;
mod drive;
mod holding;
mod tool;

pub(super) use check::POWER;
pub use check::{LimitCheck, LimitOf, Remedy, Sense};

pub(super) use drawing::size_tolerance;

use super::loads::Loads;
use super::process::Motion;
use super::setting::{CutError, Setting};
use crate::cutting::limits::{COMPONENT_FORCE, FEED_FORCE_SHARE, component_force};
use crate::quantity::{Force, Record, SpindleSpeed, Term};

/// A cut in motion with its loads.
struct Held<'a> {
    at: &'a Setting<'a>,
    motion: &'a Motion,
    loads: &'a Loads,
}

impl Held<'_> {
    /// Highest spindle speed of the cut.
    fn top_speed(&self) -> SpindleSpeed {
        self.motion.top_speed.unwrap_or(SpindleSpeed::ZERO)
    }

    /// A force as worked out, or as the usual share of the cutting force.
    fn component(&self, worked: Option<Force>, record: &mut impl Record) -> Option<Force> {
        if worked.is_some() {
            return worked;
        }
        let cutting = self.loads.force?;
        let force = component_force(cutting, FEED_FORCE_SHARE);
        record.step(&COMPONENT_FORCE, force.into(), || {
            vec![("k", Term::Plain(FEED_FORCE_SHARE)), ("F_c", cutting.into())]
        });
        Some(force)
    }
}

/// All limits that bear on a cut in motion.
pub(super) fn limits(
    at: &Setting<'_>,
    motion: &Motion,
    loads: &Loads,
    record: &mut impl Record,
) -> Result<Vec<LimitCheck>, CutError> {
    let held = Held { at, motion, loads };
    let mut limits = Vec::with_capacity(16);
    drive::check(&held, &mut limits, record)?;
    holding::check(&held, &mut limits, record);
    bending::check(&held, &mut limits, record);
    tool::check(&held, &mut limits, record);
    drawing::check(&held, &mut limits, record);
    Ok(limits)
}
