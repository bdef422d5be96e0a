//! `check`: is this scenario right, and can it be worked out?
//!
//! input -> Scenario -> cutting, tooling -> cycle

use super::failure::{Answer, Failure, Verdict};
use super::study::{Request, Study};
use super::tables;
use crate::report::{Column, Document, Table};

/// Reads a scenario, works out every cut on every machine, and says what there is.
///
/// # Errors
/// [`Failure`], all mistakes of the input at once.
pub fn check(request: &Request) -> Result<Answer, Failure> {
    let study = Study::new(request)?;
    let scenario = &study.worked.scenario;
    let shop = &scenario.shop;
    let operations = || shop.items.iter().flat_map(|item| &item.operations);
    let mut table = Table::new("scenario", "What there is")
        .column(Column::count("days", "days", "days"))
        .column(Column::count("shifts", "shifts", "shifts"))
        .column(Column::count("machines", "machines", "machines"))
        .column(Column::count("items", "items", "items"))
        .column(Column::count("operations", "operations", "operations"))
        .column(Column::count("cuts", "cuts", "cuts"))
        .column(Column::count("tools", "tools", "tools"))
        .column(Column::count("orders", "orders", "orders"));
    table.row(vec![
        scenario.calendar.working_days().into(),
        scenario.calendar.buckets.len().into(),
        shop.machines.len().into(),
        shop.items.len().into(),
        operations().count().into(),
        operations().map(|operation| operation.cuts.len()).sum::<usize>().into(),
        shop.tools.len().into(),
        scenario.orders.len().into(),
    ]);
    let mut document = Document::new(format!("{}: no mistake found", scenario.title));
    document.push(table);
    if let Some(table) = tables::slowed(scenario, &study.worked.estimates) {
        document.push(table);
    }
    document.push(tables::cautions(scenario, &study.worked.estimates));
    let units = study.units();
    Ok(Answer {
        document,
        units,
        verdict: Verdict::Yes,
        warnings: study.warnings,
        sources: study.sources,
        beside: Vec::new(),
    })
}
