//! Every place that a plan names exists.

use super::super::plan::{Change, Plan};
use super::super::problem::Problem;
use super::rules::Violation;

pub(super) fn check(problem: &Problem, plan: &Plan, found: &mut Vec<Violation>) {
    let mut say = |what: String| found.push(Violation(what));
    for (id, lot) in plan.lots.iter().enumerate() {
        let machine = problem.activities.get(lot.activity).and_then(|activity| activity.machine);
        let machine = machine.and_then(|machine| problem.resources.get(machine));
        let known =
            machine.is_some_and(|of| lot.slot < of.windows.len().min(of.minutes.len()).min(of.cost.len()));
        if !known || lot.slot >= problem.slots.len() {
            say(format!("lot {id} names an activity, machine or shift that does not exist"));
        } else if lot.pieces == 0
            || lot.good > lot.pieces
            || lot.first_piece.checked_add(lot.pieces).is_none()
        {
            say(format!("lot {id} makes {} pieces, {} of them good", lot.pieces, lot.good));
        } else if !lot.setup.is_finite() || lot.setup < 0.0 {
            say(format!("lot {id} is set up for {} min", lot.setup));
        }
    }
    for change in &plan.changes {
        if change.point >= problem.points.len() || change.lot >= plan.lots.len() {
            say("a tool change names a tool or lot that does not exist".to_owned());
        } else if let Some(fault) = misplaced(problem, plan, change) {
            say(fault);
        }
    }
    for shipment in &plan.shipments {
        if shipment.demand >= problem.demands.len() || shipment.slot >= problem.slots.len() {
            say("a shipment names an order or shift that does not exist".to_owned());
        }
    }
    if plan.stock.len() != problem.steps.len() || plan.stock.iter().any(|of| of.len() != problem.slots.len())
    {
        say("the stock list does not cover every step and shift".to_owned());
    }
}

/// A change comes before a piece of its lot, on the machine of its lot.
fn misplaced(problem: &Problem, plan: &Plan, change: &Change) -> Option<String> {
    let lot = plan.lots.get(change.lot)?;
    let point = &problem.points[change.point];
    let machine = problem.activities.get(lot.activity)?.machine;
    if machine != Some(point.resource) {
        return Some(format!("{} is changed on a machine that does not carry it", point.name));
    }
    let after = lot.first_piece.saturating_add(lot.pieces);
    let inside = (lot.first_piece..after).contains(&change.before_piece);
    (!inside).then(|| {
        format!("a change of {} before piece {} lies outside its lot", point.name, change.before_piece)
    })
}
