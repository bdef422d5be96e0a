//! The last plan, read back from its report: names turned into places of today's problem, what is not known any more said.

use crate::input::{SavedFault, SavedReport, SavedRow};
use crate::schedule::{BuiltProblem, FloorState, PastChange, PastLot, PastPlan, PastShipment, Scenario};
use std::collections::BTreeMap;

/// The last plan.
pub(in crate::commands) struct LastPlan {
    /// What of it today's problem knows.
    pub(in crate::commands) past: PastPlan,
    /// All its lots, by their names.
    pub(in crate::commands) lots: Vec<LastLot>,
    /// All its changes of edges, by their names.
    pub(in crate::commands) changes: Vec<LastChange>,
    /// Its orders.
    pub(in crate::commands) orders: Vec<LastOrder>,
    /// From when it planned, seconds from the start of the plan.
    pub(in crate::commands) from: i64,
    /// What is not known any more.
    pub(in crate::commands) unknown: Vec<String>,
}

/// A lot by its names.
pub(in crate::commands) struct LastLot {
    pub(in crate::commands) machine: String,
    pub(in crate::commands) item: String,
    pub(in crate::commands) operation: String,
    /// Times and pieces; its step is that of today's problem, if that knows it.
    pub(in crate::commands) lot: PastLot,
    /// Money of its work.
    pub(in crate::commands) cost: f64,
}

/// A change of an edge by its names.
pub(in crate::commands) struct LastChange {
    pub(in crate::commands) machine: String,
    pub(in crate::commands) edge: String,
    pub(in crate::commands) at: i64,
}

/// An order as the last plan had it.
pub(in crate::commands) struct LastOrder {
    pub(in crate::commands) id: String,
    pub(in crate::commands) finish: Option<String>,
    pub(in crate::commands) late: Option<f64>,
}

/// Names into places.
struct Names<'s> {
    scenario: &'s Scenario,
    built: &'s BuiltProblem,
    /// What nothing bears any more, and in how many rows.
    unknown: BTreeMap<String, usize>,
}

impl LastPlan {
    /// Reads it from its report.
    pub(in crate::commands) fn read(
        report: &SavedReport,
        scenario: &Scenario,
        built: &BuiltProblem,
    ) -> Result<Self, SavedFault> {
        let start = scenario.calendar.start;
        let mut names = Names { scenario, built, unknown: BTreeMap::new() };
        let from = match report.rows("horizon")?.first() {
            Some(row) => row.moment("from", start)?,
            None => 0,
        };
        let begun = names.begun(report, from)?;
        let lots = report.rows("lots")?;
        let lots = lots.iter().map(|row| names.lot(row)).collect::<Result<Vec<_>, _>>()?;
        let mut changes = Vec::new();
        let mut past_changes = Vec::new();
        for row in report.rows("tool_changes")? {
            let change = LastChange {
                machine: row.text("machine")?.to_owned(),
                edge: edge(&row)?,
                at: row.moment("at", start)?,
            };
            past_changes.extend(names.change(&row, &change)?);
            changes.push(change);
        }
        let mut shipments = Vec::new();
        for row in report.rows("shipments")? {
            let (at, pieces) = (row.moment("at", start)?, row.count("pieces")?);
            let demand = names.order(row.text("order")?);
            shipments.extend(demand.map(|demand| PastShipment { demand, at, pieces }));
        }
        let mut orders = Vec::new();
        for row in report.rows("orders")? {
            let finish = row.text_if_any("finish")?.map(str::to_owned);
            orders.push(LastOrder {
                id: row.text("order")?.to_owned(),
                finish,
                late: row.number_if_any("late_h")?,
            });
        }
        let known = lots.iter().filter(|lot| lot.lot.step != usize::MAX).map(|lot| lot.lot.clone());
        let past = PastPlan { begun, lots: known.collect(), changes: past_changes, shipments };
        let say = |(name, rows): (String, usize)| {
            format!("{name} is not known any more: {rows} rows of the last plan name it")
        };
        let unknown = names.unknown.into_iter().map(say).collect();
        Ok(Self { past, lots, changes, orders, from, unknown })
    }
}

/// A tool and where it sits, as wear points are called.
fn edge(row: &SavedRow<'_>) -> Result<String, SavedFault> {
    let tool = row.text("tool")?;
    Ok(row.text_if_any("position")?.map_or_else(|| tool.to_owned(), |place| format!("{tool} at {place}")))
}

