//! A changed scenario against the scenario as written: output, operations, edges.

use super::capacity::days;
use super::names::operation;
use crate::cycle::OperationEstimate;
use crate::quantity::Duration;
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::{Capacity, Scenario};

/// Sets a day as written and changed.
pub(in crate::commands) fn output_comparison(
    scenario: &Scenario,
    written: &Capacity,
    changed: &Capacity,
) -> Table {
    let per_day = Holds::Number { unit: "sets/day", key: "sets_per_day" };
    let mut table = Table::new("output_against_written", "Output against the scenario as written")
        .column(Column::new("as_written", "as written", per_day).decimals(1))
        .column(Column::new("changed", "changed", per_day).decimals(1))
        .column(Column::new("difference", "difference", Holds::Share));
    let days = days(scenario);
    table.row(vec![
        (written.units / days).into(),
        (changed.units / days).into(),
        Cell::share(changed.units / written.units - 1.0),
    ]);
    table
}

/// Cycle and shortest-lived edge of each operation that differs.
pub(in crate::commands) fn operation_comparison(
    scenario: &Scenario,
    written: &[OperationEstimate],
    changed: &[OperationEstimate],
) -> Table {
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
    for (before, after) in written.iter().zip(changed) {
        if before == after {
            continue;
        }
        let (item, number) = operation(scenario, after);
        table.row(vec![
            item.into(),
            number.into(),
            scenario.shop.machines[after.machine].key.as_str().into(),
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
pub(in crate::commands) fn edge_comparison(
    scenario: &Scenario,
    written: &[OperationEstimate],
    changed: &[OperationEstimate],
) -> Table {
    let per_thousand = Holds::Number { unit: "edges/1000", key: "edges_per_1000_pieces" };
    let mut table = Table::new("edges_against_written", "Where it changes: edges")
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("machine", "machine"))
        .column(Column::text("tool", "tool"))
        .column(Column::count("per_edge_as_written", "pieces an edge as written", "pieces"))
        .column(Column::count("per_edge_changed", "changed", "pieces"))
        .column(Column::new("as_written", "edges as written", per_thousand).decimals(1))
        .column(Column::new("changed", "edges changed", per_thousand).decimals(1))
        .column(Column::new("times", "times", Holds::Ratio));
    for (before, after) in written.iter().zip(changed) {
        for (old, new) in before.tools.iter().zip(&after.tools) {
            if old == new {
                continue;
            }
            let (item, number) = operation(scenario, after);
            let edges = |pieces: u32| 1000.0 / f64::from(pieces.max(1));
            table.row(vec![
                item.into(),
                number.into(),
                scenario.shop.machines[after.machine].key.as_str().into(),
                placed(&scenario.shop.tools[new.tool].key, &new.position).into(),
                old.pieces.into(),
                new.pieces.into(),
                edges(old.pieces).into(),
                edges(new.pieces).into(),
                (edges(new.pieces) / edges(old.pieces)).into(),
            ]);
        }
    }
    table
}

/// A tool and where it sits.
fn placed(tool: &str, position: &str) -> String {
    if position.is_empty() { tool.to_owned() } else { format!("{tool} at {position}") }
}
