//! How the wear land grows over the life of an edge.

use super::LifeLaw;
use crate::quantity::{Duration, Formula, Length};
use crate::tooling::{Sourced, Standing};
use thiserror::Error;

/// Mean growth of the land of 15 milling tools, each against its own life to 0.3 mm: share of the life, share of the land.
///
/// Break-in to 0.2 of the life, steady wear to 0.9, rapid wear to the end. The standard deviation between the tools is 0.09 of
/// the land at 0.2 and 0.05 at 0.9.
const MILLED: [(f64, f64); 3] = [(0.2, 0.28), (0.9, 0.88), (1.0, 1.0)];

/// Wear land over time in shares of the life and of the land at its end: straight pieces from the new edge through points
/// that rise, the last one at (1, 1).
#[derive(Debug, Clone, PartialEq)]
pub struct WearCurve(Vec<(f64, f64)>);

/// Points that are no wear curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum WearCurveError {
    /// Wear never heals, and time does not stand still.
    #[error("share of life and share of wear must both rise from point to point, from above 0")]
    NotRising,
    /// The worn edge is the end of the life.
    #[error("the last point must be [1, 1]: at the end of its life an edge is worn")]
    NotWorn,
}

impl WearCurve {
    /// A curve through points: share of the life, share of the wear land. The new edge, (0, 0), is understood.
    ///
    /// # Errors
    /// [`WearCurveError`] where the points do not rise to (1, 1).
    pub fn new(points: Vec<(f64, f64)>) -> Result<Self, WearCurveError> {
        let mut before = (0.0, 0.0);
        for point in &points {
            // Written so that what is not a number is refused as well.
            if !(point.0 > before.0 && point.1 > before.1) {
                return Err(WearCurveError::NotRising);
            }
            before = *point;
        }
        if before == (1.0, 1.0) { Ok(Self(points)) } else { Err(WearCurveError::NotWorn) }
    }

    /// The curve where a law states none: the mean of measured milling tools.
    #[must_use]
    pub fn milled() -> Sourced<Self> {
        Sourced {
            value: Self(MILLED.to_vec()),
            source: "agogino-goebel-2007".to_owned(),
            at: Some("mean of 15 tools, each against its life to 0.3 mm".to_owned()),
            standing: Standing::Secondary,
        }
    }

    /// Its points: share of the life, share of the wear land.
    #[must_use]
    pub fn points(&self) -> &[(f64, f64)] {
        &self.0
    }

    /// Share of the wear land at a share of the life; beyond the end the last slope goes on.
    #[must_use]
    pub fn wear_at(&self, age: f64) -> f64 {
        let (from, to) = self.piece(|point| point.0 >= age);
        from.1 + (age - from.0) * (to.1 - from.1) / (to.0 - from.0)
    }

    /// Share of the life at which the land has reached a share of its end; beyond the end the last slope goes on.
    #[must_use]
    pub fn age_at(&self, wear: f64) -> f64 {
        let (from, to) = self.piece(|point| point.1 >= wear);
        from.0 + (wear - from.1) * (to.0 - from.0) / (to.1 - from.1)
    }

    /// The straight piece that ends at the first point reaching far enough, or the last one.
    fn piece(&self, reaches: impl Fn(&(f64, f64)) -> bool) -> ((f64, f64), (f64, f64)) {
        let last = self.0.len().saturating_sub(1);
        let end = self.0.iter().position(reaches).unwrap_or(last);
        let from = if end == 0 { (0.0, 0.0) } else { self.0[end - 1] };
        (from, self.0[end])
    }
}

/// [`life_at`].
pub const LIFE_AT_LAND: Formula = Formula {
    figure: "tool life to the stated wear land",
    text: "T_VB = T * u, u = age on the wear curve at VB / VB_0",
    source: "iso-3685",
};

/// Share of such a life that one piece takes.
pub const SHARE_AT_LAND: Formula =
    Formula { figure: "share of a life to the stated wear land", text: "w_VB = w / u", source: "iso-3685" };

/// Life to another wear land than that of the law, read off the wear curve; `None` where the law states no land.
///
/// T_VB = T * u, u the age on the wear curve at VB / VB_0
///
/// # Symbols
/// T life to the land VB_0 of the law; VB the land asked for; u share of the life.
/// # Range
/// VB up to VB_0. Beyond, the last slope of the curve goes on, and real edges may fail at once.
/// # Source
/// [iso-3685]: a life is read where the wear curve crosses the land; curve from [agogino-goebel-2007]
/// # Example
/// ```
/// use wearland::quantity::{Duration, Length};
/// use wearland::tooling::WearCurve;
/// // A land of 0.2 mm of 0.3 mm is reached after 0.65 of the life.
/// let life = Duration::min(15.0) * WearCurve::milled().value.age_at(Length::mm(0.2) / Length::mm(0.3));
/// assert!((life.to_min() - 9.767).abs() < 0.001);
/// ```
#[must_use]
pub fn life_at(law: &LifeLaw, life: Duration, land: Length) -> Option<Duration> {
    Some(life * law.curve.value.age_at(land / law.wear?))
}

#[cfg(test)]
mod tests {
    use super::{WearCurve, WearCurveError};

    #[test]
    fn curves_rise_to_the_worn_edge() {
        for bad in
            [vec![(0.5, 0.6), (0.4, 0.8), (1.0, 1.0)], vec![(0.5, 0.0), (1.0, 1.0)], vec![(f64::NAN, 0.5)]]
        {
            assert_eq!(WearCurve::new(bad), Err(WearCurveError::NotRising));
        }
        for short in [vec![], vec![(0.5, 0.5)], vec![(1.0, 1.0), (1.2, 1.4)]] {
            assert_eq!(WearCurve::new(short), Err(WearCurveError::NotWorn));
        }
        let own = WearCurve::milled().value;
        assert_eq!(WearCurve::new(own.points().to_vec()), Ok(own));
    }

    #[test]
    fn age_and_wear_are_each_others_inverse() {
        let curve = WearCurve::new(vec![(0.1, 0.35), (0.9, 0.8), (1.0, 1.0)]).unwrap();
        for (age, wear) in [(0.0, 0.0), (0.05, 0.175), (0.1, 0.35), (0.5, 0.575), (1.0, 1.0), (1.1, 1.2)] {
            assert!((curve.wear_at(age) - wear).abs() < 1e-12, "{age}");
            assert!((curve.age_at(wear) - age).abs() < 1e-12, "{wear}");
        }
    }
}
