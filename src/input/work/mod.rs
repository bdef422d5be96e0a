//! The work of a cut from its table: `turn = { from = "18 mm", to = "14.5 mm", length = "120 mm" }`.

mod gear;
mod grinding;
mod hole;
mod linear;
mod milling;
mod outline;
mod turning;

pub(super) use turning::pitch;

use super::read::{self, Bounds};
use super::tree::Table;
use super::{Fields, Spanned};
use crate::cycle::{Side, Work};
use crate::diag::{Code, Diagnostic, Diagnostics};
use crate::quantity::{Length, Range};

/// Path before a cut at feed where none is given.
const APPROACH: Length = Length::mm(2.0);

/// Most revolutions of a dwell or of a plunged knurl.
const MOST_TURNS: f64 = 1000.0;

/// The kinds of work, each a key of the cut.
pub(super) fn kinds() -> Vec<&'static str> {
    [&turning::KINDS[..], &hole::KINDS, &milling::KINDS, &gear::KINDS, &grinding::KINDS, &linear::KINDS]
        .concat()
}

/// Reads the work of a kind.
pub(super) fn work(kind: &str, table: &Table, diagnostics: &mut Diagnostics) -> Option<Work> {
    let mut fields = Fields::new(table, "work", diagnostics);
    let work = if turning::KINDS.contains(&kind) {
        turning::work(kind, &mut fields)
    } else if hole::KINDS.contains(&kind) {
        hole::work(kind, &mut fields).map(Work::Hole)
    } else if milling::KINDS.contains(&kind) {
        milling::work(kind, &mut fields).map(Work::Milling)
    } else if linear::KINDS.contains(&kind) {
        linear::work(kind, &mut fields).map(Work::Linear)
    } else if grinding::KINDS.contains(&kind) {
        grinding::work(kind, &mut fields).map(Work::Grinding)
    } else {
        gear::work(kind, &mut fields).map(Work::Gear)
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
        Side::Outside => (&to, &from),
        Side::Inside => (&from, &to),
    };
    if low.value < high.value {
        return Some(Range { low: low.value, high: high.value });
    }
    let expected = match side {
        Side::Outside => "expected less than `from`",
        Side::Inside => "expected more than `from`",
    };
    fields.diagnostics().push(
        Diagnostic::new(Code::Geometry, "these diameters leave nothing to cut")
            .at(to.span, expected)
            .also(from.span, "`from` is here")
            .help("`from` and `to` are diameters before and after the cut"),
    );
    None
}