impl Names<'_> {
    /// The floor when that plan began: its own tables if it was made from a moment on, else the start.
    fn begun(&mut self, report: &SavedReport, from: i64) -> Result<FloorState, SavedFault> {
        let problem = &self.built.problem;
        let mut begun = FloorState { now: from, ..FloorState::at_start(problem) };
        for row in report.rows_if_any("made_before")? {
            if let Some(step) = self.step(&row)? {
                begun.started[step] = row.count("started_pieces")?;
                begun.good[step] = row.count("good_pieces")?;
                begun.found[step] = row.integer("found_pieces")?;
            }
        }
        for row in report.rows_if_any("shipped_before")? {
            if let Some(demand) = self.order(row.text("order")?) {
                begun.shipped[demand] = row.count("pieces")?;
            }
        }
        for row in report.rows_if_any("edges_before")? {
            if let Some(point) = self.point(row.text("machine")?, &edge(&row)?) {
                begun.worn[point] = row.number("worn_percent")? / 100.0;
            }
        }
        for row in report.rows_if_any("set_up_before")? {
            let (machine, step) = (self.machine(row.text("machine")?), self.step(&row)?);
            if let Some(machine) = machine {
                begun.set_up[machine] = step.and_then(|step| self.activity(machine, step));
            }
        }
        for row in report.rows_if_any("edges_taken_before")? {
            let name = row.text("tool")?;
            let taken = row.integer("taken_edges")?;
            if let Some(stock) = problem.edge_stocks.iter().position(|stock| stock.name == name) {
                begun.taken[stock] = taken;
            }
        }
        Ok(begun)
    }

    fn lot(&mut self, row: &SavedRow<'_>) -> Result<LastLot, SavedFault> {
        let start = self.scenario.calendar.start;
        let machine = self.machine(row.text("machine")?);
        let step = self.step(row)?;
        let activity = machine.zip(step).and_then(|(machine, step)| self.activity(machine, step));
        let lot = PastLot {
            step: step.unwrap_or(usize::MAX),
            machine,
            activity,
            start: row.moment("start", start)?,
            end: row.moment("end", start)?,
            setup: row.number("setup_min")?,
            first_piece: row.count("first_piece")?,
            pieces: row.count("pieces")?,
            good: row.count("good_pieces")?,
        };
        if lot.end < lot.start {
            return Err(row.fault("end", "a time after its start"));
        }
        if lot.good > lot.pieces || lot.first_piece == 0 {
            return Err(row.fault("pieces", "no fewer pieces than are good, numbered from 1"));
        }
        Ok(LastLot {
            machine: row.text("machine")?.to_owned(),
            item: row.text("item")?.to_owned(),
            operation: row.text("operation")?.to_owned(),
            lot,
            cost: row.money("cost")?,
        })
    }

    fn change(&mut self, row: &SavedRow<'_>, change: &LastChange) -> Result<Option<PastChange>, SavedFault> {
        let before_piece = row.count("before_piece")?;
        let machine = self.machine(&change.machine);
        let step = self.step(row)?;
        let activity = machine.zip(step).and_then(|(machine, step)| self.activity(machine, step));
        let point = self.point(&change.machine, &change.edge);
        Ok(point.zip(activity).map(|(point, activity)| PastChange {
            point,
            activity,
            at: change.at,
            before_piece,
        }))
    }

    fn machine(&mut self, name: &str) -> Option<usize> {
        let found = self.built.problem.resources.iter().position(|resource| resource.name == name);
        self.counted(found, || format!("machine {name}"))
    }

    fn order(&mut self, name: &str) -> Option<usize> {
        let found = self.scenario.orders.iter().position(|order| order.id == name);
        self.counted(found, || format!("order {name}"))
    }

    fn step(&mut self, row: &SavedRow<'_>) -> Result<Option<usize>, SavedFault> {
        let (item, operation) = (row.text("item")?, row.text("operation")?);
        let found = self.built.step_of.iter().position(|(of, at)| {
            let of = &self.scenario.shop.items[*of];
            of.key == item && of.operations[*at].id.to_string() == operation
        });
        Ok(self.counted(found, || format!("operation {operation} of {item}")))
    }

    /// An edge that nothing uses any more is of no account.
    fn point(&self, machine: &str, edge: &str) -> Option<usize> {
        let problem = &self.built.problem;
        problem.points.iter().position(|point| {
            point.name == edge && problem.resources.get(point.resource).is_some_and(|of| of.name == machine)
        })
    }

    fn activity(&self, machine: usize, step: usize) -> Option<usize> {
        let problem = &self.built.problem;
        problem.makers(step).find(|maker| problem.activities[*maker].machine == Some(machine))
    }

    fn counted(&mut self, found: Option<usize>, name: impl Fn() -> String) -> Option<usize> {
        if found.is_none() {
            *self.unknown.entry(name()).or_default() += 1;
        }
        found
    }
}
