//! What no plan with setups costs less than.

use super::super::program::{Limits, SolveError, solve, solve_whole};
use super::cuts::Echelons;
use super::pools::count;
use super::search::{Answer, Search};
use super::setup_model::SetupModel;
use super::shrink::{Shrunk, bounds_of};
use super::spread::spread;

/// Rounds of program and rows at most.
const ROUNDS: usize = 12;
/// Part of the distance to the best answer by which a round must raise the bound for another to follow.
const RISE: f64 = 0.01;

/// The program of the pools with the rows that were added, and its bound so far.
pub(super) struct Bounded {
    setups: SetupModel,
    pub(super) bound: f64,
}

impl Search<'_> {
    /// The bound of the linear program of the pools, strengthened row by row.
    pub(super) fn bounded(&self, best: &Answer, share: f64) -> Result<Bounded, SolveError> {
        self.bounded_within(None, (best.cost, share))
    }

    /// The same with lateness held to at most so much.
    pub(super) fn bounded_within(
        &self,
        lateness: Option<f64>,
        (best, share): (f64, f64),
    ) -> Result<Bounded, SolveError> {
        let problem = &self.together.problem;
        let mut setups = SetupModel::build(&self.together, &self.terms);
        if let Some(lateness) = lateness {
            let late = setups.lateness.iter().copied().enumerate().filter(|(_, late)| *late > 0.0);
            let held = lateness * (1.0 + 1e-6) + 1e-6;
            setups.model.at_most("lateness".into(), late.collect(), held);
        }
        let echelons = Echelons::new(problem, &self.terms);
        let mut bound = f64::NEG_INFINITY;
        for _ in 0..ROUNDS {
            let shrunk = Shrunk::of(&setups.model.relaxed())?;
            let values = shrunk.expanded(&solve(&shrunk.model)?.values);
            let cost = setups.model.cost(&values);
            let rose = cost > bound + RISE * (best.min(2.0 * cost.abs()) - cost).max(1e-6 * cost.abs());
            bound = bound.max(cost);
            let rows = echelons.broken(problem, &setups, &values);
            if rows.is_empty() || !rose || self.is_over(share) {
                break;
            }
            setups.model.rows.extend(rows);
        }
        Ok(Bounded { setups, bound: bound - 1e-7 * bound.abs() })
    }

    /// Searches the program of the pools in whole numbers for a higher bound, and lays what it finds onto the machines.
    pub(super) fn searched(
        &self,
        bounded: &mut Bounded,
        best: &Answer,
        limits: &Limits<'_>,
    ) -> Result<Option<Answer>, SolveError> {
        let start = self.pooled_start(bounded, best)?;
        let shrunk = Shrunk::of(&bounded.setups.model)?;
        let base = bounded.setups.model.cost(&shrunk.expanded(&vec![0.0; shrunk.model.columns.len()]));
        let found = solve_whole(&shrunk.model, Some(&shrunk.shrunk(&start)), limits)?;
        bounded.bound = bounded.bound.max(found.bound + base - 1e-7 * (found.bound + base).abs());
        if found.values.is_empty() {
            return Ok(None);
        }
        let values = shrunk.expanded(&found.values);
        let started = &bounded.setups.started;
        let pieces: Vec<Vec<f64>> =
            started.iter().map(|slots| slots.iter().map(|place| values[*place]).collect()).collect();
        let setups = spread(&self.together, self.given, &pieces, self.terms.carry_over);
        self.with_setups(&setups).map(Some)
    }

    /// An answer of machines apart as one of the pools.
    fn pooled_start(&self, bounded: &Bounded, best: &Answer) -> Result<Vec<f64>, SolveError> {
        let pooled = &bounded.setups;
        let mut bounds = bounds_of(&pooled.model);
        for (id, members) in self.together.members.iter().enumerate() {
            for (slot, cell) in pooled.cells[id].iter().enumerate() {
                let of = |column: &dyn Fn(usize) -> usize| {
                    let chosen = members.iter().filter(|member| best.values[column(**member)] > 0.5);
                    count(chosen.count())
                };
                let made = of(&|member| self.exact.cells[member][slot].made);
                bounds[cell.made] = (made, made);
                if let Some((carried, kept)) = cell.carried {
                    let exact = |member: usize| self.exact.cells[member][slot].carried.unwrap_or_default();
                    let (of_carried, of_kept) =
                        (of(&|member| exact(member).0), of(&|member| exact(member).1));
                    bounds[carried] = (of_carried, of_carried);
                    bounds[kept] = (of_kept, of_kept);
                }
            }
        }
        let shrunk = Shrunk::within(&pooled.model, bounds)?;
        Ok(shrunk.expanded(&solve(&shrunk.model)?.values))
    }
}
