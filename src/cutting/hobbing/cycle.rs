//! Whole hobbing cycles: radial infeed, several cuts, stacked blanks, and the speed the table allows.

use crate::quantity::{Duration, FeedPerRev, Formula, Length, SpindleSpeed};

use super::time::{HobbingCut, hobbing_time, table_speed};

/// Radial infeed of a hob to its depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RadialInfeed {
    /// Teeth of the gear.
    pub gear_teeth: u32,
    /// Starts of the hob.
    pub starts: u32,
    /// Speed of the hob.
    pub speed: SpindleSpeed,
    /// Radial feed for each turn of the gear.
    pub radial_feed: FeedPerRev,
    /// Depth.
    pub depth: Length,
}

/// Formula of [`radial_infeed_time`].
pub const RADIAL_INFEED_TIME: Formula =
    Formula { figure: "infeed time", text: "t_r = z_2 * h / (z_0 * n_0 * f_r)", source: "endoy-1990" };

/// Time of the radial infeed of a hob; the axial cut that follows has no approach.
///
/// t_r = z_2 * h / (z_0 * n_0 * f_r)
///
/// # Symbols
/// t_r time. z_2 teeth of the gear. h depth. z_0 starts. n_0 speed of the hob. f_r radial feed for each turn of the gear.
/// # Range
/// All above zero.
/// # Source
/// [endoy-1990]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{RadialInfeed, radial_infeed_time};
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let time = radial_infeed_time(RadialInfeed {
///     gear_teeth: 40,
///     starts: 1,
///     speed: SpindleSpeed::rpm(320.0),
///     radial_feed: FeedPerRev::mm_per_rev(0.5),
///     depth: Length::mm(6.0),
/// });
/// assert!((time.to_min() - 1.5).abs() < 1e-12);
/// ```
#[must_use]
pub fn radial_infeed_time(infeed: RadialInfeed) -> Duration {
    let table = table_speed(infeed.speed, infeed.starts, infeed.gear_teeth);
    Duration::min(infeed.depth.to_mm() / (infeed.radial_feed.to_mm_per_rev() * table.to_rpm()))
}

/// Formula of [`time_of_cuts`].
pub const TIME_OF_CUTS: Formula =
    Formula { figure: "hobbing time", text: "t = sum of z_2 * L / (z_0 * n_0 * f_a)", source: "endoy-1990" };

/// Time of several hobbing cuts, each with its own path, feed and speed.
///
/// t = sum of z_2 * L / (z_0 * n_0 * f_a)
///
/// # Symbols
/// As in [`hobbing_time`]. L holds the approach of each cut's own depth.
/// # Range
/// As in [`hobbing_time`]; the return between cuts is not in it.
/// # Source
/// [endoy-1990]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{HobbingCut, time_of_cuts};
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let cut = |speed, feed, path| HobbingCut {
///     gear_teeth: 30,
///     starts: 1,
///     speed: SpindleSpeed::rpm(speed),
///     axial_feed: FeedPerRev::mm_per_rev(feed),
///     path: Length::mm(path),
/// };
/// let time = time_of_cuts(&[cut(152.79, 3.0, 96.219), cut(190.99, 1.5, 73.408)]);
/// assert!((time.to_min() - 13.9848).abs() < 1e-3);
/// ```
#[must_use]
pub fn time_of_cuts(cuts: &[HobbingCut]) -> Duration {
    cuts.iter().map(|cut| hobbing_time(*cut)).sum()
}

/// Formula of [`stack_face`].
pub const STACK_FACE: Formula =
    Formula { figure: "face of the stack", text: "b_k = k * b + (k - 1) * s", source: "derived" };

/// Face over which a stack of blanks is hobbed; approach and overrun are paid once for the stack.
///
/// b_k = k * b + (k - 1) * s
///
/// # Symbols
/// b_k face of the stack. k blanks. b face width of one. s gap between two.
/// # Range
/// One blank or more; none gives zero.
/// # Source
/// \[derived\]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::stack_face;
/// use wearland::quantity::Length;
/// assert!((stack_face(3, Length::mm(20.0), Length::mm(0.5)).to_mm() - 61.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn stack_face(blanks: u32, face: Length, spacer: Length) -> Length {
    face * f64::from(blanks) + spacer * f64::from(blanks.saturating_sub(1))
}

/// Formula of [`hob_speed_at_table`].
pub const HOB_SPEED_AT_TABLE: Formula =
    Formula { figure: "hob speed", text: "n_0 = n_2 * z_2 / z_0", source: "derived" };

/// Fastest speed of a hob that keeps the table within its own fastest.
///
/// n_0 = n_2 * z_2 / z_0
///
/// # Symbols
/// n_0 speed of the hob. n_2 speed of the table. z_2 teeth of the gear. z_0 starts.
/// # Range
/// As in [`table_speed`].
/// # Source
/// \[derived\]: the table speed turned round. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::hob_speed_at_table;
/// use wearland::quantity::SpindleSpeed;
/// assert!((hob_speed_at_table(SpindleSpeed::rpm(40.0), 2, 35).to_rpm() - 700.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn hob_speed_at_table(table: SpindleSpeed, starts: u32, gear_teeth: u32) -> SpindleSpeed {
    table * (f64::from(gear_teeth) / f64::from(starts))
}
