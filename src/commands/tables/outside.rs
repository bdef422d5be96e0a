//! What is sent to firms outside, and when it is back.

use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::{BuiltProblem, Plan, ResourceKind, Scenario};

/// Lots sent outside, in order of time; `None` where the scenario has no firm outside.
pub(in crate::commands) fn lots_outside(
    scenario: &Scenario,
    built: &BuiltProblem,
    plan: &Plan,
) -> Option<Table> {
    let (calendar, problem) = (&scenario.calendar, &built.problem);
    let mut table = Table::new("outside", "Lots outside")
        .remark(
            "Pieces come back together; those that the operation's yield takes are not among the good ones.",
        )
        .column(Column::text("firm", "firm"))
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::new("sent_at", "sent at", Holds::Stamp))
        .column(Column::text("shift", "shift"))
        .column(Column::count("sent", "sent", "pieces"))
        .column(Column::count("good", "good", "pieces"))
        .column(Column::new("back_at", "back at", Holds::Stamp));
    let outside = |activity: usize| {
        let firm = problem.activities[activity].machine?;
        (problem.resources[firm].kind == ResourceKind::Outside).then_some(&problem.resources[firm])
    };
    let mut lots: Vec<_> =
        plan.lots.iter().filter_map(|lot| outside(lot.activity).map(|firm| (firm, lot))).collect();
    lots.sort_by_key(|(_, lot)| (lot.start, lot.activity));
    for (firm, lot) in lots {
        let (item, operation) = built.step_of[problem.activities[lot.activity].step];
        let item = &scenario.shop.items[item];
        table.row(vec![
            firm.name.as_str().into(),
            item.key.as_str().into(),
            item.operations[operation].id.to_string().into(),
            Cell::stamp(calendar.stamp(lot.start)),
            calendar.shift_name(&calendar.buckets[lot.slot]).into(),
            lot.pieces.into(),
            lot.good.into(),
            Cell::stamp(calendar.stamp(lot.end)),
        ]);
    }
    (!scenario.shop.firms.is_empty()).then_some(table)
}
