//! Gear shaping: strokes and time.

use std::f64::consts::PI;

use crate::quantity::{CuttingSpeed, Duration, FeedPerStroke, Formula, Length, StrokeRate};

/// Formula of [`shaping_strokes`].
pub const SHAPING_STROKES: Formula =
    Formula { figure: "stroke rate", text: "n = v_c / (2 * H)", source: "derived" };

/// Double strokes of a shaper for a mean cutting speed.
///
/// n = v_c / (2 * H)
///
/// # Symbols
/// n double strokes in a time. v_c mean speed of the stroke. H length of stroke: face, approach and overrun.
/// # Range
/// Cutting stroke and return take the same time; a crank reaches pi / 2 of the mean speed in the middle of its stroke.
/// # Source
/// \[derived\]: there and back once for each double stroke. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::shaping_strokes;
/// use wearland::quantity::{CuttingSpeed, Length};
/// let strokes = shaping_strokes(CuttingSpeed::m_per_min(30.0), Length::mm(30.0));
/// assert!((strokes.to_per_min() - 500.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn shaping_strokes(speed: CuttingSpeed, stroke: Length) -> StrokeRate {
    StrokeRate::per_min(speed.to_m_per_min() / (2.0 * stroke.to_m()))
}

/// Shaping of one gear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShapingCut {
    /// Whole depth, reached by radial infeed.
    pub depth: Length,
    /// Pitch diameter of the gear.
    pub pitch_diameter: Length,
    /// Radial feed for each double stroke.
    pub radial_feed: FeedPerStroke,
    /// Circular feed for each double stroke, along the pitch circle.
    pub circular_feed: FeedPerStroke,
    /// Double strokes in a time.
    pub strokes: StrokeRate,
    /// Turns of the gear at full depth.
    pub turns: f64,
}

/// Formula of [`shaping_time`].
pub const SHAPING_TIME: Formula = Formula {
    figure: "shaping time",
    text: "t = h / (f_r * n) + k * pi * d / (f_c * n)",
    source: "endoy-1990",
};

/// Time to shape a gear: infeed to depth, then whole turns of the gear.
///
/// t = h / (f_r * n) + k * pi * d / (f_c * n)
///
/// # Symbols
/// t time. h depth. f_r radial, f_c circular feed for each double stroke. n double strokes in a time. k turns at full
/// depth, 1 to 2. d pitch diameter.
/// # Range
/// Feeds and strokes above zero. The gear turns while the cutter is fed in, which cuts nothing to size.
/// # Source
/// [endoy-1990]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::{ShapingCut, shaping_time};
/// use wearland::quantity::{FeedPerStroke, Length, StrokeRate};
/// let time = shaping_time(&ShapingCut {
///     depth: Length::mm(5.625),
///     pitch_diameter: Length::mm(90.0),
///     radial_feed: FeedPerStroke::mm_per_stroke(0.02),
///     circular_feed: FeedPerStroke::mm_per_stroke(0.4),
///     strokes: StrokeRate::per_min(500.0),
///     turns: 1.0,
/// });
/// assert!((time.to_min() - 1.9762).abs() < 1e-4);
/// ```
#[must_use]
pub fn shaping_time(cut: &ShapingCut) -> Duration {
    let infeed = cut.depth.to_mm() / cut.radial_feed.to_mm_per_stroke();
    let round = cut.turns * PI * cut.pitch_diameter.to_mm() / cut.circular_feed.to_mm_per_stroke();
    Duration::min((infeed + round) / cut.strokes.to_per_min())
}
