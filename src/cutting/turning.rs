//! Turning, boring, facing and grooving: speed, feed, passes and time.

use std::f64::consts::PI;

use crate::quantity::{
    CuttingSpeed, Duration, FeedPerRev, FeedRate, Formula, Length, RemovalRate, SpindleSpeed,
};

/// Formula of [`spindle_speed`].
pub const SPINDLE_SPEED: Formula =
    Formula { figure: "spindle speed", text: "n = v_c / (pi * d)", source: "mitsubishi-technical-data" };

/// Spindle speed that gives a cutting speed at a diameter.
///
/// n = v_c / (pi * d)
///
/// # Symbols
/// n spindle speed. v_c cutting speed. d diameter of the work, or of the tool that turns.
/// # Range
/// d above zero. The spindle's own limit is not looked at.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/turning.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::spindle_speed;
/// use wearland::quantity::{CuttingSpeed, Length};
/// let speed = spindle_speed(CuttingSpeed::ft_per_min(400.0), Length::inch(1.5));
/// assert!((speed.to_rpm() - 1018.59).abs() < 0.01);
/// ```
#[must_use]
pub fn spindle_speed(speed: CuttingSpeed, diameter: Length) -> SpindleSpeed {
    SpindleSpeed::rpm(speed.to_m_per_min() * 1000.0 / (PI * diameter.to_mm()))
}

/// Formula of [`cutting_speed`].
pub const CUTTING_SPEED: Formula =
    Formula { figure: "cutting speed", text: "v_c = pi * d * n", source: "mitsubishi-technical-data" };

/// Cutting speed at a diameter that turns.
///
/// v_c = pi * d * n
///
/// # Symbols
/// v_c cutting speed. d diameter. n spindle speed.
/// # Range
/// Any.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/turning.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::cutting_speed;
/// use wearland::quantity::{Length, SpindleSpeed};
/// let speed = cutting_speed(SpindleSpeed::rpm(700.0), Length::mm(50.0));
/// assert!((speed.to_m_per_min() - 109.956).abs() < 0.001);
/// ```
#[must_use]
pub fn cutting_speed(speed: SpindleSpeed, diameter: Length) -> CuttingSpeed {
    CuttingSpeed::m_per_min(PI * diameter.to_mm() * speed.to_rpm() / 1000.0)
}

/// Formula of [`feed_rate`].
pub const FEED_RATE: Formula =
    Formula { figure: "feed rate", text: "v_f = f * n", source: "mitsubishi-technical-data" };

/// Feed rate of a tool that is fed so much for each turn of the spindle.
///
/// v_f = f * n
///
/// # Symbols
/// v_f feed rate. f feed per revolution; for a thread, its lead. n spindle speed.
/// # Range
/// Any.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/turning.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::feed_rate;
/// use wearland::quantity::{FeedPerRev, SpindleSpeed};
/// let rate = feed_rate(FeedPerRev::mm_per_rev(0.24), SpindleSpeed::rpm(500.0));
/// assert!((rate.to_mm_per_min() - 120.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn feed_rate(feed: FeedPerRev, speed: SpindleSpeed) -> FeedRate {
    FeedRate::mm_per_min(feed.to_mm_per_rev() * speed.to_rpm())
}

/// Formula of [`pass_count`].
pub const PASS_COUNT: Formula =
    Formula { figure: "passes", text: "i = ceil(s / a_p)", source: "common-practice" };

/// Passes that take off a stock in equal depths.
///
/// i = ceil(s / a_p), where a quotient less than a thousand-millionth part above a whole number counts as whole.
///
/// # Symbols
/// i passes. s stock on the radius. a_p greatest depth of cut.
/// # Range
/// a_p above zero. No stock needs no pass; any stock at least one.
/// # Source
/// [common-practice].
/// # Example
/// ```
/// use wearland::cutting::turning::pass_count;
/// use wearland::quantity::Length;
/// assert_eq!(pass_count(Length::mm(10.0), Length::mm(3.0)), 4);
/// assert_eq!(pass_count(Length::mm(0.3), Length::mm(0.1)), 3);
/// ```
#[must_use]
pub fn pass_count(stock_per_side: Length, depth: Length) -> u32 {
    if stock_per_side <= Length::ZERO {
        return 0;
    }
    let passes = (stock_per_side / depth * (1.0 - 1e-9)).ceil().max(1.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "at least one; the cast stops at the greatest count"
    )]
    let whole = passes as u32;
    whole
}

/// Formula of [`travel_time`].
pub const TRAVEL_TIME: Formula =
    Formula { figure: "travel time", text: "t = L / v_f", source: "mitsubishi-technical-data" };

