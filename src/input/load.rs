//! A scenario loaded: files to tree, tree to lists, names to places; all mistakes collected on the way.

use super::bill::in_order;
use super::built_in::BuiltIn;
use super::calendar::{Days, calendar};
use super::catalog::Shelf;
use super::citation::{Citation, citations};
use super::drawing::DrawingPlaces;
use super::edges::{deliveries, set_ups};
use super::files::{DEMO, FileError, built_in, join, read_all};
use super::machine::Around;
use super::operation::OperationPlaces;
use super::order::{openings, orders};
use super::overtime::with_overtime;
use super::part::{ReadItem, part, product};
use super::registry::{Registry, named_tables};
use super::tree::{Table, merge};
use super::{Fields, read};
use crate::cycle::{Item, Making, Operation, Repair};
use crate::diag::{Code, Diagnostic, Diagnostics, SourceMap, Span};
use crate::quantity::{Fraction, System, Units};
use crate::schedule::Scenario;
use std::path::PathBuf;

/// Where a scenario is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Origin {
    /// The built-in demo.
    Demo,
    /// A TOML file, or a folder of them.
    Path(PathBuf),
    /// Text already at hand, under a name for messages.
    Text {
        /// Name for messages.
        name: String,
        /// Its bytes.
        bytes: Vec<u8>,
    },
}

/// Where in the files things are written.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Places {
    /// By machine.
    pub machines: Vec<Span>,
    /// By item.
    pub items: Vec<Span>,
    /// By item and operation.
    pub operations: Vec<Vec<OperationPlaces>>,
    /// By item, if it has one.
    pub drawings: Vec<Option<DrawingPlaces>>,
    /// By order.
    pub orders: Vec<Span>,
}

/// What loading gave. Without a scenario, the diagnostics hold at least one error.
#[derive(Debug)]
pub struct Loaded {
    /// The scenario, if it has no mistake.
    pub scenario: Option<Scenario>,
    /// Where things are written.
    pub places: Places,
    /// The files read.
    pub sources: SourceMap,
    /// Mistakes and warnings.
    pub diagnostics: Diagnostics,
    /// The works that figures cite.
    pub citations: Vec<Citation>,
}

/// What a scenario is read for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// To be worked out: each part has its operations.
    Run,
    /// To be worked out and compared with other tools: as [`Purpose::Run`], and every tool of the catalogs is read.
    Compare,
    /// To have operations proposed: a part with a drawing needs none, and every tool of the catalogs is read.
    Propose,
}

/// Loads a scenario to be worked out.
///
/// # Errors
/// A file that cannot be read. Mistakes in what was read are in [`Loaded::diagnostics`].
pub fn load(origin: &Origin) -> Result<Loaded, FileError> {
    load_for(origin, &[], Purpose::Run)
}

/// Loads a scenario for a purpose, files laid over it in their order: tables of the same name are joined key by key, any
/// other value of a file lies over that of the one before.
///
/// # Errors
/// A file that cannot be read. Mistakes in what was read are in [`Loaded::diagnostics`].
pub fn load_for(origin: &Origin, overlays: &[PathBuf], purpose: Purpose) -> Result<Loaded, FileError> {
    let mut sources = SourceMap::default();
    let mut diagnostics = Diagnostics::default();
    let root = match origin {
        Origin::Demo => Some(built_in(&DEMO, &mut sources, &mut diagnostics)),
        Origin::Path(path) => join(read_all(path)?, &mut sources, &mut diagnostics),
        Origin::Text { name, bytes } => {
            join(vec![(name.clone(), bytes.clone())], &mut sources, &mut diagnostics)
        }
    };
    let root = laid_over(root, overlays, &mut sources, &mut diagnostics)?;
    let catalogs = BuiltIn::open(&mut sources);
    let citations = citations(&catalogs, &mut diagnostics);
    let mut places = Places::default();
    let scenario = root.and_then(|root| scenario(&root, (&catalogs, purpose), &mut places, &mut diagnostics));
    let scenario = scenario.filter(|_| !diagnostics.has_errors());
    Ok(Loaded { scenario, places, sources, diagnostics, citations })
}

