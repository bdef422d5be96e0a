//! Factors on the cutting speed at equal life.

use crate::quantity::{Formula, Hardness};

/// Factors on the cutting speed at equal life, each relative to the reference cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedFactors {
    /// Material against the reference material of its group.
    pub material: f64,
    /// Hardness of the part against the usual hardness of its material.
    pub hardness: f64,
    /// Coolant against the coolant of the reference cut.
    pub coolant: f64,
    /// Circumstances of the cut.
    pub condition: f64,
}

impl SpeedFactors {
    /// All of them together.
    #[must_use]
    pub fn product(self) -> f64 {
        self.material * self.hardness * self.coolant * self.condition
    }
}

/// The joint factor of [`SpeedFactors`].
pub const SPEED_FACTOR: Formula = Formula {
    figure: "factor on speed",
    text: "k = k_material * k_hardness * k_coolant * k_condition",
    source: "common-practice",
};

/// Factor on the cutting speed at equal life for work harder or softer than its material usually is.
///
/// k = (H_0 / H)^m
///
/// # Symbols
/// H hardness; index 0 the usual hardness of the material; m exponent of the material.
/// # Range
/// Hardnesses over which m was fitted; no scale exponent holds from annealed to hardened steel.
/// # Source
/// [sandvik-technical-guide]: factors of its steel table, to which a power is fitted.
/// # Example
/// ```
/// use wearland::quantity::Hardness;
/// use wearland::tooling::hardness_factor;
/// // 60 HB harder than 180 HB: printed 0.77.
/// let factor = hardness_factor(Hardness::hb(180.0), Hardness::hb(240.0), 0.895);
/// assert!((factor - 0.77).abs() < 0.005);
/// ```
#[must_use]
pub fn hardness_factor(usual: Hardness, own: Hardness, exponent: f64) -> f64 {
    (usual / own).powf(exponent)
}
