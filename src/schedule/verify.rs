//! Every balance of a plan added again, from the plan and the problem alone.
//!
//! Nothing here comes from the linear program or the sequencer, so that a fault there is found here.

use super::plan::{Lot, Plan, Standing};
use super::problem::{Activity, Problem, ResourceKind};

/// A rule the plan breaks, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Violation(pub String);

/// Lists all rules that the plan breaks; empty means accepted.
#[must_use]
pub fn verify(problem: &Problem, plan: &Plan) -> Vec<Violation> {
    let mut found = Vec::new();
    places(problem, plan, &mut found);
    if found.is_empty() {
        minutes(problem, plan, &mut found);
        clocks(problem, plan, &mut found);
        lengths(problem, plan, &mut found);
        stops(problem, plan, &mut found);
        pieces(problem, plan, &mut found);
        wear(problem, plan, &mut found);
    }
    found
}

/// Every place named must exist, before anything is looked up by it.
fn places(problem: &Problem, plan: &Plan, found: &mut Vec<Violation>) {
    for (id, lot) in plan.lots.iter().enumerate() {
        let known = lot.activity < problem.activities.len() && lot.slot < problem.slots.len();
        if !known || problem.activities[lot.activity].machine.is_none() {
            found
                .push(Violation(format!("lot {id} names an activity, machine or shift that does not exist")));
        }
    }
    for change in &plan.changes {
        if change.point >= problem.points.len() || change.lot >= plan.lots.len() {
            found.push(Violation("a tool change names a tool or lot that does not exist".to_owned()));
        }
    }
    for shipment in &plan.shipments {
        if shipment.demand >= problem.demands.len() || shipment.slot >= problem.slots.len() {
            found.push(Violation("a shipment names an order or shift that does not exist".to_owned()));
        }
    }
    if plan.stock.len() != problem.steps.len() || plan.stock.iter().any(|of| of.len() != problem.slots.len())
    {
        found.push(Violation("the stock list does not cover every step and shift".to_owned()));
    }
}

/// Minutes asked of each resource in each slot against those it has.
fn minutes(problem: &Problem, plan: &Plan, found: &mut Vec<Violation>) {
    let mut asked = vec![vec![0.0; problem.slots.len()]; problem.resources.len()];
    for lot in &plan.lots {
        let activity = &problem.activities[lot.activity];
        for (resource, minutes) in &activity.uses {
            if problem.resources[*resource].kind == ResourceKind::Crew {
                asked[*resource][lot.slot] += minutes * f64::from(lot.pieces);
            }
        }
        for busy in activity.machine.iter().chain(&activity.setter) {
            asked[*busy][lot.slot] += lot.setup;
        }
        if let Some(machine) = activity.machine {
            asked[machine][lot.slot] += run_minutes(activity, lot);
        }
    }
    for (id, lot) in plan.lots.iter().enumerate() {
        if let Some(machine) = problem.activities[lot.activity].machine {
            asked[machine][lot.slot] += changing(problem, plan, id);
        }
    }
    for (resource, slots) in problem.resources.iter().zip(&asked) {
        for (slot, asked) in slots.iter().enumerate() {
            let open = resource.minutes[slot];
            if *asked > open + 1e-6 * open.max(1.0) {
                found.push(Violation(format!(
                    "{} is asked for {asked:.2} min in shift {slot} and has {open:.2} min",
                    resource.name
                )));
            }
        }
    }
}

/// Lots lie inside their shift and do not overlap on a machine; a setup is there when the machine turns to other work.
fn clocks(problem: &Problem, plan: &Plan, found: &mut Vec<Violation>) {
    for (id, resource) in problem.resources.iter().enumerate() {
        let mut last: Option<(i64, usize)> = resource.set_up.map(|activity| (i64::MIN, activity));
        for lot in plan.lots.iter().filter(|lot| problem.activities[lot.activity].machine == Some(id)) {
            let slot = problem.slots[lot.slot];
            if lot.start < slot.start || slot.end < lot.end || lot.end < lot.start {
                found.push(Violation(format!(
                    "a lot on {} lies outside its shift {}",
                    resource.name, lot.slot
                )));
            }
            if last.is_some_and(|(end, _)| lot.start < end) {
                found.push(Violation(format!("two lots on {} overlap in shift {}", resource.name, lot.slot)));
            }
            let standing = last.is_some_and(|(_, activity)| activity == lot.activity);
            let owed = if standing { 0.0 } else { problem.activities[lot.activity].setup };
            if lot.setup < owed - 1e-9 {
                found.push(Violation(format!(
                    "a setup is missing on {} in shift {}",
                    resource.name, lot.slot
                )));
            }
            last = Some((lot.end, lot.activity));
        }
    }
}

