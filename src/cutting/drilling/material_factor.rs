//! Thrust, torque and power of a drill from one factor of the work material, or from its hardness.

use crate::quantity::{FeedPerRev, Force, Formula, Hardness, Length, Power, SpindleSpeed, Torque};

/// Formula of [`material_thrust`].
pub const MATERIAL_THRUST: Formula = Formula {
    figure: "thrust",
    text: "T = 570 * K * D * f^0.85, in N, D in mm, f in mm/rev",
    source: "tungaloy-2020",
};

/// Thrust of a twist drill from the factor of the work material.
///
/// T = 570 * K * D * f^0.85, in N, with D in mm and f in mm/rev
///
/// # Symbols
/// T thrust. K factor of the material: cast iron of 177 HB 1.00, of 224 HB 1.88, S20C of 160 HB 2.22, SCM440 of 269 HB
/// 2.41. D diameter. f feed per revolution.
/// # Range
/// Twist drill, full hole.
/// # Source
/// [tungaloy-2020], page 1656. \[sharma\] prints the same in kgf. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::material_thrust;
/// use wearland::quantity::{FeedPerRev, Length};
/// let thrust = material_thrust(2.22, Length::mm(10.0), FeedPerRev::mm_per_rev(0.2));
/// assert!((thrust.to_n() - 3221.8).abs() < 0.1);
/// ```
#[must_use]
pub fn material_thrust(factor: f64, diameter: Length, feed: FeedPerRev) -> Force {
    Force::n(570.0 * factor * diameter.to_mm() * feed.to_mm_per_rev().powf(0.85))
}

/// Formula of [`material_torque`].
pub const MATERIAL_TORQUE: Formula = Formula {
    figure: "drilling torque",
    text: "M = K * D^2 * (0.630 + 16.84 * f) / 100, in N m, D in mm, f in mm/rev",
    source: "tungaloy-2020",
};

/// Torque of a twist drill from the factor of the work material.
///
/// M = K * D^2 * (0.630 + 16.84 * f) / 100, in N m, with D in mm and f in mm/rev
///
/// # Symbols
/// M torque. K factor of the material, as for [`material_thrust`]. D diameter. f feed per revolution.
/// # Range
/// Twist drill, full hole. The power that follows is 2 % above [`material_power`] of the same source.
/// # Source
/// [tungaloy-2020], page 1656. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::material_torque;
/// use wearland::quantity::{FeedPerRev, Length};
/// let torque = material_torque(2.22, Length::mm(10.0), FeedPerRev::mm_per_rev(0.2));
/// assert!((torque.to_nm() - 8.8756).abs() < 1e-3);
/// ```
#[must_use]
pub fn material_torque(factor: f64, diameter: Length, feed: FeedPerRev) -> Torque {
    Torque::nm(factor * diameter.to_mm().powi(2) * (0.630 + 16.84 * feed.to_mm_per_rev()) / 100.0)
}

/// Formula of [`material_power`].
pub const MATERIAL_POWER: Formula = Formula {
    figure: "drilling power",
    text: "P_c = K * D^2 * n * (0.647 + 17.29 * f) * 1e-6, in kW, D in mm, n in rpm, f in mm/rev",
    source: "tungaloy-2020",
};

/// Power of a twist drill from the factor of the work material.
///
/// P_c = K * D^2 * n * (0.647 + 17.29 * f) * 1e-6, in kW, with D in mm, n in rpm and f in mm/rev
///
/// # Symbols
/// P_c power at the cut. K factor of the material, as for [`material_thrust`]. D diameter. n spindle speed. f feed per
/// revolution.
/// # Range
/// Twist drill, full hole. 2 % below the power of [`material_torque`] of the same source.
/// # Source
/// [tungaloy-2020], page 1656. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::material_power;
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let feed = FeedPerRev::mm_per_rev(0.2);
/// let power = material_power(2.22, Length::mm(10.0), feed, SpindleSpeed::rpm(1000.0));
/// assert!((power.to_kw() - 0.91131).abs() < 1e-4);
/// ```
#[must_use]
pub fn material_power(factor: f64, diameter: Length, feed: FeedPerRev, speed: SpindleSpeed) -> Power {
    let load = factor * diameter.to_mm().powi(2) * (0.647 + 17.29 * feed.to_mm_per_rev());
    Power::kw(load * speed.to_rpm() * 1e-6)
}

/// Standard gravity in m/s2, by which a force in kgf is one in N.
const GRAVITY: f64 = 9.806_65;

/// Formula of [`hardness_torque`].
pub const HARDNESS_TORQUE: Formula = Formula {
    figure: "drilling torque",
    text: "M = HB * D^2 * f / 8, in kgf mm, D in mm, f in mm/rev",
    source: "sharma",
};

/// Torque of a twist drill from the Brinell hardness of the work.
///
/// M = HB * D^2 * f / 8, in kgf mm, with D in mm and f in mm/rev
///
/// # Symbols
/// M torque. HB Brinell hardness, taken as the specific cutting force in kgf/mm2. D diameter. f feed per revolution.
/// # Range
/// A rough rule for steel, common feeds.
/// # Source
/// \[sharma\], example 15.4. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::hardness_torque;
/// use wearland::quantity::{FeedPerRev, Hardness, Length};
/// let torque = hardness_torque(Hardness::hb(200.0), Length::mm(12.7), FeedPerRev::mm_per_rev(0.254));
/// assert!((torque.to_nm() - 10.044).abs() < 1e-3);
/// ```
#[must_use]
pub fn hardness_torque(hardness: Hardness, diameter: Length, feed: FeedPerRev) -> Torque {
    let kilogram_millimetres = hardness.to_hb() * diameter.to_mm().powi(2) * feed.to_mm_per_rev() / 8.0;
    Torque::nm(kilogram_millimetres * GRAVITY / 1000.0)
}
