//! Colding: life over speed and equivalent chip thickness, five constants.

use crate::quantity::{CuttingSpeed, Duration, Formula, Length};
use crate::tooling::Sourced;

/// Constants of ln V = K - (x - H)^2 / (4 M) - (N0 - L x) ln T, where x = ln h_e; V in m/min, T in min, h_e in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColdingConstants {
    /// K: logarithm of the highest speed for one minute.
    pub k: f64,
    /// H: logarithm of the chip thickness at that speed.
    pub h: f64,
    /// M: how flat the top is.
    pub m: f64,
    /// N0: exponent of the life at a chip 1 mm thick.
    pub n0: f64,
    /// L: by how much the exponent grows as the chip gets thinner.
    pub l: f64,
}

/// A law by Colding.
#[derive(Debug, Clone, PartialEq)]
pub struct Colding {
    /// Its constants.
    pub constants: Sourced<ColdingConstants>,
    /// Equivalent chip thickness of the reference cut.
    pub chip: Length,
}

/// Formula of [`colding_speed`].
pub const COLDING_SPEED: Formula = Formula {
    figure: "cutting speed",
    text: "ln V = K - (x - H)^2 / (4 * M) - (N0 - L * x) * ln T, x = ln h_e",
    source: "jmmp-2025-9-189",
};

/// Cutting speed at which an edge lasts a time, by Colding.
///
/// ln V = K - (x - H)^2 / (4 M) - (N0 - L x) ln T, x = ln h_e
///
/// # Symbols
/// V cutting speed, m/min; T life, min; h_e equivalent chip thickness, mm; K, H, M, N0, L constants of tool and material.
/// # Range
/// Speeds, feeds and depths of the tests behind the constants.
/// # Source
/// [jmmp-2025-9-189]
/// # Example
/// ```
/// use wearland::quantity::{Duration, Length};
/// use wearland::tooling::{ColdingConstants, colding_speed};
/// let constants = ColdingConstants { k: 6.3, h: -2.0, m: 1.0, n0: 0.30, l: 0.02 };
/// let speed = colding_speed(&constants, Length::mm(0.2), Duration::min(15.0));
/// assert!((speed.to_m_per_min() - 213.21).abs() < 0.005);
/// ```
#[must_use]
pub fn colding_speed(constants: &ColdingConstants, chip: Length, life: Duration) -> CuttingSpeed {
    let exponent = colding_exponent(constants, chip);
    CuttingSpeed::m_per_min((top(constants, chip) - exponent * life.to_min().ln()).exp())
}

/// Formula of [`colding_life`].
pub const COLDING_LIFE: Formula = Formula {
    figure: "tool life",
    text: "ln T = (K - (x - H)^2 / (4 * M) - ln(V / k)) / (N0 - L * x), x = ln h_e",
    source: "jmmp-2025-9-189",
};

/// Tool life by Colding: [`colding_speed`] solved for the life.
///
/// ln T = (K - (x - H)^2 / (4 M) - ln V) / (N0 - L x), x = ln h_e
///
/// # Symbols
/// As for [`colding_speed`].
/// # Range
/// As for [`colding_speed`]; N0 - L x above zero.
/// # Source
/// [jmmp-2025-9-189]
/// # Example
/// ```
/// use wearland::quantity::{CuttingSpeed, Length};
/// use wearland::tooling::{ColdingConstants, colding_life};
/// let constants = ColdingConstants { k: 6.3, h: -2.0, m: 1.0, n0: 0.30, l: 0.02 };
/// let life = colding_life(&constants, Length::mm(0.1), CuttingSpeed::m_per_min(250.0));
/// assert!((life.to_min() - 8.878).abs() < 0.001);
/// ```
#[must_use]
pub fn colding_life(constants: &ColdingConstants, chip: Length, speed: CuttingSpeed) -> Duration {
    let logarithm = (top(constants, chip) - speed.to_m_per_min().ln()) / colding_exponent(constants, chip);
    Duration::min(logarithm.exp())
}

/// Exponent n of V T^n = C at a chip thickness: N0 - L ln h_e.
#[must_use]
pub fn colding_exponent(constants: &ColdingConstants, chip: Length) -> f64 {
    constants.n0 - constants.l * chip.to_mm().ln()
}

/// Logarithm of the speed for one minute.
fn top(constants: &ColdingConstants, chip: Length) -> f64 {
    constants.k - (chip.to_mm().ln() - constants.h).powi(2) / (4.0 * constants.m)
}
