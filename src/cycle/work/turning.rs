//! Turning: along, across, into; `low` and `high` are diameters.

use crate::quantity::{Length, Range};
use crate::tooling::ToolKind;

/// Outside or inside of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Outside.
    Outside,
    /// Inside a hole.
    Inside,
}

/// The work of a turning tool.
#[derive(Debug, Clone, PartialEq)]
pub enum TurningWork {
    /// Turn along the outside, or bore along the inside.
    Along {
        /// Outside or inside.
        side: Side,
        /// Diameters before and after.
        diameters: Range<Length>,
        /// Length turned.
        length: Length,
        /// Path before the cut at feed.
        approach: Length,
    },
    /// Face towards the axis.
    Face {
        /// Diameters: inner and outer end.
        diameters: Range<Length>,
        /// Stock faced off.
        depth: Length,
    },
    /// Part off.
    Part {
        /// Diameters: inner and outer end.
        diameters: Range<Length>,
    },
    /// Groove, or plunge a form tool.
    Groove {
        /// Diameters: bottom and top.
        diameters: Range<Length>,
        /// Width of the groove.
        width: Length,
        /// Revolutions at the bottom.
        dwell: f64,
    },
}

impl TurningWork {
    pub(super) fn tools(&self) -> (&'static [ToolKind], &'static str) {
        match self {
            Self::Along { .. } | Self::Face { .. } => (&[ToolKind::Insert], "an insert"),
            Self::Part { .. } => (&[ToolKind::PartingBlade], "a parting blade"),
            Self::Groove { .. } => (
                &[ToolKind::Insert, ToolKind::PartingBlade, ToolKind::FormTool],
                "an insert, parting blade or form tool",
            ),
        }
    }

    pub(super) fn outermost(&self) -> Option<Length> {
        match self {
            Self::Along { side: Side::Inside, .. } => None,
            Self::Along { diameters, .. }
            | Self::Face { diameters, .. }
            | Self::Part { diameters }
            | Self::Groove { diameters, .. } => Some(diameters.high),
        }
    }

    pub(super) fn length_along(&self) -> Option<Length> {
        match self {
            Self::Along { length, .. } => Some(*length),
            Self::Face { .. } | Self::Part { .. } | Self::Groove { .. } => None,
        }
    }
}
