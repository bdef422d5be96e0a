//! Materials, coolants and conditions from their tables.

use super::Fields;
use super::figure::Figured;
use super::read::{self, Bounds};
use super::tree::Table;
use crate::diag::Diagnostics;
use crate::quantity::{Density, ElasticModulus, Hardness, SpecificForce};
use crate::tooling::{Condition, Coolant, CoolantFactor, Group, Material, Sourced, Standing, Substrate};

/// A figure with the source it states, or given by the user.
pub(super) fn sourced<T>(figure: Figured<T>) -> Sourced<T> {
    Sourced {
        value: figure.value,
        source: figure.source.map_or_else(|| "scenario".to_owned(), |source| source.value),
        at: figure.at,
        standing: figure.standing.unwrap_or(Standing::Given),
    }
}

/// ISO 513 groups by letter.
pub(super) fn groups() -> Vec<(&'static str, Group)> {
    Group::ALL.iter().map(|group| (group.letter(), *group)).collect()
}

/// Reads a material.
pub(super) fn material(key: &str, table: &Table, diagnostics: &mut Diagnostics) -> Option<Material> {
    let mut fields = Fields::new(table, "material", diagnostics);
    let title = fields.required("title", read::text);
    let group = fields.required("iso", read::choice(&groups()));
    let hardness = fields.required_figure("hardness", read::quantity::<Hardness>(Bounds::Positive));
    let kc11 = fields.required_figure("kc11", read::quantity::<SpecificForce>(Bounds::Positive));
    let mc = fields.required_figure("mc", read::number_between(0.0, 0.9));
    let modulus = fields.optional_figure("modulus", read::quantity::<ElasticModulus>(Bounds::Positive));
    let density = fields.required_figure("density", read::quantity::<Density>(Bounds::Positive));
    let speed_index = fields.required_figure("speed_index", read::number_between(0.01, 100.0));
    let hardness_exponent = fields.optional_figure("hardness_exponent", read::number_between(0.0, 5.0));
    let hardness_range = fields.optional("hardness_range", read::range::<Hardness>(Bounds::Positive));
    let note = fields.optional("note", read::text);
    let caution = fields.optional("caution", read::text);
    others(&mut fields);
    fields.finish();
    Some(Material {
        key: key.to_owned(),
        title: title?.value,
        group: group?.value,
        hardness: sourced(hardness?),
        kc11: sourced(kc11?),
        mc: sourced(mc?),
        modulus: modulus.map(sourced),
        density: sourced(density?),
        speed_index: sourced(speed_index?),
        hardness_exponent: hardness_exponent.map(sourced),
        hardness_range: hardness_range.map(|range| range.value),
        note: note.map(|note| note.value),
        caution: caution.map(|caution| caution.value),
    })
}

/// What other sources give is checked like the rest, then left to the reader of the catalog.
fn others(fields: &mut Fields<'_, '_>) {
    for other in fields.tables("kc11_other") {
        let mut other = Fields::new(other, "figure", fields.diagnostics());
        other.required("value", read::quantity::<SpecificForce>(Bounds::Positive));
        other.required("source", read::name);
        other.required("standing", read::choice(&Standing::WORDS));
        other.optional("mc", read::number(Bounds::Positive));
        other.optional("at", read::text);
        other.optional("note", read::text);
        other.finish();
    }
}

/// Reads a coolant state.
pub(super) fn coolant(key: &str, table: &Table, diagnostics: &mut Diagnostics) -> Option<Coolant> {
    let mut fields = Fields::new(table, "coolant", diagnostics);
    let title = fields.required("title", read::text);
    let caution = fields.optional("caution", read::text);
    let tables = fields.tables("factor");
    let factors: Option<Vec<CoolantFactor>> =
        tables.into_iter().map(|table| factor(table, fields.diagnostics())).collect();
    fields.finish();
    Some(Coolant {
        key: key.to_owned(),
        title: title?.value,
        factors: factors?,
        caution: caution.map(|caution| caution.value),
    })
}

fn factor(table: &Table, diagnostics: &mut Diagnostics) -> Option<CoolantFactor> {
    let mut fields = Fields::new(table, "factor", diagnostics);
    let substrates = fields.optional("substrates", read::one_or_list(read::choice(&Substrate::NAMES)));
    let groups = fields.optional("groups", read::one_or_list(read::choice(&groups())));
    let value = fields.required_figure("value", read::number_between(0.01, 100.0));
    let band = fields.optional("range", read::number_range(Bounds::Positive));
    fields.finish();
    Some(CoolantFactor {
        substrates: substrates
            .map_or_else(Vec::new, |list| list.value.into_iter().map(|item| item.value).collect()),
        groups: groups.map_or_else(Vec::new, |list| list.value.into_iter().map(|item| item.value).collect()),
        value: sourced(value?),
        band: band.map(|band| (band.value.low, band.value.high)),
    })
}

/// Reads a condition of a cut.
pub(super) fn condition(key: &str, table: &Table, diagnostics: &mut Diagnostics) -> Option<Condition> {
    let mut fields = Fields::new(table, "condition", diagnostics);
    let title = fields.required("title", read::text);
    let speed_factor = fields.required_figure("speed_factor", read::number_between(0.01, 100.0));
    let band = fields.optional("range", read::number_range(Bounds::Positive));
    fields.finish();
    Some(Condition {
        key: key.to_owned(),
        title: title?.value,
        speed_factor: sourced(speed_factor?),
        band: band.map(|band| (band.value.low, band.value.high)),
    })
}
