//! Firms outside from their tables, and what operations send to them.

use super::read::{self, Bounds};
use super::registry::Registry;
use super::tree::Table;
use super::{Fields, Spanned};
use crate::cycle::Outside;
use crate::diag::{Code, Diagnostic, Diagnostics};
use crate::plant::Firm;
use crate::quantity::Duration;

/// Longest time that pieces are away.
const LONGEST_AWAY: f64 = 365.0 * 24.0;

/// Reads `[outside.NAME]`.
pub(super) fn firm(key: &str, table: &Table, diagnostics: &mut Diagnostics) -> Option<Firm> {
    let mut fields = Fields::new(table, "firm outside", diagnostics);
    let title = fields.optional("title", read::text);
    let away = fields.required("away", read::quantity::<Duration>(Bounds::NotNegative));
    let a_shift = fields.optional("a_shift", read::count);
    fields.optional("note", read::text);
    fields.finish();
    let away = away?;
    if away.value.to_h() > LONGEST_AWAY {
        diagnostics.push(
            Diagnostic::new(Code::OutOfRange, format!("pieces that are away for {} h", away.value.to_h()))
                .at(away.span, "expected at most a year"),
        );
        return None;
    }
    Some(Firm {
        key: key.to_owned(),
        title: title.map_or_else(|| key.to_owned(), |title| title.value),
        away: away.value,
        a_shift: a_shift.map(|pieces| pieces.value),
    })
}

/// Reads what an operation sends outside: `[{ firm = "NAME", price = "0.85 EUR" }]`; each firm once.
pub(super) fn outside(
    tables: &[Spanned<&Table>],
    registry: &Registry<'_>,
    diagnostics: &mut Diagnostics,
) -> Option<Vec<Outside>> {
    let mut all: Vec<Outside> = Vec::new();
    let mut whole = true;
    for table in tables {
        let mut fields = Fields::new(table.value, "work outside", diagnostics);
        let name = fields.required("firm", read::name);
        let firm = name.as_ref().and_then(|name| registry.firm(name, fields.diagnostics()));
        let price = fields.required("price", read::money(&registry.currency));
        fields.finish();
        let (Some(name), Some(firm), Some(price)) = (name, firm, price) else {
            whole = false;
            continue;
        };
        if all.iter().any(|other| other.firm == firm) {
            diagnostics.push(
                Diagnostic::new(Code::GivenTwice, format!("`{}` is named twice", name.value))
                    .at(name.span, "here again"),
            );
            whole = false;
        }
        all.push(Outside { firm, price: price.value });
    }
    whole.then_some(all)
}
