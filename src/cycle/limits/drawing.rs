//! Roughness and tolerance of the drawing, against feed marks and what the process holds.

use super::super::process::Motion;
use super::super::setting::Setting;
use super::super::work::{HoleKind, Side, TurningWork, Work};
use super::{Held, LimitCheck, LimitOf, Remedy};
use crate::cutting::finish::{MEAN_ROUGHNESS, mean_roughness};
use crate::cutting::limits::{Grade, Process, capability, roughness_range, standard_tolerance};
use crate::quantity::{FeedPerRev, Length, Record, Term};

pub(super) fn check(held: &Held<'_>, limits: &mut Vec<LimitCheck>, record: &mut impl Record) {
    limits.extend(feed_marks(held, record));
    let Some(process) = process(&held.at.cut.work) else { return };
    let asked = held.at.cut.asked;
    let remedy = Remedy::Other("finish by a finer process: ream, grind, hone");
    if let (Some(roughness), Some(range)) = (asked.roughness, roughness_range(process)) {
        let named = ("finish of the process", LimitOf::Rule);
        let check = LimitCheck::at_least(named, roughness, range.low, remedy);
        limits.push(check.sourced("asme-b46-1"));
    }
    if let Some(grade) = asked.grade {
        let finest = f64::from(capability(process).usual.number());
        let named = ("grade of the process", LimitOf::Rule);
        let check = LimitCheck::at_least(named, Term::Plain(f64::from(grade)), Term::Plain(finest), remedy);
        limits.push(check.sourced("memory"));
    }
}

/// The tolerance that the drawing asks of the cut.
pub(in crate::cycle) fn size_tolerance(at: &Setting<'_>, motion: &Motion) -> Option<Length> {
    let asked = at.cut.asked;
    let grade = Grade::it(u8::try_from(asked.grade?).ok()?)?;
    standard_tolerance(grade, asked.size.or_else(|| finished_size(&at.cut.work)).unwrap_or(motion.diameter))
}

/// Diameter that a straight turning cut leaves.
fn finished_size(work: &Work) -> Option<Length> {
    match work {
        Work::Turning(TurningWork::Along { side: Side::Outside, diameters, .. }) => Some(diameters.low),
        Work::Turning(TurningWork::Along { side: Side::Inside, diameters, .. }) => Some(diameters.high),
        _ => None,
    }
}

/// Mean roughness of the feed marks, the least that the cut leaves.
fn feed_marks(held: &Held<'_>, record: &mut impl Record) -> Option<LimitCheck> {
    let most = held.at.cut.asked.roughness?;
    if !matches!(
        held.at.cut.work,
        Work::Turning(TurningWork::Along { .. } | TurningWork::Profile { .. } | TurningWork::Face { .. })
    ) {
        return None;
    }
    let radius = held.at.tool().geometry.corner_radius.filter(|radius| *radius > Length::ZERO)?;
    let roughing = FeedPerRev::mm_per_rev(held.motion.advance.to_mm());
    let feed = held.at.cut.work.finish().map_or(roughing, |finish| finish.feed);
    let marks = mean_roughness(feed, radius);
    record.step(&MEAN_ROUGHNESS, marks.into(), || vec![("f", feed.into()), ("r", radius.into())]);
    let remedy = if held.at.cut.work.finish().is_some() {
        Remedy::Other("lower the feed of the finishing pass")
    } else {
        Remedy::Feed
    };
    Some(LimitCheck::at_most(("roughness Ra", LimitOf::Drawing), marks, most, remedy))
}

/// The process by what it leaves, where the charts name it.
fn process(work: &Work) -> Option<Process> {
    match work {
        Work::Turning(turning) => match turning {
            TurningWork::Along { side: Side::Inside, .. } => Some(Process::Boring),
            TurningWork::Along { .. } | TurningWork::Profile { .. } | TurningWork::Face { .. } => {
                Some(Process::Turning)
            }
            _ => None,
        },
        Work::Hole(hole) => {
            if matches!(hole.kind, HoleKind::Drill { .. }) {
                return Some(Process::Drilling);
            }
            matches!(hole.kind, HoleKind::Ream { .. }).then_some(Process::Reaming)
        }
        Work::Milling(_) => Some(Process::Milling),
        _ => None,
    }
}
