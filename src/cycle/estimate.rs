//! The cycle of one operation on one machine: what fills the time from piece to piece, and what wears meanwhile.

use super::change::{Bench, ToolUse, shared_stops, tool_uses};
use super::cut::CutEstimate;
use super::elements::{Element, machine_elements, side_elements};
use super::item::{EdgeChanges, LoadedBy, Making, Operation, Shop};
use super::repair::estimate_within_limits;
use super::setting::{CutError, Setting};
use super::station::{Passage, SHARE_OF_MANY};
use crate::plant::Machine;
use crate::quantity::{Duration, Formula, Money, Record, Term, Workings};

/// Time in machine from piece to piece.
pub const CYCLE_TIME: Formula = Formula {
    figure: "cycle",
    text: "t_cycle = sum of its elements for each piece",
    source: "common-practice",
};

/// Pieces an hour of a running machine.
pub const GROSS_RATE: Formula =
    Formula { figure: "pieces an hour", text: "R = 3600 s / t_cycle", source: "common-practice" };

/// One operation on one machine, worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct OperationEstimate {
    /// Place of the item.
    pub item: usize,
    /// Place of the operation in the item's route.
    pub operation: usize,
    /// Place of the machine.
    pub machine: usize,
    /// Its cuts, in order, each with its workings.
    pub cuts: Vec<(CutEstimate, Workings)>,
    /// What fills the cycle, for each piece; empty elements are left out.
    pub elements: Vec<Element>,
    /// How pieces pass the station; `None` where cuts are made.
    pub passage: Option<Passage>,
    /// Time from piece to piece.
    pub cycle: Duration,
    /// Of it, what stands in for tool changes.
    pub tool_change_share: Duration,
    /// Time of a person for each piece, if anybody attends.
    pub attended: Duration,
    /// Edges worn.
    pub tools: Vec<ToolUse>,
    /// What a piece has cost when it comes to the operation.
    pub worth: Money,
    /// How the cycle was worked.
    pub workings: Workings,
}

impl OperationEstimate {
    /// Pieces an hour while it runs.
    #[must_use]
    pub fn gross_rate_per_hour(&self) -> f64 {
        3600.0 / self.cycle.to_s()
    }

    /// Cost of the edges that a piece wears; `None` if a price is missing.
    #[must_use]
    pub fn tooling_cost(&self) -> Option<Money> {
        self.tools.iter().map(|tool| tool.edge_cost.map(|cost| cost / tool.point.made())).sum()
    }
}

/// Works out an operation on a machine: `place` is item, operation of its route and machine; `worth` what a piece has cost when it
/// comes to the operation, which is lost with it if an edge fails.
///
/// # Errors
/// The place of the cut that cannot be worked out, and what it lacks.
pub fn estimate_operation(
    shop: &Shop,
    place: (usize, usize, usize),
    worth: Money,
) -> Result<OperationEstimate, (usize, CutError)> {
    estimate_operation_as(shop, place, &shop.items[place.0].operations[place.1], worth)
}

