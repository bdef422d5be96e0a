//! Load on the two lips of a drill from the specific cutting force.

use crate::quantity::{Angle, FeedPerRev, Force, Formula, Length, SpecificForce, Torque};

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

/// Formula of [`drilling_feed_force`].
pub const DRILLING_FEED_FORCE: Formula = Formula {
    figure: "feed force",
    text: "F_f = 0.5 * k_c * D / 2 * f * sin(sigma / 2)",
    source: "sandvik-technical-guide",
};

/// Force that pushes a drill into the solid.
///
/// F_f = 0.5 * k_c * D / 2 * f * sin(sigma / 2)
///
/// # Symbols
/// F_f feed force. k_c specific cutting force at the chip thickness of the lip. D diameter. f feed per revolution.
/// sigma point angle.
/// # Range
/// Two sharp lips, full hole. An estimate: other sheets put 0.7 in the place of 0.5, and a wide chisel edge takes more.
/// # Source
/// [sandvik-technical-guide]. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::drilling_feed_force;
/// use wearland::quantity::{Angle, FeedPerRev, Length, SpecificForce};
/// let force = drilling_feed_force(
///     SpecificForce::n_per_mm2(2523.7),
///     FeedPerRev::mm_per_rev(0.2),
///     Length::mm(10.0),
///     Angle::deg(140.0),
/// );
/// assert!((force.to_n() - 1185.7).abs() < 0.1);
/// ```
#[must_use]
pub fn drilling_feed_force(
    specific_force: SpecificForce,
    feed: FeedPerRev,
    diameter: Length,
    point_angle: Angle,
) -> Force {
    let area = diameter.to_mm() / 2.0 * feed.to_mm_per_rev() * (point_angle.to_rad() / 2.0).sin();
    Force::n(0.5 * specific_force.to_n_per_mm2() * area)
}
