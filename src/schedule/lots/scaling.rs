//! Setups spread over the pieces of their lots: a linear program solved again and again, each time with the lots it made.

use super::super::lp::PlanModel;
use super::super::program::{SolveError, solve};
use super::search::{Answer, Search};
use super::setup_model::CarryOver;
use super::shrink::Shrunk;
use super::spread::{Setups, spread};

/// Least lot that setups are spread over, as a share of a full slot.
const LEAST: f64 = 0.05;
/// Rounds without a better answer after which the search for one ends.
const PATIENCE: usize = 6;

/// What the rounds have come to.
pub(super) struct Scaled {
    pub(super) best: Option<Answer>,
    pub(super) rounds: usize,
}

impl Search<'_> {
    /// Up to so many rounds, within a share of the time.
    pub(super) fn scaled(&self, rounds: usize, share: f64) -> Result<Scaled, SolveError> {
        let mut lots = self.full_lots();
        let mut scaled = Scaled { best: None, rounds: 0 };
        let mut found = 0;
        for round in 1..=rounds.max(1) {
            if scaled.best.is_some() && (self.is_over(share) || round > found + PATIENCE) {
                break;
            }
            scaled.rounds = round;
            let pieces = self.pieces(&lots)?;
            let setups = spread(&self.together, self.given, &pieces, self.terms.carry_over);
            let answer = self.with_setups(&setups)?;
            self.take_lots(&mut lots, &pieces, &setups);
            if scaled.best.as_ref().is_none_or(|best| answer.cost < best.cost) {
                found = round;
                scaled.best = Some(answer);
            }
        }
        Ok(scaled)
    }

    /// Lots of a full slot of one machine, by activity of the pooled problem and slot.
    fn full_lots(&self) -> Vec<Vec<f64>> {
        let problem = &self.together.problem;
        let full = |id: usize, slot: usize| {
            let activity = &problem.activities[id];
            let Some(machine) = activity.machine.filter(|_| activity.run > 0.0) else { return f64::INFINITY };
            let open = problem.resources[machine].minutes[slot] / self.together.machines[machine];
            ((open - activity.setup) / activity.run).max(1.0)
        };
        let slots = problem.slots.len();
        (0..problem.activities.len()).map(|id| (0..slots).map(|slot| full(id, slot)).collect()).collect()
    }

    /// Pieces of the linear program with setups spread over lots.
    fn pieces(&self, lots: &[Vec<f64>]) -> Result<Vec<Vec<f64>>, SolveError> {
        let problem = &self.together.problem;
        let mut reserve = self.together.reserve(self.terms.reserve);
        for ((activity, lots), shares) in problem.activities.iter().zip(lots).zip(&mut reserve.setup) {
            for (lot, share) in lots.iter().zip(shares) {
                *share = activity.setup / lot;
            }
        }
        let mut plan = PlanModel::build(problem, self.terms.flows, &reserve, self.terms.ready);
        for (column, late) in plan.model.columns.iter_mut().zip(&plan.lateness) {
            column.cost += late * self.terms.lateness_price;
        }
        let shrunk = Shrunk::of(&plan.model)?;
        let values = shrunk.expanded(&solve(&shrunk.model)?.values);
        Ok(plan.started.iter().map(|slots| slots.iter().map(|place| values[*place]).collect()).collect())
    }

    /// The lots that pieces and setups make, linked ones as one; what is not made is tried with smaller lots.
    fn take_lots(&self, lots: &mut [Vec<f64>], pieces: &[Vec<f64>], setups: &Setups) {
        let full = self.full_lots();
        for (id, members) in self.together.members.iter().enumerate() {
            let of = |cells: &[Vec<bool>], slot: usize| {
                members.iter().filter(|member| cells[**member][slot]).count()
            };
            let mut slot = 0;
            while slot < pieces[id].len() {
                let mut to = slot + 1;
                while to < pieces[id].len() && of(&setups.carried, to) > 0 {
                    to += 1;
                }
                let made: usize = (slot..to).map(|slot| of(&setups.made, slot)).sum();
                let all: f64 = pieces[id][slot..to].iter().sum();
                for slot in slot..to {
                    let least = LEAST * full[id][slot];
                    lots[id][slot] = if all <= 1e-6 {
                        (lots[id][slot] * 0.5).max(0.15 * full[id][slot])
                    } else if made == 0
                        && self.terms.carry_over == CarryOver::Linked
                        && of(&setups.carried, slot) > 0
                    {
                        1e9
                    } else {
                        (all / super::pools::count(made.max(1))).max(least)
                    };
                }
                slot = to;
            }
        }
    }
}
