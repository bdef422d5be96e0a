//! Chips too thin to be cut, depths that only press.

use crate::quantity::{Formula, Length, Range};

/// Share of the edge radius below which a chip no longer forms; 0.2 to 0.4 by material.
pub const EDGE_SHARE: f64 = 0.3;

/// Share of the corner radius below which a depth mostly presses the work away.
pub const CORNER_SHARE: f64 = 1.0 / 3.0;

/// Formula of [`least_chip`].
pub const LEAST_CHIP: Formula =
    Formula { figure: "least chip thickness", text: "h_min = k * r_n, k = 0.2 .. 0.4", source: "memory" };

/// Thinnest chip that an edge cuts; below it the edge rubs.
///
/// h_min = k * r_n
///
/// # Symbols
/// h_min least chip thickness. r_n radius of the cutting edge. k share, 0.2 to 0.4 by material.
/// # Range
/// Metals; the share is less for hard work and greater for soft.
/// # Source
/// \[memory\]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{EDGE_SHARE, least_chip};
/// use wearland::quantity::Length;
/// assert!((least_chip(Length::mm(0.030), EDGE_SHARE).to_mm() - 0.009).abs() < 1e-12);
/// ```
#[must_use]
pub fn least_chip(edge_radius: Length, share: f64) -> Length {
    edge_radius * share
}

/// Radius of an edge: ground sharp, or honed.
///
/// r_n 5 to 15 um ground, 25 to 60 um honed
///
/// # Symbols
/// r_n radius of the cutting edge.
/// # Range
/// Without a figure of the maker.
/// # Source
/// \[memory\].
/// # Example
/// ```
/// use wearland::cutting::limits::usual_edge_radius;
/// let [ground, honed] = usual_edge_radius();
/// assert!(ground.high < honed.low);
/// ```
#[must_use]
pub fn usual_edge_radius() -> [Range<Length>; 2] {
    let range = |low, high| Range { low: Length::mm(low), high: Length::mm(high) };
    [range(0.005, 0.015), range(0.025, 0.060)]
}

/// Formula of [`least_depth`].
pub const LEAST_DEPTH: Formula =
    Formula { figure: "least depth", text: "a_p,min = r / 3", source: "common-practice" };

/// Depth of cut below which a corner radius mostly presses the work away.
///
/// a_p,min = r / 3
///
/// # Symbols
/// a_p depth of cut. r corner radius.
/// # Range
/// Turning and boring. A rule of thumb, not an end of cutting.
/// # Source
/// [common-practice]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::least_depth;
/// use wearland::quantity::Length;
/// assert!((least_depth(Length::mm(1.2)).to_mm() - 0.4).abs() < 1e-12);
/// ```
#[must_use]
pub fn least_depth(corner_radius: Length) -> Length {
    corner_radius * CORNER_SHARE
}
