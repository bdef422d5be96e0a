//! Spindle speed, cutting speed, feed rate.

use std::f64::consts::PI;

use crate::quantity::{CuttingSpeed, FeedPerRev, FeedRate, Formula, Length, SpindleSpeed};

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
