//! Speeds that the plan chose: what is run quicker and what slower, why, and what that brings.

use super::names::operation;
use super::placed;
use crate::commands::study::Worked;
use crate::cycle::OperationEstimate;
use crate::quantity::{CuttingSpeed, Duration, Money, MoneyRate};
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::FreedSpeeds;

/// Each cut that does not run as written.
pub(in crate::commands) fn speeds(worked: &Worked, freed: &FreedSpeeds) -> Table {
    let mut table = Table::new("speeds", "Speeds that the plan chose")
        .remark(
            "An hour of a machine that holds the plan back is worth more than its rate, and its cuts run quicker; where machines have \
             time to spare, an hour is worth its rate, and edges are spared. Feeds and depths stay. Each operation keeps one setting on \
             each machine. Chosen speeds stay within the speeds for which the law of life is trusted, within all limits, and \
             `keep_speed = true` holds a cut.",
        )
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("machine", "machine"))
        .column(Column::quantity::<MoneyRate>("hour_worth", "an hour is worth").decimals(0))
        .column(Column::text("cut", "cut"))
        .column(Column::text("tool", "tool"))
        .column(Column::quantity::<CuttingSpeed>("written", "as written").decimals(0))
        .column(Column::quantity::<CuttingSpeed>("chosen", "chosen").decimals(0))
        .column(Column::new("faster", "faster", Holds::Share))
        .column(Column::text("rule", "ruled by"));
    for (at, (estimate, changed)) in freed.estimates.iter().zip(&freed.changed).enumerate() {
        let (item, number) = operation(&worked.scenario, estimate);
        let machine = &worked.scenario.shop.machines[estimate.machine].key;
        for change in changed {
            let cut =
                &worked.scenario.shop.items[estimate.item].operations[estimate.operation].cuts[change.cut];
            table.row(vec![
                item.as_str().into(),
                number.as_str().into(),
                machine.as_str().into(),
                freed.hour_worth[at].map_or(Cell::Missing, Cell::from),
                cut.id.as_str().into(),
                placed(worked.tool(cut.tool), &cut.position).into(),
                change.from.into(),
                change.to.into(),
                Cell::share(change.to / change.from - 1.0),
                change.rule.name().into(),
            ]);
        }
    }
    table
}

/// What each operation gains: minutes against edges.
pub(in crate::commands) fn speed_gains(
    worked: &Worked,
    freed: &FreedSpeeds,
    written: &[OperationEstimate],
) -> Table {
    let mut table = Table::new("speed_gains", "What the chosen speeds bring, a piece")
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("machine", "machine"))
        .column(Column::quantity::<Duration>("cycle_written", "cycle as written").decimals(2))
        .column(Column::quantity::<Duration>("cycle_chosen", "chosen").decimals(2))
        .column(Column::quantity::<Money>("edges_written", "edges as written").decimals(4))
        .column(Column::quantity::<Money>("edges_chosen", "chosen").decimals(4))
        .column(Column::quantity::<Money>("saved", "saved at the rate").decimals(4));
    for (before, after) in written.iter().zip(&freed.estimates) {
        if before.cycle == after.cycle && before.tooling_cost() == after.tooling_cost() {
            continue;
        }
        let (item, number) = operation(&worked.scenario, after);
        let machine = &worked.scenario.shop.machines[after.machine];
        let edges = |of: &OperationEstimate| of.tooling_cost();
        let saved = |rate: MoneyRate| {
            let minutes = rate.over(before.cycle) - rate.over(after.cycle);
            Some(minutes + edges(before)? - edges(after)?)
        };
        table.row(vec![
            item.into(),
            number.into(),
            machine.key.as_str().into(),
            before.cycle.into(),
            after.cycle.into(),
            edges(before).map_or(Cell::Missing, Cell::from),
            edges(after).map_or(Cell::Missing, Cell::from),
            machine.rate.and_then(saved).map_or(Cell::Missing, Cell::from),
        ]);
    }
    table
}

/// The program at the speeds as written, with all settings to mix, and with one setting each.
pub(in crate::commands) fn speed_programs(freed: &FreedSpeeds) -> Table {
    let piece_hours = Holds::Number { unit: "piece h", key: "piece_h" };
    let last = if freed.settled {
        "No setting is left that would make the mixed program cheaper: it is the least over all speeds."
    } else {
        "The search ended before no setting was left that would make the mixed program cheaper."
    };
    let mut table = Table::new("speed_programs", "The plan's program by speeds")
        .remark(format!(
            "Linear programs before whole pieces and lots. What one setting each costs more than the mix is the price of keeping one \
             speed on the floor. {last}"
        ))
        .column(Column::text("speeds", "speeds"))
        .column(Column::count("settings", "settings", "settings"))
        .column(Column::new("lateness", "lateness", piece_hours).decimals(1))
        .column(Column::quantity::<Money>("cost", "cost").decimals(0))
        .column(Column::new("above_mix", "above the mix", Holds::Share));
    let mixed = freed.mixed.1;
    let one = freed.estimates.len();
    for (name, settings, (lateness, cost)) in [
        ("as written", one, freed.written),
        ("all settings mixed", freed.settings, freed.mixed),
        ("one setting each", one, freed.kept),
    ] {
        let above = if mixed > 0.0 { Cell::share(cost / mixed - 1.0) } else { Cell::Missing };
        table.row(vec![name.into(), settings.into(), lateness.into(), Money::of(cost).into(), above]);
    }
    table
}
