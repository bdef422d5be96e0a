//! Cutting data, load on the machine, wear and workings, cut by cut.

use super::names::{alike, operation};
use crate::cycle::{Cut, CutEstimate, Feed, LimitOf, Making, OperationEstimate};
use crate::quantity::{
    CuttingSpeed, Duration, FeedPerRev, FeedPerTooth, FeedRate, Force, Length, Power, RemovalRate, Roughness,
    SpindleSpeed, Term, Torque, Units, significant,
};
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::Scenario;
use crate::tooling::{LifeLaw, LifeShape, ReferenceLife, Sourced};

/// Columns that say which cut it is.
pub(super) fn named(key: &'static str, heading: &str) -> Table {
    Table::new(key, heading)
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("cut", "cut"))
}

pub(super) fn names(scenario: &Scenario, estimate: &OperationEstimate, cut: &Cut) -> Vec<Cell> {
    let (item, number) = operation(scenario, estimate);
    vec![item.into(), number.into(), cut.id.as_str().into()]
}

/// Calls back for each cut on each group of machines that are alike.
pub(super) fn each_cut(
    scenario: &Scenario,
    estimates: &[OperationEstimate],
    mut with: impl FnMut(&OperationEstimate, &str, &Cut, usize),
) {
    for (estimate, machines) in alike(scenario, estimates) {
        let cuts = &scenario.shop.items[estimate.item].operations[estimate.operation].cuts;
        for (at, cut) in cuts.iter().enumerate() {
            with(estimate, &machines, cut, at);
        }
    }
}

/// Speeds, feeds, passes, time.
pub(in crate::commands) fn cutting_data(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let mut table = named("cuts", "Cutting data")
        .remark("Speeds are those of the first pass, on its outer diameter. Passes of a drill, reamer or tap are its holes.")
        .column(Column::text("machines", "machines"))
        .column(Column::text("tool", "tool"))
        .column(Column::quantity::<CuttingSpeed>("cutting_speed", "speed"))
        .column(Column::quantity::<SpindleSpeed>("spindle_speed", "spindle"))
        .column(Column::quantity::<FeedPerRev>("feed_per_rev", "feed"))
        .column(Column::quantity::<FeedPerTooth>("feed_per_tooth", "feed"))
        .column(Column::quantity::<FeedRate>("feed_rate", "feed rate"))
        .column(Column::count("passes", "passes", "passes"))
        .column(Column::quantity::<Length>("depth", "depth"))
        .column(Column::quantity::<Duration>("cut_time", "in cut").decimals(2));
    each_cut(scenario, estimates, |estimate, machines, cut, at| {
        let (one, _): &(CutEstimate, _) = &estimate.cuts[at];
        let (per_rev, per_tooth) = match one.feed {
            Some(Feed::PerRev(feed)) => (Some(feed), None),
            Some(Feed::PerTooth(feed)) => (None, Some(feed)),
            Some(Feed::PerStroke(_)) | None => (None, None),
        };
        let mut row = names(scenario, estimate, cut);
        row.extend([
            machines.into(),
            scenario.shop.tools[cut.tool].key.as_str().into(),
            one.speed.into(),
            one.spindle_speed.into(),
            per_rev.into(),
            per_tooth.into(),
            one.feed_rate.into(),
            one.passes.into(),
            one.depth.into(),
            one.cut_time.into(),
        ]);
        table.row(row);
    });
    table
}

