//! Stations: time from piece to piece, time through, pieces inside.

use super::names::{alike, operation};
use crate::cycle::OperationEstimate;
use crate::quantity::Duration;
use crate::report::{Column, Holds, Table};
use crate::schedule::Scenario;

/// How pieces pass each station.
pub(in crate::commands) fn stations(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let mut table = Table::new("stations", "Stations")
        .remark("Every load, place and row is taken as full. Of a sample, the time through is that of the piece gauged.")
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("title", "work"))
        .column(Column::text("machines", "machines"))
        .column(Column::quantity::<Duration>("interval", "piece to piece").decimals(2))
        .column(Column::quantity::<Duration>("through", "time through").in_unit("min"))
        .column(Column::new("inside", "inside", Holds::Number { unit: "pieces", key: "pieces" }).decimals(1));
    for (estimate, machines) in alike(scenario, estimates) {
        let Some(passage) = estimate.passage else { continue };
        let (item, number) = operation(scenario, estimate);
        let work = &scenario.shop.items[estimate.item].operations[estimate.operation];
        table.row(vec![
            item.into(),
            number.into(),
            work.title.as_str().into(),
            machines.into(),
            passage.interval.into(),
            passage.through.into(),
            passage.inside.into(),
        ]);
    }
    table
}
