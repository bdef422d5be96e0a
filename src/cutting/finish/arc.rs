//! Surface finish that feed and corner radius leave in turning.

use crate::quantity::{FeedPerRev, Formula, Length, Roughness};

/// Ratio f^2 / (r * Ra) of a row of parabolas, 18 * sqrt(3).
const PARABOLA: f64 = 31.176_914_536_239_79;

/// Formula of [`peak_to_valley`].
pub const PEAK_TO_VALLEY: Formula =
    Formula { figure: "peak to valley", text: "Rt = r - sqrt(r^2 - f^2 / 4)", source: "derived" };

/// Height from peak to valley that a round corner leaves.
///
/// Rt = r - sqrt(r^2 - f^2 / 4)
///
/// # Symbols
/// Rt height from peak to valley. r corner radius. f feed per revolution.
/// # Range
/// f below 2 r, and the arc alone forms the surface. From f = 2 r on the corner radius itself is given.
/// # Source
/// \[derived\]: row of circular arcs. Worked examples: tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::peak_to_valley;
/// use wearland::quantity::{FeedPerRev, Length};
/// let height = peak_to_valley(FeedPerRev::mm_per_rev(0.2), Length::mm(0.8));
/// assert!((height.to_um() - 6.2746).abs() < 1e-4);
/// ```
#[must_use]
pub fn peak_to_valley(feed: FeedPerRev, corner_radius: Length) -> Roughness {
    let (radius, half) = (corner_radius.to_mm(), feed.to_mm_per_rev() / 2.0);
    let half = half.min(radius);
    // Same as r - sqrt(r^2 - f^2/4), without the loss of digits at small feeds.
    let height = half.powi(2) / (radius + (radius.powi(2) - half.powi(2)).sqrt());
    Roughness::um(height * 1000.0)
}

/// Formula of [`peak_to_valley_short`].
pub const PEAK_TO_VALLEY_SHORT: Formula =
    Formula { figure: "peak to valley", text: "Rt = f^2 / (8 * r)", source: "mitsubishi-technical-data" };

/// Height from peak to valley by the short form, the arc taken as a parabola.
///
/// Rt = f^2 / (8 * r)
///
/// # Symbols
/// Rt height from peak to valley. f feed per revolution. r corner radius.
/// # Range
/// f up to about r: there it is 7 % low against the arc; at a quarter of that, 0.4 %.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::peak_to_valley_short;
/// use wearland::quantity::{FeedPerRev, Length};
/// let height = peak_to_valley_short(FeedPerRev::mm_per_rev(0.2), Length::mm(0.8));
/// assert!((height.to_um() - 6.25).abs() < 1e-9);
/// ```
#[must_use]
pub fn peak_to_valley_short(feed: FeedPerRev, corner_radius: Length) -> Roughness {
    Roughness::um(feed.to_mm_per_rev().powi(2) / (8.0 * corner_radius.to_mm()) * 1000.0)
}

/// Formula of [`mean_roughness`].
pub const MEAN_ROUGHNESS: Formula =
    Formula { figure: "mean roughness", text: "Ra = f^2 / (18 * sqrt(3) * r)", source: "derived" };

/// Mean roughness of a row of parabolas, the least that feed and corner radius can leave.
///
/// Ra = f^2 / (18 * sqrt(3) * r), about f^2 / (31.18 * r)
///
/// # Symbols
/// Ra mean roughness. f feed per revolution. r corner radius.
/// # Range
/// f up to about half of r, the arc alone forms the surface. Real work is rougher: built-up edge, vibration, wear.
/// # Source
/// \[derived\]: mean deviation of a parabola from its mean line. Worked examples: tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::mean_roughness;
/// use wearland::quantity::{FeedPerRev, Length};
/// let roughness = mean_roughness(FeedPerRev::mm_per_rev(0.2), Length::mm(0.8));
/// assert!((roughness.to_um() - 1.6038).abs() < 1e-4);
/// ```
#[must_use]
pub fn mean_roughness(feed: FeedPerRev, corner_radius: Length) -> Roughness {
    Roughness::um(feed.to_mm_per_rev().powi(2) / (PARABOLA * corner_radius.to_mm()) * 1000.0)
}

/// Formula of [`feed_for_roughness`].
pub const FEED_FOR_ROUGHNESS: Formula =
    Formula { figure: "feed for roughness", text: "f = sqrt(18 * sqrt(3) * r * Ra)", source: "derived" };

/// Greatest feed that can leave a wanted mean roughness.
///
/// f = sqrt(18 * sqrt(3) * r * Ra), the inverse of [`mean_roughness`]
///
/// # Symbols
/// f feed per revolution. r corner radius. Ra wanted mean roughness.
/// # Range
/// As for the mean roughness.
/// # Source
/// \[derived\]. Worked examples: tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::feed_for_roughness;
/// use wearland::quantity::{Length, Roughness};
/// let feed = feed_for_roughness(Roughness::um(1.6), Length::mm(0.8));
/// assert!((feed.to_mm_per_rev() - 0.19977).abs() < 1e-5);
/// ```
#[must_use]
pub fn feed_for_roughness(roughness: Roughness, corner_radius: Length) -> FeedPerRev {
    FeedPerRev::mm_per_rev((PARABOLA * corner_radius.to_mm() * roughness.to_um() / 1000.0).sqrt())
}

/// Formula of [`mean_roughness_of_arc`].
pub const MEAN_ROUGHNESS_OF_ARC: Formula = Formula {
    figure: "mean roughness",
    text: "Ra = 4 / f * integral from 0 to x_m of (m - z), z = r - sqrt(r^2 - x^2), m the mean of z, z(x_m) = m",
    source: "derived",
};

/// Mean roughness of a row of true circular arcs.
///
/// Ra = 4 / f * integral from 0 to x_m of (m - z) dx, z = r - sqrt(r^2 - x^2), m the mean of z, z(x_m) = m
///
/// # Symbols
/// Ra mean roughness. f feed per revolution. r corner radius. x along the feed. z height above the valley. m height
/// of the mean line. x_m where the arc crosses it.
/// # Range
/// f up to 2 r, beyond that as at 2 r; the arc alone forms the surface.
/// # Source
/// \[derived\], in closed form. Worked examples: tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::mean_roughness_of_arc;
/// use wearland::quantity::{FeedPerRev, Length};
/// let roughness = mean_roughness_of_arc(FeedPerRev::mm_per_rev(0.8), Length::mm(0.8));
/// assert!((roughness.to_um() - 27.089).abs() < 1e-3);
/// ```
#[must_use]
pub fn mean_roughness_of_arc(feed: FeedPerRev, corner_radius: Length) -> Roughness {
    let radius = corner_radius.to_mm();
    let half = (feed.to_mm_per_rev() / 2.0).min(radius);
    // Area under sqrt(r^2 - x^2) from the valley to x.
    let under =
        |x: f64| (x * (radius.powi(2) - x.powi(2)).sqrt() + radius.powi(2) * (x / radius).asin()) / 2.0;
    let mean = radius - under(half) / half;
    let crossing = (mean * (2.0 * radius - mean)).sqrt();
    let valley = under(crossing) - (radius - mean) * crossing;
    Roughness::um(2.0 * valley / half * 1000.0)
}
