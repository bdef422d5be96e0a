//! Counts: what each machine made in a shift, and how long it stood.

use super::head::{Column, Layout};
use super::rows::{Fields, Notation, read_rows};
use crate::diag::{Code, Diagnostic, Diagnostics, FileId, Span};
use crate::input::Spanned;
use crate::input::calendar::date;
use crate::input::read::{self, Bounds, quantity, short};
use crate::quantity::{Duration, Quantity};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// What a machine made of one operation in one shift.
#[derive(Debug, Clone, PartialEq)]
pub struct CountRow {
    /// Day on which the shift began.
    pub date: Spanned<Date>,
    /// Shift, as the scenario calls it.
    pub shift: Spanned<String>,
    /// Machine, as the scenario calls it.
    pub machine: Spanned<String>,
    /// Item, as the scenario calls it.
    pub item: Spanned<String>,
    /// Number of the operation.
    pub operation: Spanned<u32>,
    /// Pieces made, good and bad.
    pub pieces: u32,
    /// Good ones among them, if counted.
    pub good: Option<u32>,
    /// Time the machine stood in the shift, if this row gives it.
    pub stopped: Option<Duration>,
    /// Line of the log.
    pub line: u32,
    /// The row.
    pub span: Span,
}

const LAYOUT: Layout = Layout {
    what: "log of counts",
    columns: &[
        Column { name: "date", kinds: &[] },
        Column { name: "shift", kinds: &[] },
        Column { name: "machine", kinds: &[] },
        Column { name: "item", kinds: &[] },
        Column { name: "operation", kinds: &[] },
        Column { name: "pieces", kinds: &[] },
        Column { name: "good", kinds: &[] },
        Column { name: "stopped", kinds: &[Duration::KIND] },
    ],
    needed: &[&["date"], &["shift"], &["machine"], &["item"], &["operation"], &["pieces"]],
};

/// A machine in a shift of a day.
type Turn = (Date, String, String);

/// Reads the counts of a log.
pub(super) fn counts(
    text: (FileId, &str),
    diagnostics: &mut Diagnostics,
) -> (Option<Vec<CountRow>>, Notation) {
    let mut stops = BTreeMap::new();
    read_rows(text, &LAYOUT, diagnostics, |fields| row(fields, &mut stops))
}

fn row(fields: &mut Fields<'_, '_>, stops: &mut BTreeMap<Turn, Spanned<Duration>>) -> Option<CountRow> {
    for name in ["date", "shift", "machine", "item", "operation", "pieces"] {
        fields.require(name);
    }
    let date = fields.text("date", date);
    let shift = fields.text("shift", read::name);
    let machine = fields.text("machine", read::name);
    let item = fields.text("item", read::name);
    let operation = fields.number("operation", read::count);
    let pieces = fields.number("pieces", read::count_or_zero);
    let good = fields.number("good", read::count_or_zero);
    let stopped = fields.quantity("stopped", quantity::<Duration>(Bounds::NotNegative));
    if let Some(stopped) = stopped {
        check_stop(fields, stopped);
    }
    if let (Some(pieces), Some(good)) = (pieces, good)
        && pieces.value < good.value
    {
        let message = format!("expected at most the {} pieces made, found {} good", pieces.value, good.value);
        fields.diagnostics().push(Diagnostic::new(Code::OutOfRange, message).at(good.span, ""));
    }
    let (date, shift, machine) = (date?, shift?, machine?);
    if let Some(stopped) = stopped {
        let turn = (date.value, shift.value.clone(), machine.value.clone());
        check_one_stop(fields, *stops.entry(turn).or_insert(stopped), stopped, &machine.value);
    }
    Some(CountRow {
        date,
        shift,
        machine,
        item: item?,
        operation: operation?,
        pieces: pieces?.value,
        good: good.map(|good| good.value),
        stopped: stopped.map(|stopped| stopped.value),
        line: fields.line(),
        span: fields.span(),
    })
}

/// No shift is longer than a day.
fn check_stop(fields: &mut Fields<'_, '_>, stopped: Spanned<Duration>) {
    if Duration::h(24.0) < stopped.value {
        let message = format!("expected at most 24 h, found {:.1} h", stopped.value.to_h());
        fields.diagnostics().push(Diagnostic::new(Code::OutOfRange, message).at(stopped.span, ""));
    }
}

fn check_one_stop(
    fields: &mut Fields<'_, '_>,
    first: Spanned<Duration>,
    second: Spanned<Duration>,
    machine: &str,
) {
    if first.value != second.value {
        let message = format!("`{}` has two stopped times in one shift", short(machine));
        fields.diagnostics().push(
            Diagnostic::new(Code::GivenTwice, message)
                .at(second.span, "another here")
                .also(first.span, "first here")
                .help("give the whole time of the shift once, or the same in each row"),
        );
    }
}
