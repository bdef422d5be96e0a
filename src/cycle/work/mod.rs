//! The work of a cut, family by family: what is taken from the drawing, no speed and no feed.

mod gear;
mod grinding;
mod hole;
mod linear;
mod milling;
mod thread;
mod turning;

pub use gear::{GearWork, HobWork, Infeed};
pub use grinding::{CentrelessWork, GrindingWork, PlungeStage, TraverseStage};
pub use hole::{DeepHoles, HoleKind, HoleWork, Pecks};
pub use linear::LinearWork;
pub use milling::{Entry, MillShape, MilledThread, MillingWork, PocketWork, StraightWork, ThinChip};
pub use thread::ThreadWork;
pub use turning::{Side, SlowFeed, TurningWork};

use crate::quantity::{CuttingSpeed, FeedPerRev, Length};
use crate::tooling::ToolKind;

/// A last pass to size, taken by the same tool.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinishPass {
    /// Depth left for it.
    pub depth: Length,
    /// Its feed.
    pub feed: FeedPerRev,
    /// Its cutting speed; `None`: that of the cut.
    pub speed: Option<CuttingSpeed>,
}

/// The work of a cut.
#[derive(Debug, Clone, PartialEq)]
pub enum Work {
    /// Turn, bore, face, part, groove.
    Turning(TurningWork),
    /// Single-point thread.
    Thread(ThreadWork),
    /// Centre, spot, drill, ream, counterbore, countersink, tap.
    Hole(HoleWork),
    /// Mill.
    Milling(MillingWork),
    /// Hob.
    Gear(GearWork),
    /// Broach, saw.
    Linear(LinearWork),
    /// Grind cylinders.
    Grinding(GrindingWork),
}

impl Work {
    /// Tools that can do it, and how to ask for one.
    #[must_use]
    pub fn tools(&self) -> (&'static [ToolKind], &'static str) {
        match self {
            Self::Turning(work) => work.tools(),
            Self::Thread(_) => (&[ToolKind::ThreadingInsert], "a threading insert"),
            Self::Hole(work) => work.kind.tools(),
            Self::Milling(work) => work.tools(),
            Self::Gear(work) => work.tools(),
            Self::Linear(work) => work.tools(),
            Self::Grinding(work) => work.tools(),
        }
    }

    /// Largest diameter from which a turning tool starts; `None` where the work is no turning from outside.
    #[must_use]
    pub fn outermost(&self) -> Option<Length> {
        match self {
            Self::Turning(work) => work.outermost(),
            Self::Thread(_)
            | Self::Hole(_)
            | Self::Milling(_)
            | Self::Gear(_)
            | Self::Linear(_)
            | Self::Grinding(_) => None,
        }
    }

    /// Length along the axis that is turned or bored.
    #[must_use]
    pub fn length_along(&self) -> Option<Length> {
        match self {
            Self::Turning(work) => work.length_along(),
            Self::Thread(work) => Some(work.length),
            Self::Hole(_) | Self::Milling(_) | Self::Gear(_) | Self::Linear(_) | Self::Grinding(_) => None,
        }
    }

    /// The last pass to size by the same turning tool, which leaves the surface.
    #[must_use]
    pub fn finish(&self) -> Option<FinishPass> {
        match self {
            Self::Turning(work) => work.finish(),
            Self::Gear(work) => work.finish(),
            Self::Thread(_) | Self::Hole(_) | Self::Milling(_) | Self::Linear(_) | Self::Grinding(_) => None,
        }
    }
}
