//! Losses by machine, by operation, by shift.

use super::turns::{MachineSum, Turn};
use crate::commands::study::Worked;
use crate::commands::tables::operation;
use crate::quantity::Duration;
use crate::report::{Cell, Column, Holds, Table};

/// Availability and performance of each machine, as the scenario has them and as counted.
pub(super) fn machines(worked: &Worked, machines: &[MachineSum]) -> Table {
    let mut table = Table::new("machine_losses", "Machines: model against actual")
        .remark(
            "Open is shifts less breaks. Model is cycles times pieces, tool changes and bar changes in them, and setups between the operations \
             of a shift. Availability is the time not stopped over open time, of the shifts that count `stopped`; without such shifts that of the \
             scenario is kept. Performance is model time over open time times availability: it takes what is left.",
        )
        .column(Column::text("machine", "machine"))
        .column(Column::count("shifts", "shifts", "shifts"))
        .column(Column::quantity::<Duration>("open", "open").in_unit("h"))
        .column(Column::quantity::<Duration>("stopped", "stopped").in_unit("h"))
        .column(Column::quantity::<Duration>("model", "model").in_unit("h"))
        .column(Column::quantity::<Duration>("hidden_loss", "hidden loss").in_unit("h"))
        .column(Column::new("availability_planned", "availability planned", Holds::Share))
        .column(Column::new("availability", "counted", Holds::Share))
        .column(Column::new("performance_planned", "performance planned", Holds::Share))
        .column(Column::new("performance", "counted", Holds::Share));
    for sum in machines {
        let machine = &worked.scenario.shop.machines[sum.machine];
        let running = sum.open * sum.availability(worked);
        table.row(vec![
            machine.key.as_str().into(),
            sum.turns.into(),
            sum.open.into(),
            sum.stopped.into(),
            sum.model.into(),
            (running - sum.model).into(),
            Cell::share(machine.availability.value()),
            sum.stopped.map_or(Cell::Missing, |_| Cell::share(sum.availability(worked))),
            Cell::share(machine.performance.value()),
            sum.performance(worked).map_or(Cell::Missing, Cell::share),
        ]);
    }
    table
}

/// Availability with which a shift is reckoned that counts no stops.
fn availability(worked: &Worked, machines: &[MachineSum], turn: &Turn) -> f64 {
    let sum = machines.iter().find(|sum| sum.machine == turn.machine);
    sum.map_or(1.0, |sum| sum.availability(worked))
}

/// Real minutes of a piece of each operation against those of the model.
pub(super) fn operations(worked: &Worked, machines: &[MachineSum], turns: &[Turn]) -> Table {
    let running = |turn: &Turn| turn.running(availability(worked, machines, turn));
    let mut table = Table::new("operation_losses", "Operations: minutes of a piece")
        .remark(
            "Actual is time not stopped over pieces. In a shift with several operations its time is shared out as their model times are, setups apart; \
             shifts that an operation had for itself show it alone.",
        )
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("machine", "machine"))
        .column(Column::count("made", "made", "pieces"))
        .column(Column::new("yield_planned", "yield planned", Holds::Share))
        .column(Column::new("yield", "counted", Holds::Share))
        .column(Column::quantity::<Duration>("model", "model a piece").in_unit("min").decimals(3))
        .column(Column::quantity::<Duration>("actual", "actual a piece").in_unit("min").decimals(3))
        .column(Column::count("shifts_alone", "shifts alone", "shifts"))
        .column(Column::quantity::<Duration>("actual_alone", "actual then").in_unit("min").decimals(3))
        .column(Column::quantity::<Duration>("hidden_loss", "hidden loss").in_unit("h"));
    for (id, estimate) in worked.estimates.iter().enumerate() {
        let own = || {
            turns
                .iter()
                .flat_map(|turn| turn.made.iter().map(move |made| (turn, made)))
                .filter(|(_, made)| made.estimate == id)
        };
        let pieces: f64 = own().map(|(_, made)| made.pieces).sum();
        if pieces <= 0.0 {
            continue;
        }
        let real = |(turn, made): (&Turn, &super::turns::Made)| {
            if turn.model() > Duration::ZERO {
                running(turn) * (made.model / turn.model())
            } else {
                running(turn)
            }
        };
        let spent: Duration = own().map(real).sum();
        let model: Duration = own().map(|(_, made)| made.model).sum();
        let alone = || own().filter(|(turn, _)| turn.made.len() == 1);
        let alone_pieces: f64 = alone().map(|(_, made)| made.pieces).sum();
        let alone_time: Duration = alone().map(|(turn, _)| running(turn)).sum();
        let good: Option<f64> = own().map(|(_, made)| made.good).sum();
        let (item, number) = operation(&worked.scenario, estimate);
        let of = &worked.scenario.shop.items[estimate.item].operations[estimate.operation];
        table.row(vec![
            item.into(),
            number.into(),
            worked.scenario.shop.machines[estimate.machine].key.as_str().into(),
            counted(pieces),
            of.good.into(),
            good.map_or(Cell::Missing, |good| Cell::share(good / pieces)),
            estimate.cycle.into(),
            (spent / pieces).into(),
            alone().count().into(),
            (alone_pieces > 0.0).then(|| alone_time / alone_pieces).into(),
            (spent - model).into(),
        ]);
    }
    table
}

