//! A changed scenario against the scenario as written: output, operations, edges.

use super::capacity::days;
use super::names::operation;
use crate::commands::study::Worked;
use crate::cycle::{OperationEstimate, ToolUse};
use crate::quantity::{Duration, Money};
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::{Capacity, Planned, Problem, Scenario};

/// Sets a day as written and changed.
pub(in crate::commands) fn output_comparison(
    (scenario, written): (&Scenario, &Capacity),
    (other, changed): (&Scenario, &Capacity),
) -> Table {
    let per_day = Holds::Number { unit: "sets/day", key: "sets_per_day" };
    let mut table = Table::new("output_against_written", "Output against the scenario as written")
        .column(Column::new("as_written", "as written", per_day).decimals(1))
        .column(Column::new("changed", "changed", per_day).decimals(1))
        .column(Column::new("difference", "difference", Holds::Share));
    let (before, after) = (written.units / days(scenario), changed.units / days(other));
    table.row(vec![before.into(), after.into(), Cell::share(after / before - 1.0)]);
    table
}

/// Cycle and shortest-lived edge of each operation that differs.
pub(in crate::commands) fn operation_comparison(written: &Worked, changed: &Worked) -> Table {
    let mut table = Table::new("operations_against_written", "Where it changes: cycles")
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("machine", "machine"))
        .column(Column::quantity::<Duration>("cycle_as_written", "cycle as written").decimals(2))
        .column(Column::quantity::<Duration>("cycle_changed", "cycle changed").decimals(2))
        .column(Column::new("longer", "longer", Holds::Share))
        .column(
            Column::quantity::<Duration>("tool_changes_as_written", "tool changes as written").decimals(2),
        )
        .column(Column::quantity::<Duration>("tool_changes_changed", "tool changes changed").decimals(2));
    for (before, after) in both(written, changed) {
        if (before.cycle, before.tool_change_share) == (after.cycle, after.tool_change_share) {
            continue;
        }
        table.row(vec![
            placed_at(changed, after).into(),
            operation(&changed.scenario, after).1.into(),
            machine(changed, after).into(),
            before.cycle.into(),
            after.cycle.into(),
            Cell::share(after.cycle / before.cycle - 1.0),
            before.tool_change_share.into(),
            after.tool_change_share.into(),
        ]);
    }
    table
}

/// Edges a thousand pieces wear, by operation and tool.
pub(in crate::commands) fn edge_comparison(written: &Worked, changed: &Worked) -> Table {
    let per_thousand = Holds::Number { unit: "edges/1000", key: "edges_per_1000_pieces" };
    let mut table = Table::new("edges_against_written", "Where it changes: edges")
        .remark("Pieces are those to the planned change; edges are those worn on average, early failures among them.")
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("machine", "machine"))
        .column(Column::text("tool", "tool"))
        .column(Column::count("per_edge_as_written", "pieces an edge as written", "pieces"))
        .column(Column::count("per_edge_changed", "changed", "pieces"))
        .column(Column::new("as_written", "edges as written", per_thousand).decimals(1))
        .column(Column::new("changed", "edges changed", per_thousand).decimals(1))
        .column(Column::new("times", "times", Holds::Ratio));
    for (before, after) in both(written, changed) {
        for new in &after.tools {
            let name = placed(changed.tool(new.tool), &new.position);
            let old = before.tools.iter().find(|old| placed(written.tool(old.tool), &old.position) == name);
            let differs = |old: &&ToolUse| {
                old.pieces != new.pieces || (old.point.made() - new.point.made()).abs() > 1e-9
            };
            let Some(old) = old.filter(differs) else { continue };
            let edges = |used: &ToolUse| 1000.0 / used.point.made();
            table.row(vec![
                placed_at(changed, after).into(),
                operation(&changed.scenario, after).1.into(),
                machine(changed, after).into(),
                name.into(),
                old.pieces.into(),
                new.pieces.into(),
                edges(old).into(),
                edges(new).into(),
                (edges(new) / edges(old)).into(),
            ]);
        }
    }
    table
}

