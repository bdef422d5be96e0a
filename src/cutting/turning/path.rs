//! Passes, travel, time and removal rate at a fixed spindle speed.

use crate::quantity::{
    CuttingSpeed, Duration, FeedPerRev, FeedRate, Formula, Length, RemovalRate, SpindleSpeed,
};

use super::feed_rate;

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
