//! Holes: centred, drilled, reamed, sunk, tapped.

use crate::cutting::drilling::Retract;
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

/// What is done to a hole. The speed is held on the tool's diameter, of a spot or countersink on the diameter it makes.
#[derive(Debug, Clone, PartialEq)]
pub enum HoleKind {
    /// Centre: `centre = { depth, holes, approach, dwell }`.
    Centre {
        /// Depth of the tip below the face.
        depth: Length,
        /// Revolutions at the bottom.
        dwell: f64,
    },
    /// Spot for a drill: `spot = { diameter, holes, approach, dwell }`. The tool's point angle gives the depth.
    Spot {
        /// Diameter of the mark.
        diameter: Length,
        /// Revolutions at the bottom.
        dwell: f64,
    },
    /// Drill: `drill = { depth, holes, approach, through, peck, retract, lift, clearance, deep_hole }`.
    Drill {
        /// Depth of the hole at full diameter; the point goes deeper. An indexable drill states its point angle in the
        /// tool, 180 degrees for a flat end.
        depth: Length,
        /// Path behind the hole.
        through: Length,
        /// Pecks; `None`: in one feed.
        pecks: Option<Pecks>,
        /// Speed and feed by depth.
        deep_hole: DeepHoles,
    },
    /// Ream: `ream = { depth, holes, approach, through }`.
    Ream {
        /// Depth of the hole.
        depth: Length,
        /// Path behind the hole, usually half the diameter where it goes through.
        through: Length,
    },
    /// Counterbore: `counterbore = { depth, holes, approach, dwell }`.
    Counterbore {
        /// Depth of the seat.
        depth: Length,
        /// Revolutions at the bottom.
        dwell: f64,
    },
    /// Countersink: `countersink = { diameter, hole, holes, approach, dwell }`. The tool's point angle gives the depth.
    Countersink {
        /// Diameter at the face.
        diameter: Length,
        /// Diameter of the hole, from whose rim the cut begins; nought: from the tip of the cone.
        hole: Length,
        /// Revolutions at the bottom.
        dwell: f64,
    },
    /// Tap, in and out: `tap = { depth, pitch, holes, approach, faster_back }`.
    Tap {
        /// Depth of the thread.
        depth: Length,
        /// Pitch.
        pitch: Length,
        /// Spindle speed back over the speed in, up to the spindle's fastest.
        faster_back: f64,
    },
}

/// Pecks of a drill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pecks {
    /// Depth of each, `peck`.
    pub depth: Length,
    /// Out of the hole, or a lift that breaks the chip: `retract = "full"` or `"chip"`.
    pub retract: Retract,
    /// `lift`: of a chip break, how far the drill is lifted; of a full retract, how far above the bottom feed begins
    /// again.
    pub lift: Length,
    /// Start plane above the face, to which the drill comes out: `clearance`, else `approach`. With pecks it stands in
    /// the place of the approach.
    pub clearance: Length,
}

/// Speed and feed of a drill in a deep hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DeepHoles {
    /// As given.
    AsGiven,
    /// Reduced by depth over diameter, as a guide for drills of high-speed steel has it.
    Reduced,
}

impl DeepHoles {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 2] = [("as given", Self::AsGiven), ("reduced", Self::Reduced)];
}

impl HoleKind {
    pub(super) fn tools(&self) -> (&'static [ToolKind], &'static str) {
        match self {
            Self::Centre { .. } => (&[ToolKind::CentreDrill, ToolKind::Drill], "a centre drill or drill"),
            Self::Spot { .. } => (&[ToolKind::SpotDrill, ToolKind::Drill], "a spot drill or drill"),
            Self::Drill { .. } => (&[ToolKind::Drill], "a drill"),
            Self::Ream { .. } => (&[ToolKind::Reamer], "a reamer"),
            Self::Counterbore { .. } => (&[ToolKind::Counterbore], "a counterbore"),
            Self::Countersink { .. } => (&[ToolKind::Countersink], "a countersink"),
            Self::Tap { .. } => (&[ToolKind::Tap, ToolKind::FormingTap], "a tap or forming tap"),
        }
    }
}
