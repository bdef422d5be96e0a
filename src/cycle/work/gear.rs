//! Gear teeth: hobbed, shaped, shaved, ground.

use super::FinishPass;
use crate::cutting::hobbing::Hand;
use crate::quantity::{FeedPerRev, FeedPerStroke, Length};
use crate::tooling::ToolKind;

/// How the part's teeth are made.
#[derive(Debug, Clone, PartialEq)]
pub enum GearWork {
    /// Hob them.
    Hob(HobWork),
    /// Shape them.
    Shape {
        /// Radial feed of each double stroke down to depth; the cut's feed is the circular one.
        radial_feed: FeedPerStroke,
        /// Turns of the gear at full depth.
        turns: f64,
        /// Path of the stroke beyond the face at each end.
        overrun: Length,
    },
    /// Shave them along the axis.
    Shave {
        /// Single strokes.
        strokes: u32,
        /// Path of a stroke beyond the face, both ends together.
        overrun: Length,
    },
    /// Grind them with a threaded wheel.
    Grind {
        /// Axial feed of each stroke, for each turn of the gear.
        strokes: Vec<FeedPerRev>,
        /// Path of a stroke beyond the face, both ends together.
        overrun: Length,
    },
}

/// How a hob comes to depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Infeed {
    /// Along the axis, from outside the face.
    Axial,
    /// Along the radius at this feed, then along the axis.
    Radial(FeedPerRev),
}

/// Hobbing.
#[derive(Debug, Clone, PartialEq)]
pub struct HobWork {
    /// Cuts, each to an equal share of the depth; beside them a finishing cut.
    pub cuts: u32,
    /// Path behind the face width.
    pub overrun: Option<Length>,
    /// Hands of hob and gear.
    pub hand: Hand,
    /// Gap between stacked blanks.
    pub spacer: Length,
    /// How the hob comes to depth.
    pub infeed: Infeed,
    /// Last cut to size, at its own feed and speed.
    pub finish: Option<FinishPass>,
}

impl GearWork {
    pub(super) fn tools(&self) -> (&'static [ToolKind], &'static str) {
        match self {
            Self::Hob(_) => (&[ToolKind::Hob], "a hob"),
            Self::Shape { .. } => (&[ToolKind::ShaperCutter], "a shaper cutter"),
            Self::Shave { .. } => (&[ToolKind::ShavingCutter], "a shaving cutter"),
            Self::Grind { .. } => (&[ToolKind::GrindingWorm], "a gear grinding worm"),
        }
    }

    pub(super) fn finish(&self) -> Option<FinishPass> {
        match self {
            Self::Hob(work) => work.finish,
            Self::Shape { .. } | Self::Shave { .. } | Self::Grind { .. } => None,
        }
    }
}
