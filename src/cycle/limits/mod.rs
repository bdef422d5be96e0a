//! Limits of machine, workholding, tool and drawing, held against what a cut asks.

mod drive;

use super::loads::Loads;
use super::process::Motion;
use super::setting::{CutError, Setting};
use crate::quantity::{Record, Term};

/// Which side of a limit is allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sense {
    /// The figure may not be above the limit.
    AtMost,
    /// The figure may not be below the limit.
    AtLeast,
}

/// What would bring a cut within a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remedy {
    /// A lower spindle speed, in proportion.
    SpindleSpeed,
    /// A lower cutting speed.
    CuttingSpeed,
    /// A lower feed.
    Feed,
    /// Neither: another tool, hold, machine or drawing.
    Other(&'static str),
}

/// A limit held against what a cut asks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LimitCheck {
    /// Which limit: `power`.
    pub limit: &'static str,
    /// What is asked.
    pub asked: Term,
    /// What is allowed.
    pub allowed: Term,
    /// Which side is allowed.
    pub sense: Sense,
    /// What would help.
    pub remedy: Remedy,
    /// Key of the source of the limit; `scenario` where the machine or the drawing sets it.
    pub source: &'static str,
}

impl LimitCheck {
    /// Share of the limit that is used.
    #[must_use]
    pub fn used(&self) -> f64 {
        match self.sense {
            Sense::AtMost => self.asked.base() / self.allowed.base(),
            Sense::AtLeast => self.allowed.base() / self.asked.base(),
        }
    }

    /// Whether the limit is broken.
    #[must_use]
    pub fn broken(&self) -> bool {
        self.used() > 1.0 + 1e-9
    }
}

/// All limits that bear on a cut in motion.
pub(super) fn limits(
    at: &Setting<'_>,
    motion: &Motion,
    loads: &Loads,
    record: &mut impl Record,
) -> Result<Vec<LimitCheck>, CutError> {
    let mut limits = Vec::with_capacity(16);
    drive::check(at, motion, loads, (&mut limits, record))?;
    Ok(limits)
}
