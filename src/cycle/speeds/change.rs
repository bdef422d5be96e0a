//! Speeds that were changed, and what set them.

use crate::quantity::CuttingSpeed;

/// What set a speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpeedRule {
    /// Minutes against edges.
    Economy,
    /// Minutes against edges, brought to the speed at which an edge makes whole pieces.
    WholePieces,
    /// Another channel or the loading takes as long: quicker saves nothing.
    OtherChannel,
    /// The end of the speeds for which the life law is trusted, or the speed as written beyond it.
    TrustedSpeeds,
    /// The spindle goes no faster.
    Spindle,
    /// An edge must last one piece.
    OnePiece,
    /// A limit of machine, hold, tool or drawing, by name.
    Limit(&'static str),
}

impl SpeedRule {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Economy => "economy",
            Self::WholePieces => "whole pieces of an edge",
            Self::OtherChannel => "another channel",
            Self::TrustedSpeeds => "speeds of the life law",
            Self::Spindle => "spindle speed",
            Self::OnePiece => "life of one piece",
            Self::Limit(name) => name,
        }
    }
}

/// A speed that was changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedChange {
    /// Place of the cut in its operation.
    pub cut: usize,
    /// As written.
    pub from: CuttingSpeed,
    /// As chosen.
    pub to: CuttingSpeed,
    /// What set it.
    pub rule: SpeedRule,
}
