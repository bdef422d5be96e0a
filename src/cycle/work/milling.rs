//! Milling.

use super::Side;
use crate::cutting::milling::{CleanUp, KeywayEnds};
use crate::quantity::{Angle, Length, MassMoment};
use crate::tooling::ToolKind;

/// Shape of a straight milling cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MillShape {
    /// A face, the cutter over the work.
    Face,
    /// A shoulder, the cutter at the side of the work: `width` is taken at once, `depth` along its axis in passes.
    Shoulder,
    /// A slot as wide as the cutter.
    Slot,
    /// A flank, milled with the side of the cutter: `depth` is taken off square to it in passes, `width` lies along the axis.
    Side,
}

impl MillShape {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 4] =
        [("face", Self::Face), ("shoulder", Self::Shoulder), ("slot", Self::Slot), ("side", Self::Side)];
}

/// What becomes of the feed where the chip is thinner than the feed because less than half the cutter is engaged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ThinChip {
    /// The feed stays as given.
    #[default]
    AsGiven,
    /// The feed is raised until the chip is as thick as at half the cutter.
    RaiseFeed,
}

impl ThinChip {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 2] =
        [("as given", Self::AsGiven), ("raise feed", Self::RaiseFeed)];
}

/// How a mill gets down into a pocket.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Entry {
    /// Down a slope along the first slot.
    #[default]
    Ramp,
    /// Straight down.
    Plunge,
    /// Down a helix.
    Helix,
}

impl Entry {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 3] =
        [("ramp", Self::Ramp), ("plunge", Self::Plunge), ("helix", Self::Helix)];
}

/// The work of a mill.
#[derive(Debug, Clone, PartialEq)]
pub enum MillingWork {
    /// Straight along a length.
    Straight(StraightWork),
    /// A rectangular pocket.
    Pocket(PocketWork),
    /// Keyways as wide as the mill.
    Keyway {
        /// Length over the round end or ends.
        length: Length,
        /// Depth, in levels of the cut's `depth`.
        depth: Length,
        /// Keyways in a piece.
        count: u32,
        /// Closed, or open at one end.
        ends: KeywayEnds,
    },
    /// Threads milled along a helix.
    Thread(MilledThread),
    /// Material milled away at a radius against an unbalance.
    Balance {
        /// The unbalance to take away.
        unbalance: MassMoment,
        /// Distance of the mill's axis from the axis of the piece.
        radius: Length,
        /// Greatest depth.
        deepest: Length,
    },
}

/// A straight milling cut.
#[derive(Debug, Clone, PartialEq)]
pub struct StraightWork {
    /// Face, shoulder, slot or side.
    pub shape: MillShape,
    /// Length milled.
    pub length: Length,
    /// Width milled at once; of a side, the width along the cutter's axis.
    pub width: Length,
    /// Depth milled away, in passes of the cut's `depth`.
    pub depth: Length,
    /// Distance of the cutter's axis from the middle of the work.
    pub offset: Length,
    /// How far it runs; a slot is always run through.
    pub clean_up: CleanUp,
    /// What becomes of the feed where the chip is thin; faces keep theirs.
    pub thin_chip: ThinChip,
}

/// A rectangular pocket, corners as round as the mill.
#[derive(Debug, Clone, PartialEq)]
pub struct PocketWork {
    /// Longer side.
    pub length: Length,
    /// Shorter side.
    pub width: Length,
    /// Depth, in levels of the cut's `depth`.
    pub depth: Length,
    /// Distance between two rows or rounds; `None`: half the mill.
    pub step_over: Option<Length>,
    /// The way down.
    pub entry: Entry,
    /// Angle of ramp or helix.
    pub ramp_angle: Angle,
    /// Whether the feed is raised beside the first slot, where the chip is thin.
    pub thin_chip: ThinChip,
}

/// A milled thread.
#[derive(Debug, Clone, PartialEq)]
pub struct MilledThread {
    /// Outside or inside.
    pub side: Side,
    /// Nominal diameter.
    pub diameter: Length,
    /// Pitch.
    pub pitch: Length,
    /// Length of thread.
    pub length: Length,
    /// Threads in a piece.
    pub holes: u32,
    /// Rounds to full depth.
    pub passes: u32,
}

impl MillingWork {
    pub(super) fn tools(&self) -> (&'static [ToolKind], &'static str) {
        match self {
            Self::Straight(_) | Self::Pocket(_) | Self::Keyway { .. } | Self::Balance { .. } => {
                (&[ToolKind::Mill], "a mill")
            }
            Self::Thread(_) => (&[ToolKind::ThreadMill], "a thread mill"),
        }
    }
}
