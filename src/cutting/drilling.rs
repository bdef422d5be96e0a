//! Drilling and tapping: point, time, torque.

use std::f64::consts::PI;

use crate::quantity::{
    Angle, Duration, FeedPerRev, Formula, Length, RemovalRate, SpecificForce, SpindleSpeed, Torque,
};

use super::turning::{feed_rate, travel_time, turning_time};

/// Formula of [`point_allowance`].
pub const POINT_ALLOWANCE: Formula =
    Formula { figure: "point allowance", text: "A = D / (2 * tan(sigma / 2))", source: "derived" };

/// Length of a drill's point, fed beyond the depth of the full diameter.
///
/// A = D / (2 * tan(sigma / 2))
///
/// # Symbols
/// A length of the point. D diameter. sigma point angle, tip to tip.
/// # Range
/// sigma above 0, up to 180 degrees.
/// # Source
/// \[derived\]: height of a cone. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::point_allowance;
/// use wearland::quantity::{Angle, Length};
/// assert!((point_allowance(Length::mm(10.0), Angle::deg(118.0)).to_mm() - 3.004).abs() < 1e-3);
/// ```
#[must_use]
pub fn point_allowance(diameter: Length, point_angle: Angle) -> Length {
    diameter / (2.0 * (point_angle.to_rad() / 2.0).tan())
}

/// Formula of [`drilling_time`].
pub const DRILLING_TIME: Formula =
    Formula { figure: "drilling time", text: "t = L / (f * n)", source: "sharma" };

/// Time to drill, ream or counterbore a path in one feed.
///
/// t = L / (f * n)
///
/// # Symbols
/// t time. L path: depth, point, approach, overrun. f feed per revolution. n spindle speed.
/// # Range
/// f and n above zero; no pecks.
/// # Source
/// \[sharma\]. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::drilling_time;
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let time = drilling_time(Length::mm(40.0), FeedPerRev::mm_per_rev(0.2), SpindleSpeed::rpm(1000.0));
/// assert!((time.to_s() - 12.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn drilling_time(path: Length, feed: FeedPerRev, speed: SpindleSpeed) -> Duration {
    turning_time(path, feed, speed)
}

/// Formula of [`tapping_time`].
pub const TAPPING_TIME: Formula =
    Formula { figure: "tapping time", text: "t = L / (P * n) + L / (P * n_b)", source: "derived" };

/// Time to tap and to run the tap back out.
///
/// t = L / (P * n) + L / (P * n_b)
///
/// # Symbols
/// t time. L path, approach included. P pitch. n speed in. n_b speed back.
/// # Range
/// All above zero. The reversal of the spindle is not in it.
/// # Source
/// \[derived\]: one pitch for each turn, both ways. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::tapping_time;
/// use wearland::quantity::{Length, SpindleSpeed};
/// let speed = SpindleSpeed::rpm(600.0);
/// assert!((tapping_time(Length::mm(15.0), Length::mm(1.5), speed, speed).to_s() - 2.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn tapping_time(path: Length, pitch: Length, forward: SpindleSpeed, back: SpindleSpeed) -> Duration {
    let lead = FeedPerRev::mm_per_rev(pitch.to_mm());
    travel_time(path, feed_rate(lead, forward)) + travel_time(path, feed_rate(lead, back))
}

/// Formula of [`drilling_chip_thickness`].
pub const DRILLING_CHIP_THICKNESS: Formula =
    Formula { figure: "chip thickness", text: "h = f / 2 * sin(sigma / 2)", source: "kienzle-1952" };

/// Chip thickness at each of the two lips of a drill.
///
/// h = f / 2 * sin(sigma / 2)
///
/// # Symbols
/// h chip thickness. f feed per revolution. sigma point angle.
/// # Range
/// Two lips.
/// # Source
/// [kienzle-1952]. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::drilling_chip_thickness;
/// use wearland::quantity::{Angle, FeedPerRev};
/// let chip = drilling_chip_thickness(FeedPerRev::mm_per_rev(0.2), Angle::deg(180.0));
/// assert!((chip.to_mm() - 0.1).abs() < 1e-12);
/// ```
#[must_use]
pub fn drilling_chip_thickness(feed: FeedPerRev, point_angle: Angle) -> Length {
    Length::mm(feed.to_mm_per_rev() / 2.0 * (point_angle.to_rad() / 2.0).sin())
}

/// Formula of [`drilling_torque`].
pub const DRILLING_TORQUE: Formula =
    Formula { figure: "drilling torque", text: "M = k_c * f * D^2 / 8", source: "kienzle-1952" };

/// Torque of a drill cutting from the solid.
///
/// M = k_c * f * D^2 / 8
///
/// # Symbols
/// M torque. k_c specific cutting force at the chip thickness of the lip. f feed per revolution. D diameter.
/// # Range
/// Two sharp lips, full hole; the chisel edge and rubbing at the margins are not in it.
/// # Source
/// [kienzle-1952]. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::drilling_torque;
/// use wearland::quantity::{FeedPerRev, Length, SpecificForce};
/// let torque =
///     drilling_torque(SpecificForce::n_per_mm2(2000.0), FeedPerRev::mm_per_rev(0.2), Length::mm(10.0));
/// assert!((torque.to_nm() - 5.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn drilling_torque(specific_force: SpecificForce, feed: FeedPerRev, diameter: Length) -> Torque {
    Torque::nm(specific_force.to_n_per_mm2() * feed.to_mm_per_rev() * diameter.to_mm().powi(2) / 8000.0)
}

/// Formula of [`drilling_removal_rate`].
pub const DRILLING_REMOVAL_RATE: Formula =
    Formula { figure: "removal rate", text: "Q = pi / 4 * D^2 * f * n", source: "kalpakjian" };

/// Metal removed in a time by drilling from the solid.
///
/// Q = pi / 4 * D^2 * f * n
///
/// # Symbols
/// Q removal rate. D diameter. f feed per revolution. n spindle speed.
/// # Range
/// Full hole.
/// # Source
/// \[kalpakjian\]. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::drilling_removal_rate;
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let rate =
///     drilling_removal_rate(Length::mm(10.0), FeedPerRev::mm_per_rev(0.2), SpindleSpeed::rpm(800.0));
/// assert!((rate.to_cm3_per_min() - 12.566).abs() < 1e-3);
/// ```
#[must_use]
pub fn drilling_removal_rate(diameter: Length, feed: FeedPerRev, speed: SpindleSpeed) -> RemovalRate {
    let area = PI / 4.0 * diameter.to_mm().powi(2);
    RemovalRate::cm3_per_min(area * feed_rate(feed, speed).to_mm_per_min() / 1000.0)
}
