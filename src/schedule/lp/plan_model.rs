//! The plan as a linear program over slots.
//!
//! Columns: pieces started of each activity in each slot, stock of each step after each slot, pieces shipped to each
//! demand in each slot. Rows: minutes of each resource in each slot, balance of each step in each slot, each demand.
//! Stock after slot s is counted after what the next slot takes (steps with a lag), so one row for a step and slot
//! holds both the balance and the rule that nothing is used before the slot after it was made.

use super::super::problem::{Problem, hours};
use super::super::program::Model;
use super::balances::back_in;

/// What is held back from the slots so that whole pieces, tool changes and setups still fit.
#[derive(Debug, Clone, PartialEq)]
pub struct Reserve {
    /// Minutes by resource and slot.
    pub minutes: Vec<Vec<f64>>,
    /// Setup minutes added to each piece, by activity and slot.
    pub setup: Vec<Vec<f64>>,
    /// Share of the pieces of a slot that the next operation may use in the same slot, by step; counts where they move on in
    /// boxes.
    pub share: Vec<f64>,
}

impl Reserve {
    /// Nothing held back: the relaxation that bounds every plan.
    #[must_use]
    pub fn none(problem: &Problem) -> Self {
        Self {
            minutes: vec![vec![0.0; problem.slots.len()]; problem.resources.len()],
            setup: vec![vec![0.0; problem.slots.len()]; problem.activities.len()],
            share: vec![1.0; problem.steps.len()],
        }
    }
}

/// Shares of good pieces the program reckons with, by step: the true ones, or those of a whole-piece roll back.
pub type Flows = Vec<f64>;

/// When the pieces of a slot count as ready, and what they ask of a machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ready {
    /// At the end of the slot, with their average share of tool changes: what a plan can count on.
    AtEnd,
    /// At the start of the slot, and no tool need be changed: no plan can do better, so this gives the bound.
    AtStart,
}

/// Hours that a piece missing from the stock wanted at the end counts as late.
pub(in super::super) const MISSING_AT_END: f64 = 24.0;

/// The program and the places of its columns.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanModel {
    /// The program; column costs are money.
    pub model: Model,
    /// Place of the pieces started, by activity and slot.
    pub started: Vec<Vec<usize>>,
    /// Place of the pieces shipped, by demand and slot.
    pub shipped: Vec<Vec<usize>>,
    /// Place of the pieces never shipped, by demand.
    pub owed: Vec<usize>,
    /// Lateness of one unit, by column: piece-hours times weight.
    pub lateness: Vec<f64>,
    /// Place of the row of minutes, by resource and slot; `None` where nothing is asked or nothing limits.
    pub minutes_rows: Vec<Vec<Option<usize>>>,
    /// Place of the row of edges, by stock and slot.
    pub edge_rows: Vec<Vec<Option<usize>>>,
}

impl PlanModel {
    /// Builds the program.
    #[must_use]
    pub fn build(problem: &Problem, flows: &Flows, reserve: &Reserve, ready: Ready) -> Self {
        let mut plan = Self {
            model: Model::default(),
            started: Vec::new(),
            shipped: Vec::new(),
            owed: Vec::new(),
            lateness: Vec::new(),
            minutes_rows: Vec::new(),
            edge_rows: Vec::new(),
        };
        plan.add_starts(problem, reserve);
        plan.add_shipments(problem, ready);
        let stocks = plan.add_stocks(problem);
        plan.lateness.resize(plan.model.columns.len(), 0.0);
        plan.add_capacity(problem, reserve, ready);
        plan.add_balances(problem, (flows, ready), &stocks);
        plan.add_boxes(problem, (flows, &reserve.share), &stocks);
        plan.add_demands(problem);
        if ready == Ready::AtEnd {
            plan.add_running(problem);
        }
        plan.add_edges(problem);
        plan
    }

    /// The same rows with lateness as cost.
    #[must_use]
    pub fn lateness_model(&self) -> Model {
        let mut model = self.model.clone();
        for (column, lateness) in model.columns.iter_mut().zip(&self.lateness) {
            column.cost = *lateness;
        }
        model
    }

    /// The money model with lateness held to at most so much.
    #[must_use]
    pub fn money_model(&self, lateness: f64) -> Model {
        let mut model = self.model.clone();
        let terms: Vec<_> =
            self.lateness.iter().copied().enumerate().filter(|(_, late)| *late > 0.0).collect();
        if !terms.is_empty() {
            model.at_most("lateness".into(), terms, lateness * (1.0 + 1e-7) + 1e-6);
        }
        model
    }

