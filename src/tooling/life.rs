//! Tool life by extended Taylor, written as a reference cut and exponents.

use super::Sourced;
use crate::quantity::{CuttingSpeed, Duration, FeedRate, Formula, Length, Range, SpecificVolume};

/// Life of the reference cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ReferenceLife {
    /// Minutes in cut.
    Time(Duration),
    /// Path fed (drills, taps), or gear tooth cut by each hob tooth (hobs).
    Path(Length),
    /// Volume ground by each millimetre of wheel width from one dressing to the next (wheels).
    Volume(SpecificVolume),
}

/// How an edge lasts in one group of work material: a reference cut and the exponents of V T^n f^a d^b = C.
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
    /// Key of the coolant state of the reference cut.
    pub coolant: String,
    /// Exponent n of the life; infinite where the life does not depend on the speed.
    pub n: Sourced<f64>,
    /// Exponent a of the feed.
    pub feed_exponent: f64,
    /// Exponent b of the depth.
    pub depth_exponent: f64,
    /// Speeds for which the law is trusted.
    pub speeds: Range<CuttingSpeed>,
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
    /// Product of all factors on the speed at equal life.
    pub speed_factor: f64,
}

/// Factors on the cutting speed at equal life, each relative to the reference cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedFactors {
    /// Material against the reference material of its group.
    pub material: f64,
    /// Hardness of the part against the usual hardness of its material.
    pub hardness: f64,
    /// Coolant against the coolant of the reference cut.
    pub coolant: f64,
    /// Circumstances of the cut.
    pub condition: f64,
}

impl SpeedFactors {
    /// All of them together.
    #[must_use]
    pub fn product(self) -> f64 {
        self.material * self.hardness * self.coolant * self.condition
    }
}

/// The joint factor of [`SpeedFactors`].
pub const SPEED_FACTOR: Formula = Formula {
    figure: "factor on speed",
    text: "k = k_material * k_hardness * k_coolant * k_condition",
    source: "common-practice",
};

/// [`tool_life`].
pub const ACTUAL_LIFE: Formula = Formula {
    figure: "tool life",
    text: "T = T_0 * (k * V_0 / V)^(1/n) * (f_0 / f)^(a/n) * (d_0 / d)^(b/n)",
    source: "taylor-1907",
};

/// Tool life: minutes in cut until an edge is worn to its stated wear land.
///
/// V T^n f^a d^b = C written about a reference cut: T = T_0 (k V_0 / V)^(1/n) (f_0 / f)^(a/n) (d_0 / d)^(b/n)
///
/// # Symbols
/// V cutting speed; f feed; d depth; T life; index 0 the reference cut; k factor on the speed at equal life; n, a, b exponents.
/// Feed or depth that the law or the cut does not state drops out.
/// # Range
/// Speeds within `law.speeds` times the factor; outside, the value stands with a caution.
/// # Source
/// [taylor-1907], \[sharma\]
/// # Example
/// ```
/// use wearland::quantity::{CuttingSpeed, Duration, Length, Range};
/// use wearland::tooling::{CutConditions, LifeLaw, ReferenceLife, Sourced, Standing, tool_life};
/// fn given<T>(value: T) -> Sourced<T> {
///     Sourced { value, source: "scenario".into(), at: None, standing: Standing::Given }
/// }
/// // V T^0.25 = 400: 400 m/min lasts 1 min, 200 m/min lasts 16 min.
/// let law = LifeLaw {
///     speed: given(CuttingSpeed::m_per_min(400.0)), feed: None, depth: None,
///     life: given(ReferenceLife::Time(Duration::min(1.0))), wear: None, coolant: "dry".into(),
///     n: given(0.25), feed_exponent: 0.0, depth_exponent: 0.0,
///     speeds: Range { low: CuttingSpeed::m_per_min(100.0), high: CuttingSpeed::m_per_min(400.0) },
/// };
/// let cut = CutConditions { speed: CuttingSpeed::m_per_min(200.0), feed: None, depth: None, speed_factor: 1.0 };
/// assert!((tool_life(&law, Duration::min(1.0), &cut).to_min() - 16.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn tool_life(law: &LifeLaw, reference: Duration, cut: &CutConditions) -> Duration {
    let n = law.n.value;
    let by_speed = (cut.speed_factor * (law.speed.value / cut.speed)).powf(1.0 / n);
    reference
        * by_speed
        * ratio(law.feed, cut.feed).powf(law.feed_exponent / n)
        * ratio(law.depth, cut.depth).powf(law.depth_exponent / n)
}