/// What each cut asks of the machine.
pub(in crate::commands) fn loads(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let mut table = named("loads", "Load on the machine and finish")
        .column(Column::text("machines", "machines"))
        .column(Column::quantity::<RemovalRate>("removal_rate", "removal"))
        .column(Column::quantity::<Force>("cutting_force", "force"))
        .column(Column::quantity::<Power>("power", "power"))
        .column(Column::quantity::<Torque>("torque", "torque"))
        .column(Column::quantity::<Roughness>("peak_to_valley", "marks Rt"))
        .column(Column::text("nearest_limit", "nearest limit"))
        .column(Column::new("limit_used", "used", Holds::Share));
    each_cut(scenario, estimates, |estimate, machines, cut, at| {
        let (one, _) = &estimate.cuts[at];
        let binding = one.limits.iter().filter(|limit| limit.of != LimitOf::Rule);
        let nearest = binding.max_by(|a, b| a.used().total_cmp(&b.used()));
        let mut row = names(scenario, estimate, cut);
        row.extend([
            machines.into(),
            one.removal_rate.into(),
            one.force.into(),
            one.power.into(),
            one.torque.into(),
            one.roughness.into(),
            nearest.map(|limit| limit.limit).into(),
            nearest.map_or(Cell::Missing, |limit| Cell::share(limit.used())),
        ]);
        table.row(row);
    });
    table
}

/// Life of each edge and the pieces it makes.
pub(in crate::commands) fn wear(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let mut table = named("wear", "Tool life")
        .remark("Pieces an edge are those of this cut alone: an edge that makes several cuts lasts fewer, as the tool changes show.")
        .column(Column::text("machines", "machines"))
        .column(Column::text("tool", "tool"))
        .column(Column::text("coolant", "coolant"))
        .column(Column::new("speed_factor", "speed factor", Holds::Ratio))
        .column(Column::quantity::<Duration>("life", "life").in_unit("min"))
        .column(Column::new("wear_per_piece", "worn a piece", Holds::Share).decimals(3))
        .column(Column::count("per_edge", "pieces an edge", "pieces"));
    each_cut(scenario, estimates, |estimate, machines, cut, at| {
        let (one, _) = &estimate.cuts[at];
        let machine = &scenario.shop.machines[estimate.machine];
        let coolant = cut.coolant.or(machine.coolant).map(|id| scenario.shop.coolants[id].key.as_str());
        let mut row = names(scenario, estimate, cut);
        row.extend([
            machines.into(),
            scenario.shop.tools[cut.tool].key.as_str().into(),
            coolant.into(),
            one.edge.factors.product().into(),
            one.edge.life.into(),
            Cell::share(one.edge.share),
            one.edge.pieces.into(),
        ]);
        table.row(row);
    });
    table
}

/// Every formula worked, with the numbers put in.
pub(in crate::commands) fn workings(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let mut table = named("workings", "Workings")
        .column(Column::text("machines", "machines"))
        .column(Column::text("figure", "figure"))
        .column(Column::prose("formula", "formula"))
        .column(Column::prose("put_in", "put in"))
        .column(Column::text("result", "result"))
        .column(Column::text("source", "source"));
    let units = &scenario.units;
    each_cut(scenario, estimates, |estimate, machines, cut, at| {
        for figure in catalog_figures(scenario, estimate, cut) {
            let mut row = names(scenario, estimate, cut);
            row.push(machines.into());
            row.extend(figure);
            table.row(row);
        }
        for step in &estimate.cuts[at].1.0 {
            let inputs: Vec<String> = step
                .inputs
                .iter()
                .map(|(symbol, value)| format!("{symbol} = {}", term(*value, units)))
                .collect();
            let mut row = names(scenario, estimate, cut);
            row.extend([
                machines.into(),
                step.formula.figure.into(),
                step.formula.text.into(),
                inputs.join(", ").into(),
                term(step.result, units).into(),
                step.formula.source.into(),
            ]);
            table.row(row);
        }
    });
    for (estimate, machines) in alike(scenario, estimates) {
        let (item, number) = operation(scenario, estimate);
        for step in &estimate.workings.0 {
            let inputs: Vec<String> =
                step.inputs.iter().map(|(name, value)| format!("{name} = {}", term(*value, units))).collect();
            table.row(vec![
                item.as_str().into(),
                number.as_str().into(),
                Cell::Missing,
                machines.as_str().into(),
                step.formula.figure.into(),
                step.formula.text.into(),
                inputs.join(", ").into(),
                term(step.result, units).into(),
                step.formula.source.into(),
            ]);
        }
    }
    table
}

