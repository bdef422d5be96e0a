//! The cycle of one operation on one machine: what fills the time from piece to piece, and what wears meanwhile.

use super::bar::bar_share;
use super::cut::{CutEstimate, estimate_cut};
use super::item::{Item, LoadedBy, Making, Operation, Shop, StationWork, Stock, While};
use super::setting::{CutError, Setting};
use crate::plant::Machine;
use crate::quantity::{Duration, Formula, Money, Record, Term, Workings};
use crate::tooling::{edge_cost, pieces_per_edge};

/// Time in machine from piece to piece.
pub const CYCLE_TIME: Formula = Formula {
    figure: "cycle",
    text: "t_cycle = sum of its elements for each piece",
    source: "common-practice",
};

/// A part of the cycle, for each piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Element {
    /// What it is: `in cut`.
    pub name: &'static str,
    /// Time for each piece.
    pub time: Duration,
}

/// A tool on a machine and what one piece takes of its edge.
#[derive(Debug, Clone, PartialEq)]
pub struct ToolUse {
    /// The tool.
    pub tool: usize,
    /// Where it sits.
    pub position: String,
    /// Share of an edge's life that a piece takes.
    pub share: f64,
    /// Whole pieces an edge makes.
    pub pieces: u32,
    /// Cost of an edge; `None` where the tool has no price.
    pub edge_cost: Option<Money>,
}

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
    /// Time from piece to piece.
    pub cycle: Duration,
    /// Of it, what stands in for tool changes.
    pub tool_change_share: Duration,
    /// Time of a person for each piece, if anybody attends.
    pub attended: Duration,
    /// Edges worn.
    pub tools: Vec<ToolUse>,
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
        self.tools.iter().map(|tool| tool.edge_cost.map(|cost| cost / f64::from(tool.pieces.max(1)))).sum()
    }
}

/// Works out an operation on a machine.
///
/// # Errors
/// The place of the cut that cannot be worked out, and what it lacks.
pub fn estimate_operation(
    shop: &Shop,
    place: (usize, usize, usize),
) -> Result<OperationEstimate, (usize, CutError)> {
    let (item_id, operation_id, machine_id) = place;
    let item = &shop.items[item_id];
    let operation = &item.operations[operation_id];
    let machine = &shop.machines[machine_id];
    let mut cuts = Vec::new();
    for (index, cut) in operation.cuts.iter().enumerate() {
        let mut workings = Workings::default();
        let at = Setting { shop, item, operation, machine, cut };
        let estimate = estimate_cut(&at, &mut workings).map_err(|error| (index, error))?;
        cuts.push((estimate, workings));
    }
    let tools = tool_uses(shop, operation, &cuts);
    let tool_change_share =
        tools.iter().map(|tool| machine.edge_change / f64::from(tool.pieces.max(1))).sum();
    let mut elements = machine_elements(operation, machine, &cuts);
    elements.extend(side_elements(shop, item, operation, machine));
    elements.push(Element { name: "tool changes", time: tool_change_share });
    elements.retain(|element| element.time > Duration::ZERO);
    let cycle: Duration = elements.iter().map(|element| element.time).sum();
    let mut workings = Workings::default();
    workings.step(&CYCLE_TIME, cycle.into(), || {
        elements.iter().map(|element| (element.name, Term::from(element.time))).collect()
    });
    let attended = attended_time(operation, machine, cycle, tool_change_share);
    Ok(OperationEstimate {
        item: item_id,
        operation: operation_id,
        machine: machine_id,
        cuts,
        elements,
        cycle,
        tool_change_share,
        attended,
        tools,
        workings,
    })
}

