//! The same operation done otherwise: life, pieces, changes, cost and what the plant makes then.

use super::variants::{Change, Variant, variants};
use crate::commands::capacity::sets_per_day;
use crate::commands::failure::Failure;
use crate::commands::study::Worked;
use crate::commands::tables::placed;
use crate::cycle::{LimitOf, OperationEstimate, estimate_operation};
use crate::plant::Bucket;
use crate::quantity::{Duration, Money, MoneyRate};
use crate::report::{Cell, Column, Holds, Section, Table};
use crate::schedule::Scenario;

/// Variants of the operation chosen, on each of its machines.
pub(super) fn what_if(worked: &Worked, chosen: &[OperationEstimate]) -> Result<Vec<Section>, Failure> {
    let Some(first) = chosen.first() else { return Ok(Vec::new()) };
    let (item, operation) = (first.item, first.operation);
    let of = &worked.scenario.shop.items[item].operations[operation];
    let (mut whole, mut lives) = (operations_table(), edges_table());
    let mut written = None;
    for variant in variants(&worked.scenario, item, of) {
        match changed(worked, &variant, (item, operation)) {
            Ok(other) => {
                let sets = sets_per_day(&other)?;
                let base = *written.get_or_insert(sets);
                rows((worked, &other), &variant, chosen, (sets, base), (&mut whole, &mut lives));
            }
            Err(why) => {
                let mut row: Vec<Cell> = vec![variant.name.as_str().into()];
                row.resize(whole.columns().len() - 1, Cell::Missing);
                row.push(why.into());
                whole.row(row);
            }
        }
    }
    Ok(vec![whole.into(), lives.into()])
}

fn operations_table() -> Table {
    let changes = Holds::Number { unit: "edges", key: "" };
    Table::new("what_if", "What if")
        .remark(
            "Only this operation is changed, on all its machines; the change points are worked out anew. A tool put in another's \
             place runs at its own reference speed where the cut's is none for it. Sets a day are those of the whole plant in the steady state.",
        )
        .column(Column::text("variant", "variant"))
        .column(Column::text("machine", "machine"))
        .column(Column::quantity::<Duration>("cycle", "cycle").decimals(2))
        .column(Column::new("edges_per_shift", "edges a shift", changes).decimals(1))
        .column(Column::quantity::<Money>("edges", "edges a piece").decimals(4))
        .column(Column::quantity::<Money>("cost", "machine and edges a piece").decimals(4))
        .column(Column::new("output", "plant makes", Holds::Number { unit: "sets/day", key: "sets_per_day" }).decimals(1))
        .column(Column::new("difference", "difference", Holds::Share))
        .column(Column::prose("remark", "remark"))
}

fn edges_table() -> Table {
    Table::new("what_if_edges", "What if: edge by edge")
        .remark("Edges as written, and for each variant those that change.")
        .column(Column::text("variant", "variant"))
        .column(Column::text("machine", "machine"))
        .column(Column::text("tool", "tool"))
        .column(
            Column::new("average", "average edge", Holds::Number { unit: "pieces", key: "pieces" })
                .decimals(1),
        )
        .column(Column::count("change_after", "change after", "pieces"))
        .column(Column::text("ruled_by", "ruled by"))
        .column(Column::new("fail_before", "fail before", Holds::Share))
        .column(
            Column::new("worn", "edges", Holds::Number { unit: "edges/1000", key: "edges_per_1000_pieces" })
                .decimals(1),
        )
}

/// The plant with the operation done otherwise.
fn changed(worked: &Worked, variant: &Variant, of: (usize, usize)) -> Result<Worked, String> {
    let mut scenario = worked.scenario.clone();
    variant.change.apply(&mut scenario, of.0, of.1);
    let mut estimates = worked.estimates.clone();
    if variant.change != Change::Nothing {
        for estimate in estimates.iter_mut().filter(|estimate| (estimate.item, estimate.operation) == of) {
            let place = (of.0, of.1, estimate.machine);
            *estimate = estimate_operation(&scenario.shop, place, estimate.worth)
                .map_err(|(cut, error)| format!("{}: {error}", cut_name(&scenario, of, cut)))?;
        }
    }
    Ok(Worked { scenario, estimates })
}