/// Time of a path at a feed rate or rapid rate.
///
/// t = L / v_f
///
/// # Symbols
/// t time. L path, approach and overrun included. v_f feed rate.
/// # Range
/// v_f above zero; the axis is taken to reach it at once.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::travel_time;
/// use wearland::quantity::{FeedRate, Length};
/// let time = travel_time(Length::inch(6.0), FeedRate::inch_per_min(8.0));
/// assert!((time.to_min() - 0.75).abs() < 1e-12);
/// ```
#[must_use]
pub fn travel_time(path: Length, rate: FeedRate) -> Duration {
    Duration::min(path.to_mm() / rate.to_mm_per_min())
}

/// Formula of [`turning_time`].
pub const TURNING_TIME: Formula =
    Formula { figure: "turning time", text: "t = L / (f * n)", source: "mitsubishi-technical-data" };

/// Time of one turning or boring pass at a fixed spindle speed.
///
/// t = L / (f * n)
///
/// # Symbols
/// t time. L path, approach and overrun included. f feed per revolution. n spindle speed.
/// # Range
/// f and n above zero.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/turning.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::turning_time;
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let time = turning_time(Length::mm(100.0), FeedPerRev::mm_per_rev(0.2), SpindleSpeed::rpm(1000.0));
/// assert!((time.to_s() - 30.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn turning_time(path: Length, feed: FeedPerRev, speed: SpindleSpeed) -> Duration {
    travel_time(path, feed_rate(feed, speed))
}

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

/// Formula of [`dwell_time`].
pub const DWELL_TIME: Formula =
    Formula { figure: "dwell time", text: "t = N / n", source: "common-practice" };

/// Time of a dwell given in turns of the spindle.
///
/// t = N / n
///
/// # Symbols
/// t time. N turns. n spindle speed.
/// # Range
/// n above zero.
/// # Source
/// [common-practice]. Worked examples: tests/published/turning.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::dwell_time;
/// use wearland::quantity::SpindleSpeed;
/// assert!((dwell_time(2.0, SpindleSpeed::rpm(600.0)).to_s() - 0.2).abs() < 1e-12);
/// ```
#[must_use]
pub fn dwell_time(revolutions: f64, speed: SpindleSpeed) -> Duration {
    Duration::min(revolutions / speed.to_rpm())
}

/// Formula of [`turning_removal_rate`].
pub const TURNING_REMOVAL_RATE: Formula =
    Formula { figure: "removal rate", text: "Q = v_c * a_p * f", source: "mitsubishi-technical-data" };

/// Metal removed in a time by turning.
///
/// Q = v_c * a_p * f
///
/// # Symbols
/// Q removal rate. v_c cutting speed. a_p depth of cut. f feed per revolution.
/// # Range
/// Exact with v_c taken at the mean of the diameters before and after the cut; at the outer diameter somewhat high.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/turning.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::turning_removal_rate;
/// use wearland::quantity::{CuttingSpeed, FeedPerRev, Length};
/// let rate = turning_removal_rate(CuttingSpeed::m_per_min(200.0), Length::mm(3.0), FeedPerRev::mm_per_rev(0.3));
/// assert!((rate.to_cm3_per_min() - 180.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn turning_removal_rate(speed: CuttingSpeed, depth: Length, feed: FeedPerRev) -> RemovalRate {
    RemovalRate::cm3_per_min(speed.to_m_per_min() * depth.to_mm() * feed.to_mm_per_rev())
}

/// Formula of [`plunge_count`].
pub const PLUNGE_COUNT: Formula = Formula {
    figure: "plunges",
    text: "i = ceil((B - w) / (0.8 * w)) + 1, one if the blade is as wide as the groove",
    source: "common-practice",
};

/// Plunges of a blade into a groove wider than itself, overlapping by a fifth of its width.
///
/// i = ceil((B - w) / (0.8 w)) + 1, one if the blade is as wide as the groove
///
/// # Symbols
/// i plunges. B width of the groove. w width of the blade.
/// # Range
/// Positive widths.
/// # Source
/// [common-practice]
/// # Example
/// ```
/// use wearland::cutting::turning::plunge_count;
/// use wearland::quantity::Length;
/// assert_eq!(plunge_count(Length::mm(8.0), Length::mm(3.0)), 4);
/// assert_eq!(plunge_count(Length::mm(3.0), Length::mm(3.0)), 1);
/// ```
#[must_use]
pub fn plunge_count(groove: Length, blade: Length) -> u32 {
    let wider = groove - blade;
    if wider <= Length::ZERO { 1 } else { pass_count(wider, blade * 0.8) + 1 }
}
