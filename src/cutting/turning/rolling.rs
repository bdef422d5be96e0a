//! Knurling and roller burnishing: nothing is cut, the tool rolls.

use std::f64::consts::PI;

use crate::quantity::{Duration, FeedPerRev, Formula, Length, SpindleSpeed};

use super::turning_time;

/// Formula of [`knurling_time`].
pub const KNURLING_TIME: Formula =
    Formula { figure: "knurling time", text: "t = L / (f * n)", source: "common-practice" };

/// Time to knurl along the axis. Wheels that are only fed in take so many turns: a dwell.
///
/// t = L / (f * n)
///
/// # Symbols
/// t time. L path, approach included. f feed per revolution. n spindle speed.
/// # Range
/// f and n above zero.
/// # Source
/// [common-practice]. Worked examples: tests/published/turning.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::knurling_time;
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let time = knurling_time(Length::mm(32.0), FeedPerRev::mm_per_rev(0.2), SpindleSpeed::rpm(320.0));
/// assert!((time.to_s() - 30.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn knurling_time(path: Length, feed: FeedPerRev, speed: SpindleSpeed) -> Duration {
    turning_time(path, feed, speed)
}

/// Teeth that wheels of a pitch press around a diameter, to the nearest whole one.
///
/// z = pi * d / p, rounded
#[must_use]
pub fn knurl_teeth(diameter: Length, pitch: Length) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "the cast stops at both ends of a count"
    )]
    let teeth = (PI * (diameter / pitch)).round() as u32;
    teeth
}

/// Formula of [`knurl_blank`].
pub const KNURL_BLANK: Formula =
    Formula { figure: "diameter before knurling", text: "d = z * p / pi", source: "common-practice" };

/// Diameter on which wheels of a pitch track without a double cut.
///
/// d = z * p / pi
///
/// # Symbols
/// d diameter before knurling. z teeth around the work. p pitch of the wheels along their circumference.
/// # Range
/// Wheels fed in square to the axis; the work grows a little while it is rolled.
/// # Source
/// [common-practice]. Worked examples: tests/published/turning.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::{knurl_blank, knurl_teeth};
/// use wearland::quantity::Length;
/// let teeth = knurl_teeth(Length::mm(25.0), Length::mm(1.0));
/// assert_eq!(teeth, 79);
/// assert!((knurl_blank(teeth, Length::mm(1.0)).to_mm() - 25.1465).abs() < 1e-4);
/// ```
#[must_use]
pub fn knurl_blank(teeth: u32, pitch: Length) -> Length {
    pitch * (f64::from(teeth) / PI)
}

/// Formula of [`burnishing_time`].
pub const BURNISHING_TIME: Formula =
    Formula { figure: "burnishing time", text: "t = i * L / (f * n)", source: "common-practice" };

/// Time to burnish a diameter with rollers.
///
/// t = i * L / (f * n)
///
/// # Symbols
/// t time. i passes. L path, approach included. f feed per revolution, of all rollers together. n spindle speed.
/// # Range
/// f and n above zero.
/// # Source
/// [common-practice]. Worked examples: tests/published/turning.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::burnishing_time;
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let time = burnishing_time(Length::mm(60.0), FeedPerRev::mm_per_rev(0.3), SpindleSpeed::rpm(1000.0), 2);
/// assert!((time.to_s() - 24.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn burnishing_time(path: Length, feed: FeedPerRev, speed: SpindleSpeed, passes: u32) -> Duration {
    turning_time(path, feed, speed) * f64::from(passes)
}
