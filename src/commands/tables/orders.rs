//! Orders with finish, lateness and cause.

use super::capacity::kind;
use crate::quantity::Duration;
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::{BuiltProblem, Cause, Plan, Scenario};

/// Orders in the order of the file.
pub(in crate::commands) fn orders(
    scenario: &Scenario,
    built: &BuiltProblem,
    plan: &Plan,
    causes: &[Cause],
) -> Table {
    let calendar = &scenario.calendar;
    let mut table = Table::new("orders", "Orders")
        .column(Column::text("order", "order"))
        .column(Column::text("item", "item"))
        .column(Column::count("wanted", "wanted", "pieces"))
        .column(Column::count("made", "made", "pieces"))
        .column(Column::count("missing", "missing", "pieces"))
        .column(Column::new("due", "due", Holds::Stamp))
        .column(Column::new("finish", "finish", Holds::Stamp))
        .column(Column::quantity::<Duration>("late", "late").in_unit("h").decimals(1))
        .column(Column::prose("cause", "cause of lateness"));
    for (id, order) in scenario.orders.iter().enumerate() {
        let finish = plan.finish(&built.problem, id);
        // Nought in time; missing, like the finish, if the order is not complete in this plan.
        let late = finish.map(|at| seconds((at - order.due).max(0)));
        let cause = causes.iter().find(|cause| cause.demand == id).map(|cause| words(built, cause));
        table.row(vec![
            order.id.as_str().into(),
            scenario.shop.items[order.item].key.as_str().into(),
            order.quantity.into(),
            plan.shipped(id).into(),
            order.quantity.saturating_sub(plan.shipped(id)).into(),
            Cell::stamp(calendar.stamp(order.due)),
            finish.map(|at| calendar.stamp(at)).map_or(Cell::Missing, Cell::stamp),
            late.into(),
            cause.into(),
        ]);
    }
    table
}

fn words(built: &BuiltProblem, cause: &Cause) -> String {
    if cause.lateness <= 1e-6 {
        return "the minutes alone would do: setups, tool changes or whole pieces, or a better plan was not found".to_owned();
    }
    if cause.left_with_all > 0.98 * cause.lateness {
        return "the route is too long: plenty of machines and people would not help".to_owned();
    }
    match cause.resource {
        Some(_) if cause.relief < 0.2 => {
            "several resources together: no single one would take a fifth of it away".to_owned()
        }
        Some(resource) => {
            let of = &built.problem.resources[resource];
            let (what, name) = (kind(of.kind), &of.name);
            format!(
                "{what} {name}: more of it would take up to {:.0} % of the lateness away",
                cause.relief * 100.0
            )
        }
        None => "several resources together: none of them alone would help".to_owned(),
    }
}

fn seconds(seconds: i64) -> Duration {
    #[expect(clippy::cast_precision_loss, reason = "a horizon has far fewer than 2^52 seconds")]
    let seconds = seconds as f64;
    Duration::s(seconds)
}