/// Cutting, indexing and loading: channels work beside each other, the longest rules.
fn machine_elements(
    operation: &Operation,
    machine: &Machine,
    cuts: &[(CutEstimate, Workings)],
) -> Vec<Element> {
    let pieces = f64::from(operation.pieces.max(1));
    let mut channels: Vec<u32> = operation.cuts.iter().map(|cut| cut.channel).collect();
    channels.sort_unstable();
    channels.dedup();
    // Per machine cycle and channel: in cut, at rapid, indexing.
    let load = |channel: u32| {
        let mut in_cut = Duration::ZERO;
        let mut rapid = Duration::ZERO;
        let mut count = 0.0;
        for (cut, (estimate, _)) in operation.cuts.iter().zip(cuts).filter(|(cut, _)| cut.channel == channel)
        {
            in_cut += estimate.cut_time * pieces;
            rapid += estimate.rapid_time * pieces;
            count += f64::from(u8::from(cut.channel == channel));
        }
        let index = if count > 1.0 { machine.index * count } else { Duration::ZERO };
        (in_cut, rapid, index)
    };
    let longest = channels
        .into_iter()
        .map(load)
        .max_by(|one, other| (one.0 + one.1 + one.2).total_cmp(&(other.0 + other.1 + other.2)))
        .unwrap_or_default();
    let station = operation.station.map_or(Duration::ZERO, station_time) * pieces;
    let inner = longest.0 + longest.1 + longest.2 + operation.transfer + station;
    let loading = operation.load.map_or(Duration::ZERO, |load| match load.during {
        While::Stopped => load.time,
        While::Cutting => (load.time - inner).larger(Duration::ZERO),
    });
    [
        ("in cut", longest.0),
        ("rapid moves", longest.1),
        ("tool indexing", longest.2),
        ("transfer", operation.transfer),
        ("station time", station),
        ("load and unload", loading),
    ]
    .into_iter()
    .map(|(name, time)| Element { name, time: time / pieces })
    .collect()
}

fn station_time(work: StationWork) -> Duration {
    match work {
        StationWork::Fixed { time } => time,
        StationWork::Batch { time, pieces } => time / f64::from(pieces.max(1)),
        StationWork::Slots { time, slots } => time / f64::from(slots.max(1)),
        StationWork::Sample { time, every } => time / f64::from(every.max(1)),
    }
}

/// Bar feed, bar change and gauging.
fn side_elements(shop: &Shop, item: &Item, operation: &Operation, machine: &Machine) -> Vec<Element> {
    let mut elements = Vec::new();
    let by_bar = operation.load.is_some_and(|load| load.by == LoadedBy::Bar);
    if let (true, Making::Part { material, length: Some(length), stock: Stock::Bar(bar), .. }) =
        (by_bar, &item.making)
    {
        let share = bar_share(bar, *length, shop.materials[*material].density.value);
        elements.push(Element { name: "bar feed", time: machine.bar_feed });
        elements
            .push(Element { name: "bar change", time: machine.bar_change / f64::from(share.pieces.max(1)) });
    }
    if let Some(gauge) = operation.gauge.filter(|gauge| gauge.during == While::Stopped) {
        elements.push(Element { name: "gauging", time: gauge.time / f64::from(gauge.every.max(1)) });
    }
    elements
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

/// Cuts that share tool and place share the edge.
fn tool_uses(shop: &Shop, operation: &Operation, cuts: &[(CutEstimate, Workings)]) -> Vec<ToolUse> {
    let mut uses: Vec<ToolUse> = Vec::new();
    for (cut, (estimate, _)) in operation.cuts.iter().zip(cuts) {
        match uses.iter_mut().find(|known| known.tool == cut.tool && known.position == cut.position) {
            Some(known) => known.share += estimate.edge.share,
            None => {
                let tool = &shop.tools[cut.tool];
                uses.push(ToolUse {
                    tool: cut.tool,
                    position: cut.position.clone(),
                    share: estimate.edge.share,
                    pieces: 0,
                    edge_cost: edge_cost(tool.price, tool.regrind, tool.edges.value),
                });
            }
        }
    }
    for each in &mut uses {
        each.pieces = pieces_per_edge(each.share);
    }
    uses
}
