//! Holes: drilled, reamed, tapped.

use crate::quantity::Length;
use crate::tooling::ToolKind;

/// Holes of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct HoleWork {
    /// Holes in a piece.
    pub holes: u32,
    /// Path before the hole at feed.
    pub approach: Length,
    /// What is done.
    pub kind: HoleKind,
}

/// What is done to a hole.
#[derive(Debug, Clone, PartialEq)]
pub enum HoleKind {
    /// Drill.
    Drill {
        /// Depth of the hole at full diameter.
        depth: Length,
        /// Path behind the hole.
        through: Length,
    },
    /// Ream.
    Ream {
        /// Depth of the hole.
        depth: Length,
    },
    /// Tap, in and out.
    Tap {
        /// Depth of the thread.
        depth: Length,
        /// Pitch.
        pitch: Length,
    },
}

impl HoleKind {
    pub(super) fn tools(&self) -> (&'static [ToolKind], &'static str) {
        match self {
            Self::Drill { .. } => (&[ToolKind::Drill], "a drill"),
            Self::Ream { .. } => (&[ToolKind::Reamer], "a reamer"),
            Self::Tap { .. } => (&[ToolKind::Tap], "a tap"),
        }
    }
}
