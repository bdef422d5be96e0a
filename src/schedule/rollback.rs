//! Whole pieces rolled back from the demands: how many must be started at each step so that enough are good.

use super::lp::Flows;
use super::problem::Problem;

/// Shares of good pieces by step such that the whole starts of the roll back give exactly the whole needs.
///
/// A step that must give N good pieces at a share y of good ones starts ceil(N / y). Reckoned with N / ceil(N / y)
/// instead of y, the linear program asks for whole starts, and whole pieces made later cover it.
pub(super) fn whole_piece_flows(problem: &Problem) -> Flows {
    let mut starts = vec![0.0; problem.steps.len()];
    let mut flows: Vec<f64> = problem.steps.iter().map(|step| step.good).collect();
    for id in (0..problem.steps.len()).rev() {
        let step = &problem.steps[id];
        let shipped: f64 =
            problem.demands.iter().filter(|demand| demand.step == id).map(|demand| demand.quantity).sum();
        let used: f64 = problem.users(id).map(|(user, pieces)| starts[user] * pieces).sum();
        let need = (shipped + used + step.closing - step.opening).max(0.0);
        if need > 0.0 && step.good > 0.0 {
            starts[id] = (need / step.good - 1e-9).ceil();
            flows[id] = need / starts[id];
        }
    }
    flows
}
