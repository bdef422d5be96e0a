//! Parts and products from their tables.

use super::Purpose;
use super::calendar::Days;
use super::drawing::{DrawingPlaces, drawing};
use super::operation::{LEAST_YIELD, OperationPlaces, operation};
use super::read::{self, Bounds};
use super::registry::Registry;
use super::tree::Table;
use super::{Fields, Spanned};
use crate::cutting::bar::Section;
use crate::cutting::hobbing::Gear;
use crate::cycle::{Bar, Item, Making, Operation, Stock, bar_share, roll_verdict};
use crate::diag::{Code, Diagnostic, Diagnostics, Severity, Span};
use crate::quantity::{Angle, Density, Fraction, Hardness, Length, Mass, NoWorkings};

/// An item and where its operations are written.
pub(super) struct ReadItem {
    pub(super) item: Item,
    pub(super) span: Span,
    pub(super) operations: Vec<OperationPlaces>,
    pub(super) drawing: Option<DrawingPlaces>,
    /// Names in the bill of materials, with pieces.
    pub(super) parts: Vec<(Spanned<String>, u32)>,
}

/// Reads a part.
pub(super) fn part(
    name: &Spanned<String>,
    table: &Table,
    registry: &mut Registry<'_>,
    days: &Days,
    diagnostics: &mut Diagnostics,
) -> Option<ReadItem> {
    let currency = registry.currency.clone();
    let mut fields = Fields::new(table, "part", diagnostics);
    let title = fields.optional("title", read::text);
    let material = fields.required("material", read::name);
    let material = material.and_then(|name| registry.material(&name, fields.diagnostics()));
    let hardness = fields.optional("hardness", read::quantity::<Hardness>(Bounds::Positive));
    let length = fields.optional("length", read::quantity::<Length>(Bounds::Positive));
    let stock = match fields.exactly_one(&["bar", "casting", "blank"]) {
        Some("bar") => {
            let bar = fields.optional("bar", read::table);
            if length.is_none() && !fields.has("length") {
                let at = fields.span();
                fields.diagnostics().push(
                    Diagnostic::new(Code::MissingKey, "a part cut from bar needs its `length`")
                        .at(at, "no `length`"),
                );
            }
            bar.and_then(|table| self::bar(table.value, &currency, fields.diagnostics())).map(Stock::Bar)
        }
        Some(each) => fields
            .optional(each, read::table)
            .and_then(|table| each_stock(table.value, &currency, fields.diagnostics())),
        None => None,
    };
    let gear = fields.optional("gear", read::table);
    let gear = gear.map(|table| self::gear(table.value, fields.diagnostics()));
    let drawn = fields.optional("drawing", read::table);
    let bar_size = match &stock {
        Some(Stock::Bar(bar)) => Some(bar.size),
        _ => None,
    };
    let drawing =
        drawn.as_ref().map(|table| drawing(table, (length.as_ref(), bar_size), fields.diagnostics()));
    let (operations, places) = operations(&mut fields, registry, days)?;
    if let (Some(Stock::Bar(bar)), Some(length)) = (&stock, &length) {
        fits(bar, length, (&operations, &places), fields.diagnostics());
    }
    fields.finish();
    let gear = match gear {
        Some(None) => return None,
        Some(gear) => gear,
        None => None,
    };
    let (drawing, drawing_places) = match drawing {
        Some(None) => return None,
        Some(Some((drawing, places))) => (Some(Box::new(drawing)), Some(places)),
        None => (None, None),
    };
    let operations = rolled(operations, &places, gear.as_ref(), diagnostics);
    let making = Making::Part {
        material: material?,
        hardness: hardness.map(|hardness| hardness.value),
        length: length.map(|length| length.value),
        stock: stock?,
        gear,
        drawing,
    };
    let title = title.map_or_else(|| name.value.clone(), |title| title.value);
    let item = Item { key: name.value.clone(), title, making, operations };
    Some(ReadItem { item, span: name.span, operations: places, drawing: drawing_places, parts: Vec::new() })
}

