//! Pieces numbered on, good ones counted by the yield, orders not shipped beyond what they want.

use super::rules::Violation;
use super::sheet::{Course, Sheet};

pub(super) fn check(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    numbers(sheet, found);
    let mut makers: Vec<Vec<&Course<'_>>> = vec![Vec::new(); sheet.problem.steps.len()];
    for course in &sheet.courses {
        makers[course.activity.step].push(course);
    }
    for (step, courses) in makers.into_iter().enumerate() {
        good(sheet, step, courses, found);
    }
    quantities(sheet, found);
}

/// A lot numbers its pieces on from the lot before, by machine and step.
fn numbers(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    let mut numbered = vec![0_u64; sheet.problem.activities.len()];
    for machine in 0..sheet.rows.len() {
        for course in sheet.row(machine) {
            let (lot, numbered) = (course.lot, &mut numbered[course.lot.activity]);
            if u64::from(lot.first_piece) != *numbered + 1 {
                found.push(Violation(format!(
                    "the pieces of {} on {} are not numbered on at {} s: {} after {numbered}",
                    sheet.makes(course),
                    sheet.on(course),
                    lot.start,
                    lot.first_piece
                )));
            }
            *numbered += u64::from(lot.pieces);
        }
    }
}

/// Of all pieces of a step, counted slot by slot as they are started, the share that its yield gives is good: which lot of a slot has
/// the good piece makes no difference.
fn good(sheet: &Sheet<'_>, step: usize, mut courses: Vec<&Course<'_>>, found: &mut Vec<Violation>) {
    let of = &sheet.problem.steps[step];
    let group = |course: &Course<'_>| course.lot.slot;
    courses.sort_by_key(|course| group(course));
    let (mut started, mut counted) = (0_u64, 0_u64);
    for done in courses.chunk_by(|one, other| group(one) == group(other)) {
        started += done.iter().map(|course| u64::from(course.lot.pieces)).sum::<u64>();
        counted += done.iter().map(|course| u64::from(course.lot.good)).sum::<u64>();
        let (started, counted) = (count(started), count(counted));
        let right = (started * of.good + 1e-9).floor();
        if (counted - right).abs() > 0.5 {
            let end = done.iter().map(|course| course.lot.end).max().unwrap_or(0);
            found.push(Violation(format!(
                "{} counts {counted} good pieces by {end} s; {right} of {started} are good by its yield",
                of.name
            )));
            return;
        }
    }
}

/// No order gets more than it wants.
fn quantities(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    let mut shipped = vec![0_u64; sheet.problem.demands.len()];
    for shipment in &sheet.plan.shipments {
        shipped[shipment.demand] += u64::from(shipment.pieces);
    }
    for (demand, shipped) in sheet.problem.demands.iter().zip(shipped) {
        if count(shipped) > demand.quantity + 1e-6 {
            let (name, wanted) = (&demand.name, demand.quantity);
            found.push(Violation(format!("{shipped} pieces are shipped to {name}, which wants {wanted}")));
        }
    }
}

fn count(pieces: u64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "far fewer than 2^52 pieces")]
    let pieces = pieces as f64;
    pieces
}