/// A root with the files that lie over it; `None` if one of them is no TOML.
fn laid_over(
    mut root: Option<Table>,
    overlays: &[PathBuf],
    sources: &mut SourceMap,
    diagnostics: &mut Diagnostics,
) -> Result<Option<Table>, FileError> {
    for overlay in overlays {
        let above = join(read_all(overlay)?, sources, diagnostics);
        root = root.zip(above).map(|(below, above)| Table { span: below.span, ..merge(&below, &above) });
    }
    Ok(root)
}

/// Keys of the top of a scenario.
const TOP: [&str; 15] = [
    "scenario",
    "calendar",
    "shift",
    "crew",
    "machine",
    "outside",
    "material",
    "tool",
    "coolant",
    "scatter",
    "replacement",
    "condition",
    "part",
    "product",
    "order",
];

struct Head {
    title: String,
    units: Units,
    holding: Fraction,
    repair: Option<Repair>,
}

/// Share of its value that stock costs in a year where the scenario gives none: common practice.
const HOLDING: f64 = 0.10;

fn head(root: &Table, diagnostics: &mut Diagnostics) -> Option<Head> {
    let mut top = Fields::new(root, "scenario file", diagnostics);
    let table = top.required("scenario", read::table);
    for key in TOP.iter().skip(1) {
        if ["calendar", "shift"].contains(key) {
            top.required(key, |node| read::table(node).map(|_| ()));
        } else if *key == "order" {
            top.optional(key, |_| Ok(()));
        } else {
            top.optional(key, |node| read::table(node).map(|_| ()));
        }
    }
    for key in ["stock", "overtime", "delivery"] {
        top.optional(key, |_| Ok(()));
    }
    top.finish();
    let mut fields = Fields::new(table?.value, "scenario", diagnostics);
    let title = fields.required("title", read::text);
    let systems = [("metric", System::Metric), ("inch", System::Inch)];
    let system = fields.required("units", read::choice(&systems));
    let currency = fields.required("currency", read::name);
    let holding = fields.optional("holding", read::share);
    let repair = fields.optional("repair", read::choice(&Repair::NAMES)).map(|repair| repair.value);
    fields.finish();
    Some(Head {
        title: title?.value,
        units: Units { system: system?.value, currency: currency?.value },
        holding: holding
            .map_or_else(|| Fraction::new(HOLDING).unwrap_or(Fraction::ZERO), |share| share.value),
        repair,
    })
}

fn scenario(
    root: &Table,
    read_for: (&BuiltIn, Purpose),
    places: &mut Places,
    diagnostics: &mut Diagnostics,
) -> Option<Scenario> {
    let (catalogs, purpose) = read_for;
    let head = head(root, diagnostics);
    let currency = head.as_ref().map_or_else(String::new, |head| head.units.currency.clone());
    let days = Days::named(root);
    let mut registry = Registry::new(catalogs, root, (currency.clone(), purpose), diagnostics);
    let around = Around { days: &days, currency: &currency };
    places.machines = registry.read_machines(&Shelf::new("machine", catalogs, root), &around, diagnostics);
    registry.read_own(diagnostics);
    if purpose != Purpose::Run {
        registry.read_all_tools(diagnostics);
    }
    let items = read_items(root, &mut registry, &days, diagnostics);
    let calendar = calendar(root, days, &currency, diagnostics);
    let items = items?;
    let mut list = Vec::new();
    for read in items {
        places.items.push(read.span);
        places.operations.push(read.operations);
        places.drawings.push(read.drawing);
        list.push(read.item);
    }
    let calendar = calendar?;
    let mut top = Fields::new(root, "scenario file", diagnostics);
    let order_tables = top.tables("order");
    let stock_tables = top.tables("stock");
    let (overtime_tables, delivery_tables) = (top.tables("overtime"), top.tables("delivery"));
    let orders = orders(&order_tables, &list, (&calendar, &currency), diagnostics);
    let openings = openings(&stock_tables, &list, diagnostics);
    let deliveries = deliveries(&delivery_tables, &mut registry, &calendar, diagnostics);
    let set_ups = set_ups(&registry.set_ups, &registry, &list, diagnostics);
    let calendar = with_overtime(calendar, &overtime_tables, &registry, diagnostics);
    let (orders, order_places): (Vec<_>, Vec<_>) = orders?.into_iter().unzip();
    places.orders = order_places;
    let head = head?;
    // What nothing uses may be used where a mistake stands.
    if !diagnostics.has_errors() && purpose != Purpose::Propose {
        unused(&registry, &list, &places.machines, diagnostics);
    }
    let mut shop = registry.shop;
    shop.items = list;
    for cut in shop.items.iter_mut().flat_map(|item| &mut item.operations).flat_map(|op| &mut op.cuts) {
        cut.repair = cut.repair.or(head.repair);
    }
    Some(Scenario {
        title: head.title,
        units: head.units,
        calendar: calendar?,
        shop,
        orders,
        openings: openings?,
        deliveries: deliveries?,
        set_ups: set_ups?,
        holding: head.holding,
    })
}

