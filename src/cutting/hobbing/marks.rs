//! Marks that a hob leaves on the flank: of its axial feed, and of its gashes.

use std::f64::consts::PI;

use crate::quantity::{Angle, FeedPerRev, Formula, Length, Roughness};

use super::gear::{Gear, Hob};

/// Formula of [`feed_mark_depth`].
pub const FEED_MARK_DEPTH: Formula = Formula {
    figure: "depth of feed marks",
    text: "delta_x = (f_a / cos(beta))^2 * sin(alpha_n) / (4 * d_a0)",
    source: "hob-handbooks",
};

/// Depth of the feed marks on a hobbed flank, square to the flank.
///
/// delta_x = (f_a / cos(beta))^2 * sin(alpha_n) / (4 * d_a0)
///
/// # Symbols
/// delta_x depth. f_a axial feed for each turn of the gear. beta helix angle. alpha_n pressure angle. d_a0 outside
/// diameter of the hob.
/// # Range
/// Feed small against the hob; geometry alone.
/// # Source
/// [hob-handbooks]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::feed_mark_depth;
/// use wearland::quantity::{Angle, FeedPerRev, Length};
/// let feed = FeedPerRev::mm_per_rev(3.0);
/// let depth = feed_mark_depth(feed, Angle::ZERO, Angle::deg(20.0), Length::mm(90.0));
/// assert!((depth.to_um() - 8.55).abs() < 1e-2);
/// ```
#[must_use]
pub fn feed_mark_depth(feed: FeedPerRev, helix: Angle, pressure: Angle, hob: Length) -> Roughness {
    let along = feed.to_mm_per_rev() / helix.to_rad().cos();
    Roughness::um(1000.0 * along.powi(2) * pressure.to_rad().sin() / (4.0 * hob.to_mm()))
}

/// Formula of [`feed_for_mark_depth`].
pub const FEED_FOR_MARK_DEPTH: Formula = Formula {
    figure: "axial feed",
    text: "f_a = cos(beta) * sqrt(4 * d_a0 * delta_x / sin(alpha_n))",
    source: "hob-handbooks",
};

/// Greatest axial feed whose marks are no deeper than wanted.
///
/// f_a = cos(beta) * sqrt(4 * d_a0 * delta_x / sin(alpha_n))
///
/// # Symbols
/// f_a axial feed for each turn of the gear. beta helix angle. d_a0 outside diameter of the hob. delta_x depth wanted.
/// alpha_n pressure angle.
/// # Range
/// As in [`feed_mark_depth`].
/// # Source
/// [hob-handbooks], solved for the feed. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::feed_for_mark_depth;
/// use wearland::quantity::{Angle, Length, Roughness};
/// let wanted = Roughness::um(8.55);
/// let feed = feed_for_mark_depth(wanted, Angle::ZERO, Angle::deg(20.0), Length::mm(90.0));
/// assert!((feed.to_mm_per_rev() - 3.0).abs() < 1e-3);
/// ```
#[must_use]
pub fn feed_for_mark_depth(depth: Roughness, helix: Angle, pressure: Angle, hob: Length) -> FeedPerRev {
    let along = (4.0 * hob.to_mm() * depth.to_um() / 1000.0 / pressure.to_rad().sin()).sqrt();
    FeedPerRev::mm_per_rev(along * helix.to_rad().cos())
}

/// Formula of [`generating_deviation`].
pub const GENERATING_DEVIATION: Formula = Formula {
    figure: "generating deviation",
    text: "delta_y = pi^2 * z_0^2 * m * sin(alpha_n) / (4 * z_2 * i^2)",
    source: "hob-handbooks",
};

/// Deviation of a hobbed profile from the involute, since a hob has only so many gashes.
///
/// delta_y = pi^2 * z_0^2 * m * sin(alpha_n) / (4 * z_2 * i^2)
///
/// # Symbols
/// delta_y deviation. z_0 starts. m normal module. alpha_n pressure angle. z_2 teeth of the gear. i gashes.
/// # Range
/// Geometry alone; starts and gashes without a common factor.
/// # Source
/// [hob-handbooks]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, Hob, generating_deviation};
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(3.0),
///     teeth: 40,
///     helix: Angle::ZERO,
///     face: Length::mm(30.0),
///     whole_depth: Length::mm(6.75),
/// };
/// let hob = Hob { diameter: Length::mm(90.0), starts: 2 };
/// let deviation = generating_deviation(&gear, &hob, 12, Angle::deg(20.0));
/// assert!((deviation.to_um() - 1.76).abs() < 1e-2);
/// ```
#[must_use]
pub fn generating_deviation(gear: &Gear, hob: &Hob, gashes: u32, pressure: Angle) -> Roughness {
    let ratio = PI * f64::from(hob.starts) / f64::from(gashes);
    let height = ratio.powi(2) * gear.module.to_mm() * pressure.to_rad().sin();
    Roughness::um(1000.0 * height / (4.0 * f64::from(gear.teeth)))
}
