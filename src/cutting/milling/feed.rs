//! Feed of a milling cutter and the metal it removes.

use crate::quantity::{Angle, FeedPerTooth, FeedRate, Formula, Length, RemovalRate, SpindleSpeed};

/// Formula of [`table_feed`].
pub const TABLE_FEED: Formula =
    Formula { figure: "feed rate", text: "v_f = f_z * z * n", source: "mitsubishi-technical-data" };

/// Feed rate of a milling cutter.
///
/// v_f = f_z * z * n
///
/// # Symbols
/// v_f feed rate. f_z feed per tooth. z teeth that cut. n spindle speed.
/// # Range
/// Any.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::table_feed;
/// use wearland::quantity::{FeedPerTooth, SpindleSpeed};
/// let rate = table_feed(FeedPerTooth::inch_per_tooth(0.004), 10, SpindleSpeed::rpm(500.0));
/// assert!((rate.to_inch_per_min() - 20.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn table_feed(feed: FeedPerTooth, teeth: u32, speed: SpindleSpeed) -> FeedRate {
    FeedRate::mm_per_min(feed.to_mm_per_tooth() * f64::from(teeth) * speed.to_rpm())
}

/// Formula of [`milling_removal_rate`].
pub const MILLING_REMOVAL_RATE: Formula =
    Formula { figure: "removal rate", text: "Q = a_p * a_e * v_f", source: "mitsubishi-technical-data" };

/// Metal removed in a time by milling.
///
/// Q = a_p * a_e * v_f
///
/// # Symbols
/// Q removal rate. a_p depth along the cutter's axis. a_e engagement. v_f feed rate.
/// # Range
/// Any; while the cutter is fully engaged.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::milling_removal_rate;
/// use wearland::quantity::{FeedRate, Length};
/// let rate = milling_removal_rate(Length::mm(3.0), Length::mm(100.0), FeedRate::mm_per_min(500.0));
/// assert!((rate.to_cm3_per_min() - 150.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn milling_removal_rate(depth: Length, engagement: Length, rate: FeedRate) -> RemovalRate {
    RemovalRate::cm3_per_min(depth.to_mm() * engagement.to_mm() * rate.to_mm_per_min() / 1000.0)
}

/// Formula of [`feed_per_tooth`].
pub const FEED_PER_TOOTH: Formula =
    Formula { figure: "feed per tooth", text: "f_z = v_f / (z * n)", source: "mitsubishi-technical-data" };

/// Feed per tooth of a cutter that runs at a feed rate, the inverse of [`table_feed`].
///
/// f_z = v_f / (z * n)
///
/// # Symbols
/// f_z feed per tooth. v_f feed rate. z teeth that cut. n spindle speed.
/// # Range
/// z and n above zero.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/milling-cut.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::feed_per_tooth;
/// use wearland::quantity::{FeedRate, SpindleSpeed};
/// let feed = feed_per_tooth(FeedRate::mm_per_min(600.0), 10, SpindleSpeed::rpm(100.0));
/// assert!((feed.to_mm_per_tooth() - 0.6).abs() < 1e-12);
/// ```
#[must_use]
pub fn feed_per_tooth(rate: FeedRate, teeth: u32, speed: SpindleSpeed) -> FeedPerTooth {
    FeedPerTooth::mm_per_tooth(rate.to_mm_per_min() / (f64::from(teeth) * speed.to_rpm()))
}

/// Formula of [`thinning_factor`].
pub const THINNING_FACTOR: Formula = Formula {
    figure: "feed factor",
    text: "K = 1 / (sin(kappa) * 2 * sqrt(x * (1 - x))), x = a_e / D, from x = 1/2 on K = 1 / sin(kappa)",
    source: "derived",
};

/// How many times the chip thickness the feed per tooth is, the cutter working at one edge of the work.
///
/// K = 1 / (sin(kappa) * 2 * sqrt(x * (1 - x))) with x = a_e / D; from x = 1/2 on, K = 1 / sin(kappa)
///
/// # Symbols
/// K factor. kappa edge angle. a_e engagement. D diameter.
/// # Range
/// f_z small against D; a_e above 0. Below about x = 0.02 the edge's own radius and run-out set a limit to the feed.
/// # Source
/// \[derived\], the inverse of the greatest chip thickness. Worked examples: tests/published/milling-cut.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::thinning_factor;
/// use wearland::quantity::{Angle, Length};
/// let factor = thinning_factor(Angle::deg(90.0), Length::mm(10.0), Length::mm(100.0));
/// assert!((factor - 1.667).abs() < 1e-3);
/// ```
#[must_use]
pub fn thinning_factor(edge_angle: Angle, engagement: Length, diameter: Length) -> f64 {
    let share = (engagement / diameter).min(0.5);
    1.0 / (edge_angle.to_rad().sin() * 2.0 * (share * (1.0 - share)).sqrt())
}

/// Formula of [`feed_for_chip_thickness`].
pub const FEED_FOR_CHIP_THICKNESS: Formula =
    Formula { figure: "feed per tooth", text: "f_z = K * h_ex", source: "derived" };

/// Feed per tooth that keeps a wanted greatest chip thickness.
///
/// f_z = K * h_ex, with the factor of [`thinning_factor`]
///
/// # Symbols
/// f_z feed per tooth. K feed factor. h_ex wanted greatest chip thickness.
/// # Range
/// As for the factor.
/// # Source
/// \[derived\]. Worked examples: tests/published/milling-cut.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{feed_for_chip_thickness, thinning_factor};
/// use wearland::quantity::{Angle, Length};
/// let factor = thinning_factor(Angle::deg(45.0), Length::mm(50.0), Length::mm(100.0));
/// let feed = feed_for_chip_thickness(Length::mm(0.08), factor);
/// assert!((feed.to_mm_per_tooth() - 0.11314).abs() < 1e-5);
/// ```
#[must_use]
pub fn feed_for_chip_thickness(wanted: Length, factor: f64) -> FeedPerTooth {
    FeedPerTooth::mm_per_tooth(wanted.to_mm() * factor)
}