/// A lot lasts as long as its setup, loads and changes, and numbers its pieces on from the lot before.
fn lengths(problem: &Problem, plan: &Plan, found: &mut Vec<Violation>) {
    let mut numbered = vec![0; problem.activities.len()];
    for (id, lot) in plan.lots.iter().enumerate() {
        let activity = &problem.activities[lot.activity];
        let name = &problem.steps[activity.step].name;
        if lot.first_piece != numbered[lot.activity] + 1 {
            found.push(Violation(format!("the pieces of {name} are not numbered on in shift {}", lot.slot)));
        }
        numbered[lot.activity] += lot.pieces;
        let Some(machine) = activity.machine else { continue };
        let windows = &problem.resources[machine].windows[lot.slot];
        let seconds = |from: i64, to: i64| -> f64 {
            windows.iter().map(|window| f64_of((window.1.min(to) - window.0.max(from)).max(0))).sum()
        };
        let minutes = lot.setup + run_minutes(activity, lot) + changing(problem, plan, id);
        let pace = seconds(i64::MIN, i64::MAX) / problem.resources[machine].minutes[lot.slot];
        // Both ends are whole seconds.
        if (seconds(lot.start, lot.end) - minutes * pace).abs() > 1.0 + 1e-3 {
            found.push(Violation(format!(
                "a lot of {name} in shift {} does not last as long as its work",
                lot.slot
            )));
        }
    }
}

/// No piece is used before the shift after it was made, good counts follow the yield, shipments are covered.
fn pieces(problem: &Problem, plan: &Plan, found: &mut Vec<Violation>) {
    let mut lying: Vec<f64> = problem.steps.iter().map(|step| step.opening.floor()).collect();
    let mut started = vec![0.0; problem.steps.len()];
    let mut good = vec![0.0; problem.steps.len()];
    let mut shipped = vec![0.0; problem.demands.len()];
    for slot in 0..problem.slots.len() {
        for lot in plan.lots.iter().filter(|lot| lot.slot == slot) {
            let step = problem.activities[lot.activity].step;
            for (input, each) in &problem.steps[step].inputs {
                lying[*input] -= each * f64::from(lot.pieces);
                if lying[*input] < -1e-6 {
                    let name = &problem.steps[*input].name;
                    found.push(Violation(format!(
                        "more pieces of {name} are used in shift {slot} than lie there"
                    )));
                }
            }
            started[step] += f64::from(lot.pieces);
            good[step] += f64::from(lot.good);
        }
        for (id, step) in problem.steps.iter().enumerate() {
            if good[id] > started[id] * step.good + 1e-6 {
                let name = &step.name;
                found.push(Violation(format!(
                    "{name} counts more good pieces by shift {slot} than its yield gives"
                )));
            }
        }
        for lot in plan.lots.iter().filter(|lot| lot.slot == slot) {
            lying[problem.activities[lot.activity].step] += f64::from(lot.good);
        }
        for shipment in plan.shipments.iter().filter(|shipment| shipment.slot == slot) {
            let demand = &problem.demands[shipment.demand];
            lying[demand.step] -= f64::from(shipment.pieces);
            shipped[shipment.demand] += f64::from(shipment.pieces);
            if lying[demand.step] < -1e-6 || shipped[shipment.demand] > demand.quantity + 1e-6 {
                found.push(Violation(format!(
                    "shift {slot} ships more to {} than there is or is wanted",
                    demand.name
                )));
            }
        }
        for ((step, lying), told) in problem.steps.iter().zip(&lying).zip(&plan.stock) {
            if (lying - f64::from(told[slot])).abs() > 1e-6 {
                found.push(Violation(format!(
                    "the stock of {} after shift {slot} does not add up",
                    step.name
                )));
            }
        }
    }
}

