//! How long an edge keeps what the drawing asks: size by drift and offset, finish by the growing wear land.

use super::super::limits::size_tolerance;
use super::super::process::Motion;
use super::super::setting::Setting;
use super::super::work::{TurningWork, Work};
use crate::cutting::finish::mean_roughness;
use crate::quantity::{Angle, FeedPerRev, Formula, Length, Record, Roughness, Term};
use crate::tooling::LifeLaw;
use crate::tooling::replacement::{SIZE_DRIFT, WEAR_FOR_DRIFT, size_drift, wear_for_drift};

/// What of the drawing an edge keeps, by share of its life.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Kept {
    /// The size, where a tolerance is asked of a turned or bored diameter.
    pub drift: Option<Drift>,
    /// Share of the life at which the finish asked is lost; `None` where none is asked or it lasts.
    pub finish: Option<f64>,
}

/// Drift of a diameter while the edge wears.
#[derive(Debug, Clone, PartialEq)]
pub struct Drift {
    /// Tolerance of the diameter.
    pub tolerance: Length,
    /// Drift that is let be before the offset is corrected.
    pub step: Length,
    /// Clearance angle of the edge.
    pub clearance: Angle,
    /// Drift of the diameter at the end of the life.
    pub whole: Length,
    /// Shares of the life at which the offset is corrected.
    pub due: Vec<f64>,
    /// Share of the life at which no correction is left; `None` if the size is kept to the end.
    pub limit: Option<f64>,
}

/// Drift let be before a correction.
pub(super) const DRIFT_STEP: Formula = Formula {
    figure: "drift before the offset is corrected",
    text: "Delta = s * IT",
    source: "common-practice",
};

/// Wear land at which the finish is lost.
pub(super) const FINISH_LOST: Formula = Formula {
    figure: "share of the wear land at which the finish is lost",
    text: "u_VB = (Ra_asked / Ra - 1) / (w - 1)",
    source: "common-practice",
};

/// Most corrections that are worked out for an edge.
const MOST_LISTED: u32 = 5000;

/// What of the drawing the edge of a cut keeps, and how long.
pub(in crate::cycle) fn kept(
    at: &Setting<'_>,
    motion: &Motion,
    law: &LifeLaw,
    record: &mut impl Record,
) -> Kept {
    if !matches!(
        at.cut.work,
        Work::Turning(TurningWork::Along { .. } | TurningWork::Profile { .. } | TurningWork::Face { .. })
    ) {
        return Kept::default();
    }
    Kept { drift: drift(at, motion, law, record), finish: finish(at, motion, law, record) }
}

/// Share of the life of this cut's edge at which its land has come to so much of the land of the law.
fn age_at(at: &Setting<'_>, law: &LifeLaw, land: f64) -> f64 {
    let curve = &law.curve.value;
    let whole = match (at.cut.wear, law.wear) {
        (Some(own), Some(stated)) => curve.age_at(own / stated),
        _ => 1.0,
    };
    curve.age_at(land) / whole
}

fn drift(at: &Setting<'_>, motion: &Motion, law: &LifeLaw, record: &mut impl Record) -> Option<Drift> {
    let land = law.wear?;
    let clearance = at.tool().clearance().filter(|angle| angle.to_deg() > 0.0)?;
    if matches!(at.cut.work, Work::Turning(TurningWork::Face { .. })) {
        return None;
    }
    let tolerance = size_tolerance(at, motion)?;
    let share = at.cut.offset.share.value();
    let step = tolerance * share;
    record.step(&DRIFT_STEP, step.into(), || vec![("s", Term::Plain(share)), ("IT", tolerance.into())]);
    let end = at.cut.wear.unwrap_or(land);
    let whole = size_drift(end, clearance);
    record.step(&SIZE_DRIFT, whole.into(), || vec![("VB", end.into()), ("alpha", clearance.into())]);
    let gauged = at.operation.gauge.is_some();
    let most = at.cut.offset.most.unwrap_or(if gauged { u32::MAX } else { 0 });
    let age = |steps: u32| age_at(at, law, wear_for_drift(step * f64::from(steps), clearance) / land);
    let due: Vec<f64> = (1..=most.min(MOST_LISTED)).map(age).take_while(|age| *age < 1.0 - 1e-9).collect();
    let limit = most.checked_add(1).map(age).filter(|age| *age < 1.0);
    if limit.is_some() {
        let steps = most.saturating_add(1);
        let drifted = step * f64::from(steps);
        let worn = wear_for_drift(drifted, clearance);
        record.step(&WEAR_FOR_DRIFT, worn.into(), || {
            vec![("Delta D", drifted.into()), ("alpha", clearance.into())]
        });
    }
    Some(Drift { tolerance, step, clearance, whole, due, limit })
}

/// The tool says how much rougher a worn edge cuts; between new and worn the roughness grows with the land.
fn finish(at: &Setting<'_>, motion: &Motion, law: &LifeLaw, record: &mut impl Record) -> Option<f64> {
    let asked = at.cut.asked.roughness?;
    let worn = at.tool().worn_finish.filter(|worn| *worn > 1.0)?;
    let radius = at.tool().geometry.corner_radius.filter(|radius| *radius > Length::ZERO)?;
    let roughing = FeedPerRev::mm_per_rev(motion.advance.to_mm());
    let fresh: Roughness =
        mean_roughness(at.cut.work.finish().map_or(roughing, |finish| finish.feed), radius);
    let land = ((asked / fresh - 1.0) / (worn - 1.0)).max(0.0);
    record.step(&FINISH_LOST, Term::Plain(land), || {
        vec![("Ra_asked", asked.into()), ("Ra", fresh.into()), ("w", Term::Plain(worn))]
    });
    Some(age_at(at, law, land)).filter(|age| *age < 1.0)
}
