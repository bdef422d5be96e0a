//! Edges other than one round corner: sharp, round with a straight minor edge, wiper; the thinnest chip.

use crate::quantity::{Angle, FeedPerRev, Formula, Length, Roughness};

use super::{mean_roughness, peak_to_valley};

/// Formula of [`sharp_corner`].
pub const SHARP_CORNER: Formula =
    Formula { figure: "peak to valley", text: "Rt = f / (cot(kappa) + cot(kappa'))", source: "ghosh-mallik" };

/// Height from peak to valley that a sharp corner leaves.
///
/// Rt = f / (cot(kappa) + cot(kappa'))
///
/// # Symbols
/// Rt height from peak to valley. f feed per revolution. kappa angle of the major edge to the feed. kappa' angle of the
/// minor edge to the feed; a side cutting edge angle C_s is 90 deg - kappa.
/// # Range
/// Both angles between 0 and 90 degrees; corner radius nothing.
/// # Source
/// [ghosh-mallik]. Worked examples: tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::sharp_corner;
/// use wearland::quantity::{Angle, FeedPerRev};
/// let height = sharp_corner(FeedPerRev::mm_per_rev(0.125), Angle::deg(60.0), Angle::deg(7.0));
/// assert!((height.to_um() - 14.332).abs() < 1e-3);
/// ```
#[must_use]
pub fn sharp_corner(feed: FeedPerRev, edge_angle: Angle, minor_angle: Angle) -> Roughness {
    let sides = 1.0 / edge_angle.to_rad().tan() + 1.0 / minor_angle.to_rad().tan();
    Roughness::um(feed.to_mm_per_rev() / sides * 1000.0)
}

/// Formula of [`corner_and_edge`].
pub const CORNER_AND_EDGE: Formula = Formula {
    figure: "peak to valley",
    text: "Rt = r * (1 - cos(k)) + f * sin(k) * cos(k) - sqrt(2 * f * r * sin(k)^3 - f^2 * sin(k)^4) above f = 2 * r * sin(k), below it the arc",
    source: "sharma",
};

/// Height from peak to valley that a round corner and the straight minor edge behind it leave.
///
/// Rt = r (1 - cos k) + f sin k cos k - sqrt(2 f r sin^3 k - f^2 sin^4 k) for f above 2 r sin k; below, the arc alone
///
/// # Symbols
/// Rt height from peak to valley. r corner radius. f feed per revolution. k angle of the minor edge to the feed.
/// # Range
/// k between 0 and 90 degrees. The major edge forms no part of the surface: f below about r.
/// # Source
/// \[sharma\]. The book uses the form below its limit as well, where it gives a figure far too high; worked examples:
/// tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::corner_and_edge;
/// use wearland::quantity::{Angle, FeedPerRev, Length};
/// let height = corner_and_edge(FeedPerRev::mm_per_rev(0.15), Length::mm(0.4), Angle::deg(5.0));
/// assert!((height.to_um() - 5.7056).abs() < 1e-4);
/// ```
#[must_use]
pub fn corner_and_edge(feed: FeedPerRev, corner_radius: Length, minor_angle: Angle) -> Roughness {
    let (advance, radius) = (feed.to_mm_per_rev(), corner_radius.to_mm());
    let (sin, cos) = minor_angle.to_rad().sin_cos();
    if advance <= 2.0 * radius * sin {
        return peak_to_valley(feed, corner_radius);
    }
    let root = (2.0 * advance * radius * sin.powi(3) - (advance * sin * sin).powi(2)).max(0.0).sqrt();
    Roughness::um((radius * (1.0 - cos) + advance * sin * cos - root) * 1000.0)
}

/// Formula of [`wiper_roughness`].
pub const WIPER_ROUGHNESS: Formula = Formula {
    figure: "mean roughness with a wiper",
    text: "Ra = 0.5 * f^2 / (18 * sqrt(3) * r)",
    source: "memory",
};

/// Mean roughness of a wiper corner: half of what the same feed leaves with a plain one. An estimate.
///
/// Ra = 0.5 * f^2 / (18 * sqrt(3) * r)
///
/// # Symbols
/// Ra mean roughness. f feed per revolution. r corner radius.
/// # Range
/// As for the mean roughness. Makers also say that twice the feed leaves the same: that would be a quarter here, so
/// half is the careful one.
/// # Source
/// \[memory\]: rule of tool makers. Worked examples: tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::wiper_roughness;
/// use wearland::quantity::{FeedPerRev, Length};
/// let roughness = wiper_roughness(FeedPerRev::mm_per_rev(0.2), Length::mm(0.8));
/// assert!((roughness.to_um() - 0.80).abs() < 0.005);
/// ```
#[must_use]
pub fn wiper_roughness(feed: FeedPerRev, corner_radius: Length) -> Roughness {
    mean_roughness(feed, corner_radius) * 0.5
}

/// Formula of [`least_chip_thickness`].
pub const LEAST_CHIP_THICKNESS: Formula =
    Formula { figure: "least chip thickness", text: "h_min = q * r_e", source: "memory" };

/// Thinnest chip that an edge still cuts; below, it rubs.
///
/// h_min = q * r_e
///
/// # Symbols
/// h_min chip thickness. r_e radius of the cutting edge, not of the corner. q share, 0.2 to 0.4.
/// # Range
/// Edges ground sharp have about 5 um to 15 um, honed ones 25 um to 60 um.
/// # Source
/// \[memory\]. Worked examples: tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::least_chip_thickness;
/// use wearland::quantity::Length;
/// assert!((least_chip_thickness(Length::mm(0.03), 0.3).to_mm() - 0.009).abs() < 1e-12);
/// ```
#[must_use]
pub fn least_chip_thickness(edge_radius: Length, share: f64) -> Length {
    edge_radius * share
}
