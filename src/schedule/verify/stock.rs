//! What lies after each step when a shift ends.

use super::super::problem::Problem;
use super::rules::Violation;
use super::sheet::{Course, Sheet};

/// Slot by whose end a lot is done; past the last one for what comes back after the horizon.
pub(super) fn back_in(problem: &Problem, course: &Course<'_>) -> usize {
    if course.outside {
        problem.slots.partition_point(|slot| slot.end < course.lot.end)
    } else {
        course.lot.slot
    }
}

/// The stock told is opening and goods come in, less what was used and shipped. Part pieces used are told as whole ones, up or down.
pub(super) fn check(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    let problem = sheet.problem;
    let mut moved = vec![vec![0.0; problem.slots.len()]; problem.steps.len()];
    for course in &sheet.courses {
        let step = course.activity.step;
        if let Some(moved) = moved[step].get_mut(back_in(problem, course)) {
            *moved += f64::from(course.lot.good);
        }
        for (input, each) in &problem.steps[step].inputs {
            moved[*input][course.lot.slot] -= each * f64::from(course.lot.pieces);
        }
    }
    for shipment in &sheet.plan.shipments {
        moved[problem.demands[shipment.demand].step][shipment.slot] -= f64::from(shipment.pieces);
    }
    for ((step, moved), told) in problem.steps.iter().zip(&moved).zip(&sheet.plan.stock) {
        let mut lying = step.opening.floor();
        for (slot, (moved, told)) in moved.iter().zip(told).enumerate() {
            lying += moved;
            let told = f64::from(*told);
            if told < (lying + 1e-6).floor() - 1e-6 || told > (lying - 1e-6).ceil() + 1e-6 {
                found.push(Violation(format!(
                    "the stock of {} after shift {slot} does not add up: {lying:.2}, told {told}",
                    step.name
                )));
                break;
            }
        }
    }
}
