//! What else binds: boxes on their way, work that goes on, edges at hand.

use super::super::problem::{Lag, Problem};
use super::plan_model::{Flows, MISSING_AT_END, PlanModel};

impl PlanModel {
    /// Where pieces move on in boxes, only a share of what a slot makes can be used in it.
    pub(super) fn add_boxes(&mut self, problem: &Problem, how: (&Flows, &[f64]), stocks: &[Vec<usize>]) {
        let (flows, share) = how;
        for (id, step) in problem.steps.iter().enumerate() {
            if !matches!(step.lag, Lag::Boxes { .. }) || share[id] >= 1.0 {
                continue;
            }
            for slot in 0..problem.slots.len() {
                let taken = self.withdrawals(problem, id, slot);
                if taken.is_empty() {
                    continue;
                }
                let mut terms: Vec<_> = taken.into_iter().map(|(place, pieces)| (place, -pieces)).collect();
                let inside = problem.makers(id).filter(|maker| problem.activities[*maker].away == 0);
                terms.extend(inside.map(|maker| (self.started[maker][slot], -flows[id] * share[id])));
                let lying = if slot > 0 {
                    terms.push((stocks[id][slot - 1], -1.0));
                    0.0
                } else {
                    step.opening
                };
                self.model.at_most(format!("boxes[{},{slot}]", step.name), terms, lying);
            }
        }
    }

    /// Work that goes on is finished first; what is not counts as a day late.
    pub(super) fn add_running(&mut self, problem: &Problem) {
        for running in &problem.running {
            let activity = &problem.activities[running.activity];
            let Some(machine) = activity.machine else { continue };
            let mut left = activity.running(running.pieces);
            let mut terms = Vec::new();
            for (place, minutes) in
                self.started[running.activity].iter().zip(&problem.resources[machine].minutes)
            {
                if left <= 0.0 {
                    break;
                }
                left -= minutes;
                terms.push((*place, -1.0));
            }
            let pieces = f64::from(running.pieces);
            let name = &problem.steps[activity.step].name;
            let short = self.model.column(format!("stopped[{name}]"), pieces, 0.0);
            self.lateness.resize(short, 0.0);
            self.lateness.push(MISSING_AT_END);
            terms.push((short, -1.0));
            self.model.at_most(format!("running[{name}]"), terms, -pieces);
        }
    }

    /// Edges worn by the end of each slot against those that have come in, and what is left of those in the machines.
    pub(super) fn add_edges(&mut self, problem: &Problem) {
        for (id, stock) in problem.edge_stocks.iter().enumerate() {
            let of_stock = |point: usize| problem.points[point].stock == Some(id);
            let mut there: f64 = problem
                .points
                .iter()
                .filter(|point| point.stock == Some(id))
                .map(|point| f64::from(point.edges) * (1.0 - point.worn))
                .sum();
            let mut terms: Vec<(usize, f64)> = Vec::new();
            let mut rows = vec![None; problem.slots.len()];
            for (slot, arrived) in stock.arrivals.iter().enumerate() {
                there += f64::from(*arrived);
                for (activity, places) in problem.activities.iter().zip(&self.started) {
                    let worn = activity.wear.iter().filter(|wear| of_stock(wear.point));
                    let edges: f64 =
                        worn.map(|wear| wear.share * f64::from(problem.points[wear.point].edges)).sum();
                    if edges > 0.0 {
                        terms.push((places[slot], edges));
                    }
                }
                if !terms.is_empty() {
                    rows[slot] = Some(self.model.rows.len());
                    self.model.at_most(format!("edges[{},{slot}]", stock.name), terms.clone(), there);
                }
            }
            self.edge_rows.push(rows);
        }
    }
}
