//! Thickest chip at the tip of a hob tooth, and the feed for a wanted one.

use crate::quantity::{FeedPerRev, Formula, Length};

use super::gear::{Gear, Hob};

/// Exponent of the feed in [`tip_chip_thickness`].
const FEED_EXPONENT: f64 = 0.511;

/// What the tip chip of a hob depends on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TipChip {
    /// The gear.
    pub gear: Gear,
    /// Its profile shift factor.
    pub profile_shift: f64,
    /// The hob.
    pub hob: Hob,
    /// Gashes of the hob.
    pub gashes: u32,
    /// Axial feed for each turn of the gear.
    pub axial_feed: FeedPerRev,
    /// Depth of the cut.
    pub depth: Length,
}

/// Formula of [`tip_chip_thickness`].
pub const TIP_CHIP_THICKNESS: Formula = Formula {
    figure: "tip chip thickness",
    text: "h_1 = 4.9 * m * z_2^(0.00925 * beta - 0.542) * e^(-0.015 * beta - 0.015 * x) * (d_a0 / (2 * m))^(-0.00825 * beta - 0.225) * (i / z_0)^-0.877 * (f_a / m)^0.511 * (a / m)^0.319",
    source: "hoffmeister-1970",
};

/// Thickest chip at the tip of a hob tooth, after Hoffmeister.
///
/// h_1 = 4.9 * m * z_2^(0.00925 * beta - 0.542) * e^(-0.015 * beta - 0.015 * x) * (d_a0 / (2 * m))^(-0.00825 * beta - 0.225)
/// * (i / z_0)^-0.877 * (f_a / m)^0.511 * (a / m)^0.319
///
/// # Symbols
/// h_1 chip thickness. m normal module. z_2 teeth of the gear. beta helix angle in radians. x profile shift factor.
/// d_a0 outside diameter of the hob. i gashes. z_0 starts. f_a axial feed for each turn of the gear. a depth.
/// # Range
/// A fit to calculated chips; of limited use outside usual gears. Usual ceilings: 0.20 to 0.25 mm for high-speed steel
/// made from powder, 0.12 to 0.20 mm for carbide.
/// # Source
/// [hoffmeister-1970]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, Hob, TipChip, tip_chip_thickness};
/// use wearland::quantity::{Angle, FeedPerRev, Length};
/// let chip = tip_chip_thickness(&TipChip {
///     gear: Gear {
///         module: Length::mm(3.0),
///         teeth: 40,
///         helix: Angle::ZERO,
///         face: Length::mm(30.0),
///         whole_depth: Length::mm(6.75),
///     },
///     profile_shift: 0.0,
///     hob: Hob { diameter: Length::mm(90.0), starts: 1 },
///     gashes: 12,
///     axial_feed: FeedPerRev::mm_per_rev(2.5),
///     depth: Length::mm(6.75),
/// });
/// assert!((chip.to_mm() - 0.1445).abs() < 1e-4);
/// ```
#[must_use]
pub fn tip_chip_thickness(cut: &TipChip) -> Length {
    let (module, helix) = (cut.gear.module, cut.gear.helix.to_rad().abs());
    let teeth = f64::from(cut.gear.teeth).powf(9.25e-3 * helix - 0.542);
    let angles = (-0.015 * helix - 0.015 * cut.profile_shift).exp();
    let radius = (cut.hob.diameter / (module * 2.0)).powf(-8.25e-3 * helix - 0.225);
    let gashes = (f64::from(cut.gashes) / f64::from(cut.hob.starts)).powf(-0.877);
    let feed = (cut.axial_feed.to_mm_per_rev() / module.to_mm()).powf(FEED_EXPONENT);
    let depth = (cut.depth / module).powf(0.319);
    module * (4.9 * teeth * angles * radius * gashes * feed * depth)
}

/// Formula of [`feed_for_tip_chip`].
pub const FEED_FOR_TIP_CHIP: Formula = Formula {
    figure: "axial feed",
    text: "f_a = f_a1 * (h_1 / h_11)^(1 / 0.511)",
    source: "hoffmeister-1970",
};

/// Axial feed at which the tip chip of a hob is as thick as wanted.
///
/// f_a = f_a1 * (h_1 / h_11)^(1 / 0.511)
///
/// # Symbols
/// f_a feed wanted. h_1 chip thickness wanted. f_a1 any feed, h_11 the chip thickness it gives.
/// # Range
/// As in [`tip_chip_thickness`].
/// # Source
/// [hoffmeister-1970], solved for the feed. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::feed_for_tip_chip;
/// use wearland::quantity::{FeedPerRev, Length};
/// let feed = feed_for_tip_chip(FeedPerRev::mm_per_rev(2.5), Length::mm(0.2654), Length::mm(0.2368));
/// assert!((feed.to_mm_per_rev() - 2.0).abs() < 2e-3);
/// ```
#[must_use]
pub fn feed_for_tip_chip(feed: FeedPerRev, gives: Length, wanted: Length) -> FeedPerRev {
    feed * (wanted / gives).powf(1.0 / FEED_EXPONENT)
}
