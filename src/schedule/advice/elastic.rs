//! The program with everything that could be granted, each with a column for how much of it is taken.

use super::super::lp::PlanModel;
use super::super::plan::Plan;
use super::super::problem::Problem;
use super::super::program::{SolveError, solve};
use super::base::{model, reserve_around, rows_of};
use super::relaxation::{Relaxation, moved};
use super::shortfall::hold_in_time;

/// The elastic program.
pub(super) struct Elastic {
    model: PlanModel,
    /// Column of each candidate, from 0, nothing of it, to 1, all of it.
    columns: Vec<usize>,
}

/// Share of each slot of the machines that is held back for what the floor loses against the program, in the order tried.
pub(super) const MARGINS: [f64; 3] = [0.0, 0.04, 0.10];

impl Elastic {
    /// Orders that must come in time, nothing else later than in the plan.
    pub(super) fn of(
        problem: &Problem,
        plan: &Plan,
        demands: &[usize],
        candidates: &[Relaxation],
        margin: f64,
    ) -> Result<Self, SolveError> {
        let mut all = problem.clone();
        for candidate in candidates {
            candidate.grant(&mut all);
        }
        // The same slots, nothing granted in them.
        let mut none = problem.clone();
        for candidate in candidates {
            let mut slots_alone = none.clone();
            candidate.grant(&mut slots_alone);
            if slots_alone.slots.len() > none.slots.len() {
                candidate.grant(&mut none);
                withdraw(candidate, &mut none);
            }
        }
        let plan = moved(plan, problem, &none);
        let mut reserve = reserve_around(&all, &plan);
        for (kept, resource) in reserve.minutes.iter_mut().zip(&all.resources) {
            for (kept, open) in kept.iter_mut().zip(&resource.minutes).filter(|(_, open)| open.is_finite()) {
                *kept = margin * open;
            }
        }
        let mut elastic = Self { model: model(&all, &reserve), columns: Vec::new() };
        hold_in_time(&mut elastic.model, &none, &plan, demands)?;
        elastic.add_candidates(&all, &none, candidates);
        Ok(elastic)
    }

    /// Rows back to what there is, and a column for each candidate that adds to them.
    fn add_candidates(&mut self, all: &Problem, none: &Problem, candidates: &[Relaxation]) {
        let rows: Vec<Vec<(usize, usize)>> =
            (0..all.resources.len()).map(|resource| rows_of(&self.model, resource)).collect();
        for (resource, rows) in rows.iter().enumerate() {
            for (slot, row) in rows {
                let granted =
                    all.resources[resource].minutes[*slot] - none.resources[resource].minutes[*slot];
                let row = &mut self.model.model.rows[*row];
                row.upper = (row.upper - granted).max(0.0);
            }
        }
        for (id, candidate) in candidates.iter().enumerate() {
            let cost = candidate.hours().max(0.01);
            let place = self.model.model.column(format!("grant[{id}]"), 1.0, cost);
            self.model.lateness.push(0.0);
            let mut with = none.clone();
            candidate.grant(&mut with);
            for (resource, rows) in rows.iter().enumerate() {
                let (before, after) = (&none.resources[resource].minutes, &with.resources[resource].minutes);
                for (slot, row) in rows {
                    let more = after[*slot] - before[*slot];
                    if more > 0.0 {
                        self.model.model.rows[*row].terms.push((place, -more));
                    }
                }
            }
            if let Relaxation::Edges { stock, edges } = candidate {
                for row in self.model.edge_rows[*stock].iter().flatten() {
                    let row = &mut self.model.model.rows[*row];
                    row.upper -= f64::from(*edges);
                    row.terms.push((place, -f64::from(*edges)));
                }
            }
            self.columns.push(place);
        }
    }

    /// Least hours of those that may be granted: how much of each; `None` where they do not do.
    pub(super) fn least(&self, may: impl Fn(usize) -> bool) -> Result<Option<Vec<f64>>, SolveError> {
        let mut model = self.model.model.clone();
        for (id, column) in self.columns.iter().enumerate() {
            model.columns[*column].upper = if may(id) { 1.0 } else { 0.0 };
        }
        match solve(&model) {
            Ok(answer) => Ok(Some(self.columns.iter().map(|column| answer.values[*column]).collect())),
            Err(SolveError::Infeasible) => Ok(None),
            Err(other) => Err(other),
        }
    }

    /// A set from which none can be left out: those least used go first.
    pub(super) fn least_set(&self) -> Result<Option<Vec<usize>>, SolveError> {
        let Some(used) = self.least(|_| true)? else { return Ok(None) };
        let mut set: Vec<usize> = (0..used.len()).filter(|id| used[*id] > 1e-6).collect();
        let mut order = set.clone();
        order.sort_by(|one, other| used[*one].total_cmp(&used[*other]).then(other.cmp(one)));
        for out in order {
            if self.least(|id| id != out && set.contains(&id))?.is_some() {
                set.retain(|id| *id != out);
            }
        }
        Ok(Some(set))
    }
}

/// What was granted for a slot that did not exist, taken back; the slot stays.
fn withdraw(candidate: &Relaxation, problem: &mut Problem) {
    let (spans, resources) = match candidate {
        Relaxation::Open { machine, spans, people, .. } => {
            (spans, people.iter().copied().chain([*machine]).collect::<Vec<_>>())
        }
        Relaxation::Person { crew, spans } => (spans, vec![*crew]),
        Relaxation::Edges { .. } | Relaxation::Date { .. } | Relaxation::Part { .. } => return,
    };
    for (start, _) in spans {
        let Some(slot) = problem.slots.iter().position(|slot| slot.start == *start) else { continue };
        for resource in &resources {
            problem.resources[*resource].minutes[slot] = 0.0;
        }
    }
}
