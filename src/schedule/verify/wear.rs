//! No edge cuts beyond its life, and each change tells what its edge has made.

use super::rules::Violation;
use super::sheet::{Course, Sheet};

pub(super) fn check(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    let mut worn: Vec<f64> = sheet.problem.points.iter().map(|point| point.worn).collect();
    for machine in 0..sheet.rows.len() {
        for course in sheet.row(machine) {
            cut(sheet, course, &mut worn, found);
        }
    }
}

/// The pieces between one stop and the next, until the lot ends.
fn cut(sheet: &Sheet<'_>, course: &Course<'_>, worn: &mut [f64], found: &mut Vec<Violation>) {
    let points = &sheet.problem.points;
    let after = course.lot.first_piece + course.lot.pieces;
    let mut from = course.lot.first_piece;
    let mut told = vec![false; course.activity.wear.len()];
    let mut stops = course.changes.chunk_by(|one, other| one.before_piece == other.before_piece);
    loop {
        let group = stops.next();
        let to = group.map_or(after, |group| group[0].before_piece);
        for (wear, told) in course.activity.wear.iter().zip(&mut told) {
            let now = &mut worn[wear.point];
            *now += wear.share * f64::from(to - from);
            if *now > 1.0 + 1e-6 && from < to && !*told {
                *told = true;
                found.push(Violation(format!(
                    "{} on {} cuts beyond its life before piece {to}: {:.4} of it",
                    points[wear.point].name,
                    sheet.on(course),
                    *now
                )));
            }
        }
        let Some(group) = group else { return };
        for change in group {
            let now = &mut worn[change.point];
            if (change.worn - *now).abs() > 1e-6 {
                found.push(Violation(format!(
                    "the change of {} before piece {to} tells {:.4} of a life, it made {now:.4}",
                    points[change.point].name, change.worn
                )));
            }
            *now = 0.0;
        }
        from = to;
    }
}
