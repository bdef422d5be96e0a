//! Changes on the clock: at their piece, and without a stop only where the machine stands.

use super::super::plan::{Change, Standing};
use super::rules::Violation;
use super::sheet::{Course, Sheet};
use super::turns::stood_before;

pub(super) fn check(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    for machine in 0..sheet.rows.len() {
        let mut last: Option<&Course<'_>> = None;
        for course in sheet.row(machine) {
            for change in &course.changes {
                let worked = course.stop(change.before_piece);
                let name = &sheet.problem.points[change.point].name;
                let told = course.clock.worked(change.at);
                if (told - worked).abs() > 2.0 || course.clock.stands(change.at) {
                    found.push(Violation(format!(
                        "{name} is changed at {} s, but piece {} comes at {:.0} s",
                        change.at,
                        change.before_piece,
                        course.clock.ended(worked)
                    )));
                }
                if change.standing == Standing::Anyway && !stands(course, change, (worked, last)) {
                    found.push(Violation(format!(
                        "{name} is changed without a stop at {} s while {} runs",
                        change.at,
                        sheet.on(course)
                    )));
                }
            }
            last = Some(course);
        }
    }
}

/// The machine stands after a setup, before a lot that does not follow straight on another, or because a break begins before the
/// next load would end.
fn stands(course: &Course<'_>, change: &Change, at: (f64, Option<&Course<'_>>)) -> bool {
    let (worked, last) = at;
    let first = change.before_piece == course.lot.first_piece;
    if first && (course.lot.setup > 0.0 || stood_before(course, last)) {
        return true;
    }
    let one_load = f64::from(course.activity.load.max(1)) * course.activity.run * course.clock.pace;
    course.clock.breaks().any(|rest| worked <= rest + 1.0 && rest - worked <= one_load + 1.0)
}
