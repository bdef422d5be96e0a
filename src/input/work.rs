//! The work of a cut from its table: `turn = { from = "18 mm", to = "14.5 mm", length = "120 mm" }`.

use super::read::{self, Bounds};
use super::tree::Table;
use super::{Fields, Spanned};
use crate::cutting::hobbing::Hand;
use crate::cycle::{MillShape, Work};
use crate::diag::{Code, Diagnostic, Diagnostics};
use crate::quantity::{Length, Range};

/// Path before a cut at feed where none is given.
const APPROACH: Length = Length::mm(2.0);

/// Reads the work of a kind.
pub(super) fn work(kind: &str, table: &Table, diagnostics: &mut Diagnostics) -> Option<Work> {
    let mut fields = Fields::new(table, "work", diagnostics);
    let work = match kind {
        "turn" | "bore" => along(kind, &mut fields),
        "face" | "part" | "groove" => across(kind, &mut fields),
        "thread" => thread(&mut fields),
        "drill" | "ream" | "tap" => hole(kind, &mut fields),
        "mill" => mill(&mut fields),
        _ => hob(&mut fields),
    };
    fields.finish();
    work
}

fn length(fields: &mut Fields<'_, '_>, key: &'static str) -> Option<Length> {
    fields.required(key, read::quantity::<Length>(Bounds::Positive)).map(|length| length.value)
}

fn length_or(fields: &mut Fields<'_, '_>, key: &'static str, otherwise: Length) -> Length {
    fields
        .optional(key, read::quantity::<Length>(Bounds::NotNegative))
        .map_or(otherwise, |length| length.value)
}

/// `from` and `to` as a range, `from` being the larger if metal is cut from outside.
fn diameters(fields: &mut Fields<'_, '_>, side: Side) -> Option<Range<Length>> {
    let from = fields.required("from", read::quantity::<Length>(Bounds::NotNegative));
    let to = fields.required("to", read::quantity::<Length>(Bounds::NotNegative));
    let (from, to): (Spanned<Length>, Spanned<Length>) = (from?, to?);
    let (low, high) = match side {
        Side::FromOutside => (&to, &from),
        Side::FromInside => (&from, &to),
    };
    if low.value < high.value {
        return Some(Range { low: low.value, high: high.value });
    }
    let expected = match side {
        Side::FromOutside => "expected less than `from`",
        Side::FromInside => "expected more than `from`",
    };
    fields.diagnostics().push(
        Diagnostic::new(Code::Geometry, "these diameters leave nothing to cut")
            .at(to.span, expected)
            .also(from.span, "`from` is here")
            .help("`from` and `to` are diameters before and after the cut"),
    );
    None
}

/// From which side metal is cut.
#[derive(Clone, Copy)]
enum Side {
    FromOutside,
    FromInside,
}

fn along(kind: &str, fields: &mut Fields<'_, '_>) -> Option<Work> {
    let inside = kind == "bore";
    let diameters = diameters(fields, if inside { Side::FromInside } else { Side::FromOutside });
    let length = length(fields, "length");
    let approach = length_or(fields, "approach", APPROACH);
    let (diameters, length) = (diameters?, length?);
    Some(if inside {
        Work::Bore { diameters, length, approach }
    } else {
        Work::Turn { diameters, length, approach }
    })
}

fn across(kind: &str, fields: &mut Fields<'_, '_>) -> Option<Work> {
    let diameters = diameters(fields, Side::FromOutside);
    match kind {
        "face" => {
            let depth = length(fields, "depth");
            Some(Work::Face { diameters: diameters?, depth: depth? })
        }
        "groove" => {
            let width = length(fields, "width");
            let dwell = fields.optional("dwell", read::number(Bounds::NotNegative));
            let dwell = dwell.map_or(0.0, |dwell| dwell.value);
            Some(Work::Groove { diameters: diameters?, width: width?, dwell })
        }
        _ => Some(Work::Part { diameters: diameters? }),
    }
}

fn thread(fields: &mut Fields<'_, '_>) -> Option<Work> {
    let diameter = length(fields, "diameter");
    let pitch = length(fields, "pitch");
    let along = length(fields, "length");
    let passes = fields.optional("passes", read::count).map(|passes| passes.value);
    let run_in = fields.optional("run_in", read::quantity::<Length>(Bounds::NotNegative));
    let run_out = fields.optional("run_out", read::quantity::<Length>(Bounds::NotNegative));
    let internal = fields.optional("internal", read::flag).is_some_and(|internal| internal.value);
    let pitch = pitch?;
    Some(Work::Thread {
        diameter: diameter?,
        pitch,
        length: along?,
        passes,
        // The axis must be up to speed before the thread and may stop only behind it.
        run_in: run_in.map_or(pitch * 3.0, |path| path.value),
        run_out: run_out.map_or(pitch, |path| path.value),
        internal,
    })
}

fn hole(kind: &str, fields: &mut Fields<'_, '_>) -> Option<Work> {
    let depth = length(fields, "depth");
    let holes = fields.optional("holes", read::count).map_or(1, |holes| holes.value);
    let approach = length_or(fields, "approach", APPROACH);
    match kind {
        "drill" => {
            let through = length_or(fields, "through", Length::ZERO);
            Some(Work::Drill { depth: depth?, holes, approach, through })
        }
        "ream" => Some(Work::Ream { depth: depth?, holes, approach }),
        _ => {
            let pitch = length(fields, "pitch");
            Some(Work::Tap { depth: depth?, pitch: pitch?, holes, approach })
        }
    }
}

fn mill(fields: &mut Fields<'_, '_>) -> Option<Work> {
    let shape = fields.required("shape", read::choice(&MillShape::NAMES));
    let along = length(fields, "length");
    let width = length(fields, "width");
    let depth = length(fields, "depth");
    let offset = length_or(fields, "offset", Length::ZERO);
    Some(Work::Mill { shape: shape?.value, length: along?, width: width?, depth: depth?, offset })
}

fn hob(fields: &mut Fields<'_, '_>) -> Option<Work> {
    let cuts = fields.optional("cuts", read::count).map_or(1, |cuts| cuts.value);
    let overrun = fields.optional("overrun", read::quantity::<Length>(Bounds::NotNegative));
    let hands = [("same", Hand::Same), ("opposite", Hand::Opposite)];
    let hand = fields.optional("hand", read::choice(&hands));
    let spacer = length_or(fields, "spacer", Length::ZERO);
    Some(Work::Hob {
        cuts,
        overrun: overrun.map(|overrun| overrun.value),
        hand: hand.map_or(Hand::Same, |hand| hand.value),
        spacer,
    })
}