fn counted(pieces: f64) -> Cell {
    #[expect(clippy::cast_possible_truncation, reason = "sums of counts are far below 2^63")]
    let whole = pieces.round() as i64;
    whole.into()
}

/// Each machine in each shift.
pub(super) fn shifts(worked: &Worked, machines: &[MachineSum], turns: &[Turn]) -> Table {
    let mut table = Table::new("shift_losses", "Shift by shift")
        .column(Column::text("date", "date"))
        .column(Column::text("shift", "shift"))
        .column(Column::text("machine", "machine"))
        .column(Column::prose("made", "made"))
        .column(Column::quantity::<Duration>("open", "open").in_unit("min"))
        .column(Column::quantity::<Duration>("stopped", "stopped").in_unit("min"))
        .column(Column::quantity::<Duration>("model", "model").in_unit("min"))
        .column(Column::new("used", "model of time not stopped", Holds::Bar));
    for turn in turns {
        let made: Vec<String> = turn
            .made
            .iter()
            .map(|made| {
                let (item, number) = operation(&worked.scenario, &worked.estimates[made.estimate]);
                format!("{item} {number}: {}", made.pieces)
            })
            .collect();
        let running = turn.running(availability(worked, machines, turn));
        table.row(vec![
            turn.date.as_str().into(),
            turn.shift.as_str().into(),
            worked.scenario.shop.machines[turn.machine].key.as_str().into(),
            made.join(", ").into(),
            turn.open.into(),
            turn.stopped.into(),
            turn.model().into(),
            if running > Duration::ZERO { Cell::share(turn.model() / running) } else { Cell::Missing },
        ]);
    }
    table
}

/// What a machine's figures should be read with.
pub(super) fn remark(worked: &Worked, sum: &MachineSum) -> Option<String> {
    let machine = &worked.scenario.shop.machines[sum.machine].key;
    if sum.performance(worked).is_some_and(|performance| performance > 1.0) {
        return Some(format!(
            "{machine}: more was made than the cycles allow. The cycles of the scenario are too long, a setup was not needed, or stops were \
             counted too high; performance is left at 100 % in an overlay."
        ));
    }
    if sum.stopped.is_some() && sum.counted.1 < sum.turns {
        return Some(format!(
            "{machine}: {} of {} shifts count their stops; the others are reckoned with the availability of these.",
            sum.counted.1, sum.turns
        ));
    }
    (sum.turns < 5)
        .then(|| format!("{machine}: too few shifts to tell much, {}; count a week or more.", sum.turns))
}
