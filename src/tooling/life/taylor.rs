//! Extended Taylor: V T^n f^a d^b = C, written about a reference cut.

use super::ReferenceLife;
use super::{CutConditions, LifeLaw};
use crate::quantity::{Duration, FeedRate, Formula, Length};
use crate::tooling::Sourced;

/// Exponents of V T^n f^a d^b = C.
#[derive(Debug, Clone, PartialEq)]
pub struct ExtendedTaylor {
    /// Exponent n of the life; infinite where the life does not depend on the speed.
    pub n: Sourced<f64>,
    /// Exponent a of the feed.
    pub feed_exponent: f64,
    /// Exponent b of the depth.
    pub depth_exponent: f64,
}

impl ExtendedTaylor {
    /// Life at a cut over the life of the reference cut.
    pub(super) fn life_ratio(&self, law: &LifeLaw, cut: &CutConditions) -> f64 {
        let n = self.n.value;
        (cut.speed_factor * (law.speed.value / cut.speed)).powf(1.0 / n)
            * ratio(law.feed, cut.feed).powf(self.feed_exponent / n)
            * ratio(law.depth, cut.depth).powf(self.depth_exponent / n)
    }
}

fn ratio(reference: Option<Length>, actual: Option<Length>) -> f64 {
    match (reference, actual) {
        (Some(reference), Some(actual)) if actual > Length::ZERO => reference / actual,
        _ => 1.0,
    }
}

/// [`tool_life`](super::tool_life) by extended Taylor.
pub const ACTUAL_LIFE: Formula = Formula {
    figure: "tool life",
    text: "T = T_0 * (k * V_0 / V)^(1/n) * (f_0 / f)^(a/n) * (d_0 / d)^(b/n)",
    source: "taylor-1907",
};

/// [`reference_life`] of a path.
pub const REFERENCE_PATH_LIFE: Formula =
    Formula { figure: "life of the reference cut", text: "T_0 = L_0 / v_f0", source: "common-practice" };

/// Life of the reference cut in minutes: as stated, or the stated path or holes at the feed rate of the reference cut.
///
/// T_0 = L_0 / v_f0
///
/// # Symbols
/// L_0 path until worn; v_f0 feed rate of the reference cut.
/// # Range
/// Positive feed rate.
/// # Source
/// [common-practice]: a drill's life is kept in metres drilled, or in holes of one depth.
/// # Example
/// ```
/// use wearland::quantity::{FeedRate, Length};
/// use wearland::tooling::{ReferenceLife, reference_life};
/// let life = reference_life(ReferenceLife::Path(Length::m(20.0)), FeedRate::mm_per_min(500.0));
/// assert!((life.to_min() - 40.0).abs() < 1e-9);
/// let holes = ReferenceLife::Holes { holes: 800, depth: Length::mm(25.0) };
/// assert_eq!(reference_life(holes, FeedRate::mm_per_min(500.0)), life);
/// ```
#[must_use]
pub fn reference_life(life: ReferenceLife, feed_rate: FeedRate) -> Duration {
    match life {
        ReferenceLife::Time(time) => time,
        // A wheel is not worn by the minute.
        ReferenceLife::Volume(_) => Duration::ZERO,
        ReferenceLife::Path(_) | ReferenceLife::Holes { .. } => {
            let path = life.path().unwrap_or(Length::ZERO);
            Duration::min(path.to_mm() / feed_rate.to_mm_per_min())
        }
    }
}
