//! Turning, rolling and single-point threads.

use super::super::read::{self, Bounds, Reading};
use super::super::{Fields, Node, Spanned, Value};
use super::{APPROACH, MOST_TURNS, diameters, length, length_or};
use crate::cutting::threading::pitch_of_threads;
use crate::cycle::{FinishPass, Side, SlowFeed, ThreadWork, TurningWork, Work};
use crate::diag::{Code, Diagnostic, Span};
use crate::quantity::{CuttingSpeed, FeedPerRev, Fraction, Length, Range};

/// Keys of this family.
pub(super) const KINDS: [&str; 10] =
    ["turn", "bore", "profile", "face", "part", "groove", "form", "thread", "knurl", "burnish"];

/// Turns of a plunging knurl where none are given.
const KNURL_TURNS: f64 = 20.0;

pub(super) fn work(kind: &str, fields: &mut Fields<'_, '_>) -> Option<Work> {
    match kind {
        "turn" => along(Side::Outside, fields),
        "bore" => along(Side::Inside, fields),
        "profile" => super::outline::profile(fields),
        "face" => face(fields),
        "part" => part(fields),
        "knurl" => knurl(fields),
        "burnish" => burnish(fields),
        "thread" => return thread(fields).map(Work::Thread),
        _ => plunge(kind, fields),
    }
    .map(Work::Turning)
}

/// A last pass to size: `finish = { depth = "0.3 mm", feed = "0.1 mm/rev" }`, with a `speed` of its own if it is given.
pub(super) fn finish(fields: &mut Fields<'_, '_>) -> Option<FinishPass> {
    let table = fields.optional("finish", read::table)?;
    let mut inner = Fields::new(table.value, "finishing pass", fields.diagnostics());
    let depth = length(&mut inner, "depth");
    let feed = inner.required("feed", read::quantity::<FeedPerRev>(Bounds::Positive));
    let speed = inner.optional("speed", read::quantity::<CuttingSpeed>(Bounds::Positive));
    inner.finish();
    Some(FinishPass { depth: depth?, feed: feed?.value, speed: speed.map(|speed| speed.value) })
}

fn along(side: Side, fields: &mut Fields<'_, '_>) -> Option<TurningWork> {
    let diameters = diameters(fields, side);
    let end = fields.optional("end", read::quantity::<Length>(Bounds::Positive));
    let length = length(fields, "length");
    let approach = length_or(fields, "approach", APPROACH);
    let finish = finish(fields);
    let diameters: Range<Length> = diameters?;
    if let Some(end) = &end {
        taper_in_stock(side, diameters, end, fields)?;
    }
    let end = end.map(|end| end.value);
    Some(TurningWork::Along { side, diameters, end, length: length?, approach, finish })
}

/// The far end of a taper must lie inside the metal as its near end does.
fn taper_in_stock(
    side: Side,
    diameters: Range<Length>,
    end: &Spanned<Length>,
    fields: &mut Fields<'_, '_>,
) -> Option<()> {
    let (inside, expected) = match side {
        Side::Outside => (end.value <= diameters.high, "expected no more than `from`"),
        Side::Inside => (end.value >= diameters.low, "expected no less than `from`"),
    };
    if inside {
        return Some(());
    }
    fields.diagnostics().push(
        Diagnostic::new(Code::Geometry, "the taper ends outside the metal")
            .at(end.span, expected)
            .help("`to` is the diameter at the start of the taper, `end` that at its far end"),
    );
    None
}

fn face(fields: &mut Fields<'_, '_>) -> Option<TurningWork> {
    let diameters = diameters(fields, Side::Outside);
    let depth = length(fields, "depth");
    let finish = finish(fields);
    Some(TurningWork::Face { diameters: diameters?, depth: depth?, finish })
}

fn part(fields: &mut Fields<'_, '_>) -> Option<TurningWork> {
    let diameters = diameters(fields, Side::Outside);
    let below = fields.optional("slow_below", read::quantity::<Length>(Bounds::Positive));
    let share = if fields.has("slow_below") {
        fields.required("slow_to", read::share)
    } else {
        fields.optional("slow_to", read::share)
    };
    let diameters: Range<Length> = diameters?;
    let slow = match (below, share) {
        (Some(below), Some(share)) => Some(slow_feed(diameters, below, share, fields)?),
        (None, Some(share)) => {
            wrong(
                fields,
                share.span,
                "needs `slow_below`",
                "`slow_to` says to what, `slow_below` from where",
            );
            return None;
        }
        (_, None) => None,
    };
    Some(TurningWork::Part { diameters, slow })
}

