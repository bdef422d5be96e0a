//! Pieces come in, lie, are used and leave: one row for each step and slot.

use super::super::problem::{Lag, Problem};
use super::plan_model::{Flows, PlanModel, Ready};

impl PlanModel {
    pub(super) fn add_balances(&mut self, problem: &Problem, how: (&Flows, Ready), stocks: &[Vec<usize>]) {
        let (flows, ready) = how;
        for (id, step) in problem.steps.iter().enumerate() {
            if step.lag == Lag::NextSlot {
                // The first slot can only take what lies there.
                let terms = self.withdrawals(problem, id, 0);
                if !terms.is_empty() {
                    let terms = terms.into_iter().map(|(place, pieces)| (place, -pieces)).collect();
                    self.model.at_most(format!("opening[{}]", step.name), terms, step.opening);
                }
            }
            let mut made = self.made(problem, id, (flows[id], ready));
            for slot in 0..problem.slots.len() {
                let mut terms = vec![(stocks[id][slot], -1.0)];
                let mut known = 0.0;
                if slot > 0 {
                    terms.push((stocks[id][slot - 1], 1.0));
                } else {
                    known = step.opening;
                    if step.lag == Lag::NextSlot {
                        terms.extend(self.withdrawals(problem, id, 0));
                    }
                }
                terms.append(&mut made[slot]);
                let taken_in = match step.lag {
                    Lag::SameSlot | Lag::Boxes { .. } => slot,
                    Lag::NextSlot => slot + 1,
                };
                terms.extend(self.withdrawals(problem, id, taken_in));
                for (demand, places) in problem.demands.iter().zip(&self.shipped) {
                    if demand.step == id {
                        terms.push((places[slot], -1.0));
                    }
                }
                self.model.equal(format!("balance[{},{slot}]", step.name), terms, -known);
            }
        }
    }

    /// Good pieces of a step that come in during each slot; what is done outside comes back later.
    fn made(&self, problem: &Problem, step: usize, how: (f64, Ready)) -> Vec<Vec<(usize, f64)>> {
        let (good, ready) = how;
        let mut made = vec![Vec::new(); problem.slots.len()];
        for maker in problem.makers(step) {
            for slot in 0..problem.slots.len() {
                if let Some(at) = back_in(problem, maker, slot, ready) {
                    made[at].push((self.started[maker][slot], good));
                }
            }
        }
        made
    }

    /// What the users of a step take in a slot, as negative terms.
    pub(super) fn withdrawals(&self, problem: &Problem, step: usize, slot: usize) -> Vec<(usize, f64)> {
        if slot >= problem.slots.len() {
            return Vec::new();
        }
        problem
            .users(step)
            .flat_map(|(user, pieces)| problem.makers(user).map(move |maker| (maker, pieces)))
            .map(|(maker, pieces)| (self.started[maker][slot], -pieces))
            .collect()
    }
}

/// Slot in which pieces started in a slot come in; `None`: after the horizon.
pub(super) fn back_in(problem: &Problem, activity: usize, slot: usize, ready: Ready) -> Option<usize> {
    let away = problem.activities[activity].away;
    if away == 0 {
        return Some(slot);
    }
    let back = problem.slots[slot].start + away;
    let in_slot = |late: i64| (slot..problem.slots.len()).find(|at| problem.slots[*at].end >= back + late);
    match (ready, problem.steps[problem.activities[activity].step].lag) {
        (Ready::AtEnd, _) => in_slot(0),
        // They may be used in the rest of the slot in which they come back.
        (Ready::AtStart, Lag::NextSlot) => in_slot(1).map(|at| at.saturating_sub(1).max(slot)),
        (Ready::AtStart, Lag::SameSlot | Lag::Boxes { .. }) => in_slot(1),
    }
}
