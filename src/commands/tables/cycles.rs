//! Cycle of each operation on each machine, whole and by element.

use super::names::{alike, operation};
use crate::cycle::OperationEstimate;
use crate::quantity::{Duration, Fraction, Money};
use crate::report::{Cell, Column, Faces, Holds, Table};
use crate::schedule::Scenario;

const PER_HOUR: Holds = Holds::Number { unit: "pieces/h", key: "pieces_per_h" };

/// Elements of the cycle that are shown beside each other.
const SHOWN: [&str; 3] = ["in cut", "load and unload", "tool changes"];

/// Time from piece to piece, rates, people, tooling.
pub(in crate::commands) fn cycles(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let mut table = Table::new("cycles", "Cycle, for each piece")
        .remark("Rates are those of a running machine, before its availability. Edges are counted by whole pieces an edge.")
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("title", "work"))
        .column(Column::text("machines", "machines"))
        .column(Column::quantity::<Duration>("in_cut", "in cut"))
        .column(Column::quantity::<Duration>("loading", "loading"))
        .column(Column::quantity::<Duration>("tool_changes", "tool changes").decimals(2))
        .column(Column::quantity::<Duration>("other", "other"))
        .column(Column::quantity::<Duration>("cycle", "cycle"))
        .column(Column::new("gross_rate", "gross", PER_HOUR).decimals(1))
        .column(Column::new("good_rate", "good", PER_HOUR).decimals(1))
        .column(Column::quantity::<Duration>("attended", "attended"))
        .column(Column::quantity::<Money>("tooling_per_piece", "edges a piece").decimals(3));
    for (estimate, machines) in alike(scenario, estimates) {
        let (item, number) = operation(scenario, estimate);
        let work = &scenario.shop.items[estimate.item].operations[estimate.operation];
        let good: Fraction = work.good;
        let element = |name: &str| -> Duration {
            estimate.elements.iter().filter(|element| element.name == name).map(|element| element.time).sum()
        };
        let other: Duration = estimate
            .elements
            .iter()
            .filter(|element| !SHOWN.contains(&element.name))
            .map(|element| element.time)
            .sum();
        let gross = estimate.gross_rate_per_hour();
        table.row(vec![
            item.into(),
            number.into(),
            work.title.as_str().into(),
            machines.into(),
            element("in cut").into(),
            element("load and unload").into(),
            element("tool changes").into(),
            other.into(),
            estimate.cycle.into(),
            gross.into(),
            (gross * good.value()).into(),
            if estimate.attended > Duration::ZERO { estimate.attended.into() } else { Cell::Missing },
            estimate.tooling_cost().filter(|_| !estimate.tools.is_empty()).into(),
        ]);
    }
    table
}

/// Every element of every cycle.
pub(in crate::commands) fn elements(
    scenario: &Scenario,
    estimates: &[OperationEstimate],
    faces: Faces,
) -> Table {
    let mut table = Table::new("elements", "What fills the cycle")
        .faces(faces)
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("machines", "machines"))
        .column(Column::text("element", "element"))
        .column(Column::quantity::<Duration>("time", "time").decimals(2))
        .column(Column::new("share", "of the cycle", Holds::Bar));
    for (estimate, machines) in alike(scenario, estimates) {
        let (item, number) = operation(scenario, estimate);
        for element in &estimate.elements {
            table.row(vec![
                item.as_str().into(),
                number.as_str().into(),
                machines.as_str().into(),
                element.name.into(),
                element.time.into(),
                Cell::share(element.time / estimate.cycle),
            ]);
        }
    }
    table
}
