//! Good pieces lying at each step at the end of the plan, against those wanted there.

use crate::report::{Cell, Column, Table};
use crate::schedule::{BuiltProblem, Plan, Scenario};

/// Stock after the last shift.
pub(in crate::commands) fn stock(scenario: &Scenario, built: &BuiltProblem, plan: &Plan) -> Table {
    let mut table = Table::new("stock", "Stock at the end")
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "after op"))
        .column(Column::count("at_start", "at the start", "pieces"))
        .column(Column::count("at_end", "at the end", "pieces"))
        .column(Column::count("wanted_at_end", "wanted", "pieces"))
        .column(Column::count("missing", "missing", "pieces"));
    for (step, (item, operation)) in built.step_of.iter().enumerate() {
        let item = &scenario.shop.items[*item];
        let of = &built.problem.steps[step];
        let missing = plan.missing_at_end(&built.problem, step);
        table.row(vec![
            item.key.as_str().into(),
            item.operations[*operation].id.to_string().into(),
            whole(of.opening),
            plan.stock[step].last().copied().into(),
            if of.closing > 0.0 { whole(of.closing) } else { Cell::Missing },
            if missing > 0.0 { whole(missing) } else { Cell::Missing },
        ]);
    }
    table
}

fn whole(pieces: f64) -> Cell {
    #[expect(clippy::cast_possible_truncation, reason = "stocks come from whole numbers below 2^32")]
    let pieces = pieces.round() as i64;
    pieces.into()
}
