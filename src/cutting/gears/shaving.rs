//! Gear shaving, along the axis and by plunging.

use crate::quantity::{Angle, CuttingSpeed, Duration, FeedPerRev, Formula, Length, SpindleSpeed};

/// Shaving along the axis of the gear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShavingCut {
    /// Single strokes of the table; a double pass is two.
    pub strokes: u32,
    /// Path of one stroke.
    pub path: Length,
    /// Feed along the axis for each turn of the gear.
    pub feed: FeedPerRev,
    /// Speed of the gear.
    pub work_speed: SpindleSpeed,
}

/// Formula of [`shaving_time`].
pub const SHAVING_TIME: Formula =
    Formula { figure: "shaving time", text: "t = i * L / (f * n)", source: "endoy-1990" };

/// Time of conventional shaving.
///
/// t = i * L / (f * n)
///
/// # Symbols
/// t time. i single strokes. L path of a stroke. f feed for each turn of the gear. n speed of the gear.
/// # Range
/// f and n above zero; reversals are not in it.
/// # Source
/// [endoy-1990]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::{ShavingCut, shaving_time};
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let time = shaving_time(&ShavingCut {
///     strokes: 24,
///     path: Length::mm(25.0),
///     feed: FeedPerRev::mm_per_rev(0.3),
///     work_speed: SpindleSpeed::rpm(300.0),
/// });
/// assert!((time.to_min() - 6.6667).abs() < 1e-4);
/// ```
#[must_use]
pub fn shaving_time(cut: &ShavingCut) -> Duration {
    let turns = f64::from(cut.strokes) * cut.path.to_mm() / cut.feed.to_mm_per_rev();
    Duration::min(turns / cut.work_speed.to_rpm())
}

/// Shaving by plunging a cutter as wide as the gear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlungeShaving {
    /// Radial path.
    pub infeed: Length,
    /// Radial feed for each turn of the gear.
    pub radial_feed: FeedPerRev,
    /// Turns of the gear at size.
    pub dwell: f64,
    /// Speed of the gear.
    pub work_speed: SpindleSpeed,
}

/// Formula of [`plunge_shaving_time`].
pub const PLUNGE_SHAVING_TIME: Formula =
    Formula { figure: "shaving time", text: "t = (s / f_r + N) / n", source: "derived" };

/// Time of plunge shaving.
///
/// t = (s / f_r + N) / n
///
/// # Symbols
/// t time. s radial path. f_r radial feed for each turn of the gear. N turns at size. n speed of the gear.
/// # Range
/// f_r and n above zero. The trade reckons 0.2 to 0.6 min for small gears.
/// # Source
/// \[derived\]: turns of the gear at its speed. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::{PlungeShaving, plunge_shaving_time};
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let time = plunge_shaving_time(&PlungeShaving {
///     infeed: Length::mm(0.3),
///     radial_feed: FeedPerRev::mm_per_rev(0.004),
///     dwell: 25.0,
///     work_speed: SpindleSpeed::rpm(250.0),
/// });
/// assert!((time.to_min() - 0.4).abs() < 1e-12);
/// ```
#[must_use]
pub fn plunge_shaving_time(cut: &PlungeShaving) -> Duration {
    let turns = cut.infeed.to_mm() / cut.radial_feed.to_mm_per_rev() + cut.dwell;
    Duration::min(turns / cut.work_speed.to_rpm())
}

/// Formula of [`shaving_slide`].
pub const SHAVING_SLIDE: Formula =
    Formula { figure: "cutting speed", text: "v_s = v * sin(Sigma) / cos(beta)", source: "derived" };

/// Sliding speed along the tooth at which a shaving cutter cuts, at the pitch point.
///
/// v_s = v * sin(Sigma) / cos(beta)
///
/// # Symbols
/// v_s sliding speed. v rim speed of the cutter. Sigma angle between the axes. beta helix angle of the gear.
/// # Range
/// Sigma usually 5 to 15 degrees; nothing is cut with parallel axes.
/// # Source
/// \[derived\]: both pitch cylinders move alike square to the tooth, what is left along it is the slide.
/// Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::shaving_slide;
/// use wearland::quantity::{Angle, CuttingSpeed};
/// let slide = shaving_slide(CuttingSpeed::m_per_min(120.0), Angle::deg(30.0), Angle::ZERO);
/// assert!((slide.to_m_per_min() - 60.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn shaving_slide(rim_speed: CuttingSpeed, cross_angle: Angle, helix: Angle) -> CuttingSpeed {
    rim_speed * (cross_angle.to_rad().sin() / helix.to_rad().cos())
}