/// No edge cuts beyond its life.
fn wear(problem: &Problem, plan: &Plan, found: &mut Vec<Violation>) {
    let mut worn: Vec<f64> = problem.points.iter().map(|point| point.worn).collect();
    for (id, lot) in plan.lots.iter().enumerate() {
        let activity = &problem.activities[lot.activity];
        let last = lot.first_piece + lot.pieces;
        for wear in &activity.wear {
            let mut from = lot.first_piece;
            let changes = plan.changes.iter().filter(|change| change.lot == id && change.point == wear.point);
            let stops = changes.map(|change| change.before_piece).chain([last]);
            for stop in stops {
                if stop < from || last < stop {
                    found.push(Violation(format!(
                        "a change of {} lies outside its lot",
                        problem.points[wear.point].name
                    )));
                    return;
                }
                worn[wear.point] += wear.share * f64::from(stop - from);
                if worn[wear.point] > 1.0 + 1e-6 {
                    let name = &problem.points[wear.point].name;
                    found.push(Violation(format!("{name} cuts beyond its life before piece {stop}")));
                }
                if stop < last {
                    worn[wear.point] = 0.0;
                }
                from = stop;
            }
        }
    }
}

/// Minutes the machine of a lot stands for its changes. Edges changed before the same piece share the stop, which counts once,
/// and not at all where the machine stands anyway.
fn changing(problem: &Problem, plan: &Plan, lot: usize) -> f64 {
    let mut by_piece: Vec<(u32, f64, f64)> = Vec::new();
    for change in plan.changes.iter().filter(|change| change.lot == lot) {
        let point = &problem.points[change.point];
        let owed = if change.standing == Standing::Anyway { 0.0 } else { point.stop };
        match by_piece.iter_mut().find(|(piece, ..)| *piece == change.before_piece) {
            Some((_, minutes, stop)) => {
                *minutes += point.change - point.stop;
                *stop = stop.max(owed);
            }
            None => by_piece.push((change.before_piece, point.change - point.stop, owed)),
        }
    }
    by_piece.iter().map(|(_, minutes, stop)| minutes + stop).sum()
}

/// Where a change spares its stop, the machine must stand: after a setup, at a start of work, or because a break begins before
/// the next load would end.
fn stops(problem: &Problem, plan: &Plan, found: &mut Vec<Violation>) {
    for change in plan.changes.iter().filter(|change| change.standing == Standing::Anyway) {
        let lot = &plan.lots[change.lot];
        let activity = &problem.activities[lot.activity];
        let Some(machine) = activity.machine else { continue };
        let resource = &problem.resources[machine];
        let windows = &resource.windows[lot.slot];
        let after_setup = lot.setup > 0.0 && change.before_piece == lot.first_piece;
        let worked_until = (0..lot.slot).rev().find(|slot| resource.minutes[*slot] > 0.0);
        let worked_until = worked_until.and_then(|slot| resource.windows[slot].last());
        let at_start = windows.first().is_some_and(|(from, _)| {
            change.at <= from + 1 && worked_until.is_none_or(|(_, until)| until < from)
        });
        let open: f64 = windows.iter().map(|(from, to)| f64_of(to - from)).sum();
        let one_load = f64::from(activity.load.max(1)) * activity.run * open / resource.minutes[lot.slot];
        let before_break = windows
            .iter()
            .rev()
            .skip(1)
            .any(|(_, to)| change.at <= to + 1 && f64_of(to - change.at) <= one_load + 1.0);
        if !(after_setup || at_start || before_break) {
            let name = &problem.points[change.point].name;
            found.push(Violation(format!("{name} is changed without a stop while the machine runs")));
        }
    }
}

/// Minutes the machine runs for a lot; a load that is not full takes as long as a full one.
fn run_minutes(activity: &Activity, lot: &Lot) -> f64 {
    let load = f64::from(activity.load.max(1));
    (f64::from(lot.pieces) / load).ceil() * load * activity.run
}

fn f64_of(seconds: i64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a horizon has far fewer than 2^52 seconds")]
    let seconds = seconds as f64;
    seconds
}
