//! Cuts in which nothing turns: broaching and sawing.

use crate::cutting::bar::Section;
use crate::quantity::{FeedRate, Length, SawingRate};
use crate::tooling::ToolKind;

/// The work of a broach or a saw band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LinearWork {
    /// Broach: `broach = { stroke, back, width, length, pitch }`. The cut's feed in mm/tooth is the rise of a tooth;
    /// with it, `width`, `length` and `pitch` the force is worked out.
    Broach {
        /// Stroke of the ram.
        stroke: Length,
        /// Speed of the way back.
        back: FeedRate,
        /// Width cut by one tooth: all keys together, or the circumference.
        width: Option<Length>,
        /// Length of the work along the stroke.
        length: Option<Length>,
        /// Pitch of the teeth.
        pitch: Option<Length>,
    },
    /// Saw a bar through: `saw = { section, size, rate }`. The cut's speed is that of the band.
    Saw {
        /// Section and size of the bar; `None`: the bar of the part.
        bar: Option<(Section, Length)>,
        /// Section sawn in a time.
        rate: SawingRate,
    },
}

impl LinearWork {
    pub(super) fn tools(&self) -> (&'static [ToolKind], &'static str) {
        match self {
            Self::Broach { .. } => (&[ToolKind::Broach], "a broach"),
            Self::Saw { .. } => (&[ToolKind::SawBand], "a saw band"),
        }
    }
}
