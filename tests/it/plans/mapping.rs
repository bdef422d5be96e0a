//! An example as a planning problem, and its answer in the terms of the example.

use std::collections::BTreeMap;

use wearland::schedule::{
    Activity, Demand, Lag, PlanModel, Problem, Ready, Reserve, Resource, ResourceKind, Slot, Step, solve,
};

use super::layout::{Example, Goal, Kind};

/// Seconds of a slot; orders are due at the end of one.
const SLOT: i64 = 86_400;

/// More pieces than any example can make: what an unlimited market takes.
const UNLIMITED_SALES: f64 = 1e6;

/// An example as a problem.
#[derive(Debug, Clone)]
pub(super) struct Mapped {
    pub(super) problem: Problem,
    /// Slot of each demand.
    pub(super) slot_of: Vec<usize>,
    /// Price that stands for the need to deliver, by demand; zero where it is a true price.
    forcing: Vec<f64>,
    goal: Goal,
}

/// The answer.
#[derive(Debug, Clone)]
pub(super) struct Answer {
    /// Profit or cost, without forcing prices.
    pub(super) value: f64,
    /// Pieces started, by activity and slot.
    pub(super) started: Vec<Vec<f64>>,
    /// Called-off pieces that do not leave.
    pub(super) missing: f64,
    /// Stock by step and slot.
    pub(super) stock: Vec<Vec<f64>>,
}

/// Brings an example into the form of a problem.
pub(super) fn mapped(example: &Example) -> Result<Mapped, String> {
    let ends = (1..).map(|slot: i64| slot * SLOT);
    let slots = ends.take(example.slots).map(|end| Slot { start: end - SLOT, end }).collect();
    let mut mapped = Mapped {
        problem: Problem { slots, ..Problem::default() },
        slot_of: Vec::new(),
        forcing: Vec::new(),
        goal: example.goal,
    };
    for line in &example.resource {
        mapped.problem.resources.push(Resource {
            name: line.name.clone(),
            kind: match line.kind {
                Kind::Machine => ResourceKind::Machine,
                Kind::Crew => ResourceKind::Crew,
            },
            minutes: series(&line.units, example.slots)?,
            cost: vec![line.cost; example.slots],
            windows: vec![Vec::new(); example.slots],
            ..Resource::default()
        });
    }
    for line in &example.item {
        let inputs = line.inputs.iter().map(|(input, pieces)| Ok((mapped.step(input)?, *pieces)));
        let inputs = inputs.collect::<Result<_, String>>()?;
        mapped.problem.steps.push(Step {
            name: line.name.clone(),
            good: 1.0,
            inputs,
            lag: Lag::SameSlot,
            opening: line.opening,
            closing: line.closing,
            holding: line.holding,
        });
    }
    for line in &example.work {
        mapped.add_work(&line.item, &line.uses, line.cost)?;
    }
    for line in &example.rate {
        let uses = line.on.iter().map(|on| (on.clone(), 60.0 / line.hourly)).collect();
        mapped.add_work(&line.item, &uses, 0.0)?;
    }
    for line in &example.sale {
        mapped.add_demands(&line.item, &line.quantity, Some((line.price, 0.0)))?;
    }
    for line in &example.call_off {
        mapped.add_demands(&line.item, &line.quantity, Some((line.missing, line.missing)))?;
    }
    for line in &example.order {
        mapped.add_demands(&line.item, &line.quantity, None)?;
    }
    Ok(mapped)
}

impl Mapped {
    pub(super) fn step(&self, name: &str) -> Result<usize, String> {
        let place = self.problem.steps.iter().position(|step| step.name == name);
        place.ok_or_else(|| format!("no item `{name}`"))
    }

    pub(super) fn resource(&self, name: &str) -> Result<usize, String> {
        let place = self.problem.resources.iter().position(|resource| resource.name == name);
        place.ok_or_else(|| format!("no resource `{name}`"))
    }

