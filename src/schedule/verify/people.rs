//! Minutes asked of machines, people and firms in each shift, and setters by the clock.

use super::super::problem::ResourceKind;
use super::clock::{f64_of, open};
use super::rules::Violation;
use super::sheet::Sheet;

pub(super) fn check(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    minutes(sheet, found);
    for (id, _) in sheet.problem.resources.iter().enumerate().filter(|(_, of)| of.kind == ResourceKind::Crew)
    {
        setters(sheet, id, found);
    }
}

/// Minutes asked of each resource in each slot against those it has; of a firm, pieces sent.
fn minutes(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    let problem = sheet.problem;
    let mut asked = vec![vec![0.0; problem.slots.len()]; problem.resources.len()];
    for course in &sheet.courses {
        let (lot, activity) = (course.lot, course.activity);
        for (resource, minutes) in &activity.uses {
            // Of its own machine a lot asks as the clock tells; of others - people, a station that gauges - by the piece.
            if *resource != course.machine {
                asked[*resource][lot.slot] += minutes * f64::from(lot.pieces);
            }
        }
        if let Some(setter) = activity.setter {
            asked[setter][lot.slot] += lot.setup;
        }
        asked[course.machine][lot.slot] +=
            if course.outside { f64::from(lot.pieces) } else { course.minutes() };
    }
    for (resource, slots) in problem.resources.iter().zip(&asked) {
        for (slot, asked) in slots.iter().enumerate() {
            let open = resource.minutes[slot];
            if *asked > open + 1e-6 * open.max(1.0) {
                let unit = if resource.kind == ResourceKind::Outside { "pieces" } else { "min" };
                found.push(Violation(format!(
                    "{} is asked for {asked:.2} {unit} in shift {slot} and has {open:.2} {unit}",
                    resource.name
                )));
            }
        }
    }
}

/// Nobody sets up two machines at once, or in a break. A part of a person counts as one.
fn setters(sheet: &Sheet<'_>, setter: usize, found: &mut Vec<Violation>) {
    let resource = &sheet.problem.resources[setter];
    let mut under_way: Vec<Vec<(f64, f64)>> = vec![Vec::new(); sheet.problem.slots.len()];
    for course in &sheet.courses {
        let lot = course.lot;
        if course.activity.setter != Some(setter) || lot.setup <= 0.0 || resource.windows.len() <= lot.slot {
            continue;
        }
        let windows = &resource.windows[lot.slot];
        if windows.is_empty() {
            continue;
        }
        let spans =
            spans(f64_of(lot.start), course.clock.ended(course.worked(lot.setup)), course.clock.windows);
        for (from, to) in &spans {
            let rests = windows.windows(2).map(|pair| (f64_of(pair[0].1), f64_of(pair[1].0)));
            if rests.into_iter().any(|rest| to.min(rest.1) - from.max(rest.0) > 1.0 + 1e-3) {
                found.push(Violation(format!(
                    "{} sets up {} in a break: {from:.0} s to {to:.0} s",
                    resource.name,
                    sheet.on(course)
                )));
            }
        }
        under_way[lot.slot].extend(spans);
    }
    for (slot, spans) in under_way.into_iter().enumerate().filter(|(_, spans)| !spans.is_empty()) {
        let people = (resource.minutes[slot] * 60.0 / open(resource, slot)).round().max(1.0);
        let (most, at) = most_at_once(&spans);
        if f64::from(most) > people + 1e-9 {
            found.push(Violation(format!(
                "{} makes {most} setups at once at {at:.0} s in shift {slot}, with people for {people:.0}",
                resource.name
            )));
        }
    }
}

/// A span of the clock without the times at which the machine is closed.
fn spans(from: f64, to: f64, windows: &[(i64, i64)]) -> Vec<(f64, f64)> {
    let inside = windows.iter().map(|(open, close)| (from.max(f64_of(*open)), to.min(f64_of(*close))));
    inside.filter(|(from, to)| from < to).collect()
}

/// Most spans under way at once, and when first. Ends are taken a second sooner, as starts are rounded up to one.
fn most_at_once(spans: &[(f64, f64)]) -> (u32, f64) {
    let mut edges: Vec<(f64, bool)> =
        spans.iter().flat_map(|(from, to)| [(*from, true), ((to - 1.0 - 1e-3).max(*from), false)]).collect();
    // Whoever ends is free for what begins at the same time.
    edges.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
    let (mut now, mut most, mut at) = (0_u32, 0, 0.0);
    for (time, begins) in edges {
        now = if begins { now + 1 } else { now.saturating_sub(1) };
        if now > most {
            (most, at) = (now, time);
        }
    }
    (most, at)
}
