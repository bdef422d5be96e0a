//! Tapping: time, and the hole before the tap.

use crate::quantity::{Duration, FeedPerRev, Formula, Length, SpindleSpeed};

use super::super::turning::{feed_rate, travel_time};

/// Formula of [`tapping_time`].
pub const TAPPING_TIME: Formula =
    Formula { figure: "tapping time", text: "t = L / (P * n) + L / (P * n_b)", source: "derived" };

/// Time to tap and to run the tap back out.
///
/// t = L / (P * n) + L / (P * n_b)
///
/// # Symbols
/// t time. L path, approach included. P pitch. n speed in. n_b speed back.
/// # Range
/// All above zero. The reversal of the spindle is not in it.
/// # Source
/// \[derived\]: one pitch for each turn, both ways. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::tapping_time;
/// use wearland::quantity::{Length, SpindleSpeed};
/// let speed = SpindleSpeed::rpm(600.0);
/// assert!((tapping_time(Length::mm(15.0), Length::mm(1.5), speed, speed).to_s() - 2.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn tapping_time(path: Length, pitch: Length, forward: SpindleSpeed, back: SpindleSpeed) -> Duration {
    let lead = FeedPerRev::mm_per_rev(pitch.to_mm());
    travel_time(path, feed_rate(lead, forward)) + travel_time(path, feed_rate(lead, back))
}

/// Formula of [`tap_drill`].
pub const TAP_DRILL: Formula =
    Formula { figure: "drill for the tap", text: "d_b = d - P", source: "common-practice" };

/// Diameter to drill for a cutting tap.
///
/// d_b = d - P
///
/// # Symbols
/// d_b diameter of the drill. d diameter of the thread. P pitch.
/// # Range
/// Metric and unified threads of 60 degrees, about three quarters of the thread's depth. A short rule: the thread
/// standard gives the limits.
/// # Source
/// [common-practice]. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::tap_drill;
/// use wearland::quantity::Length;
/// assert!((tap_drill(Length::mm(10.0), Length::mm(1.5)).to_mm() - 8.5).abs() < 1e-12);
/// ```
#[must_use]
pub fn tap_drill(diameter: Length, pitch: Length) -> Length {
    diameter - pitch
}

/// Formula of [`forming_tap_drill`].
pub const FORMING_TAP_DRILL: Formula =
    Formula { figure: "drill for the forming tap", text: "d_b = d - P / 2", source: "common-practice" };

/// Diameter to drill for a forming tap, which moves the metal instead of cutting it.
///
/// d_b = d - P / 2
///
/// # Symbols
/// d_b diameter of the drill. d diameter of the thread. P pitch.
/// # Range
/// Metric and unified threads of 60 degrees in a material that flows. A short rule: the maker of the tap gives the
/// diameter with its limits.
/// # Source
/// [common-practice]. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::forming_tap_drill;
/// use wearland::quantity::Length;
/// assert!((forming_tap_drill(Length::mm(8.0), Length::mm(1.25)).to_mm() - 7.375).abs() < 1e-12);
/// ```
#[must_use]
pub fn forming_tap_drill(diameter: Length, pitch: Length) -> Length {
    diameter - pitch / 2.0
}