    fn add_work(&mut self, item: &str, uses: &BTreeMap<String, f64>, cost: f64) -> Result<(), String> {
        let uses = uses
            .iter()
            .map(|(resource, units)| Ok((self.resource(resource)?, *units)))
            .collect::<Result<Vec<_>, String>>()?;
        let is_machine = |resource: usize| self.problem.resources[resource].kind == ResourceKind::Machine;
        let machine = uses.iter().copied().find(|(resource, _)| is_machine(*resource));
        self.problem.activities.push(Activity {
            step: self.step(item)?,
            machine: machine.map(|(resource, _)| resource),
            run: machine.map_or(0.0, |(_, units)| units),
            uses,
            load: 1,
            cost,
            setup: 0.0,
            setter: None,
            wear: Vec::new(),
            ..Activity::default()
        });
        Ok(())
    }

    /// One demand for each slot; a market has its price and the part of it that only forces.
    fn add_demands(
        &mut self,
        item: &str,
        quantity: &toml::Value,
        market: Option<(f64, f64)>,
    ) -> Result<(), String> {
        let step = self.step(item)?;
        let slots = self.problem.slots.clone();
        for (at, (slot, quantity)) in slots.iter().zip(series(quantity, slots.len())?).enumerate() {
            self.problem.demands.push(Demand {
                name: format!("{item} {}", at + 1),
                step,
                quantity: quantity.min(UNLIMITED_SALES),
                due: slot.end,
                weight: 1.0,
                market: market.map(|(price, _)| price),
                ..Demand::default()
            });
            self.slot_of.push(at);
            self.forcing.push(market.map_or(0.0, |(_, forcing)| forcing));
        }
        Ok(())
    }

    /// Least money with nothing late.
    pub(super) fn answer(&self) -> Result<Answer, String> {
        let flows = self.problem.steps.iter().map(|step| step.good).collect();
        let plan = PlanModel::build(&self.problem, &flows, &Reserve::none(&self.problem), Ready::AtEnd);
        let model = plan.money_model(0.0);
        let solution = solve(&model).map_err(|error| error.to_string())?;
        let of = |places: &Vec<usize>| -> Vec<f64> {
            places.iter().map(|place| solution.values[*place]).collect()
        };
        let mut cost = solution.cost;
        let mut missing = 0.0;
        for (at, forcing) in self.forcing.iter().enumerate().filter(|(_, forcing)| **forcing > 0.0) {
            cost += forcing * of(&plan.shipped[at]).iter().sum::<f64>();
            missing += self.problem.demands[at].quantity - of(&plan.shipped[at])[self.slot_of[at]];
        }
        let stock = |step: &Step, slot: usize| {
            let name = format!("stock[{},{slot}]", step.name);
            let place = model.columns.iter().position(|column| column.name == name);
            place.map(|place| solution.values[place]).ok_or(format!("no column {name}"))
        };
        let stock_of = |step: &Step| (0..self.problem.slots.len()).map(|slot| stock(step, slot)).collect();
        Ok(Answer {
            value: if self.goal == Goal::Profit { -cost } else { cost },
            started: plan.started.iter().map(of).collect(),
            missing,
            stock: self.problem.steps.iter().map(stock_of).collect::<Result<_, String>>()?,
        })
    }
}

/// One number for each slot, from one for all, a list, or "unlimited".
fn series(value: &toml::Value, slots: usize) -> Result<Vec<f64>, String> {
    let number = |value: &toml::Value| -> Result<f64, String> {
        value.clone().try_into::<f64>().map_err(|error| format!("{value}: {error}"))
    };
    match value {
        toml::Value::String(text) if text == "unlimited" => Ok(vec![f64::INFINITY; slots]),
        toml::Value::Array(list) if list.len() == slots => list.iter().map(number).collect(),
        toml::Value::Integer(_) | toml::Value::Float(_) => Ok(vec![number(value)?; slots]),
        _ => Err(format!("{value} is neither a number, {slots} numbers, nor \"unlimited\"")),
    }
}
