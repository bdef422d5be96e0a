//! The model as it would be written down at first: what the plan is held against.
//!
//! Machines apart; pieces of each operation on each machine in each shift; stock of each operation and backlog of each part
//! after each shift; with setups, one yes-or-no for each operation, machine and shift, `pieces <= pieces of a full shift less
//! setup * yes`, and no setup outlives its shift.

use std::collections::BTreeMap;
use wearland::schedule::{LotPlan, Model, Problem};

/// Whether setups are in the model.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Setups {
    /// They are left out: a linear program.
    LeftOut,
    /// One yes-or-no for each operation, machine and shift.
    YesOrNo,
}

/// Hours of a shift; a piece never shipped counts a day late.
const SHIFT_HOURS: f64 = 8.0;

/// The model of a generated problem.
pub(crate) fn naive_model(problem: &Problem, setups: Setups) -> Model {
    let mut model = Model::default();
    let shifts = problem.slots.len();
    let mut minutes: BTreeMap<(usize, usize), Vec<(usize, f64)>> = BTreeMap::new();
    let mut balance: Vec<Vec<Vec<(usize, f64)>>> = vec![vec![Vec::new(); shifts]; problem.steps.len()];
    for (at, activity) in problem.activities.iter().enumerate() {
        let Some(machine) = activity.machine else { continue };
        for shift in 0..shifts {
            let running: f64 =
                activity.uses.iter().map(|(of, minutes)| minutes * problem.resources[*of].cost[shift]).sum();
            let pieces = model.column(format!("x[{at},{shift}]"), f64::INFINITY, activity.cost + running);
            for (of, each) in &activity.uses {
                minutes.entry((*of, shift)).or_default().push((pieces, *each));
            }
            balance[activity.step][shift].push((pieces, 1.0));
            for (input, each) in &problem.steps[activity.step].inputs {
                // Taken from what lay there after the shift before.
                if shift > 0 {
                    balance[*input][shift - 1].push((pieces, -each));
                } else {
                    model.columns[pieces].upper = 0.0;
                }
            }
            if setups == Setups::YesOrNo {
                let cost = activity.setup * problem.resources[machine].cost[shift];
                let yes = model.whole_column(format!("y[{at},{shift}]"), 1.0, cost);
                let most = (problem.resources[machine].minutes[shift] - activity.setup) / activity.run;
                model.at_most(format!("link[{at},{shift}]"), vec![(pieces, 1.0), (yes, -most)], 0.0);
                minutes.entry((machine, shift)).or_default().push((yes, activity.setup));
                if let Some(setter) = activity.setter {
                    minutes.entry((setter, shift)).or_default().push((yes, activity.setup));
                }
            }
        }
    }
    for ((resource, shift), terms) in minutes {
        let open = problem.resources[resource].minutes[shift];
        model.at_most(format!("minutes[{resource},{shift}]"), terms, open);
    }
    add_balances(problem, &mut model, balance);
    model
}

fn add_balances(problem: &Problem, model: &mut Model, balance: Vec<Vec<Vec<(usize, f64)>>>) {
    let shifts = problem.slots.len();
    for (step, of_step) in balance.into_iter().enumerate() {
        let demands: Vec<_> = problem.demands.iter().filter(|demand| demand.step == step).collect();
        let mut before: Option<(usize, Option<usize>)> = None;
        for (shift, mut terms) in of_step.into_iter().enumerate() {
            let stock =
                model.column(format!("stock[{step},{shift}]"), f64::INFINITY, problem.steps[step].holding);
            terms.push((stock, -1.0));
            let due = demands.iter().filter(|demand| demand.due == problem.slots[shift].end);
            let wanted: f64 = due.map(|demand| demand.quantity).sum();
            let backlog = demands.first().map(|demand| {
                let hours = if shift + 1 < shifts { SHIFT_HOURS } else { 24.0 };
                let late =
                    model.column(format!("late[{step},{shift}]"), f64::INFINITY, hours * demand.late_price);
                terms.push((late, 1.0));
                late
            });
            if let Some((stock, backlog)) = before {
                terms.push((stock, 1.0));
                terms.extend(backlog.map(|late| (late, -1.0)));
            }
            model.equal(format!("balance[{step},{shift}]"), terms, wanted);
            before = Some((stock, backlog));
        }
    }
}

/// A plan as values of the first model with setups.
pub(crate) fn naive_values(problem: &Problem, model: &Model, plan: &LotPlan) -> Vec<f64> {
    let mut values = vec![0.0; model.columns.len()];
    let shifts = problem.slots.len();
    let mut column = 0;
    // Good pieces less what is taken and wanted, by step and shift.
    let mut net = vec![vec![0.0; shifts]; problem.steps.len()];
    for (at, activity) in problem.activities.iter().enumerate() {
        for shift in 0..shifts {
            let pieces = plan.started[at][shift];
            values[column] = pieces;
            values[column + 1] = f64::from(u8::from(plan.made[at][shift]));
            column += 2;
            net[activity.step][shift] += pieces;
            for (input, each) in &problem.steps[activity.step].inputs {
                if shift > 0 {
                    net[*input][shift - 1] -= each * pieces;
                }
            }
        }
    }
    for (step, net) in net.iter_mut().enumerate() {
        let demands: Vec<_> = problem.demands.iter().filter(|demand| demand.step == step).collect();
        let mut left = 0.0;
        for (shift, net) in net.iter().enumerate() {
            left += net;
            let due = demands.iter().filter(|demand| demand.due == problem.slots[shift].end);
            left -= due.map(|demand| demand.quantity).sum::<f64>();
            values[column] = left.max(0.0);
            column += 1;
            if !demands.is_empty() {
                values[column] = (-left).max(0.0);
                column += 1;
            } else if left < 0.0 {
                values[column - 1] = left;
            }
        }
    }
    values
}
