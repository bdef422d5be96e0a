//! Edges: the places they sit in, and those at hand and on order.

use super::super::problem::{EdgeStock, Slot, WearPoint};
use super::super::scenario::Scenario;
use super::built::BuiltProblem;
use crate::cycle::ToolUse;
use crate::quantity::MoneyRate;

impl BuiltProblem {
    /// One physical edge place for each machine, tool and position: parts that share the tool share its wear.
    pub(super) fn point(&mut self, scenario: &Scenario, machine: usize, tool: &ToolUse) -> usize {
        let key = &scenario.shop.tools[tool.tool].key;
        let name = if tool.position.is_empty() { key.clone() } else { format!("{key} at {}", tool.position) };
        let known =
            self.problem.points.iter().position(|point| point.resource == machine && point.name == name);
        known.unwrap_or_else(|| {
            // The place stands for all its sisters: they are changed at one stop.
            let stop = scenario.shop.machines[machine].stop.to_min();
            let change = tool.change.to_min() * f64::from(tool.sisters);
            let stop = stop.min(change);
            let early = early(scenario.shop.machines[machine].rate, tool, (change, stop));
            let stock = self.stock_of.iter().position(|of| *of == tool.tool);
            self.problem.points.push(WearPoint {
                edges: tool.sisters,
                resource: machine,
                name,
                change,
                stop,
                early,
                stock,
                ..WearPoint::default()
            });
            self.tool_of.push((machine, tool.tool));
            self.sisters_of.push(tool.sisters);
            self.problem.points.len() - 1
        })
    }
}

/// A stock for each tool of which the edges at hand are counted, and the tools they are of.
pub(super) fn edge_stocks(scenario: &Scenario, slots: &[Slot]) -> (Vec<EdgeStock>, Vec<usize>) {
    let mut stocks = Vec::new();
    let mut tools = Vec::new();
    for (id, tool) in scenario.shop.tools.iter().enumerate() {
        let Some(on_hand) = tool.on_hand else { continue };
        let mut arrivals = vec![0_u32; slots.len()];
        if let Some(first) = arrivals.first_mut() {
            *first = on_hand;
        }
        for delivery in scenario.deliveries.iter().filter(|delivery| delivery.tool == id) {
            // An edge that comes during a shift is in the crib for the next.
            if let Some(slot) = slots.iter().position(|slot| slot.start >= delivery.at) {
                arrivals[slot] = arrivals[slot].saturating_add(delivery.edges);
            }
        }
        stocks.push(EdgeStock { name: tool.key.clone(), arrivals });
        tools.push(id);
    }
    (stocks, tools)
}

/// Share of its life from which an edge is worth no more than the stop that is saved if it comes out while the machine stands.
fn early(rate: Option<MoneyRate>, tool: &ToolUse, minutes: (f64, f64)) -> f64 {
    let (change, stop) = minutes;
    let (Some(rate), Some(edge)) = (rate, tool.edge_cost) else { return NEVER_EARLY };
    let minute = rate.to_per_h() / 60.0;
    let whole = edge.amount() * f64::from(tool.sisters) + minute * (change - stop);
    if stop <= 0.0 || whole <= 0.0 { NEVER_EARLY } else { 1.0 - minute * stop / whole }
}

/// More than any edge is worn.
const NEVER_EARLY: f64 = 2.0;
