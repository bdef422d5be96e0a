//! Work materials.

use super::Sourced;
use crate::quantity::{Density, ElasticModulus, Hardness, Range, SpecificForce};

/// Group of work material after ISO 513.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Steel.
    P,
    /// Stainless steel.
    M,
    /// Cast iron.
    K,
    /// Non-ferrous metal.
    N,
    /// Heat-resistant alloy and titanium.
    S,
    /// Hard material.
    H,
}

impl Group {
    /// All groups, in the order of the standard.
    pub const ALL: [Self; 6] = [Self::P, Self::M, Self::K, Self::N, Self::S, Self::H];

    /// The letter of the standard.
    #[must_use]
    pub const fn letter(self) -> &'static str {
        match self {
            Self::P => "P",
            Self::M => "M",
            Self::K => "K",
            Self::N => "N",
            Self::S => "S",
            Self::H => "H",
        }
    }
}

/// A work material.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// Key in the catalog.
    pub key: String,
    /// In words.
    pub title: String,
    /// ISO 513 group.
    pub group: Group,
    /// Usual hardness; figures of this row are for it.
    pub hardness: Sourced<Hardness>,
    /// Specific cutting force at 1 mm chip thickness, kc1.1.
    pub kc11: Sourced<SpecificForce>,
    /// Exponent of the chip thickness, mc.
    pub mc: Sourced<f64>,
    /// Modulus of elasticity.
    pub modulus: Option<Sourced<ElasticModulus>>,
    /// Density.
    pub density: Sourced<Density>,
    /// Cutting speed for equal life relative to the reference material of the group.
    pub speed_index: Sourced<f64>,
    /// Exponent m of V ~ HB^-m about the usual hardness.
    pub hardness_exponent: Option<Sourced<f64>>,
    /// Hardnesses over which that exponent was fitted.
    pub hardness_range: Option<Range<Hardness>>,
    /// Which figures are used where sources disagree.
    pub note: Option<String>,
    /// What can hurt: fire, dust.
    pub caution: Option<String>,
}
