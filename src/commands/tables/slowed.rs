//! What was lowered to keep the limits, where the scenario allows it.

use super::cuts::term;
use super::names::{alike, operation};
use crate::cycle::OperationEstimate;
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::Scenario;

/// Each speed or feed that was lowered and the limit that asked for it; `None` if nothing was.
pub(in crate::commands) fn slowed(scenario: &Scenario, estimates: &[OperationEstimate]) -> Option<Table> {
    let mut table = Table::new("slowed", "Slowed down to keep the limits")
        .remark(
            "`repair = \"slow down\"` allows it; cutting data, life and cycle are those of the slowed cut.",
        )
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("cut", "cut"))
        .column(Column::text("machines", "machines"))
        .column(Column::text("limit", "limit"))
        .column(Column::text("lowered", "lowered"))
        .column(Column::text("given", "given"))
        .column(Column::text("run", "run"))
        .column(Column::new("share_left", "left", Holds::Share));
    let mut any = false;
    for (estimate, machines) in alike(scenario, estimates) {
        let (item, number) = operation(scenario, estimate);
        let cuts = &scenario.shop.items[estimate.item].operations[estimate.operation].cuts;
        for (cut, (one, _)) in cuts.iter().zip(&estimate.cuts) {
            for slowed in &one.slowed {
                any = true;
                table.row(vec![
                    item.as_str().into(),
                    number.as_str().into(),
                    cut.id.as_str().into(),
                    machines.as_str().into(),
                    slowed.limit.into(),
                    slowed.figure.into(),
                    term(slowed.from, &scenario.units).into(),
                    term(slowed.to, &scenario.units).into(),
                    Cell::share(slowed.share()),
                ]);
            }
        }
    }
    any.then_some(table)
}
