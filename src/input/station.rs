//! The work of a station from its table.

use super::Fields;
use super::read::{self, Bounds};
use super::tree::Table;
use crate::cutting::station::Conveyor;
use crate::cycle::StationWork;
use crate::diag::{Code, Diagnostic, Diagnostics};
use crate::quantity::{Duration, FeedRate, Length};

/// The kinds of station work, each a key of the operation.
pub(super) const KINDS: [&str; 5] = ["fixed", "batch", "slots", "sample", "conveyor"];

pub(super) fn station(kind: &str, table: &Table, diagnostics: &mut Diagnostics) -> Option<StationWork> {
    let mut fields = Fields::new(table, "station work", diagnostics);
    let work = if kind == "conveyor" { conveyor(&mut fields) } else { timed(kind, &mut fields) };
    fields.finish();
    work
}

fn timed(kind: &str, fields: &mut Fields<'_, '_>) -> Option<StationWork> {
    let time = fields.required("time", read::quantity::<Duration>(Bounds::Positive));
    let mut count = |key| fields.required(key, read::count).map(|count| count.value);
    let many = match kind {
        "batch" => count("pieces").map(Some),
        "slots" => count("slots").map(Some),
        "sample" => count("every").map(Some),
        _ => Some(None),
    };
    let time = time?.value;
    Some(match (kind, many?) {
        ("batch", Some(pieces)) => StationWork::Batch { time, pieces },
        ("slots", Some(slots)) => StationWork::Slots { time, slots },
        ("sample", Some(every)) => StationWork::Sample { time, every },
        _ => StationWork::Fixed { time },
    })
}

fn conveyor(fields: &mut Fields<'_, '_>) -> Option<StationWork> {
    let length = fields.required("length", read::quantity::<Length>(Bounds::Positive));
    let speed = fields.required("speed", read::quantity::<FeedRate>(Bounds::Positive));
    let spacing = fields.required("spacing", read::quantity::<Length>(Bounds::Positive));
    let abreast = fields.optional("abreast", read::count);
    let (length, spacing) = (length?, spacing?);
    if spacing.value > length.value {
        fields.diagnostics().push(
            Diagnostic::new(Code::Geometry, "the rows are further apart than the conveyor is long")
                .at(spacing.span, "expected at most `length`")
                .also(length.span, "`length` is here"),
        );
        return None;
    }
    Some(StationWork::Conveyor(Conveyor {
        length: length.value,
        speed: speed?.value,
        spacing: spacing.value,
        abreast: abreast.map_or(1, |abreast| abreast.value),
    }))
}