/// Machines and firms that no operation names, and the scenario's own tools and materials that nothing uses.
fn unused(registry: &Registry<'_>, items: &[Item], machines: &[Span], diagnostics: &mut Diagnostics) {
    let operations = || items.iter().flat_map(|item| &item.operations);
    let mut warn = |what: &str, key: &str, span: Span| {
        diagnostics.push(
            Diagnostic::new(Code::NeverUsed, format!("{what} `{key}` is never used"))
                .at(span, "nothing names it"),
        );
    };
    for (id, span) in machines.iter().enumerate() {
        let gauges = |operation: &Operation| operation.gauge.is_some_and(|gauge| gauge.at == Some(id));
        if !operations().any(|operation| operation.machines.contains(&id) || gauges(operation)) {
            warn("machine", &registry.shop.machines[id].key, *span);
        }
    }
    for (id, name) in registry.firm_places().iter().enumerate() {
        if !operations().any(|operation| operation.lots.outside.iter().any(|outside| outside.firm == id)) {
            warn("firm outside", &name.value, name.span);
        }
    }
    let in_use = |tool: usize| operations().flat_map(|operation| &operation.cuts).any(|cut| cut.tool == tool);
    for (name, tool) in registry.own_tools() {
        if !in_use(tool) {
            warn("tool", &name.value, name.span);
        }
    }
    let made_of = |id: usize| {
        items.iter().any(|item| matches!(item.making, Making::Part { material, .. } if material == id))
    };
    for (name, material) in registry.own_materials() {
        if !made_of(material) {
            warn("material", &name.value, name.span);
        }
    }
}

/// Parts and products, each after what goes into it.
fn read_items(
    root: &Table,
    registry: &mut Registry<'_>,
    days: &Days,
    diagnostics: &mut Diagnostics,
) -> Option<Vec<ReadItem>> {
    let mut whole = true;
    let mut read: Vec<ReadItem> = Vec::new();
    for kind in ["part", "product"] {
        for (name, table) in named_tables(root, kind, diagnostics) {
            if let Some(first) = read.iter().find(|other| other.item.key == name.value) {
                diagnostics.push(
                    Diagnostic::new(Code::GivenTwice, format!("`{}` is a part and a product", name.value))
                        .at(name.span, "here again")
                        .also(first.span, "first here"),
                );
            }
            let item = if kind == "part" {
                part(&name, table, registry, days, diagnostics)
            } else {
                product(&name, table, registry, days, diagnostics)
            };
            match item {
                Some(item) => read.push(item),
                None => whole = false,
            }
        }
    }
    // With a part missing, names that are right would be reported as unknown.
    if whole { in_order(read, diagnostics) } else { None }
}
