//! Facing and parting at constant cutting speed.

use std::f64::consts::PI;

use crate::quantity::{CuttingSpeed, Duration, FeedPerRev, Formula, Length, SpindleSpeed};

/// A face turned at constant cutting speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FacingCut {
    /// Diameter where the cut begins.
    pub outer: Length,
    /// Diameter where it ends; zero at the centre.
    pub inner: Length,
    /// Cutting speed held while the spindle can follow.
    pub speed: CuttingSpeed,
    /// Feed per revolution.
    pub feed: FeedPerRev,
    /// Greatest spindle speed.
    pub fastest: SpindleSpeed,
}

/// Formula of [`facing_time`].
pub const FACING_TIME: Formula = Formula {
    figure: "facing time",
    text: "t = pi * (R_o^2 - max(R_i, R_c)^2) / (v_c * f) + (min(R_o, R_c) - R_i) / (f * n_max), each at least 0, R_c = v_c / (2 * pi * n_max)",
    source: "derived",
};

/// Facing, parting or grooving time at constant cutting speed, the spindle held at its limit near the centre.
///
/// t = pi * (R_o^2 - max(R_i, R_c)^2) / (v_c * f) + (min(R_o, R_c) - R_i) / (f * n_max), each part at least zero,
/// with R_c = v_c / (2 * pi * n_max)
///
/// # Symbols
/// t time. R_o, R_i outer and inner radius. R_c radius at which the spindle reaches its limit. v_c cutting speed.
/// f feed per revolution. n_max greatest spindle speed.
/// # Range
/// Outer diameter at least the inner; v_c, f and n_max above zero. The spindle is taken to follow without lag.
/// # Source
/// \[derived\]: dt = dr / (f * n(r)) integrated on both sides of R_c. Worked examples: tests/published/facing.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::{FacingCut, facing_time};
/// use wearland::quantity::{CuttingSpeed, FeedPerRev, Length, SpindleSpeed};
/// let time = facing_time(FacingCut {
///     outer: Length::mm(100.0),
///     inner: Length::ZERO,
///     speed: CuttingSpeed::m_per_min(200.0),
///     feed: FeedPerRev::mm_per_rev(0.2),
///     fastest: SpindleSpeed::rpm(3000.0),
/// });
/// assert!((time.to_min() - 0.205191).abs() < 1e-6);
/// ```
#[must_use]
pub fn facing_time(cut: FacingCut) -> Duration {
    let (outer, inner) = (cut.outer.to_mm() / 2.0, cut.inner.to_mm() / 2.0);
    let speed = cut.speed.to_m_per_min() * 1000.0;
    let (feed, fastest) = (cut.feed.to_mm_per_rev(), cut.fastest.to_rpm());
    let limit = speed / (2.0 * PI * fastest);
    let following = PI * (outer.powi(2) - inner.max(limit).powi(2)) / (speed * feed);
    let held = (outer.min(limit) - inner) / (feed * fastest);
    Duration::min(following.max(0.0) + held.max(0.0))
}

/// A cut-off at constant cutting speed, the feed cut near the centre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartingCut {
    /// The whole cut at its full feed.
    pub face: FacingCut,
    /// Diameter from which on the feed is cut.
    pub slow_below: Length,
    /// Share of the feed that is left from there on.
    pub slow_share: f64,
}

/// Formula of [`parting_time`].
pub const PARTING_TIME: Formula = Formula {
    figure: "parting time",
    text: "t = t_face(R_o to R_s, f) + t_face(R_s to R_i, q * f)",
    source: "derived",
};

/// Parting time at constant cutting speed, with less feed for the last of the diameter.
///
/// t = t_face(R_o to R_s, f) + t_face(R_s to R_i, q * f), with t_face as for facing
///
/// # Symbols
/// t time. R_o, R_i outer and inner radius. R_s radius from which on the feed is cut. f feed per revolution.
/// q share of the feed that is left.
/// # Range
/// q above zero. R_s at or inside R_i: the feed is never cut. Cutting the feed by about three quarters for the last
/// 2 mm of diameter of a solid bar is common practice.
/// # Source
/// \[derived\]: the facing integral on both sides of R_s. Worked examples: tests/published/facing.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::{FacingCut, PartingCut, parting_time};
/// use wearland::quantity::{CuttingSpeed, FeedPerRev, Length, SpindleSpeed};
/// let time = parting_time(PartingCut {
///     face: FacingCut {
///         outer: Length::mm(42.0),
///         inner: Length::ZERO,
///         speed: CuttingSpeed::m_per_min(120.0),
///         feed: FeedPerRev::mm_per_rev(0.1),
///         fastest: SpindleSpeed::rpm(4000.0),
///     },
///     slow_below: Length::mm(2.0),
///     slow_share: 0.25,
/// });
/// // The last millimetre of radius lasts four times as long: 3 / (0.1 * 4000) min more.
/// assert!((time.to_min() - (0.121422 + 0.0075)).abs() < 1e-6);
/// ```
#[must_use]
pub fn parting_time(cut: PartingCut) -> Duration {
    let face = cut.face;
    let turn = cut.slow_below.smaller(face.outer).larger(face.inner);
    let fast = facing_time(FacingCut { inner: turn, ..face });
    fast + facing_time(FacingCut { outer: turn, feed: face.feed * cut.slow_share, ..face })
}
