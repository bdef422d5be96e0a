//! A scenario and its estimates brought into the form of a planning problem.

use super::problem::{Activity, Demand, Lag, Problem, Resource, ResourceKind, Slot, Step, Wear, WearPoint};
use super::scenario::Scenario;
use crate::cycle::{Item, Making, Operation, OperationEstimate, StationWork};
use crate::plant::{AtBreaks, Bucket, Machine};
use crate::quantity::{Money, MoneyRate};

/// A problem and what its places stand for.
#[derive(Debug, Clone, PartialEq)]
pub struct BuiltProblem {
    /// The problem. Its resources are the machines, then the skills of the crew.
    pub problem: Problem,
    /// Item and operation of each step.
    pub step_of: Vec<(usize, usize)>,
    /// Last step of each item.
    pub last_step: Vec<usize>,
    /// Machine and tool of each wear point.
    pub tool_of: Vec<(usize, usize)>,
    /// Edges alike at each wear point, changed at one stop.
    pub sisters_of: Vec<u32>,
}

/// Builds the problem. Estimates are one for each operation and machine; an activity has the place of its estimate.
#[must_use]
pub fn build_problem(scenario: &Scenario, estimates: &[OperationEstimate]) -> BuiltProblem {
    let calendar = &scenario.calendar;
    let slots = calendar.buckets.iter().map(|bucket| Slot { start: bucket.start, end: bucket.end }).collect();
    let mut resources: Vec<Resource> =
        scenario.shop.machines.iter().map(|machine| of_machine(machine, calendar)).collect();
    resources.extend((0..calendar.skills.len()).map(|skill| of_crew(skill, calendar)));
    let mut built = BuiltProblem {
        problem: Problem { slots, resources, ..Problem::default() },
        step_of: Vec::new(),
        last_step: Vec::new(),
        tool_of: Vec::new(),
        sisters_of: Vec::new(),
    };
    for id in 0..scenario.shop.items.len() {
        built.add_steps(scenario, id);
    }
    for estimate in estimates {
        built.add_activity(scenario, estimate);
    }
    built.set_holding(scenario);
    for order in &scenario.orders {
        built.problem.demands.push(Demand {
            name: order.id.clone(),
            step: built.last_step[order.item],
            quantity: f64::from(order.quantity),
            due: order.due,
            weight: order.priority,
            market: None,
            ..Demand::default()
        });
    }
    built
}

/// What a machine has of each shift: open time, breaks, availability, price with premium.
fn of_machine(machine: &Machine, calendar: &crate::plant::Calendar) -> Resource {
    let stands =
        |bucket: &Bucket| calendar.date(bucket.day).is_some_and(|date| machine.closed.contains(&date));
    let runs = |bucket: &Bucket| machine.shifts.contains(&bucket.shift) && !stands(bucket);
    let minutes = |bucket: &Bucket| {
        if runs(bucket) {
            bucket.working_time(machine.at_breaks).to_min()
                * machine.availability.value()
                * machine.performance.value()
        } else {
            0.0
        }
    };
    let rate = machine.rate.unwrap_or(MoneyRate::ZERO);
    Resource {
        name: machine.key.clone(),
        kind: ResourceKind::Machine,
        minutes: calendar.buckets.iter().map(minutes).collect(),
        cost: calendar.buckets.iter().map(|bucket| (rate + bucket.premium).to_per_h() / 60.0).collect(),
        windows: calendar.buckets.iter().map(|bucket| windows(bucket, machine.at_breaks)).collect(),
        ..Resource::default()
    }
}

fn of_crew(skill: usize, calendar: &crate::plant::Calendar) -> Resource {
    let people = |bucket: &Bucket| f64::from(bucket.people.get(skill).copied().unwrap_or(0));
    Resource {
        name: calendar.skills[skill].clone(),
        kind: ResourceKind::Crew,
        minutes: calendar
            .buckets
            .iter()
            .map(|bucket| people(bucket) * bucket.working_time(AtBreaks::Stop).to_min())
            .collect(),
        cost: vec![0.0; calendar.buckets.len()],
        windows: calendar.buckets.iter().map(|bucket| windows(bucket, AtBreaks::Stop)).collect(),
        ..Resource::default()
    }
}

