//! Edges on order, and what machines stand set up for at the start.

use super::Fields;
use super::calendar::moment;
use super::machine::StandsFor;
use super::order::{item_named, operation_named};
use super::read;
use super::registry::Registry;
use super::tree::Table;
use crate::cycle::Item;
use crate::diag::{Code, Diagnostic, Diagnostics};
use crate::plant::Calendar;
use crate::schedule::{Delivery, SetUp};

/// Reads `[[delivery]]`.
pub(super) fn deliveries(
    tables: &[&Table],
    registry: &mut Registry<'_>,
    calendar: &Calendar,
    diagnostics: &mut Diagnostics,
) -> Option<Vec<Delivery>> {
    let read: Vec<Option<Delivery>> =
        tables.iter().map(|table| delivery(table, registry, calendar, diagnostics)).collect();
    read.into_iter().collect()
}

fn delivery(
    table: &Table,
    registry: &mut Registry<'_>,
    calendar: &Calendar,
    diagnostics: &mut Diagnostics,
) -> Option<Delivery> {
    let mut fields = Fields::new(table, "delivery", diagnostics);
    let name = fields.required("tool", read::name);
    let tool = name.as_ref().and_then(|name| registry.tool(name, fields.diagnostics()));
    let edges = fields.required("edges", read::count);
    let at = fields.required("at", moment);
    fields.finish();
    let (name, tool) = (name?, tool?);
    if registry.shop.tools[tool].on_hand.is_none() {
        diagnostics.push(
            Diagnostic::new(
                Code::MissingKey,
                format!("`{}` has a delivery and says nothing of its edges at hand", name.value),
            )
            .at(name.span, "taken to have as many edges as are needed")
            .help(format!("add [tool.{}] on_hand = 0, or take the delivery out", name.value)),
        );
        return None;
    }
    Some(Delivery { tool, edges: edges?.value, at: calendar.seconds(at?.value) })
}

/// What machines stand set up for, names resolved.
pub(super) fn set_ups(
    written: &[(usize, StandsFor)],
    registry: &Registry<'_>,
    items: &[Item],
    diagnostics: &mut Diagnostics,
) -> Option<Vec<SetUp>> {
    let read: Vec<Option<SetUp>> = written
        .iter()
        .map(|(machine, stands)| {
            let item = item_named(&stands.item, items, diagnostics)?;
            let operation = operation_named(&stands.operation, &items[item], diagnostics)?;
            let of = &items[item].operations[operation];
            if !of.machines.contains(machine) {
                let key = &registry.shop.machines[*machine].key;
                diagnostics.push(
                    Diagnostic::new(
                        Code::Route,
                        format!("`{}` {} is not done on `{key}`", items[item].key, of.id),
                    )
                    .at(stands.operation.span, "it cannot stand set up for this")
                    .help("name the machine in the operation's `machines`, or another operation here"),
                );
                return None;
            }
            Some(SetUp { machine: *machine, item, operation })
        })
        .collect();
    read.into_iter().collect()
}
