//! Lateness and money of a plan added anew.

use super::super::plan::Plan;
use super::super::problem::Problem;
use super::clock::f64_of;
use super::rules::Violation;

/// Hours that a piece missing from the stock wanted at the end, or never shipped, counts late beyond the horizon's end.
const A_DAY: f64 = 24.0;

/// Lateness in weighted piece-hours and money of a plan that [`verify()`](super::verify) accepts, added from its lots, shipments and stock.
#[must_use]
pub fn audit(problem: &Problem, plan: &Plan) -> (f64, f64) {
    let (mut lateness, mut money) = (0.0, 0.0);
    for (demand, hours) in problem.demands.iter().zip(hours_late(problem, plan)) {
        lateness += hours * demand.weight;
        money += hours * demand.late_price;
    }
    for lot in &plan.lots {
        let activity = &problem.activities[lot.activity];
        let minute = |resource: usize| problem.resources[resource].cost[lot.slot];
        let run: f64 = activity.uses.iter().map(|(resource, minutes)| minutes * minute(*resource)).sum();
        money += (run + activity.cost) * f64::from(lot.pieces);
        money += activity.machine.map_or(0.0, minute) * lot.setup;
    }
    for (step, stock) in problem.steps.iter().zip(&plan.stock) {
        money += stock.iter().map(|pieces| step.holding * f64::from(*pieces)).sum::<f64>();
        let at_end = stock.last().map_or(0.0, |pieces| f64::from(*pieces));
        lateness += A_DAY * (step.closing - at_end).max(0.0);
    }
    (lateness, money)
}

/// Hours that the pieces of each order are late together; those never shipped leave a day after the horizon.
fn hours_late(problem: &Problem, plan: &Plan) -> Vec<f64> {
    let mut hours = vec![0.0; problem.demands.len()];
    let mut owed: Vec<f64> = problem.demands.iter().map(|demand| demand.quantity).collect();
    for shipment in &plan.shipments {
        let late = f64_of((shipment.at - problem.demands[shipment.demand].due).max(0)) / 3600.0;
        hours[shipment.demand] += late * f64::from(shipment.pieces);
        owed[shipment.demand] -= f64::from(shipment.pieces);
    }
    let end = problem.slots.last().map_or(0, |slot| slot.end);
    for ((demand, hours), owed) in problem.demands.iter().zip(&mut hours).zip(owed) {
        // A market is owed nothing.
        *hours = match demand.market {
            Some(_) => 0.0,
            None => *hours + owed.max(0.0) * (f64_of((end - demand.due).max(0)) / 3600.0 + A_DAY),
        };
    }
    hours
}

/// What a plan is said to be late and to cost, where that is not what it adds up to.
pub(in super::super) fn claimed(problem: &Problem, plan: &Plan, lateness: f64, money: f64) -> Vec<Violation> {
    let added = audit(problem, plan);
    [("lateness", lateness, added.0), ("money", money, added.1)]
        .into_iter()
        // Written so that what is not a number counts as different.
        .filter(|(_, said, added)| {
            let same = (said - added).abs() <= 1e-6 * added.abs().max(1.0);
            !same
        })
        .map(|(what, said, added)| Violation(format!("the {what} of the plan is {added:.4}, not {said:.4}")))
        .collect()
}
