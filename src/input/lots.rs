//! How an operation is laid in lots, from its table.

use super::firm::outside;
use super::read::{self, Bounds};
use super::registry::Registry;
use super::tree::Table;
use super::{Fields, Spanned};
use crate::cycle::{Boxes, Family, Lots};
use crate::diag::{Code, Diagnostic, Diagnostics};
use crate::quantity::Duration;

/// Longest time that a box is on the way.
const LONGEST_WAY: f64 = 7.0 * 24.0;

/// Reads the keys of an operation that say how it is laid in lots; `setup` is that of other work.
pub(super) fn lots(
    fields: &mut Fields<'_, '_>,
    registry: &mut Registry<'_>,
    setup: Option<&Spanned<Duration>>,
) -> Option<Lots> {
    let family = fields.optional("family", read::name);
    let within = fields.optional("family_setup", read::quantity::<Duration>(Bounds::NotNegative));
    let least = fields.optional("least_lot", read::count);
    let boxes = match fields.at_most_one(&["boxes", "lag"]) {
        Some("boxes") => fields.optional("boxes", read::table),
        _ => None,
    };
    let boxes = boxes.map(|table| self::boxes(table.value, fields.diagnostics()));
    fields.optional("lag", read::choice(&[("next shift", ())]));
    let sent = sent(fields, registry);
    let family = match (family, within) {
        (None, None) => None,
        (None, Some(within)) => {
            fields.diagnostics().push(
                Diagnostic::new(Code::MissingKey, "missing key `family` in this operation")
                    .at(within.span, "a setup after work of the same family needs `family`"),
            );
            return None;
        }
        (Some(name), within) => {
            let whole = setup.map_or(Duration::ZERO, |setup| setup.value);
            let time = within.as_ref().map_or(Duration::ZERO, |within| within.value);
            if let Some(within) = within.filter(|within| within.value > whole) {
                let mut longer = Diagnostic::new(
                    Code::OutOfRange,
                    "the setup after work of the same family takes longer than that after any other",
                )
                .at(within.span, format!("expected at most {} min", whole.to_min()));
                if let Some(setup) = setup {
                    longer = longer.also(setup.span, "`setup` is here");
                }
                fields.diagnostics().push(longer);
                return None;
            }
            Some(Family { id: registry.family(&name.value), setup: time })
        }
    };
    if boxes == Some(None) {
        return None;
    }
    Some(Lots { family, least: least.map_or(0, |least| least.value), boxes: boxes.flatten(), outside: sent? })
}

/// What is sent outside; an empty list says nothing and is refused.
pub(super) fn sent(
    fields: &mut Fields<'_, '_>,
    registry: &Registry<'_>,
) -> Option<Vec<crate::cycle::Outside>> {
    if fields.is_empty_list("outside") {
        let at = fields.optional("outside", |_| Ok(()));
        let at = at.map_or(fields.span(), |at| at.span);
        fields.diagnostics().push(
            Diagnostic::new(Code::Route, "the list of firms is empty")
                .at(at, "no firm")
                .help("write { firm = \"NAME\", price = \"1 EUR\" }, or leave `outside` out"),
        );
        return None;
    }
    let given = fields.has("outside");
    let tables = fields.optional("outside", read::list(read::table));
    match tables {
        Some(tables) => outside(&tables.value, registry, fields.diagnostics()),
        None if given => None,
        None => Some(Vec::new()),
    }
}

fn boxes(table: &Table, diagnostics: &mut Diagnostics) -> Option<Boxes> {
    let mut fields = Fields::new(table, "boxes", diagnostics);
    let pieces = fields.required("pieces", read::count);
    let time = fields.required("time", read::quantity::<Duration>(Bounds::NotNegative));
    fields.finish();
    let time = time?;
    if time.value.to_h() > LONGEST_WAY {
        diagnostics.push(
            Diagnostic::new(Code::OutOfRange, format!("a box on the way for {} h", time.value.to_h()))
                .at(time.span, "expected at most a week"),
        );
        return None;
    }
    Some(Boxes { pieces: pieces?.value, time: time.value })
}