/// Estimates of the same operation on the same machine before and after, by their names.
fn both<'a>(
    written: &'a Worked,
    changed: &'a Worked,
) -> impl Iterator<Item = (&'a OperationEstimate, &'a OperationEstimate)> {
    let name = |of: &Worked, estimate: &OperationEstimate| {
        (operation(&of.scenario, estimate), machine(of, estimate).to_owned())
    };
    changed.estimates.iter().filter_map(move |after| {
        let wanted = name(changed, after);
        let before = written.estimates.iter().find(|before| name(written, before) == wanted)?;
        Some((before, after))
    })
}

fn placed_at(of: &Worked, estimate: &OperationEstimate) -> String {
    operation(&of.scenario, estimate).0
}

fn machine<'a>(of: &'a Worked, estimate: &OperationEstimate) -> &'a str {
    &of.scenario.shop.machines[estimate.machine].key
}

/// Availability and performance of machines that differ.
pub(in crate::commands) fn machine_comparison(written: &Worked, changed: &Worked) -> Table {
    let mut table = Table::new("machines_against_written", "Where it changes: machines")
        .column(Column::text("machine", "machine"))
        .column(Column::new("availability_as_written", "availability as written", Holds::Share))
        .column(Column::new("availability_changed", "changed", Holds::Share))
        .column(Column::new("performance_as_written", "performance as written", Holds::Share))
        .column(Column::new("performance_changed", "changed", Holds::Share));
    for after in &changed.scenario.shop.machines {
        let before = written.scenario.shop.machines.iter().find(|before| before.key == after.key);
        let Some(before) = before.filter(|before| {
            (before.availability, before.performance) != (after.availability, after.performance)
        }) else {
            continue;
        };
        table.row(vec![
            after.key.as_str().into(),
            before.availability.into(),
            after.availability.into(),
            before.performance.into(),
            after.performance.into(),
        ]);
    }
    table
}

/// What a plan comes to, as written and changed.
pub(in crate::commands) fn plan_comparison(
    written: (&Problem, &Planned),
    changed: (&Problem, &Planned),
) -> Table {
    let piece_hours = Holds::Number { unit: "piece h", key: "piece_h" };
    let mut table = Table::new("plan_against_written", "The plan against that of the scenario as written")
        .column(Column::text("plan", "plan"))
        .column(Column::count("late", "late", "orders"))
        .column(Column::count("wanted", "wanted", "pieces"))
        .column(Column::count("missing", "missing", "pieces"))
        .column(Column::new("lateness", "lateness", piece_hours).decimals(1))
        .column(Column::quantity::<Money>("cost", "cost").decimals(0))
        .column(Column::quantity::<Duration>("setups", "setups").in_unit("h"))
        .column(Column::count("tool_changes", "tool changes", "changes"))
        .column(Column::quantity::<Duration>("changing", "machines stand for them").in_unit("h"));
    for (name, (problem, planned)) in [("as written", written), ("changed", changed)] {
        let late = (0..problem.demands.len())
            .filter(|demand| planned.plan.lateness_of(problem, *demand) > 1e-9)
            .count();
        let wanted: f64 = problem.demands.iter().map(|demand| demand.quantity).sum();
        let shipped: f64 = (0..problem.demands.len()).map(|id| f64::from(planned.plan.shipped(id))).sum();
        let changing: f64 = (0..planned.plan.lots.len()).map(|lot| planned.plan.changing(problem, lot)).sum();
        table.row(vec![
            name.into(),
            late.into(),
            whole(wanted).into(),
            whole(wanted - shipped).into(),
            planned.lateness.into(),
            Money::of(planned.cost).into(),
            Duration::min(planned.plan.lots.iter().map(|lot| lot.setup).sum()).into(),
            planned.plan.changes.len().into(),
            Duration::min(changing).into(),
        ]);
    }
    table
}

/// Pieces as a whole number.
fn whole(pieces: f64) -> i64 {
    #[expect(clippy::cast_possible_truncation, reason = "sums of orders are far below 2^63")]
    let whole = pieces.round() as i64;
    whole
}

/// A tool and where it sits.
pub(in crate::commands) fn placed(tool: &str, position: &str) -> String {
    if position.is_empty() { tool.to_owned() } else { format!("{tool} at {position}") }
}
