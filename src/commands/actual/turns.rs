//! Counts as turns - one machine in one shift of one day - and what the model says of them.

use crate::commands::study::Worked;
use crate::cycle::OperationEstimate;
use crate::diag::{Code, Diagnostic, Diagnostics, nearest};
use crate::input::Spanned;
use crate::input::log::CountRow;
use crate::plant::ShiftId;
use crate::quantity::Duration;
use std::collections::BTreeMap;

/// Work of one operation in a turn.
pub(super) struct Made {
    /// Place of its estimate.
    pub(super) estimate: usize,
    pub(super) pieces: f64,
    pub(super) good: Option<f64>,
    /// Time that the model takes for the pieces.
    pub(super) model: Duration,
}

/// One machine in one shift of one day.
pub(super) struct Turn {
    pub(super) date: String,
    pub(super) shift: String,
    pub(super) machine: usize,
    /// Shift less breaks.
    pub(super) open: Duration,
    /// Time it stood, if counted.
    pub(super) stopped: Option<Duration>,
    /// Setups from one operation to the next, by the scenario.
    pub(super) setups: Duration,
    pub(super) made: Vec<Made>,
}

impl Turn {
    /// Time that the model takes for all that was made, setups between operations included.
    pub(super) fn model(&self) -> Duration {
        self.setups + self.made.iter().map(|made| made.model).sum()
    }

    /// Time in which the machine did not stand: as counted, else by the availability of the machine.
    pub(super) fn running(&self, availability: f64) -> Duration {
        self.stopped.map_or(self.open * availability, |stopped| self.open - stopped)
    }
}

/// A machine over all its turns.
pub(super) struct MachineSum {
    pub(super) machine: usize,
    pub(super) turns: usize,
    pub(super) open: Duration,
    /// In the shifts that say; `None` where none does.
    pub(super) stopped: Option<Duration>,
    /// Open time of those shifts, and how many they are.
    pub(super) counted: (Duration, usize),
    pub(super) model: Duration,
}

impl MachineSum {
    /// Share of the open time in which it was not stopped: as counted in the shifts that say, else as the scenario says.
    pub(super) fn availability(&self, worked: &Worked) -> f64 {
        let stated = worked.scenario.shop.machines[self.machine].availability.value();
        self.stopped.map_or(stated, |stopped| 1.0 - stopped / self.counted.0)
    }

    /// Model time over running time; `None` where it never ran.
    pub(super) fn performance(&self, worked: &Worked) -> Option<f64> {
        let running = self.open * self.availability(worked);
        (running > Duration::ZERO).then(|| self.model / running)
    }
}

/// Turns in the order of the log; what names nothing, or is given twice, is reported.
pub(super) fn turns(worked: &Worked, rows: &[CountRow], diagnostics: &mut Diagnostics) -> Vec<Turn> {
    let mut turns: Vec<Turn> = Vec::new();
    let mut seen: BTreeMap<(String, String, String, String, u32), &CountRow> = BTreeMap::new();
    for row in rows {
        let Some((shift, machine, estimate)) = places(worked, row, diagnostics) else { continue };
        let key = (
            row.date.value.to_string(),
            row.shift.value.clone(),
            row.machine.value.clone(),
            row.item.value.clone(),
            row.operation.value,
        );
        if let Some(first) = seen.insert(key, row) {
            diagnostics.push(
                Diagnostic::new(
                    Code::GivenTwice,
                    format!("line {} counts what line {} has counted", row.line, first.line),
                )
                .at(row.span, "here again")
                .also(first.span, "first here")
                .help("take one out, or add the two up"),
            );
            continue;
        }
        let Some(open) = open_time(worked, machine, shift) else {
            diagnostics.push(never_open(row));
            continue;
        };
        if let Some(stopped) = row.stopped.filter(|stopped| open < *stopped) {
            diagnostics.push(stopped_too_long(row, open, stopped));
            continue;
        }
        add(&mut turns, worked, row, (machine, estimate, open));
    }
    turns
}

fn never_open(row: &CountRow) -> Diagnostic {
    let message = format!("`{}` has no time in shift `{}`", row.machine.value, row.shift.value);
    Diagnostic::new(Code::Calendar, message)
        .at(row.shift.span, "it does not run in this shift")
        .help("add the shift to the machine's `shifts`, or correct the row")
}

