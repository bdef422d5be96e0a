//! Each lot on the clock of its machine: inside its shift, one at a time, set up, as long as its work.

use super::super::problem::Activity;
use super::clock::f64_of;
use super::rules::Violation;
use super::sheet::{Course, Sheet};

pub(super) fn check(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    for machine in 0..sheet.rows.len() {
        let mut last: Option<&Course<'_>> = None;
        for course in sheet.row(machine) {
            let fault = if course.outside { sent(sheet, course) } else { inside(sheet, course, last) };
            found.extend(fault.map(Violation));
            if !course.outside {
                found.extend(setup(sheet, course, last).map(Violation));
            }
            last = Some(course);
        }
    }
}

/// What is sent to a firm leaves in its shift, comes back after the time away, and needs no setup or change here.
fn sent(sheet: &Sheet<'_>, course: &Course<'_>) -> Option<String> {
    let lot = course.lot;
    let (slot, on) = (sheet.problem.slots[lot.slot], sheet.on(course));
    if lot.start < slot.start || slot.end < lot.start {
        Some(format!("a lot is sent to {on} at {} s, outside its shift {}", lot.start, lot.slot))
    } else if lot.end != lot.start + course.activity.away {
        let back = lot.start + course.activity.away;
        Some(format!("a lot sent to {on} at {} s is back at {back} s, not at {} s", lot.start, lot.end))
    } else if lot.setup > 0.0 || !course.changes.is_empty() {
        Some(format!("a lot sent to {on} at {} s has a setup or a tool change", lot.start))
    } else {
        None
    }
}

fn inside(sheet: &Sheet<'_>, course: &Course<'_>, last: Option<&Course<'_>>) -> Option<String> {
    let lot = course.lot;
    let (slot, on) = (sheet.problem.slots[lot.slot], sheet.on(course));
    let span = format!("{} s to {} s", lot.start, lot.end);
    if lot.start < slot.start || slot.end < lot.end || lot.end < lot.start {
        return Some(format!("a lot on {on} lies outside its shift {}: {span}", lot.slot));
    }
    if last.is_some_and(|last| lot.start < last.lot.end) {
        return Some(format!("two lots on {on} overlap in shift {}: {span}", lot.slot));
    }
    if course.clock.stands(lot.start) || course.clock.stands(lot.end) {
        return Some(format!("a lot on {on} begins or ends while it is closed: {span}"));
    }
    let lasts = course.clock.worked(lot.end) - course.clock.worked(lot.start);
    let owed = course.minutes() * course.clock.pace;
    // Both ends are whole seconds; where the work of a machine has no pace it has no time either.
    ((lasts - owed).abs() > 1.0 + 1e-3 || sheet.problem.resources[course.machine].minutes[lot.slot] <= 0.0)
        .then(|| {
            let name = sheet.makes(course);
            format!("a lot of {name} on {on}, {span}, does not last as long as its work: {owed:.0} s")
        })
}

/// A setup is there when the machine turns to other work, and only then.
fn setup(sheet: &Sheet<'_>, course: &Course<'_>, last: Option<&Course<'_>>) -> Option<String> {
    let stood = match last {
        Some(last) => Some(last.lot.activity),
        None => stands_for(sheet, course),
    };
    let owed = if stood == Some(course.lot.activity) {
        0.0
    } else {
        owed_after(stood.map(|stood| &sheet.problem.activities[stood]), course.activity)
    };
    ((course.lot.setup - owed).abs() > 1e-6).then(|| {
        let (on, lot) = (sheet.on(course), course.lot);
        let which = if lot.setup < owed { "is missing" } else { "is too long" };
        format!("a setup {which} on {on} at {} s: {owed:.2} min owed, {:.2} min made", lot.start, lot.setup)
    })
}

/// What a machine stands set up for before its first lot: work that goes on, or else what the problem names.
fn stands_for(sheet: &Sheet<'_>, first: &Course<'_>) -> Option<usize> {
    let problem = sheet.problem;
    let going = || {
        problem
            .running
            .iter()
            .filter(|running| problem.activities[running.activity].machine == Some(first.machine))
    };
    let same = going().find(|running| running.activity == first.lot.activity);
    let going_on = same.or_else(|| going().next_back()).map(|running| running.activity);
    going_on.or(problem.resources[first.machine].set_up)
}

fn owed_after(before: Option<&Activity>, of: &Activity) -> f64 {
    let alike = before.is_some_and(|before| of.family.is_some() && before.family == of.family);
    if alike { of.setup_within } else { of.setup }
}

/// Whether a machine stood for more than a second before a lot.
pub(super) fn stood_before(course: &Course<'_>, last: Option<&Course<'_>>) -> bool {
    last.is_none_or(|last| f64_of(course.lot.start - last.lot.end) > 1.0)
}
