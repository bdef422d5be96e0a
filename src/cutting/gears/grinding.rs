//! Gear grinding: with a threaded wheel, and tooth space by tooth space with a profiled one.

use crate::quantity::{Duration, FeedPerRev, FeedRate, Formula, Length, SpindleSpeed};

/// Formula of [`grinding_work_speed`].
pub const GRINDING_WORK_SPEED: Formula =
    Formula { figure: "speed of the gear", text: "n_w = n_s * z_0 / z", source: "derived" };

/// Speed of a gear that meshes with a threaded grinding wheel.
///
/// n_w = n_s * z_0 / z
///
/// # Symbols
/// n_w speed of the gear. n_s speed of the wheel. z_0 starts of the wheel. z teeth.
/// # Range
/// The small part that the axial feed of a helical gear adds is left out.
/// # Source
/// \[derived\]: one tooth for each start and turn. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::grinding_work_speed;
/// use wearland::quantity::SpindleSpeed;
/// assert!((grinding_work_speed(SpindleSpeed::rpm(4200.0), 3, 40).to_rpm() - 315.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn grinding_work_speed(wheel: SpindleSpeed, starts: u32, teeth: u32) -> SpindleSpeed {
    wheel * (f64::from(starts) / f64::from(teeth))
}

/// Formula of [`generating_grinding_time`].
pub const GENERATING_GRINDING_TIME: Formula =
    Formula { figure: "gear grinding time", text: "t = sum of L / (f * n_w)", source: "common-practice" };

/// Time of generating grinding, stroke by stroke.
///
/// t = sum of L / (f * n_w)
///
/// # Symbols
/// t time. L path of a stroke: face and overtravel. f axial feed of that stroke for each turn of the gear. n_w speed of
/// the gear.
/// # Range
/// Feeds and speed above zero; dressing is not in it.
/// # Source
/// [common-practice]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::generating_grinding_time;
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let feeds = [0.6, 0.6, 0.35].map(FeedPerRev::mm_per_rev);
/// let time = generating_grinding_time(Length::mm(38.0), &feeds, SpindleSpeed::rpm(315.0));
/// assert!((time.to_min() - 0.7468).abs() < 1e-4);
/// ```
#[must_use]
pub fn generating_grinding_time(path: Length, feeds: &[FeedPerRev], work_speed: SpindleSpeed) -> Duration {
    let turns: f64 = feeds.iter().map(|feed| path.to_mm() / feed.to_mm_per_rev()).sum();
    Duration::min(turns / work_speed.to_rpm())
}

/// Grinding of all tooth spaces of a gear, one after the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProfileGrinding {
    /// Teeth.
    pub teeth: u32,
    /// Strokes in each tooth space.
    pub strokes: u32,
    /// Path of a stroke: face and overtravel.
    pub path: Length,
    /// Speed of the table.
    pub table_rate: FeedRate,
    /// Time to index to the next space.
    pub index: Duration,
}

/// Formula of [`profile_grinding_time`].
pub const PROFILE_GRINDING_TIME: Formula =
    Formula { figure: "gear grinding time", text: "t = z * (i * L / v_t + t_i)", source: "common-practice" };

/// Time of profile grinding.
///
/// t = z * (i * L / v_t + t_i)
///
/// # Symbols
/// t time. z teeth. i strokes in a tooth space. L path of a stroke. v_t speed of the table. t_i time to index.
/// # Range
/// v_t above zero; dressing is not in it.
/// # Source
/// [common-practice]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::{ProfileGrinding, profile_grinding_time};
/// use wearland::quantity::{Duration, FeedRate, Length};
/// let time = profile_grinding_time(&ProfileGrinding {
///     teeth: 40,
///     strokes: 6,
///     path: Length::mm(70.0),
///     table_rate: FeedRate::mm_per_min(4000.0),
///     index: Duration::min(0.03),
/// });
/// assert!((time.to_min() - 5.4).abs() < 1e-9);
/// ```
#[must_use]
pub fn profile_grinding_time(cut: &ProfileGrinding) -> Duration {
    let space = f64::from(cut.strokes) * cut.path.to_mm() / cut.table_rate.to_mm_per_min();
    (Duration::min(space) + cut.index) * f64::from(cut.teeth)
}
