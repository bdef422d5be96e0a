//! Slower speed and smaller feed in deep holes.

use crate::quantity::Formula;

/// What is left of speed and feed in a deep hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeepHole {
    /// Share of the cutting speed, up to 1.
    pub speed: f64,
    /// Share of the feed, up to 1.
    pub feed: f64,
}

/// Depth over diameter, share of speed, share of feed.
const STEPS: [(f64, f64, f64); 4] = [(3.0, 0.9, 0.9), (4.0, 0.8, 0.9), (5.0, 0.7, 0.8), (6.0, 0.6, 0.8)];

/// Formula of [`deep_hole`].
pub const DEEP_HOLE: Formula = Formula {
    figure: "share of speed and feed in a deep hole",
    text: "table by h / D: 3: 0.9, 0.9; 4: 0.8, 0.9; 5: 0.7, 0.8; 6: 0.6, 0.8; straight between",
    source: "hss-drill-guide",
};

/// Shares of speed and feed by depth over diameter, for drills of high-speed steel.
///
/// Table by h / D: 3: 0.9, 0.9; 4: 0.8, 0.9; 5: 0.7, 0.8; 6: 0.6, 0.8; straight between, whole below 3
///
/// # Symbols
/// h depth. D diameter.
/// # Range
/// h / D from 3 to 6. Below 3 nothing is taken off; above 6 the guide has no row and the last is kept, so a deeper
/// hole needs pecks and a figure of the shop's own. At 6 the guide takes 35 to 40 % off the speed; 40 is used here.
/// # Source
/// [hss-drill-guide]. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::deep_hole;
/// let share = deep_hole(4.5);
/// assert!((share.speed - 0.75).abs() < 1e-12 && (share.feed - 0.85).abs() < 1e-12);
/// ```
#[must_use]
pub fn deep_hole(depth_over_diameter: f64) -> DeepHole {
    if depth_over_diameter < STEPS[0].0 {
        return DeepHole { speed: 1.0, feed: 1.0 };
    }
    for pair in STEPS.windows(2) {
        let [(low, low_speed, low_feed), (high, high_speed, high_feed)] = [pair[0], pair[1]];
        if depth_over_diameter < high {
            let way = (depth_over_diameter - low) / (high - low);
            return DeepHole {
                speed: low_speed + way * (high_speed - low_speed),
                feed: low_feed + way * (high_feed - low_feed),
            };
        }
    }
    let (_, speed, feed) = STEPS[STEPS.len() - 1];
    DeepHole { speed, feed }
}
