//! Operations from their tables.

use super::calendar::Days;
use super::cut::{CutPlaces, cut};
use super::lots::{lots, sent};
use super::machine::attendance;
use super::read::Reading;
use super::read::{self, Bounds};
use super::registry::Registry;
use super::station;
use super::tree::Table;
use super::{Fields, Node, Spanned};
use crate::cutting::roll_test::GRADES;
use crate::cycle::{
    Cut, EdgeChanges, Gauge, Hold, Load, LoadedBy, Lots, Operation, Repair, RollTest, Spread, StationWork,
    Support, While,
};
use crate::diag::{Code, Diagnostic, Diagnostics, Span};
use crate::plant::MachineKind;
use crate::quantity::{Duration, Fraction, Length};

/// Where an operation is written.
#[derive(Debug, Clone, PartialEq)]
pub struct OperationPlaces {
    /// Its header.
    pub header: Span,
    /// Its list of machines.
    pub machines: Span,
    /// Its cuts.
    pub cuts: Vec<CutPlaces>,
    /// Its yield, if it gives one.
    pub own_yield: Option<Span>,
}

/// Reads an operation.
pub(super) fn operation(
    table: &Table,
    registry: &mut Registry<'_>,
    days: &Days,
    diagnostics: &mut Diagnostics,
) -> Option<(Operation, OperationPlaces)> {
    let mut fields = Fields::new(table, "operation", diagnostics);
    if fields.has("outside") && (!fields.has("machines") || fields.is_empty_list("machines")) {
        return outside_only(table, registry, diagnostics);
    }
    let header = fields.span();
    let id = fields.required("id", read::count);
    let title = fields.optional("title", read::text);
    let names = fields.required("machines", read::one_or_list(read::name));
    let place = names.as_ref().map_or(header, |names| names.span);
    let machines = names.and_then(|names| machines(&names, registry, fields.diagnostics()));
    let setup = fields.optional("setup", read::quantity::<Duration>(Bounds::NotNegative));
    let good = fields.optional("yield", read::share);
    let own_yield = good.as_ref().map(|good| good.span);
    let pieces = fields.optional("pieces", read::count);
    let load = fields.optional("load", read::table);
    let load = load.map(|table| self::load(table.value, fields.diagnostics()));
    let transfer = fields.optional("transfer", read::quantity::<Duration>(Bounds::NotNegative));
    let gauge = gauging(&mut fields, registry, machines.as_deref().unwrap_or_default());
    let hold = fields.optional("hold", read::table);
    let hold = hold.map(|table| self::hold(table.value, fields.diagnostics()));
    let roll = fields.optional("roll", read::table);
    let roll = roll.map(|table| roll_test(table.value, fields.diagnostics()));
    let repair = fields.optional("repair", read::choice(&Repair::NAMES)).map(|repair| repair.value);
    let edge_changes = fields.optional("edge_changes", read::choice(&EdgeChanges::NAMES));
    let held = fields.optional("attendance", read::table);
    let held = held.map(|table| attendance(table.value, days, fields.diagnostics()));
    let lots = lots(&mut fields, registry, setup.as_ref());
    let work = fields.exactly_one(&[&["cut"][..], &station::KINDS].concat());
    let work = work.and_then(|kind| self::work(kind, &mut fields, registry));
    fields.finish();
    if [load == Some(None), gauge == Some(None), held == Some(None), hold == Some(None), roll == Some(None)]
        .contains(&true)
    {
        return None;
    }
    let (mut cuts, cut_places, station) = work?;
    for cut in &mut cuts {
        cut.repair = cut.repair.or(repair);
    }
    let id = id?.value;
    let operation = Operation {
        id,
        title: title.map_or_else(|| format!("operation {id}"), |title| title.value),
        machines: machines?,
        setup: setup.map_or(Duration::ZERO, |setup| setup.value),
        good: not_nothing(good, diagnostics)?,
        pieces: pieces.map_or(1, |pieces| pieces.value),
        load: load.flatten(),
        transfer: transfer.map_or(Duration::ZERO, |transfer| transfer.value),
        gauge: gauge.flatten(),
        attendance: held.flatten(),
        hold: hold.flatten(),
        cuts,
        edge_changes: edge_changes.map_or(EdgeChanges::Each, |changes| changes.value),
        roll: roll.flatten(),
        station,
        lots: lots?,
    };
    Some((operation, OperationPlaces { header, machines: place, cuts: cut_places, own_yield }))
}

