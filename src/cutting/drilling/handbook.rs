//! Thrust and torque of a drill by the handbook's method, which counts the chisel edge.

use crate::quantity::{FeedPerRev, Force, Formula, Length, Torque};

/// Factors for the length of the chisel edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChiselFactors {
    /// On the torque.
    pub a: f64,
    /// On the thrust of the lips.
    pub b: f64,
    /// On the thrust of the chisel edge.
    pub j: f64,
}

/// Chisel edge over diameter, then A, B, J.
const CHISEL: [(f64, f64, f64, f64); 12] = [
    (0.03, 1.000, 1.100, 0.001),
    (0.05, 1.005, 1.140, 0.003),
    (0.08, 1.015, 1.200, 0.006),
    (0.10, 1.020, 1.235, 0.010),
    (0.13, 1.040, 1.270, 0.017),
    (0.15, 1.080, 1.310, 0.022),
    (0.18, 1.085, 1.355, 0.030),
    (0.20, 1.105, 1.380, 0.040),
    (0.25, 1.155, 1.445, 0.065),
    (0.30, 1.235, 1.500, 0.090),
    (0.35, 1.310, 1.575, 0.120),
    (0.40, 1.395, 1.620, 0.160),
];

/// A drill, its feed and what it drills, for the handbook's method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandbookDrill {
    /// Constant of the work material, K_d of the handbook's table for inches.
    pub material: f64,
    /// Diameter.
    pub diameter: Length,
    /// Feed per revolution.
    pub feed: FeedPerRev,
    /// Chisel edge over diameter: about 0.18 of a plain point, 0.03 of a split point.
    pub chisel: f64,
    /// Factor for wear: 1 sharp, 1.3 worn.
    pub wear: f64,
}

/// Formula of [`chisel_factors`].
pub const CHISEL_FACTORS: Formula = Formula {
    figure: "factors of the chisel edge",
    text: "table of A, B, J by c / d, straight between",
    source: "machinerys-handbook-31",
};

/// Factors A, B and J by the length of the chisel edge over the diameter.
///
/// Table by c / d from 0.03 to 0.40, straight between
///
/// # Symbols
/// c length of the chisel edge. d diameter. A factor on torque. B and J factors on thrust.
/// # Range
/// c / d 0.03 to 0.40; outside, the nearest row.
/// # Source
/// [machinerys-handbook-31], page 1153. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::chisel_factors;
/// assert!((chisel_factors(0.18).b - 1.355).abs() < 1e-12);
/// ```
#[must_use]
pub fn chisel_factors(chisel_over_diameter: f64) -> ChiselFactors {
    let at = chisel_over_diameter.clamp(CHISEL[0].0, CHISEL[CHISEL.len() - 1].0);
    for pair in CHISEL.windows(2) {
        let [low, high] = [pair[0], pair[1]];
        if at <= high.0 {
            let way = (at - low.0) / (high.0 - low.0);
            return ChiselFactors {
                a: low.1 + way * (high.1 - low.1),
                b: low.2 + way * (high.2 - low.2),
                j: low.3 + way * (high.3 - low.3),
            };
        }
    }
    let (_, a, b, j) = CHISEL[CHISEL.len() - 1];
    ChiselFactors { a, b, j }
}

/// Formula of [`handbook_thrust`].
pub const HANDBOOK_THRUST: Formula = Formula {
    figure: "thrust",
    text: "T = 2 * K_d * f^0.8 * D^0.8 * B * W + K_d * D^2 * J * W, in lbf and in",
    source: "machinerys-handbook-31",
};

/// Thrust of a drill, with that of its chisel edge.
///
/// T = 2 * K_d * f^0.8 * D^0.8 * B * W + K_d * D^2 * J * W, with f and D in inches, T in lbf
///
/// # Symbols
/// T thrust. K_d constant of the work material. f feed per revolution. D diameter. B, J factors of the chisel edge.
/// W wear.
/// # Range
/// f 0.0005 to 0.05 in/rev, D 1/16 to 3.5 in. The handbook's tables of feed and diameter factors are these powers.
/// # Source
/// [machinerys-handbook-31], pages 1152 to 1153. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::{HandbookDrill, handbook_thrust};
/// use wearland::quantity::{FeedPerRev, Length};
/// let thrust = handbook_thrust(&HandbookDrill {
///     material: 24_000.0,
///     diameter: Length::inch(0.875),
///     feed: FeedPerRev::inch_per_rev(0.008),
///     chisel: 0.18,
///     wear: 1.3,
/// });
/// assert!((thrust.to_lbf() / 2313.0 - 1.0).abs() < 0.005);
/// ```
#[must_use]
pub fn handbook_thrust(drill: &HandbookDrill) -> Force {
    let (diameter, feed) = (drill.diameter.to_inch(), drill.feed.to_inch_per_rev());
    let factors = chisel_factors(drill.chisel);
    let lips = 2.0 * (feed * diameter).powf(0.8) * factors.b;
    Force::lbf(drill.material * drill.wear * (lips + diameter.powi(2) * factors.j))
}

/// Formula of [`handbook_torque`].
pub const HANDBOOK_TORQUE: Formula = Formula {
    figure: "drilling torque",
    text: "M = K_d * f^0.8 * D^1.8 * A * W, in lbf in",
    source: "machinerys-handbook-31",
};

/// Torque of a drill, with that of its chisel edge.
///
/// M = K_d * f^0.8 * D^1.8 * A * W, with f and D in inches, M in lbf in
///
/// # Symbols
/// M torque. K_d constant of the work material. f feed per revolution. D diameter. A factor of the chisel edge. W wear.
/// # Range
/// f 0.0005 to 0.05 in/rev, D 1/16 to 3.5 in. The handbook's tables of feed and diameter factors are these powers.
/// # Source
/// [machinerys-handbook-31], pages 1152 to 1153. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::{HandbookDrill, handbook_torque};
/// use wearland::quantity::{FeedPerRev, Length};
/// let torque = handbook_torque(&HandbookDrill {
///     material: 24_000.0,
///     diameter: Length::inch(0.875),
///     feed: FeedPerRev::inch_per_rev(0.008),
///     chisel: 0.18,
///     wear: 1.3,
/// });
/// assert!((torque.to_lbf_ft() * 12.0 / 559.0 - 1.0).abs() < 0.005);
/// ```
#[must_use]
pub fn handbook_torque(drill: &HandbookDrill) -> Torque {
    let (diameter, feed) = (drill.diameter.to_inch(), drill.feed.to_inch_per_rev());
    let inch_pounds = drill.material * feed.powf(0.8) * diameter.powf(1.8) * chisel_factors(drill.chisel).a;
    Torque::lbf_ft(inch_pounds * drill.wear / 12.0)
}