/// Reads a product.
pub(super) fn product(
    name: &Spanned<String>,
    table: &Table,
    registry: &mut Registry<'_>,
    days: &Days,
    diagnostics: &mut Diagnostics,
) -> Option<ReadItem> {
    let mut fields = Fields::new(table, "product", diagnostics);
    let title = fields.optional("title", read::text);
    let bill = fields.required("parts", read::table);
    let mut parts = Vec::new();
    for entry in bill.iter().flat_map(|bill| &bill.value.entries) {
        if let Some(count) = read::entry(entry, read::count, fields.diagnostics()) {
            parts.push((Spanned { value: entry.key.clone(), span: entry.key_span }, count.value));
        }
    }
    let (operations, places) = operations(&mut fields, registry, days)?;
    fields.finish();
    let title = title.map_or_else(|| name.value.clone(), |title| title.value);
    let item =
        Item { key: name.value.clone(), title, making: Making::Product { parts: Vec::new() }, operations };
    Some(ReadItem { item, span: name.span, operations: places, drawing: None, parts })
}

/// The route: at least one operation, numbers rising.
fn operations(
    fields: &mut Fields<'_, '_>,
    registry: &mut Registry<'_>,
    days: &Days,
) -> Option<(Vec<Operation>, Vec<OperationPlaces>)> {
    let tables = fields.tables("operation");
    let at = fields.span();
    let drawn = fields.has("drawing");
    let proposed = drawn && registry.purpose == Purpose::Propose;
    let none = !fields.has("operation") || fields.is_empty_list("operation");
    if none && !proposed {
        let help = if drawn {
            "`wearland propose` writes one from the drawing"
        } else {
            "add [[part.NAME.operation]] with an id and machines"
        };
        fields.diagnostics().push(
            Diagnostic::new(Code::Route, "the route has no operation").at(at, "no operation").help(help),
        );
    }
    let mut read = Vec::new();
    let mut whole = !tables.is_empty();
    for table in tables {
        match operation(table, registry, days, fields.diagnostics()) {
            Some(one) => read.push(one),
            None => whole = false,
        }
    }
    for pair in read.windows(2) {
        if pair[1].0.id <= pair[0].0.id {
            let message =
                format!("operation {} comes after operation {} on the route", pair[1].0.id, pair[0].0.id);
            fields.diagnostics().push(
                Diagnostic::new(Code::Route, message)
                    .at(pair[1].1.header, "expected a higher number")
                    .also(pair[0].1.header, "the one before"),
            );
        }
    }
    // A wrong operation has been reported; the rest of the part is still read.
    if whole { Some(read.into_iter().unzip()) } else { Some((Vec::new(), Vec::new())) }
}

/// Gears that the roll test refuses are the yield of an operation that gives none of its own.
fn rolled(
    mut operations: Vec<Operation>,
    places: &[OperationPlaces],
    gear: Option<&Gear>,
    diagnostics: &mut Diagnostics,
) -> Vec<Operation> {
    for (operation, at) in operations.iter_mut().zip(places) {
        let Some(test) = &operation.roll else { continue };
        let verdict = gear.map(|gear| roll_verdict(gear, test, &mut NoWorkings));
        match verdict {
            None => diagnostics.push(
                Diagnostic::new(Code::MissingKey, "a roll test needs the teeth of the part")
                    .at(at.header, "its part has no `gear`"),
            ),
            Some(None) => diagnostics.push(
                Diagnostic::new(Code::OutOfRange, "ISO 1328-2 has no limits for a gear of this size")
                    .at(at.header, "module 0.2 to 10 mm, pitch diameter 5 to 1000 mm"),
            ),
            Some(Some(verdict)) => {
                let good = Fraction::new(1.0 - verdict.reject.low.value())
                    .filter(|good| good.value() >= LEAST_YIELD);
                match (at.own_yield, good) {
                    (Some(_), _) => {}
                    (None, Some(good)) => operation.good = good,
                    (None, None) => diagnostics.push(
                        Diagnostic::new(Code::OutOfRange, "hardly any gear passes this roll test")
                            .at(at.header, "less than 1 % is good"),
                    ),
                }
            }
        }
    }
    operations
}