/// Reads an operation that is done outside only: no machine of the plant, so nothing of what machines do.
fn outside_only(
    table: &Table,
    registry: &Registry<'_>,
    diagnostics: &mut Diagnostics,
) -> Option<(Operation, OperationPlaces)> {
    let mut fields = Fields::new(table, "operation done outside only", diagnostics);
    let header = fields.span();
    let id = fields.required("id", read::count);
    let title = fields.optional("title", read::text);
    fields.optional("machines", |_| Ok(()));
    let good = fields.optional("yield", read::share);
    let own_yield = good.as_ref().map(|good| good.span);
    fields.optional("lag", read::choice(&[("next shift", ())]));
    let outside = sent(&mut fields, registry);
    fields.finish();
    let id = id?.value;
    let operation = Operation {
        id,
        title: title.map_or_else(|| format!("operation {id}"), |title| title.value),
        machines: Vec::new(),
        setup: Duration::ZERO,
        good: not_nothing(good, diagnostics)?,
        pieces: 1,
        load: None,
        transfer: Duration::ZERO,
        gauge: None,
        attendance: None,
        hold: None,
        cuts: Vec::new(),
        edge_changes: EdgeChanges::Each,
        roll: None,
        station: None,
        lots: Lots { outside: outside?, ..Lots::default() },
    };
    Some((operation, OperationPlaces { header, machines: header, cuts: Vec::new(), own_yield }))
}

/// Cuts with their places, or the work of a station.
type ReadWork = (Vec<Cut>, Vec<CutPlaces>, Option<StationWork>);

fn work(kind: &'static str, fields: &mut Fields<'_, '_>, registry: &mut Registry<'_>) -> Option<ReadWork> {
    if kind != "cut" {
        let table = fields.optional(kind, read::table)?;
        return Some((
            Vec::new(),
            Vec::new(),
            Some(station::station(kind, table.value, fields.diagnostics())?),
        ));
    }
    if fields.is_empty_list("cut") {
        let at = fields.span();
        fields.diagnostics().push(
            Diagnostic::new(Code::Route, "the operation has no cut")
                .at(at, "an empty list of cuts")
                .help("add [[part.NAME.operation.cut]], or what a station does: fixed, batch, slots, sample, conveyor"),
        );
        return None;
    }
    let tables = fields.tables("cut");
    // All cuts are read, so that the mistakes of all are found.
    let read: Vec<_> = tables.into_iter().map(|table| cut(table, registry, fields.diagnostics())).collect();
    let (cuts, places): (Vec<_>, Vec<_>) = read.into_iter().collect::<Option<Vec<_>>>()?.into_iter().unzip();
    Some((cuts, places, None))
}

fn machines(
    names: &Spanned<Vec<Spanned<String>>>,
    registry: &Registry<'_>,
    diagnostics: &mut Diagnostics,
) -> Option<Vec<usize>> {
    if names.value.is_empty() {
        diagnostics.push(
            Diagnostic::new(Code::NoMachine, "the list of machines is empty").at(names.span, "no machine"),
        );
        return None;
    }
    let found: Vec<Option<usize>> =
        names.value.iter().map(|name| registry.machine(name, diagnostics)).collect();
    found.into_iter().collect()
}

/// Least share of good pieces that is planned with.
pub(super) const LEAST_YIELD: f64 = 0.01;

fn not_nothing(good: Option<Spanned<Fraction>>, diagnostics: &mut Diagnostics) -> Option<Fraction> {
    let Some(good) = good else { return Some(Fraction::ONE) };
    if good.value.value() >= LEAST_YIELD {
        return Some(good.value);
    }
    diagnostics.push(
        Diagnostic::new(Code::OutOfRange, "a yield below 1 % makes no plan")
            .at(good.span, "expected 1 % to 100 %"),
    );
    None
}

fn load(table: &Table, diagnostics: &mut Diagnostics) -> Option<Load> {
    let mut fields = Fields::new(table, "load", diagnostics);
    let time = fields.required("time", read::quantity::<Duration>(Bounds::NotNegative));
    let by = fields.required("by", read::choice(&LoadedBy::NAMES));
    let during = fields.optional("while", read::choice(&While::NAMES));
    fields.finish();
    Some(Load {
        time: time?.value,
        by: by?.value,
        during: during.map_or(While::Stopped, |during| during.value),
    })
}

