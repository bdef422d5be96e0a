//! Which order the pieces of a step are for: what lies there goes to the orders that ship first, then what is made, in the order made.

use super::super::plan::Plan;
use super::super::problem::Problem;

/// Pieces each step makes for each order, in the order in which the orders ship.
pub(super) struct Pegging {
    /// By step: order and pieces made for it, first to last; what is made beyond them is for stock.
    of: Vec<Vec<(usize, f64)>>,
}

impl Pegging {
    pub(super) fn of(problem: &Problem, plan: &Plan) -> Self {
        let mut orders: Vec<usize> = (0..problem.demands.len()).collect();
        let last = |demand: usize| plan.finish(problem, demand).unwrap_or(i64::MAX);
        orders.sort_by_key(|demand| (last(*demand), problem.demands[*demand].due, *demand));
        let mut lying = lying_ahead(problem);
        let mut of = vec![Vec::new(); problem.steps.len()];
        for demand in orders {
            for (step, pieces) in needed(problem, demand).into_iter().enumerate() {
                let there = lying[step].min(pieces);
                lying[step] -= there;
                if pieces - there > 0.0 {
                    of[step].push((demand, pieces - there));
                }
            }
        }
        Self { of }
    }

    /// Shares of the pieces of a step from one to another, counted from 0 in the order they are made.
    pub(super) fn shares(&self, step: usize, from: f64, to: f64) -> Vec<(Option<usize>, f64)> {
        let mut lower = 0.0;
        let mut shares = Vec::new();
        let length = (to - from).max(1e-9);
        for (order, pieces) in &self.of[step] {
            let upper = lower + pieces;
            let both = to.min(upper) - from.max(lower);
            if both > 1e-9 {
                shares.push((Some(*order), both / length));
            }
            lower = upper;
        }
        let beyond = to - from.max(lower);
        if beyond > 1e-9 {
            shares.push((None, beyond / length));
        }
        shares
    }
}

/// Pieces that need not be started at each step because they lie behind it, as starts of that step.
fn lying_ahead(problem: &Problem) -> Vec<f64> {
    let mut good: Vec<f64> = problem.steps.iter().map(|step| step.opening).collect();
    let mut started = vec![0.0; problem.steps.len()];
    for (id, step) in problem.steps.iter().enumerate().rev() {
        started[id] = good[id] / step.good.max(1e-9);
        for (input, pieces) in &step.inputs {
            good[*input] += started[id] * pieces;
        }
    }
    started
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
