//! Milling.

use crate::quantity::Length;
use crate::tooling::ToolKind;

/// Shape of a milling cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MillShape {
    /// A face, the cutter over the work.
    Face,
    /// A shoulder, the cutter at the side of the work.
    Shoulder,
    /// A slot as wide as the cutter.
    Slot,
}

impl MillShape {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 3] =
        [("face", Self::Face), ("shoulder", Self::Shoulder), ("slot", Self::Slot)];
}

/// The work of a mill.
#[derive(Debug, Clone, PartialEq)]
pub enum MillingWork {
    /// Straight along a length.
    Straight {
        /// Face, shoulder or slot.
        shape: MillShape,
        /// Length milled.
        length: Length,
        /// Width milled at once.
        width: Length,
        /// Depth milled away, in passes of the cut's `depth`.
        depth: Length,
        /// Distance of the cutter's axis from the middle of the work.
        offset: Length,
    },
}

impl MillingWork {
    pub(super) fn tools(&self) -> (&'static [ToolKind], &'static str) {
        match self {
            Self::Straight { .. } => (&[ToolKind::Mill], "a mill"),
        }
    }
}
