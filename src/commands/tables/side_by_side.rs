//! Two plans side by side.

use crate::quantity::{Duration, Money};
use crate::report::{Cell, Column, Holds, Notes, Section, Table};
use std::collections::{BTreeMap, BTreeSet};

/// What is compared of a plan.
#[derive(Default)]
pub(in crate::commands) struct Side {
    pub(in crate::commands) name: String,
    pub(in crate::commands) currency: String,
    /// Matched sets a day in the steady state.
    pub(in crate::commands) output: Option<f64>,
    pub(in crate::commands) orders: u32,
    pub(in crate::commands) late: u32,
    /// Weighted piece-hours.
    pub(in crate::commands) lateness: f64,
    pub(in crate::commands) cost: f64,
    /// Hours.
    pub(in crate::commands) setups: f64,
    pub(in crate::commands) changes: u32,
    /// Hours by machine, setups and changes among them.
    pub(in crate::commands) machines: BTreeMap<String, f64>,
    /// Planned edges by tool.
    pub(in crate::commands) edges: BTreeMap<String, u32>,
    /// Whether its search was cut short.
    pub(in crate::commands) cut_short: bool,
}

/// The plans, their machines and their edges.
pub(in crate::commands) fn side_by_side(one: &Side, other: &Side) -> Vec<Section> {
    let mut sections: Vec<Section> = vec![plans(one, other).into()];
    if one.currency != other.currency {
        let line = format!("Money is in {} and in {}: it is not compared.", one.currency, other.currency);
        sections.push(Notes::new("remarks", "What to read it with", vec![line]).into());
    }
    sections.push(machines(one, other).into());
    sections.push(edges(one, other).into());
    sections
}

fn plans(one: &Side, other: &Side) -> Table {
    let per_day = Holds::Number { unit: "sets/day", key: "sets_per_day" };
    let piece_hours = Holds::Number { unit: "piece h", key: "piece_h" };
    let mut table = Table::new("plans_compared", "The plans")
        .remark("Sets a day are those of the steady state; lateness is weighted by priority.")
        .column(Column::prose("plan", "plan"))
        .column(Column::new("output", "output", per_day).decimals(1))
        .column(Column::count("orders", "orders", "orders"))
        .column(Column::count("late", "late", "orders"))
        .column(Column::new("lateness", "lateness", piece_hours).decimals(1))
        .column(Column::quantity::<Money>("cost", "cost").decimals(0))
        .column(Column::quantity::<Duration>("setups", "setups").in_unit("h"))
        .column(Column::count("tool_changes", "tool changes", "changes"));
    let same_money = one.currency == other.currency;
    for (side, shown) in [(one, true), (other, same_money)] {
        table.row(vec![
            side.name.as_str().into(),
            side.output.into(),
            side.orders.into(),
            side.late.into(),
            side.lateness.into(),
            if shown { Money::of(side.cost).into() } else { Cell::Missing },
            Duration::h(side.setups).into(),
            side.changes.into(),
        ]);
    }
    table.row(vec![
        "difference".into(),
        one.output.zip(other.output).map(|(one, other)| other - one).into(),
        less(one.orders, other.orders).into(),
        less(one.late, other.late).into(),
        (other.lateness - one.lateness).into(),
        if same_money { Money::of(other.cost - one.cost).into() } else { Cell::Missing },
        Duration::h(other.setups - one.setups).into(),
        less(one.changes, other.changes).into(),
    ]);
    table
}

fn less(one: u32, other: u32) -> i64 {
    i64::from(other) - i64::from(one)
}

fn machines(one: &Side, other: &Side) -> Table {
    let mut table = Table::new("machines_compared", "Hours by machine")
        .remark("Hours run, set up and stopped for tool changes.")
        .column(Column::text("machine", "machine"))
        .column(Column::quantity::<Duration>("one", "one").in_unit("h"))
        .column(Column::quantity::<Duration>("other", "other").in_unit("h"))
        .column(Column::quantity::<Duration>("difference", "difference").in_unit("h"));
    let names: BTreeSet<&String> = one.machines.keys().chain(other.machines.keys()).collect();
    for name in names {
        let hours = |side: &Side| side.machines.get(name).copied().unwrap_or(0.0);
        table.row(vec![
            name.as_str().into(),
            Duration::h(hours(one)).into(),
            Duration::h(hours(other)).into(),
            Duration::h(hours(other) - hours(one)).into(),
        ]);
    }
    table
}

fn edges(one: &Side, other: &Side) -> Table {
    let mut table = Table::new("edges_compared", "Planned edges by tool")
        .column(Column::text("tool", "tool"))
        .column(Column::count("one", "one", "edges"))
        .column(Column::count("other", "other", "edges"))
        .column(Column::count("difference", "difference", "edges"));
    let names: BTreeSet<&String> = one.edges.keys().chain(other.edges.keys()).collect();
    for name in names {
        let edges = |side: &Side| side.edges.get(name).copied().unwrap_or(0);
        let (one, other) = (edges(one), edges(other));
        table.row(vec![name.as_str().into(), one.into(), other.into(), less(one, other).into()]);
    }
    table
}