fn windows(bucket: &Bucket, at_breaks: AtBreaks) -> Vec<(i64, i64)> {
    let mut windows = Vec::new();
    let mut from = bucket.start;
    if at_breaks == AtBreaks::Stop {
        for (start, end) in &bucket.breaks {
            windows.push((from, *start));
            from = *end;
        }
    }
    windows.push((from, bucket.end));
    windows.retain(|(from, to)| from < to);
    windows
}

impl BuiltProblem {
    /// Place of a skill among the resources.
    #[must_use]
    pub fn crew(&self, scenario: &Scenario, skill: usize) -> usize {
        scenario.shop.machines.len() + skill
    }

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
                lag: Lag::NextSlot,
                opening: f64::from(opening),
                closing: f64::from(closing),
                holding: 0.0,
            });
            self.step_of.push((id, at));
        }
        self.last_step.push(self.problem.steps.len().saturating_sub(1));
    }

    fn add_activity(&mut self, scenario: &Scenario, estimate: &OperationEstimate) {
        let operation = &scenario.shop.items[estimate.item].operations[estimate.operation];
        let machine = &scenario.shop.machines[estimate.machine];
        let mut uses = vec![(estimate.machine, estimate.cycle.to_min())];
        if let Some(attendance) = operation.attendance.or(machine.attendance) {
            let minutes = estimate.attended.to_min();
            if minutes > 0.0 {
                uses.push((self.crew(scenario, attendance.skill.0), minutes));
            }
        }
        let wear = estimate
            .tools
            .iter()
            .map(|tool| Wear {
                point: self.point(scenario, estimate.machine, tool),
                share: 1.0 / (f64::from(tool.pieces) * f64::from(tool.sisters)),
            })
            .collect();
        let setter = machine.setter.filter(|_| operation.setup.to_min() > 0.0);
        self.problem.activities.push(Activity {
            step: self.step(estimate.item, estimate.operation).unwrap_or(0),
            machine: Some(estimate.machine),
            uses,
            run: (estimate.cycle - estimate.tool_change_share).to_min(),
            load: load(operation),
            cost: estimate.tooling_cost().unwrap_or(Money::ZERO).amount(),
            setup: operation.setup.to_min(),
            setter: setter.map(|skill| self.crew(scenario, skill.0)),
            wear,
            ..Activity::default()
        });
    }

    /// One physical edge place for each machine, tool and position: parts that share the tool share its wear.
    fn point(&mut self, scenario: &Scenario, machine: usize, tool: &crate::cycle::ToolUse) -> usize {
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
            self.problem.points.push(WearPoint {
                edges: tool.sisters,
                resource: machine,
                name,
                change,
                stop,
                early,
                ..WearPoint::default()
            });
            self.tool_of.push((machine, tool.tool));
            self.sisters_of.push(tool.sisters);
            self.problem.points.len() - 1
        })
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

/// Share of its life from which an edge is worth no more than the stop that is saved if it comes out while the machine stands.
fn early(rate: Option<MoneyRate>, tool: &crate::cycle::ToolUse, minutes: (f64, f64)) -> f64 {
    let (change, stop) = minutes;
    let (Some(rate), Some(edge)) = (rate, tool.edge_cost) else { return NEVER_EARLY };
    let minute = rate.to_per_h() / 60.0;
    let whole = edge.amount() * f64::from(tool.sisters) + minute * (change - stop);
    if stop <= 0.0 || whole <= 0.0 { NEVER_EARLY } else { 1.0 - minute * stop / whole }
}

/// More than any edge is worn.
const NEVER_EARLY: f64 = 2.0;

/// Pieces in one load: a washer's basket, a fixture.
fn load(operation: &Operation) -> u32 {
    match operation.station {
        Some(StationWork::Batch { pieces, .. }) => pieces,
        _ => operation.pieces,
    }
}
