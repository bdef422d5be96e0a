//! Gears rolled against a master: limits and reject share.

use super::names::{alike, operation};
use crate::cycle::{Making, OperationEstimate, roll_verdict};
use crate::quantity::{Length, NoWorkings};
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::Scenario;

/// Each deviation of each roll test; `None` if nothing is rolled.
pub(in crate::commands) fn roll_tests(scenario: &Scenario, estimates: &[OperationEstimate]) -> Option<Table> {
    let mut table = Table::new("roll_test", "Roll test against a master, ISO 1328-2:1997")
        .remark("Reject shares are those of a normal distribution. Where an operation gives no yield, it is taken as what is left after the \
             larger reject share: an upper bound, since gears may miss one limit and not the other.")
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("deviation", "deviation"))
        .column(Column::count("grade", "grade", "grade"))
        .column(Column::quantity::<Length>("mean", "mean").decimals(4))
        .column(Column::quantity::<Length>("standard_deviation", "std. dev.").decimals(4))
        .column(Column::quantity::<Length>("limit", "limit").decimals(4))
        .column(Column::new("reject", "reject", Holds::Share).decimals(2))
        .column(Column::new("yield", "yield", Holds::Share).decimals(2));
    let mut any = false;
    for (estimate, _) in alike(scenario, estimates) {
        let item = &scenario.shop.items[estimate.item];
        let work = &item.operations[estimate.operation];
        let (Some(test), Making::Part { gear: Some(gear), .. }) = (&work.roll, &item.making) else {
            continue;
        };
        let Some(verdict) = roll_verdict(gear, test, &mut NoWorkings) else { continue };
        let (name, number) = operation(scenario, estimate);
        for deviation in verdict.deviations {
            any = true;
            table.row(vec![
                name.as_str().into(),
                number.as_str().into(),
                deviation.symbol.into(),
                u32::from(test.grade).into(),
                deviation.spread.mean.into(),
                deviation.spread.deviation.into(),
                deviation.limit.into(),
                Cell::share(deviation.reject.value()),
                Cell::share(work.good.value()),
            ]);
        }
    }
    any.then_some(table)
}
