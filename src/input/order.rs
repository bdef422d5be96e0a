//! Orders and opening stock from their tables.

use super::calendar::moment;
use super::read;
use super::tree::Table;
use super::{Fields, Spanned};
use crate::cycle::Item;
use crate::diag::{Code, Diagnostic, Diagnostics, Span, nearest};
use crate::plant::Calendar;
use crate::schedule::{Late, Opening, Order};

/// Reads the orders, with the calendar and currency of the scenario; ids must differ.
pub(super) fn orders(
    tables: &[&Table],
    items: &[Item],
    plant: (&Calendar, &str),
    diagnostics: &mut Diagnostics,
) -> Option<Vec<(Order, Span)>> {
    let read: Vec<Option<(Order, Span)>> =
        tables.iter().map(|table| order(table, items, plant, diagnostics)).collect();
    let orders: Vec<(Order, Span)> = read.into_iter().collect::<Option<_>>()?;
    for (at, (order, span)) in orders.iter().enumerate() {
        if let Some((_, first)) = orders[..at].iter().find(|(other, _)| other.id == order.id) {
            diagnostics.push(
                Diagnostic::new(Code::GivenTwice, format!("two orders are called `{}`", order.id))
                    .at(*span, "here again")
                    .also(*first, "first here"),
            );
            return None;
        }
    }
    Some(orders)
}

fn order(
    table: &Table,
    items: &[Item],
    plant: (&Calendar, &str),
    diagnostics: &mut Diagnostics,
) -> Option<(Order, Span)> {
    let (calendar, currency) = plant;
    let mut fields = Fields::new(table, "order", diagnostics);
    let id = fields.required("id", read::name);
    let item = fields.required("item", read::name);
    let item = item.and_then(|name| item_named(&name, items, fields.diagnostics()));
    let quantity = fields.required("quantity", read::count_or_zero);
    let due = fields.required("due", moment);
    let late = late(&mut fields, currency);
    fields.finish();
    let id = id?;
    let order = Order {
        id: id.value,
        item: item?,
        quantity: quantity?.value,
        due: calendar.seconds(due?.value),
        late: late?,
    };
    Some((order, id.span))
}

/// How lateness counts: by priority before any money, or at a price. What has a price has no rank, so that both are a mistake.
fn late(fields: &mut Fields<'_, '_>, currency: &str) -> Option<Late> {
    match fields.at_most_one(&["priority", "day_late"]) {
        Some("day_late") => {
            let price = fields.optional("day_late", read::money(currency))?;
            if price.value.amount() > 0.0 {
                return Some(Late::Price(price.value));
            }
            fields.diagnostics().push(
                Diagnostic::new(Code::OutOfRange, "pieces that cost nothing when they are late")
                    .at(price.span, "expected a price above nothing")
                    .help("leave `day_late` out: lateness is then least before any money is looked at"),
            );
            None
        }
        _ => {
            let priority = fields.optional("priority", read::number_between(0.001, 1000.0));
            Some(Late::Priority(priority.map_or(1.0, |priority| priority.value)))
        }
    }
}

/// Reads what lies there at the start.
pub(super) fn openings(
    tables: &[&Table],
    items: &[Item],
    diagnostics: &mut Diagnostics,
) -> Option<Vec<Opening>> {
    let read: Vec<Option<Opening>> = tables.iter().map(|table| opening(table, items, diagnostics)).collect();
    read.into_iter().collect()
}

fn opening(table: &Table, items: &[Item], diagnostics: &mut Diagnostics) -> Option<Opening> {
    let mut fields = Fields::new(table, "stock", diagnostics);
    let item = fields.required("item", read::name);
    let item = item.and_then(|name| item_named(&name, items, fields.diagnostics()));
    let after = fields.optional("after", read::count);
    let pieces = fields.required("pieces", read::count_or_zero);
    let at_end = fields.optional("at_end", read::count_or_zero);
    fields.finish();
    let item = item?;
    let operation = match after {
        None => items[item].operations.len().saturating_sub(1),
        Some(after) => operation_named(&after, &items[item], diagnostics)?,
    };
    Some(Opening { item, operation, pieces: pieces?.value, at_end: at_end.map_or(0, |pieces| pieces.value) })
}

/// An operation of an item by number.
pub(super) fn operation_named(
    after: &Spanned<u32>,
    item: &Item,
    diagnostics: &mut Diagnostics,
) -> Option<usize> {
    let found = item.operations.iter().position(|operation| operation.id == after.value);
    // A route that could not be read has been reported already.
    if found.is_none() && !item.operations.is_empty() {
        let known: Vec<String> = item.operations.iter().map(|operation| operation.id.to_string()).collect();
        diagnostics.push(
            Diagnostic::new(Code::UnknownName, format!("`{}` has no operation {}", item.key, after.value))
                .at(after.span, format!("expected one of {}", known.join(", "))),
        );
    }
    found
}

/// An item by name.
pub(super) fn item_named(
    name: &Spanned<String>,
    items: &[Item],
    diagnostics: &mut Diagnostics,
) -> Option<usize> {
    let found = items.iter().position(|item| item.key == name.value);
    if found.is_none() {
        let near = nearest(&name.value, items.iter().map(|item| item.key.as_str()));
        let diagnostic =
            Diagnostic::new(Code::UnknownName, format!("no part or product is called `{}`", name.value))
                .at(name.span, "not found");
        diagnostics.push(match near {
            Some(near) => diagnostic.did_you_mean(Some(near)),
            None => diagnostic.help(format!("add a table [part.{}] or [product.{}]", name.value, name.value)),
        });
    }
    found
}
