//! The cycle of one operation on one machine: what fills the time from piece to piece, and what wears meanwhile.

use super::cut::CutEstimate;
use super::elements::{Element, machine_elements, side_elements};
use super::item::{LoadedBy, Operation, Shop};
use super::repair::estimate_within_limits;
use super::setting::{CutError, Setting};
use super::station::{Passage, SHARE_OF_MANY};
use crate::plant::Machine;
use crate::quantity::{Duration, Formula, Money, Record, Term, Workings};
use crate::tooling::{edge_cost, pieces_per_edge};

/// Time in machine from piece to piece.
pub const CYCLE_TIME: Formula = Formula {
    figure: "cycle",
    text: "t_cycle = sum of its elements for each piece",
    source: "common-practice",
};

/// Pieces an hour of a running machine.
pub const GROSS_RATE: Formula =
    Formula { figure: "pieces an hour", text: "R = 3600 s / t_cycle", source: "common-practice" };

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
    /// Time the machine stands for a change.
    pub change: Duration,
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
        let estimate = estimate_within_limits(&at, &mut workings).map_err(|error| (index, error))?;
        cuts.push((estimate, workings));
    }
    let tools = tool_uses(shop, (operation, machine), &cuts);
    let mut workings = Workings::default();
    let tool_change_share = tool_change_share(&tools, &mut workings);
    let passage = operation.station.map(|work| work.passage(&mut workings));
    let mut elements = machine_elements(operation, machine, (&cuts, passage), &mut workings);
    elements.extend(side_elements((shop, item), operation, machine, &mut workings));
    elements.push(Element { name: "tool changes", time: tool_change_share });
    elements.retain(|element| element.time > Duration::ZERO);
    let cycle: Duration = elements.iter().map(|element| element.time).sum();
    workings.step(&CYCLE_TIME, cycle.into(), || {
        elements.iter().map(|element| (element.name, Term::from(element.time))).collect()
    });
    workings.step(&GROSS_RATE, Term::Plain(3600.0 / cycle.to_s()), || vec![("t_cycle", cycle.into())]);
    let attended = attended_time(operation, machine, cycle, tool_change_share);
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
        workings,
    })
}

/// Time for a piece that stands in for the changes of all edges.
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

/// Cuts that share tool and place share the edge.
fn tool_uses(shop: &Shop, of: (&Operation, &Machine), cuts: &[(CutEstimate, Workings)]) -> Vec<ToolUse> {
    let (operation, machine) = of;
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
                    change: tool.change.unwrap_or(machine.edge_change),
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
