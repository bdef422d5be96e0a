//! A piece's share of a bar.

use super::item::Bar;
use crate::cutting::bar::{BarPlan, bar_mass, pieces_per_bar, section_area};
use crate::quantity::{Density, Length, Mass};

/// What a piece takes of a bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarShare {
    /// Pieces a bar gives.
    pub pieces: u32,
    /// Mass of a whole bar.
    pub bar_mass: Mass,
}

/// Pieces of a length that a bar gives, and its mass.
#[must_use]
pub fn bar_share(bar: &Bar, piece: Length, density: Density) -> BarShare {
    let plan = BarPlan {
        length: bar.length,
        remnant: bar.remnant,
        end_facing: bar.end_facing,
        piece,
        cutoff: bar.cutoff,
        facing: bar.facing,
    };
    BarShare {
        pieces: pieces_per_bar(plan),
        bar_mass: bar_mass(section_area(bar.section, bar.size), bar.length, density),
    }
}
