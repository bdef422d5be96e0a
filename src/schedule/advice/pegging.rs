//! Which order the pieces of a step are for: counted back from the last piece made, orders that ship last having the last.

use super::super::plan::Plan;
use super::super::problem::Problem;

/// Pieces each step makes for each order, in the order in which the orders ship.
pub(super) struct Pegging {
    /// By step: order, or none for stock, and pieces, first to last.
    of: Vec<Vec<(Option<usize>, f64)>>,
    total: Vec<f64>,
}

impl Pegging {
    pub(super) fn of(problem: &Problem, plan: &Plan) -> Self {
        let steps = problem.steps.len();
        let mut orders: Vec<usize> = (0..problem.demands.len()).collect();
        let last = |demand: usize| plan.finish(problem, demand).unwrap_or(i64::MAX);
        orders.sort_by_key(|demand| (last(*demand), problem.demands[*demand].due, *demand));
        let mut total = vec![0.0; steps];
        for lot in &plan.lots {
            total[problem.activities[lot.activity].step] += f64::from(lot.pieces);
        }
        let mut of = vec![Vec::new(); steps];
        for demand in orders {
            for (step, pieces) in needed(problem, demand).into_iter().enumerate() {
                if pieces > 0.0 {
                    of[step].push((Some(demand), pieces));
                }
            }
        }
        for (of, total) in of.iter_mut().zip(&total) {
            let wanted: f64 = of.iter().map(|(_, pieces)| pieces).sum();
            if total - wanted > 0.5 {
                of.push((None, total - wanted));
            }
        }
        Self { of, total }
    }

    /// Shares of the pieces of a step from one to another, counted from 0 in the order they are made.
    pub(super) fn shares(&self, step: usize, from: f64, to: f64) -> Vec<(Option<usize>, f64)> {
        let mut upper = self.total[step];
        let mut shares = Vec::new();
        for (order, pieces) in self.of[step].iter().rev() {
            let lower = upper - pieces;
            let both = to.min(upper) - from.max(lower);
            if both > 1e-9 {
                shares.push((*order, both / (to - from).max(1e-9)));
            }
            upper = lower;
        }
        shares
    }
}

/// Pieces started of each step for an order, lying stock left out of account.
pub(super) fn needed(problem: &Problem, demand: usize) -> Vec<f64> {
    let mut good = vec![0.0; problem.steps.len()];
    let of = &problem.demands[demand];
    good[of.step] = of.quantity;
    let mut started = vec![0.0; problem.steps.len()];
    // Each step comes after its inputs.
    for (id, step) in problem.steps.iter().enumerate().rev() {
        started[id] = good[id] / step.good.max(1e-9);
        for (input, pieces) in &step.inputs {
            good[*input] += started[id] * pieces;
        }
    }
    started
}
