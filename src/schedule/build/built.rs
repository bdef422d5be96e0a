//! The problem of a scenario: slots, resources, steps, activities, demands.

use super::super::problem::{Demand, Lag, Problem, Resource, Slot, Step};
use super::super::scenario::{Late, Order, Scenario};
use super::activities::seconds;
use super::edges::edge_stocks;
use super::resources::{of_crew, of_firm, of_machine};
use crate::cycle::{Boxes, Item, Making, OperationEstimate};

/// A problem and what its places stand for.
#[derive(Debug, Clone, PartialEq)]
pub struct BuiltProblem {
    /// The problem. Its resources are the machines, then the skills of the crew, then the firms outside; its activities
    /// those of the estimates, in their order, then those of the firms.
    pub problem: Problem,
    /// Item and operation of each step.
    pub step_of: Vec<(usize, usize)>,
    /// Last step of each item.
    pub last_step: Vec<usize>,
    /// Machine and tool of each wear point.
    pub tool_of: Vec<(usize, usize)>,
    /// Edges alike at each wear point, changed at one stop.
    pub sisters_of: Vec<u32>,
    /// Tool of each stock of edges.
    pub stock_of: Vec<usize>,
}

/// Builds the problem. Estimates are one for each operation and machine; an activity has the place of its estimate.
#[must_use]
pub fn build_problem(scenario: &Scenario, estimates: &[OperationEstimate]) -> BuiltProblem {
    let calendar = &scenario.calendar;
    let slots: Vec<Slot> =
        calendar.buckets.iter().map(|bucket| Slot { start: bucket.start, end: bucket.end }).collect();
    let mut resources: Vec<Resource> =
        scenario.shop.machines.iter().enumerate().map(|machine| of_machine(machine, calendar)).collect();
    resources.extend((0..calendar.skills.len()).map(|skill| of_crew(skill, calendar)));
    resources.extend(scenario.shop.firms.iter().map(|firm| of_firm(firm, calendar)));
    let (edge_stocks, stock_of) = edge_stocks(scenario, &slots);
    let mut built = BuiltProblem {
        problem: Problem { slots, resources, edge_stocks, ..Problem::default() },
        step_of: Vec::new(),
        last_step: Vec::new(),
        tool_of: Vec::new(),
        sisters_of: Vec::new(),
        stock_of,
    };
    for id in 0..scenario.shop.items.len() {
        built.add_steps(scenario, id);
    }
    for estimate in estimates {
        built.add_activity(scenario, estimate);
    }
    built.add_outside(scenario);
    built.set_up_machines(scenario);
    built.set_holding(scenario);
    let demands = scenario.orders.iter().map(|order| demand(order, built.last_step[order.item]));
    built.problem.demands = demands.collect();
    built
}

/// What an order wants. Lateness that has a price is weighed against all other money, and against nothing before it.
fn demand(order: &Order, step: usize) -> Demand {
    let (weight, late_price) = match order.late {
        Late::Priority(weight) => (weight, 0.0),
        Late::Price(of_a_day) => (0.0, of_a_day.amount() / 24.0),
    };
    Demand {
        name: order.id.clone(),
        step,
        quantity: f64::from(order.quantity),
        due: order.due,
        weight,
        late_price,
        market: None,
    }
}

/// When the pieces of an operation may be used.
fn lag(boxes: Option<Boxes>) -> Lag {
    boxes.map_or(Lag::NextSlot, |boxes| Lag::Boxes { pieces: boxes.pieces, seconds: seconds(boxes.time) })
}

impl BuiltProblem {
    /// Step of an operation of an item.
    #[must_use]
    pub fn step(&self, item: usize, operation: usize) -> Option<usize> {
        self.step_of.iter().position(|of| *of == (item, operation))
    }

    fn add_steps(&mut self, scenario: &Scenario, id: usize) {
        let item: &Item = &scenario.shop.items[id];
        for (at, operation) in item.operations.iter().enumerate() {
            let inputs = match &item.making {
                _ if at > 0 => vec![(self.problem.steps.len() - 1, 1.0)],
                Making::Product { parts } => {
                    parts.iter().map(|(part, pieces)| (self.last_step[*part], f64::from(*pieces))).collect()
                }
                Making::Part { .. } => Vec::new(),
            };
            let lying =
                scenario.openings.iter().filter(|opening| (opening.item, opening.operation) == (id, at));
            let (opening, closing) =
                lying.fold((0, 0), |sum, opening| (sum.0 + opening.pieces, sum.1 + opening.at_end));
            self.problem.steps.push(Step {
                name: format!("{} {}", item.key, operation.id),
                good: operation.good.value(),
                inputs,
                lag: lag(operation.lots.boxes),
                opening: f64::from(opening),
                closing: f64::from(closing),
                holding: 0.0,
            });
            self.step_of.push((id, at));
        }
        self.last_step.push(self.problem.steps.len().saturating_sub(1));
    }

    /// A piece lying after a step binds the machine minutes and edges put into it so far, at the yearly share of holding.
    fn set_holding(&mut self, scenario: &Scenario) {
        let slots = self.problem.slots.len().max(1);
        let horizon = self.problem.slots.last().map_or(0, |slot| slot.end).max(1);
        #[expect(clippy::cast_precision_loss, reason = "a horizon has far fewer than 2^52 seconds")]
        let years_per_slot = horizon as f64 / (365.0 * 86_400.0) / slots as f64;
        let mut value = vec![0.0; self.problem.steps.len()];
        for id in 0..self.problem.steps.len() {
            let fed: f64 =
                self.problem.steps[id].inputs.iter().map(|(input, pieces)| value[*input] * pieces).sum();
            let made: Vec<f64> = self
                .problem
                .makers(id)
                .map(|maker| {
                    let activity = &self.problem.activities[maker];
                    let minute = activity.machine.map_or(0.0, |machine| {
                        self.problem.resources[machine].cost.iter().copied().fold(f64::INFINITY, f64::min)
                    });
                    activity.cost + if minute.is_finite() { minute * activity.run } else { 0.0 }
                })
                .collect();
            let least = made.into_iter().fold(f64::INFINITY, f64::min);
            value[id] = fed + if least.is_finite() { least } else { 0.0 };
            // A hair more for each step keeps work from being pulled early where no price is given.
            self.problem.steps[id].holding = value[id] * scenario.holding.value() * years_per_slot + 1e-7;
        }
    }
}