fn cut_name(scenario: &Scenario, of: (usize, usize), cut: usize) -> String {
    scenario.shop.items[of.0].operations[of.1].cuts[cut].id.clone()
}

fn rows(
    (base, other): (&Worked, &Worked),
    variant: &Variant,
    chosen: &[OperationEstimate],
    sets: (f64, f64),
    tables: (&mut Table, &mut Table),
) {
    let (whole, lives) = tables;
    let shop = &other.scenario.shop;
    let place = |of: &OperationEstimate| (of.item, of.operation, of.machine);
    let shown = |estimate: &&OperationEstimate| chosen.iter().any(|one| place(one) == place(estimate));
    for estimate in other.estimates.iter().filter(shown) {
        let machine = &shop.machines[estimate.machine];
        let changes: f64 = estimate.tools.iter().map(|used| 1.0 / used.point.made()).sum();
        let edges = estimate.tooling_cost();
        let run = machine.rate.map(|rate: MoneyRate| rate.over(estimate.cycle));
        whole.row(vec![
            variant.name.as_str().into(),
            machine.key.as_str().into(),
            estimate.cycle.into(),
            shift(&other.scenario, estimate.machine).map(|time| time / estimate.cycle * changes).into(),
            edges.into(),
            run.zip(edges).map(|(run, edges)| run + edges).into(),
            sets.0.into(),
            Cell::share(difference(sets)),
            remark(other, estimate).into(),
        ]);
        let before = base.estimates.iter().find(|before| place(before) == place(estimate));
        for (at, used) in estimate.tools.iter().enumerate() {
            let same = before.and_then(|before| before.tools.get(at)).is_some_and(|before| before == used);
            if same && variant.change != Change::Nothing {
                continue;
            }
            lives.row(vec![
                variant.name.as_str().into(),
                machine.key.as_str().into(),
                placed(&shop.tools[used.tool].key, &used.position).into(),
                used.point.average.into(),
                used.pieces.into(),
                used.point.rule.name().into(),
                Cell::share(used.point.failed()),
                (1000.0 / used.point.made()).into(),
            ]);
        }
    }
}

/// How far the output lies from that as written; the last digits of the solver are nothing.
fn difference((other, written): (f64, f64)) -> f64 {
    let share = other / written - 1.0;
    if share.abs() < 1e-9 { 0.0 } else { share }
}

/// Time a machine runs in one of its shifts, on average.
fn shift(scenario: &Scenario, machine: usize) -> Option<Duration> {
    let machine = &scenario.shop.machines[machine];
    let open = |bucket: &&Bucket| machine.shifts.iter().any(|shift| bucket.is_shift(*shift));
    let own = || scenario.calendar.buckets.iter().filter(open);
    let count = u32::try_from(own().count()).ok().filter(|count| *count > 0)?;
    let open: Duration = own().map(|bucket| bucket.working_time(machine.at_breaks)).sum();
    Some(open * (machine.availability.value() * machine.performance.value() / f64::from(count)))
}

/// What speaks against a variant: limits broken, edges that do not last a piece, prices missing.
fn remark(other: &Worked, estimate: &OperationEstimate) -> Option<String> {
    let mut words: Vec<String> = Vec::new();
    let cuts = &other.scenario.shop.items[estimate.item].operations[estimate.operation].cuts;
    for (cut, (one, _)) in cuts.iter().zip(&estimate.cuts) {
        let broken = one.limits.iter().filter(|limit| limit.broken() && limit.of != LimitOf::Rule);
        words.extend(broken.map(|limit| format!("{}: {} broken", cut.id, limit.limit)));
        if one.edge.pieces == 0 {
            words.push(format!("{}: an edge does not last a piece", cut.id));
        }
    }
    for used in estimate.tools.iter().filter(|used| used.edge_cost.is_none()) {
        words.push(format!("{} has no price", other.tool(used.tool)));
    }
    (!words.is_empty()).then(|| words.join("; "))
}
