//! Steady state: output by item, use of machines and people, what holds the plant back.

use crate::quantity::Duration;
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::{BuiltProblem, Capacity, ResourceKind, Scenario};

const PER_DAY: Holds = Holds::Number { unit: "pieces/day", key: "pieces_per_day" };

/// Working days of the horizon as a number.
pub(in crate::commands) fn days(scenario: &Scenario) -> f64 {
    u32::try_from(scenario.calendar.working_days()).map_or(1.0, |days| f64::from(days.max(1)))
}

/// Share of what a firm takes from which on it holds the plant back.
const FULL: f64 = 0.999_99;

/// Firms outside: name, pieces they take and pieces sent over the horizon.
fn firms<'a>(
    built: &'a BuiltProblem,
    capacity: &'a Capacity,
) -> impl Iterator<Item = (&'a str, f64, f64)> + 'a {
    let all = built.problem.resources.iter().zip(capacity.open.iter().zip(&capacity.used));
    all.filter(|(resource, _)| resource.kind == ResourceKind::Outside)
        .map(|(resource, (open, used))| (resource.name.as_str(), *open, *used))
}

/// Firms outside: pieces sent a day; `None` where there are none.
pub(in crate::commands) fn sent_a_day(
    scenario: &Scenario,
    built: &BuiltProblem,
    capacity: &Capacity,
) -> Option<Table> {
    let days = days(scenario);
    let mut table = Table::new("firms", "Firms outside at that output")
        .column(Column::text("firm", "firm"))
        .column(Column::text("title", "work"))
        .column(Column::new("takes", "takes", PER_DAY).decimals(1))
        .column(Column::new("sent", "sent", PER_DAY).decimals(1));
    for ((name, open, used), firm) in firms(built, capacity).zip(&scenario.shop.firms) {
        table.row(vec![
            name.into(),
            firm.title.as_str().into(),
            if open.is_finite() { (open / days).into() } else { Cell::Missing },
            (used / days).into(),
        ]);
    }
    (!scenario.shop.firms.is_empty()).then_some(table)
}

/// What a resource is, in a word.
pub(super) fn kind(kind: ResourceKind) -> &'static str {
    match kind {
        ResourceKind::Machine => "machine",
        ResourceKind::Crew => "crew",
        ResourceKind::Outside => "firm outside",
    }
}

/// The answer in one row: sets a day and the bottleneck.
pub(in crate::commands) fn capacity_summary(
    scenario: &Scenario,
    built: &BuiltProblem,
    capacity: &Capacity,
    mix: &[(usize, f64)],
) -> Table {
    let days = days(scenario);
    let most = capacity.one_more_hour.iter().flatten().copied().fold(0.0, f64::max);
    // Machines that hold the plant back alike are all named.
    let bottlenecks: Vec<&str> = built
        .problem
        .resources
        .iter()
        .zip(&capacity.one_more_hour)
        .filter(|(_, gain)| gain.is_some_and(|gain| gain > 0.99 * most))
        .map(|(resource, _)| resource.name.as_str())
        .chain(firms(built, capacity).filter(|(_, open, used)| *used > FULL * open).map(|(name, ..)| name))
        .collect();
    let mut table = Table::new("capacity", "Daily capacity")
        .column(Column::text("makes", "matched sets of"))
        .column(
            Column::new("output", "output", Holds::Number { unit: "sets/day", key: "sets_per_day" })
                .decimals(1),
        )
        .column(Column::text("bottleneck", "bottleneck"))
        .column(
            Column::new("one_more_hour", "one more hour of it", Holds::Number { unit: "sets", key: "sets" })
                .decimals(2),
        );
    let names: Vec<String> = mix
        .iter()
        .map(|(item, share)| {
            let key = &scenario.shop.items[*item].key;
            if mix.len() == 1 { key.clone() } else { format!("{share:.3} {key}") }
        })
        .collect();
    table.row(vec![
        names.join(" + ").into(),
        (capacity.units / days).into(),
        if bottlenecks.is_empty() { "none found".into() } else { bottlenecks.join(", ").into() },
        if most > 0.0 { most.into() } else { Cell::Missing },
    ]);
    table
}

/// Pieces a day by item and operation.
pub(in crate::commands) fn outputs(scenario: &Scenario, built: &BuiltProblem, capacity: &Capacity) -> Table {
    let days = days(scenario);
    let mut table = Table::new("outputs", "Pieces a day at that output")
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("title", "work"))
        .column(Column::new("started", "started", PER_DAY).decimals(1))
        .column(Column::new("good", "good", PER_DAY).decimals(1));
    for (step, (item, operation)) in built.step_of.iter().enumerate() {
        let item = &scenario.shop.items[*item];
        let operation = &item.operations[*operation];
        let started: f64 =
            built.problem.makers(step).map(|maker| capacity.started[maker]).sum::<f64>() / days;
        table.row(vec![
            item.key.as_str().into(),
            operation.id.to_string().into(),
            operation.title.as_str().into(),
            started.into(),
            (started * operation.good.value()).into(),
        ]);
    }
    table
}

/// Machines and people: minutes open and used, and what one more hour gives.
pub(in crate::commands) fn resources(
    scenario: &Scenario,
    built: &BuiltProblem,
    capacity: &Capacity,
) -> Table {
    let days = days(scenario);
    let mut table = Table::new("resources", "Machines and people at that output")
        .remark("Open time of a machine is its shifts less breaks, times its availability. An hour more, once in the days of this plan, is worth what is made more with it. Setups are left out here, so setters are idle; the plan has them.")
        .column(Column::text("resource", "resource"))
        .column(Column::text("kind", "kind"))
        .column(Column::quantity::<Duration>("open_a_day", "open a day").in_unit("h"))
        .column(Column::quantity::<Duration>("used_a_day", "used a day").in_unit("h"))
        .column(Column::new("utilisation", "utilisation", Holds::Bar))
        .column(
            Column::new("one_more_hour", "one more hour", Holds::Number { unit: "sets", key: "sets" }).decimals(2),
        );
    for (id, resource) in built.problem.resources.iter().enumerate() {
        let (open, used) = (capacity.open[id], capacity.used[id]);
        if open <= 0.0 || resource.kind == ResourceKind::Outside {
            continue;
        }
        table.row(vec![
            resource.name.as_str().into(),
            kind(resource.kind).into(),
            Duration::min(open / days).into(),
            Duration::min(used / days).into(),
            Cell::share(used / open),
            capacity.one_more_hour[id].into(),
        ]);
    }
    table
}
