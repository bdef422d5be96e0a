//! What changed against the last plan: orders, pieces by shift and machine, changes of edges, money.

use crate::quantity::{Duration, Money};
use crate::report::{Cell, Column, Faces, Holds, Notes, Section, Table};

/// All that differs from the last plan, from now on.
pub(in crate::commands) struct ChangedPlan {
    pub(in crate::commands) orders: Vec<ChangedOrder>,
    pub(in crate::commands) lots: Vec<ChangedLot>,
    pub(in crate::commands) edges: Vec<ChangedEdge>,
    /// Money of the work, before and after.
    pub(in crate::commands) money: (f64, f64),
    /// What the last plan names and nothing bears any more.
    pub(in crate::commands) unknown: Vec<String>,
}

/// Finish and hours late of an order, before and after.
pub(in crate::commands) struct ChangedOrder {
    pub(in crate::commands) order: String,
    pub(in crate::commands) before: (Option<String>, Option<f64>),
    pub(in crate::commands) after: (Option<String>, Option<f64>),
}

/// Pieces of an operation on a machine in a shift.
pub(in crate::commands) struct ChangedLot {
    pub(in crate::commands) shift: String,
    pub(in crate::commands) machine: String,
    pub(in crate::commands) item: String,
    pub(in crate::commands) operation: String,
    pub(in crate::commands) before: u32,
    pub(in crate::commands) after: u32,
}

/// Times at which an edge comes out in a shift.
pub(in crate::commands) struct ChangedEdge {
    pub(in crate::commands) shift: String,
    pub(in crate::commands) machine: String,
    pub(in crate::commands) edge: String,
    pub(in crate::commands) before: String,
    pub(in crate::commands) after: String,
}

/// A line in words, then the tables; for people only those with rows.
pub(in crate::commands) fn changed_plan(changed: &ChangedPlan) -> Vec<Section> {
    let (before, after) = changed.money;
    let money = (after - before).abs() >= 0.005;
    let nothing = changed.orders.is_empty() && changed.lots.is_empty() && changed.edges.is_empty() && !money;
    let mut lines = vec![if nothing {
        "Nothing changed: from now on this plan is the last one.".to_owned()
    } else {
        format!(
            "{}, {} and {} differ from the last plan.",
            counted(changed.orders.len(), "order"),
            counted(changed.lots.len(), "lot"),
            counted(changed.edges.len(), "edge")
        )
    }];
    lines.extend(changed.unknown.iter().cloned());
    let notes = Notes::new("against_last_plan", "Against the last plan", lines);
    let tables = [orders(changed), lots(changed), edges(changed), money_table(before, after)];
    let tables = tables.into_iter().map(|table| {
        // Data keeps its tables, so that a reader of them need not ask which there are.
        let shown = !nothing && !table.rows().is_empty();
        Section::from(if shown { table } else { table.faces(Faces::DataOnly) })
    });
    std::iter::once(notes.into()).chain(tables).collect()
}

fn counted(count: usize, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}

fn orders(changed: &ChangedPlan) -> Table {
    let mut table = Table::new("changed_orders", "Orders that changed")
        .column(Column::text("order", "order"))
        .column(Column::new("finish_before", "finish before", Holds::Stamp))
        .column(Column::new("finish_after", "after", Holds::Stamp))
        .column(Column::quantity::<Duration>("late_before", "late before").in_unit("h").decimals(1))
        .column(Column::quantity::<Duration>("late_after", "after").in_unit("h").decimals(1));
    let stamp = |finish: &Option<String>| finish.clone().map_or(Cell::Missing, Cell::stamp);
    for order in &changed.orders {
        table.row(vec![
            order.order.as_str().into(),
            stamp(&order.before.0),
            stamp(&order.after.0),
            order.before.1.map(Duration::h).into(),
            order.after.1.map(Duration::h).into(),
        ]);
    }
    table
}

fn lots(changed: &ChangedPlan) -> Table {
    let mut table = Table::new("changed_lots", "Pieces that changed, by shift and machine")
        .column(Column::text("shift", "shift"))
        .column(Column::text("machine", "machine"))
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::count("before", "before", "pieces"))
        .column(Column::count("after", "after", "pieces"));
    for lot in &changed.lots {
        table.row(vec![
            lot.shift.as_str().into(),
            lot.machine.as_str().into(),
            lot.item.as_str().into(),
            lot.operation.as_str().into(),
            lot.before.into(),
            lot.after.into(),
        ]);
    }
    table
}

fn edges(changed: &ChangedPlan) -> Table {
    let mut table = Table::new("changed_tools", "Tool changes that moved")
        .column(Column::text("shift", "shift"))
        .column(Column::text("machine", "machine"))
        .column(Column::text("tool", "tool"))
        .column(Column::prose("before", "before"))
        .column(Column::prose("after", "after"));
    let times = |times: &str| if times.is_empty() { Cell::Missing } else { times.into() };
    for edge in &changed.edges {
        table.row(vec![
            edge.shift.as_str().into(),
            edge.machine.as_str().into(),
            edge.edge.as_str().into(),
            times(&edge.before),
            times(&edge.after),
        ]);
    }
    table
}

fn money_table(before: f64, after: f64) -> Table {
    let mut table = Table::new("changed_money", "Money of the work from now on")
        .remark("Machine hours with shift premium, edges, tool changes on average and setups of what is still to be made; holding is left out.")
        .column(Column::quantity::<Money>("before", "before").decimals(0))
        .column(Column::quantity::<Money>("after", "after").decimals(0))
        .column(Column::quantity::<Money>("difference", "difference").decimals(0));
    let cells = [before, after, after - before];
    table.row(cells.into_iter().map(|money| Money::of(money).into()).collect());
    table
}