fn slow_feed(
    diameters: Range<Length>,
    below: Spanned<Length>,
    share: Spanned<Fraction>,
    fields: &mut Fields<'_, '_>,
) -> Option<SlowFeed> {
    if below.value > diameters.high {
        wrong(fields, below.span, "expected no more than `from`", "the feed would never be full");
        return None;
    }
    if share.value.value() <= 0.0 {
        wrong(fields, share.span, "expected more than nothing", "a feed of nothing never ends");
        return None;
    }
    Some(SlowFeed { below: below.value, share: share.value })
}

fn wrong(fields: &mut Fields<'_, '_>, span: Span, expected: &'static str, help: &'static str) {
    let message = "the feed near the centre cannot be cut like this";
    fields.diagnostics().push(Diagnostic::new(Code::Geometry, message).at(span, expected).help(help));
}

fn plunge(kind: &str, fields: &mut Fields<'_, '_>) -> Option<TurningWork> {
    let diameters = diameters(fields, Side::Outside);
    let width = length(fields, "width");
    let dwell = fields.optional("dwell", read::number_between(0.0, MOST_TURNS));
    let dwell = dwell.map_or(0.0, |dwell| dwell.value);
    let (diameters, width) = (diameters?, width?);
    Some(if kind == "form" {
        TurningWork::Form { diameters, width, dwell }
    } else {
        TurningWork::Groove { diameters, width, dwell }
    })
}

fn knurl(fields: &mut Fields<'_, '_>) -> Option<TurningWork> {
    let diameter = length(fields, "diameter");
    let along = length(fields, "length");
    let approach = length_or(fields, "approach", APPROACH);
    let revolutions = fields.optional("revolutions", read::number_between(1.0, MOST_TURNS));
    let revolutions = revolutions.map_or(KNURL_TURNS, |turns| turns.value);
    Some(TurningWork::Knurl { diameter: diameter?, length: along?, approach, revolutions })
}

fn burnish(fields: &mut Fields<'_, '_>) -> Option<TurningWork> {
    let diameter = length(fields, "diameter");
    let along = length(fields, "length");
    let approach = length_or(fields, "approach", APPROACH);
    let passes = fields.optional("passes", read::count).map_or(1, |passes| passes.value);
    let side = side(fields);
    Some(TurningWork::Burnish { side, diameter: diameter?, length: along?, approach, passes })
}

fn side(fields: &mut Fields<'_, '_>) -> Side {
    let internal = fields.optional("internal", read::flag).is_some_and(|internal| internal.value);
    if internal { Side::Inside } else { Side::Outside }
}

/// A pitch: a length, or threads for each inch as in `"20 tpi"`.
pub(in crate::input) fn pitch(node: &Node) -> Reading<Length> {
    let per_inch = match &node.value {
        Value::Text(text) => text.trim().strip_suffix("tpi").and_then(|number| number.trim().parse().ok()),
        _ => None,
    };
    match per_inch {
        Some(per_inch) if (0.5..=200.0).contains(&per_inch) => Ok(pitch_of_threads(per_inch)),
        _ => read::quantity::<Length>(Bounds::Positive)(node),
    }
}

fn thread(fields: &mut Fields<'_, '_>) -> Option<ThreadWork> {
    let diameter = length(fields, "diameter");
    let pitch = fields.required("pitch", pitch);
    let along = length(fields, "length");
    let passes = fields.optional("passes", read::count).map(|passes| passes.value);
    let last_pass = fields.optional("last_pass", read::quantity::<Length>(Bounds::Positive));
    let run_in = fields.optional("run_in", read::quantity::<Length>(Bounds::NotNegative));
    let run_out = fields.optional("run_out", read::quantity::<Length>(Bounds::NotNegative));
    let side = side(fields);
    let pitch = pitch?.value;
    Some(ThreadWork {
        diameter: diameter?,
        pitch,
        length: along?,
        passes,
        last_pass: last_pass.map(|last| last.value),
        // The axis must be up to speed before the thread and may stop only behind it.
        run_in: run_in.map_or(pitch * 3.0, |path| path.value),
        run_out: run_out.map_or(pitch, |path| path.value),
        side,
    })
}
