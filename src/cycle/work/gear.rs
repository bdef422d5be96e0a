//! Gear teeth.

use crate::cutting::hobbing::Hand;
use crate::quantity::Length;
use crate::tooling::ToolKind;

/// How the part's teeth are made.
#[derive(Debug, Clone, PartialEq)]
pub enum GearWork {
    /// Hob them.
    Hob(HobWork),
}

/// Hobbing.
#[derive(Debug, Clone, PartialEq)]
pub struct HobWork {
    /// Cuts, each to an equal share of the depth.
    pub cuts: u32,
    /// Path behind the face width.
    pub overrun: Option<Length>,
    /// Hands of hob and gear.
    pub hand: Hand,
    /// Gap between stacked blanks.
    pub spacer: Length,
}

impl GearWork {
    pub(super) fn tools(&self) -> (&'static [ToolKind], &'static str) {
        match self {
            Self::Hob(_) => (&[ToolKind::Hob], "a hob"),
        }
    }
}
