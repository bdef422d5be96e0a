//! A drill eased for the depth of its hole before anything else is worked out.

use super::item::{Cut, Feed};
use super::setting::Setting;
use super::work::{DeepHoles, HoleKind, HoleWork, Work};
use crate::cutting::drilling::{DEEP_HOLE, deep_hole};
use crate::quantity::{Caution, Length, Range, Record, Term};

/// Depth over diameter up to which the guide for deep holes has rows.
const DEEPEST: f64 = 6.0;

/// The cut with speed and feed reduced for its depth, and a caution where the guide ends; `None` where nothing is asked.
pub(super) fn eased(at: &Setting<'_>, record: &mut impl Record) -> Option<(Cut, Option<Caution>)> {
    let Work::Hole(work) = &at.cut.work else { return None };
    let HoleKind::Drill { depth, through, pecks, deep_hole: DeepHoles::Reduced } = work.kind else {
        return None;
    };
    let diameter = at.tool().geometry.diameter?;
    let ratio = depth / diameter;
    let share = deep_hole(ratio);
    let terms = || vec![("h", depth.into()), ("D", diameter.into())];
    let mut cut = at.cut.clone();
    cut.speed = cut.speed * share.speed;
    cut.feed = cut.feed.map(|feed: Feed| feed.times(share.feed));
    record.step(&DEEP_HOLE, Term::Plain(share.speed), terms);
    record.step(&DEEP_HOLE, Term::Plain(share.feed), terms);
    let kind = HoleKind::Drill { depth, through, pecks, deep_hole: DeepHoles::AsGiven };
    cut.work = Work::Hole(HoleWork { kind, ..work.clone() });
    let covered = Range { low: Length::ZERO, high: diameter * DEEPEST };
    let remark = "the reductions for deep holes end at 6 diameters, and those are kept";
    let caution = covered.check("depth of the hole", depth, remark, "hss-drill-guide");
    Some((cut, caution))
}