/// A bar must give at least one piece and be as thick as what is turned from it.
fn fits(
    bar: &Bar,
    length: &Spanned<Length>,
    cuts: (&[Operation], &[OperationPlaces]),
    diagnostics: &mut Diagnostics,
) {
    if bar_share(bar, length.value, Density::ZERO).pieces == 0 {
        diagnostics.push(Diagnostic::new(Code::Geometry, "a bar of this length gives no piece").at(
            length.span,
            "the piece, with cutoff and facing, is longer than the bar without its remnant",
        ));
    }
    // The widest round that a bar can give: a hexagon and a square are wider over the corners.
    let widest = match bar.section {
        Section::Round => bar.size,
        Section::Hex => bar.size * (2.0 / 3.0_f64.sqrt()),
        Section::Square => bar.size * 2.0_f64.sqrt(),
    };
    let all = cuts.0.iter().zip(cuts.1).flat_map(|(operation, at)| operation.cuts.iter().zip(&at.cuts));
    for (cut, at) in all {
        if let Some(turned) = cut.work.length_along()
            && turned > length.value + bar.cutoff + bar.facing * 2.0
        {
            diagnostics.push(
                Diagnostic::new(Code::Geometry, "this cut is longer than the part")
                    .at(at.header, "its `length` is more than the part with its cutoff and facing")
                    .also(length.span, "the part"),
            );
        }
        let Some(outermost) = cut.work.outermost() else { continue };
        if outermost > widest * (1.0 + 1e-9) {
            diagnostics.push(
                Diagnostic::new(Code::Geometry, "this cut starts outside the bar")
                    .at(at.header, "its larger diameter is more than the bar has")
                    .help("`from` and `to` are diameters, not radii"),
            );
        }
    }
}

fn bar(table: &Table, currency: &str, diagnostics: &mut Diagnostics) -> Option<Bar> {
    let mut fields = Fields::new(table, "bar", diagnostics);
    let section = fields.required("section", read::choice(&Section::NAMES));
    let size = fields.required("size", read::quantity::<Length>(Bounds::Positive));
    let length = fields.required("length", read::quantity::<Length>(Bounds::Positive));
    let remnant = fields.required("remnant", read::quantity::<Length>(Bounds::NotNegative));
    let end_facing = fields.optional("end_facing", read::quantity::<Length>(Bounds::NotNegative));
    let cutoff = fields.required("cutoff", read::quantity::<Length>(Bounds::NotNegative));
    let facing = fields.optional("facing", read::quantity::<Length>(Bounds::NotNegative));
    let price = fields.optional("price", read::money_per_kilogram(currency));
    fields.finish();
    Some(Bar {
        section: section?.value,
        size: size?.value,
        length: length?.value,
        remnant: remnant?.value,
        end_facing: end_facing.map_or(Length::ZERO, |end| end.value),
        cutoff: cutoff?.value,
        facing: facing.map_or(Length::ZERO, |facing| facing.value),
        price_per_kg: price.map(|price| price.value),
    })
}

fn each_stock(table: &Table, currency: &str, diagnostics: &mut Diagnostics) -> Option<Stock> {
    let before = diagnostics.count(Severity::Error);
    let mut fields = Fields::new(table, "stock of a piece", diagnostics);
    let mass = fields.optional("mass", read::quantity::<Mass>(Bounds::Positive));
    let price = fields.optional("price", read::money(currency));
    fields.finish();
    let whole = diagnostics.count(Severity::Error) == before;
    whole.then(|| Stock::Each { mass: mass.map(|mass| mass.value), price: price.map(|price| price.value) })
}

/// Largest helix angle of a gear that is hobbed here, degrees: beyond, it is a worm.
const STEEPEST: f64 = 70.0;

fn below_a_worm(helix: Spanned<Angle>, diagnostics: &mut Diagnostics) -> Option<Spanned<Angle>> {
    if helix.value.to_deg() <= STEEPEST {
        return Some(helix);
    }
    diagnostics.push(
        Diagnostic::new(Code::OutOfRange, format!("a helix of {} deg", helix.value.to_deg()))
            .at(helix.span, format!("expected 0 to {STEEPEST} deg")),
    );
    None
}

fn gear(table: &Table, diagnostics: &mut Diagnostics) -> Option<Gear> {
    let mut fields = Fields::new(table, "gear", diagnostics);
    let module = fields.required("module", read::gear_module);
    let teeth = fields.required("teeth", read::count);
    let helix = fields.optional("helix", read::quantity::<Angle>(Bounds::NotNegative));
    let helix = helix.and_then(|helix| below_a_worm(helix, fields.diagnostics()));
    let face = fields.required("face", read::quantity::<Length>(Bounds::Positive));
    let depth = fields.optional("whole_depth", read::number(Bounds::Positive));
    fields.finish();
    let module = module?.value;
    Some(Gear {
        module,
        teeth: teeth?.value,
        helix: helix.map_or(Angle::ZERO, |helix| helix.value),
        face: face?.value,
        // Rack of ISO 53: 2.25 modules, unless the hob is another.
        whole_depth: module * depth.map_or(2.25, |depth| depth.value),
    })
}
