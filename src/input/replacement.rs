//! When edges are changed, and how far lives scatter, from their tables.

use super::Fields;
use super::material::sourced;
use super::read::{self, Bounds};
use super::tree::Table;
use crate::diag::Diagnostics;
use crate::quantity::{Duration, Fraction};
use crate::tooling::{ChangeBy, ChangePolicy, LifeFamily, ScatterBand, Substrate, ToolKind};

/// Reads a policy: `{ by = "least cost", survival = "95 %", stop = "8 min", scrap = 1 }`.
pub(super) fn policy(table: &Table, currency: &str, diagnostics: &mut Diagnostics) -> ChangePolicy {
    let mut fields = Fields::new(table, "replacement", diagnostics);
    let by = fields.optional("by", read::choice(&ChangeBy::NAMES));
    let survival = fields.optional("survival", survival);
    let most = fields.optional("most", read::count);
    let stop = fields.optional("stop", read::quantity::<Duration>(Bounds::NotNegative));
    let scrap = fields.optional("scrap", read::count_or_zero);
    let damage = fields.optional("damage", read::money(currency));
    fields.finish();
    ChangePolicy {
        by: by.map(|by| by.value),
        survival: survival.map(|share| share.value),
        most: most.map(|most| most.value),
        stop: stop.map(|stop| stop.value),
        scrap: scrap.map(|pieces| pieces.value),
        damage: damage.map(|damage| damage.value),
    }
}

/// A share of edges that last: neither none nor all, which no edge can promise.
fn survival(node: &super::Node) -> read::Reading<Fraction> {
    use crate::diag::{Code, Diagnostic};
    let share = read::share(node)?;
    if (0.01..=0.9999).contains(&share.value()) {
        return Ok(share);
    }
    let message = format!("a survival of {} %", share.value() * 100.0);
    Err(vec![Diagnostic::new(Code::OutOfRange, message).at(node.span, "expected 1 % to 99.99 %")])
}

/// Reads a usual scatter of tool life.
pub(super) fn scatter_band(key: &str, table: &Table, diagnostics: &mut Diagnostics) -> Option<ScatterBand> {
    let mut fields = Fields::new(table, "scatter", diagnostics);
    let title = fields.required("title", read::text);
    let kinds = fields.optional("kinds", read::one_or_list(read::choice(&ToolKind::NAMES)));
    let substrates = fields.optional("substrates", read::one_or_list(read::choice(&Substrate::NAMES)));
    let variation = fields.required_figure("variation", read::number_between(0.02, 1.5));
    let band = fields.optional("band", read::number_range(Bounds::Positive));
    let family = fields.required("family", read::choice(&LifeFamily::NAMES));
    fields.optional("note", read::text);
    fields.finish();
    Some(ScatterBand {
        key: key.to_owned(),
        title: title?.value,
        kinds: kinds.map_or_else(Vec::new, |list| list.value.into_iter().map(|item| item.value).collect()),
        substrates: substrates
            .map_or_else(Vec::new, |list| list.value.into_iter().map(|item| item.value).collect()),
        variation: sourced(variation?),
        band: band.map(|band| (band.value.low, band.value.high)),
        family: family?.value,
    })
}
