//! The law by which an edge lasts in one group of work material.

use super::{Colding, ExtendedTaylor, WearCurve, colding_life};
use crate::quantity::{CuttingSpeed, Duration, Length, Range, SpecificVolume};
use crate::tooling::{LifeFamily, Sourced};

/// Life of the reference cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ReferenceLife {
    /// Minutes in cut.
    Time(Duration),
    /// Path fed (drills, taps), or gear tooth cut by each hob tooth (hobs).
    Path(Length),
    /// Holes of one depth (drills, taps).
    Holes {
        /// How many.
        holes: u32,
        /// How deep each is.
        depth: Length,
    },
    /// Volume ground by each millimetre of wheel width from one dressing to the next (wheels).
    Volume(SpecificVolume),
}

impl ReferenceLife {
    /// The path fed, where the life is one.
    #[must_use]
    pub fn path(self) -> Option<Length> {
        match self {
            Self::Path(path) => Some(path),
            Self::Holes { holes, depth } => Some(depth * f64::from(holes)),
            Self::Time(_) | Self::Volume(_) => None,
        }
    }
}

/// How the life of other cuts follows.
#[derive(Debug, Clone, PartialEq)]
pub enum LifeShape {
    /// Powers of speed, feed and depth about the reference cut.
    Taylor(ExtendedTaylor),
    /// A curved surface over equivalent chip thickness; it gives the reference cut its speed.
    Colding(Colding),
}

/// How an edge lasts in one group of work material.
#[derive(Debug, Clone, PartialEq)]
pub struct LifeLaw {
    /// Cutting speed of the reference cut.
    pub speed: Sourced<CuttingSpeed>,
    /// Feed of the reference cut, for each revolution or tooth as the tool has it; `None` where the pitch is the feed.
    pub feed: Option<Length>,
    /// Depth of the reference cut.
    pub depth: Option<Length>,
    /// Life of the reference cut.
    pub life: Sourced<ReferenceLife>,
    /// Flank wear land at which the edge is worn.
    pub wear: Option<Length>,
    /// How the land grows up to there.
    pub curve: Sourced<WearCurve>,
    /// Key of the coolant state of the reference cut.
    pub coolant: String,
    /// How the life of other cuts follows.
    pub shape: LifeShape,
    /// Speeds for which the law is trusted.
    pub speeds: Range<CuttingSpeed>,
    /// Feeds for which it is trusted; `None` where none are stated.
    pub feeds: Option<Range<Length>>,
    /// Depths for which it is trusted; `None` where none are stated.
    pub depths: Option<Range<Length>>,
    /// Scatter of the life: its standard deviation over its mean; `None` where unknown.
    pub variation: Option<Sourced<f64>>,
    /// Family of the scatter; `None` where unknown.
    pub family: Option<LifeFamily>,
}

/// The cut whose life is asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutConditions {
    /// Cutting speed.
    pub speed: CuttingSpeed,
    /// Feed for each revolution or tooth.
    pub feed: Option<Length>,
    /// Depth of cut.
    pub depth: Option<Length>,
    /// Equivalent chip thickness; `None` takes that of the reference cut.
    pub chip: Option<Length>,
    /// Product of all factors on the speed at equal life.
    pub speed_factor: f64,
}

/// Tool life: minutes in cut until an edge is worn to its stated wear land.
///
/// V T^n f^a d^b = C written about a reference cut: T = T_0 (k V_0 / V)^(1/n) (f_0 / f)^(a/n) (d_0 / d)^(b/n);
/// or by Colding, [`colding_life`] at the speed V / k.
///
/// # Symbols
/// V cutting speed; f feed; d depth; T life; index 0 the reference cut; k factor on the speed at equal life; n, a, b exponents.
/// Feed or depth that the law or the cut does not state drops out.
/// # Range
/// Speeds within `law.speeds` times the factor, feeds and depths within those of the law; outside, the value stands with a
/// caution.
/// # Source
/// [taylor-1907], \[sharma\], [jmmp-2025-9-189]
/// # Example
/// ```
/// use wearland::quantity::{CuttingSpeed, Duration, Length, Range};
/// use wearland::tooling::{
///     CutConditions, ExtendedTaylor, LifeLaw, LifeShape, ReferenceLife, Sourced, Standing, WearCurve, tool_life,
/// };
/// fn given<T>(value: T) -> Sourced<T> {
///     Sourced { value, source: "scenario".into(), at: None, standing: Standing::Given }
/// }
/// // V T^0.25 = 400: 400 m/min lasts 1 min, 200 m/min lasts 16 min.
/// let law = LifeLaw {
///     speed: given(CuttingSpeed::m_per_min(400.0)), feed: None, depth: None,
///     life: given(ReferenceLife::Time(Duration::min(1.0))), wear: None, curve: WearCurve::milled(),
///     coolant: "dry".into(),
///     shape: LifeShape::Taylor(ExtendedTaylor { n: given(0.25), feed_exponent: 0.0, depth_exponent: 0.0 }),
///     speeds: Range { low: CuttingSpeed::m_per_min(100.0), high: CuttingSpeed::m_per_min(400.0) },
///     feeds: None, depths: None, variation: None, family: None,
/// };
/// let cut = CutConditions {
///     speed: CuttingSpeed::m_per_min(200.0), feed: None, depth: None, chip: None, speed_factor: 1.0,
/// };
/// assert!((tool_life(&law, Duration::min(1.0), &cut).to_min() - 16.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn tool_life(law: &LifeLaw, reference: Duration, cut: &CutConditions) -> Duration {
    match &law.shape {
        LifeShape::Taylor(taylor) => reference * taylor.life_ratio(law, cut),
        LifeShape::Colding(colding) => {
            let chip = cut.chip.unwrap_or(colding.chip);
            colding_life(&colding.constants.value, chip, cut.speed / cut.speed_factor)
        }
    }
}
