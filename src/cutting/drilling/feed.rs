//! One feed into a hole: drilling, reaming, counterboring.

use std::f64::consts::PI;

use crate::quantity::{Duration, FeedPerRev, Formula, Length, RemovalRate, SpindleSpeed};

use super::super::turning::{feed_rate, turning_time};

/// Formula of [`drilling_time`].
pub const DRILLING_TIME: Formula =
    Formula { figure: "drilling time", text: "t = L / (f * n)", source: "sharma" };

/// Time to drill, ream or counterbore a path in one feed.
///
/// t = L / (f * n)
///
/// # Symbols
/// t time. L path: depth, point, approach, overrun. f feed per revolution. n spindle speed.
/// # Range
/// f and n above zero; no pecks.
/// # Source
/// \[sharma\]. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::drilling_time;
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let time = drilling_time(Length::mm(40.0), FeedPerRev::mm_per_rev(0.2), SpindleSpeed::rpm(1000.0));
/// assert!((time.to_s() - 12.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn drilling_time(path: Length, feed: FeedPerRev, speed: SpindleSpeed) -> Duration {
    turning_time(path, feed, speed)
}

/// Formula of [`drilling_removal_rate`].
pub const DRILLING_REMOVAL_RATE: Formula =
    Formula { figure: "removal rate", text: "Q = pi / 4 * D^2 * f * n", source: "kalpakjian" };

/// Metal removed in a time by drilling from the solid.
///
/// Q = pi / 4 * D^2 * f * n
///
/// # Symbols
/// Q removal rate. D diameter. f feed per revolution. n spindle speed.
/// # Range
/// Full hole.
/// # Source
/// \[kalpakjian\]. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::drilling_removal_rate;
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let rate =
///     drilling_removal_rate(Length::mm(10.0), FeedPerRev::mm_per_rev(0.2), SpindleSpeed::rpm(800.0));
/// assert!((rate.to_cm3_per_min() - 12.566).abs() < 1e-3);
/// ```
#[must_use]
pub fn drilling_removal_rate(diameter: Length, feed: FeedPerRev, speed: SpindleSpeed) -> RemovalRate {
    let area = PI / 4.0 * diameter.to_mm().powi(2);
    RemovalRate::cm3_per_min(area * feed_rate(feed, speed).to_mm_per_min() / 1000.0)
}

/// Formula of [`reaming_path`].
pub const REAMING_PATH: Formula =
    Formula { figure: "path of the reamer", text: "L = h + l_a + D / 2", source: "common-practice" };

/// Path of a reamer through a hole, out by half its diameter so that the full diameter clears the far side.
///
/// L = h + l_a + D / 2
///
/// # Symbols
/// L path. h depth of the hole. l_a approach. D diameter.
/// # Range
/// Through hole; in a blind hole the reamer stops at the depth.
/// # Source
/// [common-practice]. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::reaming_path;
/// use wearland::quantity::Length;
/// assert!((reaming_path(Length::mm(30.0), Length::mm(2.0), Length::mm(12.0)).to_mm() - 38.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn reaming_path(depth: Length, approach: Length, diameter: Length) -> Length {
    depth + approach + diameter / 2.0
}

/// Formula of [`counterboring_time`].
pub const COUNTERBORING_TIME: Formula =
    Formula { figure: "counterboring time", text: "t = L / (f * n) + t_d", source: "derived" };

/// Time to counterbore or countersink to a depth and stay there until the seat is even.
///
/// t = L / (f * n) + t_d
///
/// # Symbols
/// t time. L path: depth and approach. f feed per revolution. n spindle speed. t_d dwell at the bottom.
/// # Range
/// f and n above zero.
/// # Source
/// \[derived\]: a feed and a dwell. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::counterboring_time;
/// use wearland::quantity::{Duration, FeedPerRev, Length, SpindleSpeed};
/// let feed = FeedPerRev::mm_per_rev(0.15);
/// let speed = SpindleSpeed::rpm(318.31);
/// let time = counterboring_time(Length::mm(10.0), feed, speed, Duration::s(0.377));
/// assert!((time.to_s() - 12.943).abs() < 1e-3);
/// ```
#[must_use]
pub fn counterboring_time(path: Length, feed: FeedPerRev, speed: SpindleSpeed, dwell: Duration) -> Duration {
    drilling_time(path, feed, speed) + dwell
}