/// A value as text, with its unit.
pub(in crate::commands) fn term(value: Term, units: &Units) -> String {
    match value {
        Term::Measure(measure) => measure.text(units),
        Term::Plain(number) => significant(number, 6),
    }
}

/// The catalog figures behind a cut: what, where from, value, source with standing.
fn catalog_figures(scenario: &Scenario, estimate: &OperationEstimate, cut: &Cut) -> Vec<Vec<Cell>> {
    let shop = &scenario.shop;
    let Making::Part { material, .. } = shop.items[estimate.item].making else { return Vec::new() };
    let material = &shop.materials[material];
    let tool = &shop.tools[cut.tool];
    let units = &scenario.units;
    let mut rows = vec![
        figure("k_c1.1 of the material", &material.kc11, |value| term(value.into(), units)),
        figure("m_c of the material", &material.mc, |value| significant(value, 6)),
        figure("k_material", &material.speed_index, |value| significant(value, 6)),
    ];
    if let Some(law) = tool.life_in(material.group) {
        rows.push(figure("V_0 of the tool", &law.speed, |value| term(value.into(), units)));
        rows.push(figure("life of the reference cut", &law.life, |value| match value {
            ReferenceLife::Time(time) => term(time.into(), units),
            ReferenceLife::Path(path) => term(path.into(), units),
            ReferenceLife::Holes { holes, depth } => {
                format!("{holes} holes of {}", term(depth.into(), units))
            }
            ReferenceLife::Volume(volume) => term(volume.into(), units),
        }));
        rows.extend(constants(law));
        if cut.wear.is_some() {
            rows.push(figure("wear curve of the tool", &law.curve, |curve| {
                let points: Vec<String> =
                    curve.points().iter().map(|(age, wear)| format!("({age}, {wear})")).collect();
                points.join(" ")
            }));
        }
        let machine = &shop.machines[estimate.machine];
        let used = cut.coolant.or(machine.coolant).map(|id| &shop.coolants[id]);
        let reference = shop.coolants.iter().find(|coolant| coolant.key == law.coolant);
        let both =
            [("speed factor of the coolant", used), ("speed factor of the reference coolant", reference)];
        for (name, coolant) in both {
            let factor = coolant.and_then(|coolant| coolant.factor(tool.substrate, material.group));
            rows.extend(factor.map(|factor| figure(name, &factor.value, |value| significant(value, 6))));
        }
    }
    rows.extend(cut.condition.as_ref().map(|condition| {
        let band =
            condition.band.map_or_else(String::new, |(low, high)| format!(" (practice {low} to {high})"));
        figure("k_condition", &condition.speed_factor, |value| format!("{}{band}", significant(value, 6)))
    }));
    rows
}

/// The constants of a life law beside its reference cut.
fn constants(law: &LifeLaw) -> Option<Vec<Cell>> {
    match &law.shape {
        LifeShape::Taylor(taylor) => taylor
            .n
            .value
            .is_finite()
            .then(|| figure("n of the tool", &taylor.n, |value| significant(value, 6))),
        LifeShape::Colding(colding) => {
            Some(figure("K, H, M, N0, L of the tool", &colding.constants, |constants| {
                [constants.k, constants.h, constants.m, constants.n0, constants.l]
                    .map(|value| significant(value, 6))
                    .join(", ")
            }))
        }
    }
}

fn figure<T: Clone>(name: &str, of: &Sourced<T>, show: impl Fn(T) -> String) -> Vec<Cell> {
    let from = of
        .at
        .as_ref()
        .map_or_else(|| of.standing.text().to_owned(), |at| format!("{}: {at}", of.standing.text()));
    vec![
        name.into(),
        "given figure".into(),
        from.into(),
        show(of.value.clone()).into(),
        of.source.as_str().into(),
    ]
}