/// Adds a row to its turn; work after the first needs a setup.
fn add(turns: &mut Vec<Turn>, worked: &Worked, row: &CountRow, of: (usize, usize, Duration)) {
    let (machine, estimate, open) = of;
    let of: &OperationEstimate = &worked.estimates[estimate];
    let made = Made {
        estimate,
        pieces: f64::from(row.pieces),
        good: row.good.map(f64::from),
        model: of.cycle * f64::from(row.pieces),
    };
    let (date, name) = (row.date.value.to_string(), &row.shift.value);
    let known =
        turns.iter_mut().find(|turn| turn.machine == machine && turn.date == date && turn.shift == *name);
    match known {
        Some(turn) => {
            let operation = &worked.scenario.shop.items[of.item].operations[of.operation];
            turn.setups += operation.setup;
            turn.stopped = turn.stopped.or(row.stopped);
            turn.made.push(made);
        }
        None => turns.push(Turn {
            date,
            shift: name.clone(),
            machine,
            open,
            stopped: row.stopped,
            setups: Duration::ZERO,
            made: vec![made],
        }),
    }
}

fn stopped_too_long(row: &CountRow, open: Duration, stopped: Duration) -> Diagnostic {
    let message = format!(
        "`{}` cannot have stood {:.1} min in shift `{}`, in which it is open for {:.1} min",
        row.machine.value,
        stopped.to_min(),
        row.shift.value,
        open.to_min()
    );
    Diagnostic::new(Code::OutOfRange, message)
        .at(row.span, "stopped too long")
        .help("leave out the breaks in which the machine stands anyway")
}

/// Shift, machine and estimate that a row names.
fn places(worked: &Worked, row: &CountRow, diagnostics: &mut Diagnostics) -> Option<(ShiftId, usize, usize)> {
    let (shop, calendar) = (&worked.scenario.shop, &worked.scenario.calendar);
    let machines: Vec<&str> = shop.machines.iter().map(|machine| machine.key.as_str()).collect();
    let items: Vec<&str> = shop.items.iter().map(|item| item.key.as_str()).collect();
    let shifts: Vec<&str> = calendar.shifts.iter().map(String::as_str).collect();
    let shift = find("shift", &row.shift, &shifts, diagnostics);
    let machine = find("machine", &row.machine, &machines, diagnostics);
    let item = find("part or product", &row.item, &items, diagnostics);
    let (shift, machine, item) = (shift?, machine?, item?);
    let number = row.operation.value;
    let found = worked.estimates.iter().position(|estimate| {
        estimate.machine == machine
            && estimate.item == item
            && shop.items[item].operations[estimate.operation].id == number
    });
    if found.is_none() {
        let here: Vec<String> = worked
            .estimates
            .iter()
            .filter(|estimate| estimate.machine == machine && estimate.item == item)
            .map(|estimate| shop.items[item].operations[estimate.operation].id.to_string())
            .collect();
        let help = if here.is_empty() {
            format!("no operation of `{}` names this machine", row.item.value)
        } else {
            format!("operations of `{}` on this machine: {}", row.item.value, here.join(", "))
        };
        diagnostics.push(
            Diagnostic::new(
                Code::UnknownName,
                format!("`{}` has no operation {number} on `{}`", row.item.value, row.machine.value),
            )
            .at(row.operation.span, "not found")
            .help(help),
        );
    }
    Some((ShiftId(shift), machine, found?))
}

fn find(what: &str, name: &Spanned<String>, known: &[&str], diagnostics: &mut Diagnostics) -> Option<usize> {
    let place = known.iter().position(|known| *known == name.value);
    if place.is_none() {
        let help = nearest(&name.value, known.iter().copied()).map_or_else(
            || format!("expected one of {}", known.join(", ")),
            |near| format!("did you mean `{near}`?"),
        );
        diagnostics.push(
            Diagnostic::new(Code::UnknownName, format!("no {what} is called `{}`", name.value))
                .at(name.span, "not found")
                .help(help),
        );
    }
    place
}

/// Time of a shift, less breaks in which the machine stands; `None` if the machine does not run in it.
fn open_time(worked: &Worked, machine: usize, shift: ShiftId) -> Option<Duration> {
    let machine = &worked.scenario.shop.machines[machine];
    let bucket = worked.scenario.calendar.buckets.iter().find(|bucket| bucket.is_shift(shift))?;
    machine.shifts.contains(&shift).then(|| bucket.working_time(machine.at_breaks))
}

/// Sums of each machine, in the order of the scenario.
pub(super) fn by_machine(worked: &Worked, turns: &[Turn]) -> Vec<MachineSum> {
    let of = |machine: usize| {
        let own: Vec<&Turn> = turns.iter().filter(|turn| turn.machine == machine).collect();
        (!own.is_empty()).then(|| MachineSum {
            machine,
            turns: own.len(),
            open: own.iter().map(|turn| turn.open).sum(),
            stopped: own
                .iter()
                .any(|turn| turn.stopped.is_some())
                .then(|| own.iter().filter_map(|turn| turn.stopped).sum()),
            counted: {
                let counted = || own.iter().filter(|turn| turn.stopped.is_some());
                (counted().map(|turn| turn.open).sum(), counted().count())
            },
            model: own.iter().map(|turn| turn.model()).sum(),
        })
    };
    (0..worked.scenario.shop.machines.len()).filter_map(of).collect()
}