/// [`estimate_operation`] with the operation done in another way than the route says: other speeds, other feeds.
///
/// # Errors
/// As there.
pub fn estimate_operation_as(
    shop: &Shop,
    place: (usize, usize, usize),
    operation: &Operation,
    worth: Money,
) -> Result<OperationEstimate, (usize, CutError)> {
    let (item_id, operation_id, machine_id) = place;
    let item = &shop.items[item_id];
    let machine = &shop.machines[machine_id];
    let mut cuts = Vec::new();
    for (index, cut) in operation.cuts.iter().enumerate() {
        let mut workings = Workings::default();
        let at = Setting { shop, item, operation, machine, cut };
        let estimate = estimate_within_limits(&at, &mut workings).map_err(|error| (index, error))?;
        cuts.push((estimate, workings));
    }
    let mut workings = Workings::default();
    let passage = operation.station.map(|work| work.passage(&mut workings));
    let mut elements = machine_elements(operation, machine, (&cuts, passage), &mut workings);
    elements.extend(side_elements((shop, item), operation, machine, &mut workings));
    let group = match &item.making {
        Making::Part { material, .. } => Some(shop.materials[*material].group),
        Making::Product { .. } => None,
    };
    let run = elements.iter().map(|element| element.time).sum();
    let bench = Bench { shop, operation, machine, group, run, worth };
    let tools = tool_uses(&bench, &cuts, &mut workings);
    let mut tool_change_share = tool_change_share(&tools, &mut workings);
    if operation.edge_changes == EdgeChanges::Together {
        let saved = machine.stop * shared_stops(&tools);
        tool_change_share = tool_change_share - saved;
        workings.step(&SHARED_STOPS, saved.into(), || {
            vec![("t_stop", machine.stop.into()), ("dz", Term::Plain(shared_stops(&tools)))]
        });
    }
    let failures = failure_share(&tools, &mut workings);
    elements.push(Element { name: "tool changes", time: tool_change_share });
    elements.push(Element { name: "edges that fail early", time: failures });
    elements.retain(|element| element.time > Duration::ZERO);
    let cycle: Duration = elements.iter().map(|element| element.time).sum();
    workings.step(&CYCLE_TIME, cycle.into(), || {
        elements.iter().map(|element| (element.name, Term::from(element.time))).collect()
    });
    workings.step(&GROSS_RATE, Term::Plain(3600.0 / cycle.to_s()), || vec![("t_cycle", cycle.into())]);
    let attended = attended_time(operation, machine, cycle, tool_change_share + failures);
    Ok(OperationEstimate {
        item: item_id,
        operation: operation_id,
        machine: machine_id,
        cuts,
        elements,
        passage,
        cycle,
        tool_change_share,
        attended,
        tools,
        worth,
        workings,
    })
}

/// Time for a piece beyond the planned changes, for edges that fail before theirs.
const FAILURE_SHARE: Formula = Formula {
    figure: "edges that fail early",
    text: "t = (F * t_f + (1 - F) * t_p) / m - t_p / N",
    source: "derived",
};

fn failure_share(tools: &[ToolUse], record: &mut impl Record) -> Duration {
    let mut all = Duration::ZERO;
    for tool in tools.iter().filter(|tool| tool.point.failed() > 0.0) {
        let (failed, made) = (tool.point.failed(), tool.point.made());
        let change = &tool.point.change;
        let share = (change.failure * failed + tool.change * (1.0 - failed)) / made
            - tool.change / f64::from(tool.pieces.max(1));
        record.step(&FAILURE_SHARE, share.into(), || {
            vec![
                ("F", Term::Plain(failed)),
                ("t_f", change.failure.into()),
                ("t_p", tool.change.into()),
                ("m", Term::Plain(made)),
                ("N", Term::Plain(f64::from(tool.pieces))),
            ]
        });
        all += share;
    }
    all
}

/// Time for a piece that common stops save.
const SHARED_STOPS: Formula = Formula {
    figure: "stops shared by edges",
    text: "t = t_stop * dz, dz = stops of all edges less stops of the machine, for each piece",
    source: "derived",
};

/// Time for a piece that stands in for the planned changes of all edges.
fn tool_change_share(tools: &[ToolUse], record: &mut impl Record) -> Duration {
    let mut all = Duration::ZERO;
    for tool in tools {
        let share = tool.change / f64::from(tool.pieces.max(1));
        record.step(&SHARE_OF_MANY, share.into(), || {
            vec![("t", tool.change.into()), ("N", Term::Plain(f64::from(tool.pieces)))]
        });
        all += share;
    }
    all
}

/// Person time for a piece: the share given, or the hand work of the cycle.
fn attended_time(operation: &Operation, machine: &Machine, cycle: Duration, changes: Duration) -> Duration {
    let Some(attendance) = operation.attendance.or(machine.attendance) else {
        return Duration::ZERO;
    };
    if let Some(share) = attendance.share {
        return cycle * share.value();
    }
    let pieces = f64::from(operation.pieces.max(1));
    let loading = operation
        .load
        .filter(|load| load.by == LoadedBy::Hand)
        .map_or(Duration::ZERO, |load| load.time / pieces);
    let gauging = operation.gauge.map_or(Duration::ZERO, |gauge| gauge.time / f64::from(gauge.every.max(1)));
    loading + gauging + changes
}