fn ratio(reference: Option<Length>, actual: Option<Length>) -> f64 {
    match (reference, actual) {
        (Some(reference), Some(actual)) if actual > Length::ZERO => reference / actual,
        _ => 1.0,
    }
}

/// [`reference_life`] of a path.
pub const REFERENCE_PATH_LIFE: Formula =
    Formula { figure: "life of the reference cut", text: "T_0 = L_0 / v_f0", source: "common-practice" };

/// Life of the reference cut in minutes: as stated, or the stated path at the feed rate of the reference cut.
///
/// T_0 = L_0 / v_f0
///
/// # Symbols
/// L_0 path until worn; v_f0 feed rate of the reference cut.
/// # Range
/// Positive feed rate.
/// # Source
/// [common-practice]: a drill's life is kept in metres drilled.
/// # Example
/// ```
/// use wearland::quantity::{FeedRate, Length};
/// use wearland::tooling::{ReferenceLife, reference_life};
/// let life = reference_life(ReferenceLife::Path(Length::m(20.0)), FeedRate::mm_per_min(500.0));
/// assert!((life.to_min() - 40.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn reference_life(life: ReferenceLife, feed_rate: FeedRate) -> Duration {
    match life {
        ReferenceLife::Time(time) => time,
        ReferenceLife::Path(path) => Duration::min(path.to_mm() / feed_rate.to_mm_per_min()),
        // A wheel is not worn by the minute.
        ReferenceLife::Volume(_) => Duration::ZERO,
    }
}

/// [`pieces_per_edge`].
pub const PIECES_PER_EDGE: Formula =
    Formula { figure: "pieces per edge", text: "N = floor(1 / w)", source: "groover" };

/// Share of a life that one piece takes.
pub const WEAR_SHARE: Formula =
    Formula { figure: "share of a life", text: "w = sum over passes of t_i / T_i", source: "groover" };

/// Share of a dressing interval that one piece takes.
pub const WHEEL_SHARE: Formula = Formula {
    figure: "share of a dressing interval",
    text: "w = V'_w / V'_w,max",
    source: "common-practice",
};

/// Pieces a hob edge makes, before rounding down.
pub const HOB_EDGE_PIECES: Formula = Formula {
    figure: "pieces per sharpening",
    text: "p = K * (k * V_0 / V)^(1/n) * (f_0 / f)^(a/n) * (V / V_0) * (f / f_0) * N_z * cos(beta) / (z * b)",
    source: "hob-working-conditions",
};

/// Whole pieces one edge makes: never rounded up.
///
/// N = floor(T / t_c)
///
/// # Symbols
/// T life; t_c time in cut for a piece. The count is given from the share of a life that one piece takes, t_c / T.
/// # Range
/// Zero means that an edge does not last one piece.
/// # Source
/// \[groover\]
/// # Example
/// ```
/// use wearland::tooling::pieces_per_edge;
/// assert_eq!(pieces_per_edge(2.3 / 15.0), 6);
/// assert_eq!(pieces_per_edge(0.25), 4); // exactly four: the edge is used up by the fourth piece
/// assert_eq!(pieces_per_edge(1.2), 0);
/// ```
#[must_use]
pub fn pieces_per_edge(share: f64) -> u32 {
    if share <= 0.0 {
        return u32::MAX;
    }
    let pieces = (1.0 / share * (1.0 + 1e-9)).floor();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the range of u32"
    )]
    let whole = pieces.clamp(0.0, f64::from(u32::MAX)) as u32;
    whole
}