/// How the work is held: `{ support = "chuck", overhang = "60 mm" }`.
fn hold(table: &Table, diagnostics: &mut Diagnostics) -> Option<Hold> {
    let mut fields = Fields::new(table, "hold", diagnostics);
    let support = fields.required("support", read::choice(&Support::NAMES));
    let overhang = fields.required("overhang", read::quantity::<Length>(Bounds::Positive));
    let diameter = fields.optional("diameter", read::quantity::<Length>(Bounds::Positive));
    let gripped = fields.optional("gripped", read::quantity::<Length>(Bounds::Positive));
    fields.finish();
    Some(Hold {
        support: support?.value,
        overhang: overhang?.value,
        diameter: diameter.map(|diameter| diameter.value),
        gripped: gripped.map(|diameter| diameter.value),
    })
}

/// A roll test: `{ grade = 8, composite = { mean = "38 um", deviation = "9 um" } }`.
fn roll_test(table: &Table, diagnostics: &mut Diagnostics) -> Option<RollTest> {
    let mut fields = Fields::new(table, "roll test", diagnostics);
    let grade = fields.required("grade", roll_grade);
    let total = fields.required("composite", read::table);
    let total = total.and_then(|table| spread(table.value, fields.diagnostics()));
    let tooth = fields.optional("tooth", read::table);
    let tooth = tooth.map(|table| spread(table.value, fields.diagnostics()));
    fields.finish();
    if tooth == Some(None) {
        return None;
    }
    Some(RollTest { grade: grade?.value, total: total?, tooth: tooth.flatten() })
}

/// A grade of ISO 1328-2:1997.
fn roll_grade(node: &Node) -> Reading<u8> {
    let grade = read::count(node)?;
    u8::try_from(grade).ok().filter(|grade| GRADES.contains(grade)).ok_or_else(|| {
        vec![
            Diagnostic::new(Code::OutOfRange, format!("grade {grade} of a roll test"))
                .at(node.span, "expected 4 to 12, the grades of ISO 1328-2"),
        ]
    })
}

fn spread(table: &Table, diagnostics: &mut Diagnostics) -> Option<Spread> {
    let mut fields = Fields::new(table, "spread", diagnostics);
    let mean = fields.required("mean", read::quantity::<Length>(Bounds::NotNegative));
    let deviation = fields.required("deviation", read::quantity::<Length>(Bounds::Positive));
    fields.finish();
    Some(Spread { mean: mean?.value, deviation: deviation?.value })
}

/// Gauging, if it is given; then nothing if it is wrong.
fn gauging(
    fields: &mut Fields<'_, '_>,
    registry: &Registry<'_>,
    machines: &[usize],
) -> Option<Option<Gauge>> {
    let table = fields.optional("gauge", read::table)?;
    Some(gauge(table.value, (registry, machines), fields.diagnostics()))
}

/// Gauging, beside the machine or at a station that several share; `of` are the names and the machines of the operation.
fn gauge(table: &Table, of: (&Registry<'_>, &[usize]), diagnostics: &mut Diagnostics) -> Option<Gauge> {
    let (registry, machines) = of;
    let mut fields = Fields::new(table, "gauge", diagnostics);
    let time = fields.required("time", read::quantity::<Duration>(Bounds::NotNegative));
    let every = fields.required("every", read::count);
    let during = fields.optional("while", read::choice(&While::NAMES));
    let name = fields.optional("at", read::name);
    let given = name.is_some();
    let at = name.and_then(|name| {
        let station = registry.machine(&name, fields.diagnostics())?;
        is_shared(&name, (registry, station), machines, fields.diagnostics()).then_some(station)
    });
    fields.finish();
    if given && at.is_none() {
        return None;
    }
    Some(Gauge {
        time: time?.value,
        every: every?.value,
        during: during.map_or(While::Stopped, |during| during.value),
        at,
    })
}

/// A place to gauge at is a station, and another one than that where the operation is done.
fn is_shared(
    name: &Spanned<String>,
    at: (&Registry<'_>, usize),
    machines: &[usize],
    diagnostics: &mut Diagnostics,
) -> bool {
    let (registry, station) = at;
    let wrong = if registry.shop.machines[station].kind != MachineKind::Station {
        "is no station: pieces cannot be gauged there"
    } else if machines.contains(&station) {
        "does the operation itself: leave `at` out"
    } else {
        return true;
    };
    diagnostics.push(
        Diagnostic::new(Code::Route, format!("`{}` {wrong}", name.value))
            .at(name.span, "expected a station beside the operation's machines"),
    );
    false
}
