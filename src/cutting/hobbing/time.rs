//! Time of a hobbing cut, and gears cut between two sharpenings of the hob.

use std::f64::consts::PI;

use crate::quantity::{Duration, FeedPerRev, Formula, Length, SpindleSpeed};

use super::gear::Gear;

/// One cut over a gear, or over a stack of gears.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HobbingCut {
    /// Teeth of the gear.
    pub gear_teeth: u32,
    /// Starts of the hob.
    pub starts: u32,
    /// Speed of the hob.
    pub speed: SpindleSpeed,
    /// Axial feed for each turn of the gear.
    pub axial_feed: FeedPerRev,
    /// Axial path: approach, face and overrun.
    pub path: Length,
}

/// Formula of [`hobbing_time`].
pub const HOBBING_TIME: Formula =
    Formula { figure: "hobbing time", text: "t = z_2 * L / (z_0 * n_0 * f_a)", source: "endoy-1990" };

/// Time of one hobbing cut.
///
/// t = z_2 * L / (z_0 * n_0 * f_a)
///
/// # Symbols
/// t time. z_2 teeth of the gear. L axial path: approach, face and overrun. z_0 starts. n_0 speed of the hob.
/// f_a axial feed for each turn of the gear.
/// # Range
/// All above zero. Axial feed; shifting, indexing and handling are not in it.
/// # Source
/// [endoy-1990]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{HobbingCut, hobbing_time};
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let time = hobbing_time(HobbingCut {
///     gear_teeth: 40,
///     starts: 1,
///     speed: SpindleSpeed::rpm(318.310),
///     axial_feed: FeedPerRev::mm_per_rev(2.5),
///     path: Length::mm(55.705),
/// });
/// assert!((time.to_min() - 2.8).abs() < 1e-3);
/// ```
#[must_use]
pub fn hobbing_time(cut: HobbingCut) -> Duration {
    let table = table_speed(cut.speed, cut.starts, cut.gear_teeth);
    Duration::min(cut.path.to_mm() / (cut.axial_feed.to_mm_per_rev() * table.to_rpm()))
}

/// Formula of [`table_speed`].
pub const TABLE_SPEED: Formula =
    Formula { figure: "table speed", text: "n_2 = n_0 * z_0 / z_2", source: "common-practice" };

/// Speed of the work table.
///
/// n_2 = n_0 * z_0 / z_2
///
/// # Symbols
/// n_2 table speed. n_0 speed of the hob. z_0 starts. z_2 teeth of the gear.
/// # Range
/// Any gear of one tooth or more; the small part that the axial feed of a helical gear adds is left out.
/// # Source
/// [common-practice]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::table_speed;
/// use wearland::quantity::SpindleSpeed;
/// assert!((table_speed(SpindleSpeed::rpm(320.0), 1, 40).to_rpm() - 8.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn table_speed(speed: SpindleSpeed, starts: u32, gear_teeth: u32) -> SpindleSpeed {
    speed * (f64::from(starts) / f64::from(gear_teeth))
}

/// Formula of [`active_teeth`].
pub const ACTIVE_TEETH: Formula =
    Formula { figure: "hob teeth in use", text: "N_z = i * b_1 / (pi * m)", source: "common-practice" };

/// Teeth of a hob that take part in the cut as it is shifted.
///
/// N_z = i * b_1 / (pi * m)
///
/// # Symbols
/// N_z teeth. i gashes. b_1 useful length. m normal module.
/// # Range
/// Lead angle of the hob up to about 5 degrees: the pitch along its axis is taken as pi * m, at most 0.4 % short.
/// # Source
/// [common-practice]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::active_teeth;
/// use wearland::quantity::Length;
/// assert!((active_teeth(12, Length::mm(110.0), Length::mm(3.0)) - 140.056).abs() < 1e-3);
/// ```
#[must_use]
pub fn active_teeth(gashes: u32, useful: Length, module: Length) -> f64 {
    f64::from(gashes) * (useful / (module * PI))
}

/// Formula of [`pieces_per_sharpening`].
pub const PIECES_PER_SHARPENING: Formula = Formula {
    figure: "gears between sharpenings",
    text: "p = K * N_z * cos(beta) / (z * b)",
    source: "common-practice",
};

/// Gears cut between two sharpenings, from the length of gear tooth one hob tooth may cut.
///
/// p = K * N_z * cos(beta) / (z * b)
///
/// # Symbols
/// p gears. K length of gear tooth cut by each hob tooth. N_z hob teeth in use. beta helix angle. z teeth of the gear.
/// b its face width.
/// # Range
/// Wear spread evenly over the useful length by shifting. Not rounded: whole gears are the caller's.
/// # Source
/// [common-practice]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, pieces_per_sharpening};
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(3.0),
///     teeth: 40,
///     helix: Angle::ZERO,
///     face: Length::mm(30.0),
///     whole_depth: Length::mm(6.75),
/// };
/// assert!((pieces_per_sharpening(Length::m(4.0), 140.056, &gear) - 466.9).abs() < 0.1);
/// ```
#[must_use]
pub fn pieces_per_sharpening(cut_per_hob_tooth: Length, active_teeth: f64, gear: &Gear) -> f64 {
    let tooth = gear.face / gear.helix.to_rad().cos();
    cut_per_hob_tooth / tooth * active_teeth / f64::from(gear.teeth)
}
