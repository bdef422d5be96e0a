//! Orders with finish, lateness and cause.

use crate::quantity::Duration;
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::{BuiltProblem, LateOrder, Plan, Scenario};

/// Orders in the order of the file.
pub(in crate::commands) fn orders(
    scenario: &Scenario,
    built: &BuiltProblem,
    plan: &Plan,
    late_orders: &[LateOrder],
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
        let cause = late_orders.iter().find(|late| late.demand == id).map(|late| words(built, late));
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

/// In a few words; the tables of advice have the whole chain.
fn words(built: &BuiltProblem, late: &LateOrder) -> String {
    let short = &late.short;
    match (short.together, short.alone.first().and_then(|first| Some((first.resource, first.hours?)))) {
        (None, _) => "the route is too long: plenty of machines and people would not help".to_owned(),
        (Some(hours), _) if hours < 0.05 => {
            "the minutes alone would do: setups, tool changes or whole pieces, or a better plan was not found"
                .to_owned()
        }
        (Some(_), Some((resource, hours))) => {
            format!("short of {hours:.1} h of {}", built.problem.resources[resource].name)
        }
        (Some(hours), None) => format!("short of {hours:.1} h in several places, none of them alone"),
    }
}

fn seconds(seconds: i64) -> Duration {
    #[expect(clippy::cast_precision_loss, reason = "a horizon has far fewer than 2^52 seconds")]
    let seconds = seconds as f64;
    Duration::s(seconds)
}
