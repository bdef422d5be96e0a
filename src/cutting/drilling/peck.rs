//! Drilling in pecks, with full retract or with a short lift that breaks the chip.

use crate::quantity::{Duration, FeedRate, Formula, Length};

use super::super::turning::{pass_count, travel_time};

/// How far the drill comes back after a peck.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Retract {
    /// Out to the start plane, to clear the chips.
    Full,
    /// A short lift in the hole, to break the chip.
    Chip,
}

/// A hole drilled in pecks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PeckCycle {
    /// Depth of the tip below the face at the end.
    pub depth: Length,
    /// Depth of each peck; the last may be less.
    pub peck: Length,
    /// Start plane above the face.
    pub clearance: Length,
    /// Fed again before each peck but the first: distance kept from the bottom after a full retract, or the lift.
    pub back_off: Length,
    /// What happens after a peck.
    pub retract: Retract,
}

/// Formula of [`peck_count`].
pub const PECK_COUNT: Formula = Formula { figure: "pecks", text: "m = ceil(h / q)", source: "derived" };

/// Number of pecks.
///
/// m = ceil(h / q)
///
/// # Symbols
/// m pecks. h depth. q depth of a peck.
/// # Range
/// q above zero.
/// # Source
/// \[derived\]. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::{PeckCycle, Retract, peck_count};
/// use wearland::quantity::Length;
/// let cycle = PeckCycle {
///     depth: Length::mm(50.0),
///     peck: Length::mm(12.0),
///     clearance: Length::mm(2.0),
///     back_off: Length::mm(0.5),
///     retract: Retract::Full,
/// };
/// assert_eq!(peck_count(&cycle), 5);
/// ```
#[must_use]
pub fn peck_count(cycle: &PeckCycle) -> u32 {
    pass_count(cycle.depth, cycle.peck)
}

/// Formula of [`peck_feed_path`].
pub const PECK_FEED_PATH: Formula =
    Formula { figure: "path in feed", text: "L_f = h + c + (m - 1) * d", source: "derived" };

/// Path in feed over all pecks.
///
/// L_f = h + c + (m - 1) * d
///
/// # Symbols
/// L_f path in feed. h depth. c start plane above the face. m pecks. d back-off, fed again before each further peck.
/// # Range
/// One peck gives the path of a plain feed.
/// # Source
/// \[derived\]. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::{PeckCycle, Retract, peck_feed_path};
/// use wearland::quantity::Length;
/// let cycle = PeckCycle {
///     depth: Length::mm(50.0),
///     peck: Length::mm(10.0),
///     clearance: Length::mm(2.0),
///     back_off: Length::mm(0.5),
///     retract: Retract::Full,
/// };
/// assert!((peck_feed_path(&cycle).to_mm() - 54.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn peck_feed_path(cycle: &PeckCycle) -> Length {
    cycle.depth + cycle.clearance + cycle.back_off * further_pecks(cycle)
}

/// Formula of [`peck_rapid_path`].
pub const PECK_RAPID_PATH: Formula = Formula {
    figure: "path in rapid",
    text: "full: L_r = q * m * (m - 1) + h + m * c + (m - 1) * (c - d); chip: L_r = h + c + (m - 1) * d",
    source: "derived",
};

/// Path in rapid over all pecks, out of the hole at the end included.
///
/// Full retract: L_r = q * m * (m - 1) + h + m * c + (m - 1) * (c - d); chip break: L_r = h + c + (m - 1) * d
///
/// # Symbols
/// L_r path in rapid. q depth of a peck. m pecks. h depth. c start plane above the face. d back-off.
/// # Range
/// d not above q.
/// # Source
/// \[derived\]: out from each depth to the start plane, back in to d above the bottom. Worked examples:
/// tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::{PeckCycle, Retract, peck_rapid_path};
/// use wearland::quantity::Length;
/// let cycle = PeckCycle {
///     depth: Length::mm(50.0),
///     peck: Length::mm(10.0),
///     clearance: Length::mm(2.0),
///     back_off: Length::mm(0.5),
///     retract: Retract::Full,
/// };
/// assert!((peck_rapid_path(&cycle).to_mm() - 266.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn peck_rapid_path(cycle: &PeckCycle) -> Length {
    let further = further_pecks(cycle);
    let last = cycle.depth + cycle.clearance;
    match cycle.retract {
        Retract::Full => {
            // Depths of the pecks but the last, once out and once in: 2 * q * (1 + 2 + ... + (m - 1)).
            let between = cycle.peck * (further * (further + 1.0));
            between + last + (cycle.clearance * 2.0 - cycle.back_off) * further
        }
        Retract::Chip => last + cycle.back_off * further,
    }
}

/// Formula of [`peck_time`].
pub const PECK_TIME: Formula =
    Formula { figure: "time of the pecks", text: "t = L_f / v_f + L_r / v_r", source: "derived" };

/// Time of a hole drilled in pecks, out of the hole at the end included.
///
/// t = L_f / v_f + L_r / v_r
///
/// # Symbols
/// t time. L_f path in feed. v_f feed rate. L_r path in rapid. v_r rapid rate.
/// # Range
/// Rates above zero; the axis is taken to reach its rate at once.
/// # Source
/// \[derived\]. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::{PeckCycle, Retract, peck_time};
/// use wearland::quantity::{FeedRate, Length};
/// let cycle = PeckCycle {
///     depth: Length::mm(50.0),
///     peck: Length::mm(10.0),
///     clearance: Length::mm(2.0),
///     back_off: Length::mm(0.5),
///     retract: Retract::Full,
/// };
/// let time = peck_time(&cycle, FeedRate::mm_per_min(159.155), FeedRate::m_per_min(10.0));
/// assert!((time.to_s() - 21.9535).abs() < 1e-3);
/// ```
#[must_use]
pub fn peck_time(cycle: &PeckCycle, feed: FeedRate, rapid: FeedRate) -> Duration {
    travel_time(peck_feed_path(cycle), feed) + travel_time(peck_rapid_path(cycle), rapid)
}

fn further_pecks(cycle: &PeckCycle) -> f64 {
    (f64::from(peck_count(cycle)) - 1.0).max(0.0)
}