    fn add_starts(&mut self, problem: &Problem, reserve: &Reserve) {
        for (at, activity) in problem.activities.iter().enumerate() {
            let step = &problem.steps[activity.step].name;
            let machine = activity.machine.map_or("-", |machine| problem.resources[machine].name.as_str());
            let places = (0..problem.slots.len())
                .map(|slot| {
                    let open = activity.uses.iter().all(|(resource, minutes)| {
                        *minutes <= 0.0 || problem.resources[*resource].minutes[slot] > 0.0
                    });
                    let running: f64 = activity
                        .uses
                        .iter()
                        .map(|(resource, minutes)| minutes * problem.resources[*resource].cost[slot])
                        .sum();
                    let setting = activity.machine.map_or(0.0, |machine| {
                        problem.resources[machine].cost[slot] * reserve.setup[at][slot]
                    });
                    let back = back_in(problem, at, slot, Ready::AtEnd).is_some();
                    let upper = if open && back { f64::INFINITY } else { 0.0 };
                    self.model.column(
                        format!("start[{step},{machine},{slot}]"),
                        upper,
                        activity.cost + running + setting,
                    )
                })
                .collect();
            self.started.push(places);
        }
    }

    fn add_shipments(&mut self, problem: &Problem, ready: Ready) {
        for demand in &problem.demands {
            let mut places = Vec::new();
            for (at, slot) in problem.slots.iter().enumerate() {
                let at_best = match ready {
                    Ready::AtEnd => slot.end,
                    Ready::AtStart => slot.start,
                };
                let hours_late = hours(at_best - demand.due).max(0.0);
                let in_time = slot.end <= demand.due
                    && problem.slots.get(at + 1).is_none_or(|next| next.end > demand.due);
                let (upper, cost, late) = match demand.market {
                    Some(price) if in_time => (demand.quantity, -price, 0.0),
                    Some(_) => (0.0, 0.0, 0.0),
                    None => (demand.quantity, hours_late * demand.late_price, hours_late * demand.weight),
                };
                let place = self.model.column(format!("ship[{},{at}]", demand.name), upper, cost);
                self.lateness.resize(place, 0.0);
                self.lateness.push(late);
                places.push(place);
            }
            self.shipped.push(places);
            // What is never shipped counts as a day later than the end of the horizon.
            let end = problem.slots.last().map_or(0, |slot| slot.end);
            let late = if demand.market.is_some() { 0.0 } else { hours(end - demand.due).max(0.0) + 24.0 };
            let price = late * demand.late_price;
            let place = self.model.column(format!("owed[{}]", demand.name), demand.quantity, price);
            self.lateness.resize(place, 0.0);
            self.lateness.push(late * demand.weight);
            self.owed.push(place);
        }
    }

    /// Stock of each step after each slot, less what the next slot takes; what is missing of it at the end counts as late.
    fn add_stocks(&mut self, problem: &Problem) -> Vec<Vec<usize>> {
        let mut stocks = Vec::new();
        for step in &problem.steps {
            let places: Vec<usize> = (0..problem.slots.len())
                .map(|slot| {
                    self.model.column(format!("stock[{},{slot}]", step.name), f64::INFINITY, step.holding)
                })
                .collect();
            if let (true, Some(last)) = (step.closing > 0.0, places.last()) {
                let missing = self.model.column(format!("missing[{}]", step.name), step.closing, 0.0);
                self.lateness.resize(missing, 0.0);
                self.lateness.push(MISSING_AT_END);
                self.model.at_most(
                    format!("closing[{}]", step.name),
                    vec![(*last, -1.0), (missing, -1.0)],
                    -step.closing,
                );
            }
            stocks.push(places);
        }
        stocks
    }

    fn add_capacity(&mut self, problem: &Problem, reserve: &Reserve, ready: Ready) {
        for (id, resource) in problem.resources.iter().enumerate() {
            let mut rows = vec![None; problem.slots.len()];
            for (slot, row) in rows.iter_mut().enumerate() {
                if resource.minutes[slot].is_infinite() {
                    continue;
                }
                let mut terms = Vec::new();
                for (at, activity) in problem.activities.iter().enumerate() {
                    let all: f64 =
                        activity.uses.iter().filter(|(of, _)| *of == id).map(|(_, minutes)| minutes).sum();
                    let run = match ready {
                        Ready::AtStart if activity.machine == Some(id) => activity.run.min(all),
                        Ready::AtStart | Ready::AtEnd => all,
                    };
                    let setting = activity.machine == Some(id) || activity.setter == Some(id);
                    let minutes = run + if setting { reserve.setup[at][slot] } else { 0.0 };
                    if minutes > 0.0 {
                        terms.push((self.started[at][slot], minutes));
                    }
                }
                if !terms.is_empty() {
                    *row = Some(self.model.rows.len());
                    let open = (resource.minutes[slot] - reserve.minutes[id][slot]).max(0.0);
                    self.model.at_most(format!("minutes[{},{slot}]", resource.name), terms, open);
                }
            }
            self.minutes_rows.push(rows);
        }
    }

    fn add_demands(&mut self, problem: &Problem) {
        for ((demand, places), owed) in problem.demands.iter().zip(&self.shipped).zip(&self.owed) {
            let mut terms: Vec<_> = places.iter().map(|place| (*place, 1.0)).collect();
            terms.push((*owed, 1.0));
            self.model.equal(format!("demand[{}]", demand.name), terms, demand.quantity);
        }
    }
}
