//! What comes first on a machine: work that goes on.

use super::rules::Violation;
use super::sheet::Sheet;

pub(super) fn check(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    for machine in 0..sheet.rows.len() {
        goes_on(sheet, machine, found);
    }
}

/// Work that goes on comes before other work in the first slot in which any of it is laid.
fn goes_on(sheet: &Sheet<'_>, machine: usize, found: &mut Vec<Violation>) {
    let problem = sheet.problem;
    for running in &problem.running {
        if problem.activities[running.activity].machine != Some(machine) {
            continue;
        }
        let Some(own) = sheet.row(machine).find(|course| course.lot.activity == running.activity) else {
            continue;
        };
        let others = |activity: usize| problem.running.iter().all(|running| running.activity != activity);
        let before = sheet.row(machine).find(|course| {
            course.lot.slot == own.lot.slot && course.lot.start < own.lot.start && others(course.lot.activity)
        });
        if let Some(course) = before {
            let name = &problem.steps[problem.activities[running.activity].step].name;
            found.push(Violation(format!(
                "{} turns to {} at {} s while {} pieces of {name} that goes on are not started",
                sheet.on(course),
                sheet.makes(course),
                course.lot.start,
                running.pieces
            )));
        }
    }
}
