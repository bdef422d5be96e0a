//! Goods by the clock: none is used before it has moved on, none is shipped before it is done, none goes twice.
//!
//! Each step has a pool of goods that are done, by the time from which on they may be used. A shipment takes those that may be used
//! last, a user any that may be used already. If there is a way to serve all takers this one serves them, so that what is
//! refused here cannot be right in any other order.

use super::super::problem::{Lag, Step};
use super::clock::f64_of;
use super::rules::Violation;
use super::sheet::{Course, Sheet};
use std::collections::BTreeMap;

/// Thousandths of a second.
type Time = i64;

/// What happens to the goods of a step.
enum Event {
    /// They are done, and may be used from a time on.
    Come(Time),
    /// A lot starts a piece with them.
    Use { lot: usize, piece: u32 },
    /// They leave.
    Ship { demand: usize },
}

/// Time, what happens, pieces.
type Entry = (Time, Event, f64);

pub(super) fn check(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    let mut entries: Vec<Vec<Entry>> = sheet.problem.steps.iter().map(|_| Vec::new()).collect();
    let mut leaving: Vec<Vec<i64>> = vec![Vec::new(); entries.len()];
    for shipment in &sheet.plan.shipments {
        let (demand, slot) = (&sheet.problem.demands[shipment.demand], sheet.problem.slots[shipment.slot]);
        if shipment.at < slot.start || slot.end < shipment.at {
            found.push(Violation(format!(
                "a shipment to {} at {} s lies outside its shift {}",
                demand.name, shipment.at, shipment.slot
            )));
        }
        leaving[demand.step].push(shipment.at);
        let event = Event::Ship { demand: shipment.demand };
        entries[demand.step].push((time(f64_of(shipment.at)), event, f64::from(shipment.pieces)));
    }
    for leaving in &mut leaving {
        leaving.sort_unstable();
    }
    let from_firms = from_firms(sheet);
    for (id, course) in sheet.courses.iter().enumerate() {
        come(sheet, course, &leaving[course.activity.step], &mut entries[course.activity.step]);
        used(sheet, (id, course), &from_firms, &mut entries);
    }
    for (step, entries) in entries.into_iter().enumerate() {
        settle(sheet, step, entries, found);
    }
}

/// Goods of a lot as they are done; piece by piece only where it matters.
fn come(sheet: &Sheet<'_>, course: &Course<'_>, leaving: &[i64], entries: &mut Vec<Entry>) {
    let lot = course.lot;
    let lag = sheet.problem.steps[course.activity.step].lag;
    let next = sheet.problem.slots.get(lot.slot + 1).map(|slot| slot.start);
    let first = leaving.partition_point(|at| *at < lot.start);
    let leaves_meanwhile = leaving.get(first).is_some_and(|at| *at < lot.end);
    let box_of = match lag {
        Lag::Boxes { pieces, .. } => pieces.max(1),
        Lag::SameSlot => course.activity.load.max(1),
        Lag::NextSlot => lot.pieces,
    };
    let mut portions: Vec<u32> = (1..=lot.pieces / box_of).map(|full| full * box_of).collect();
    if leaves_meanwhile && !course.outside {
        let load = course.activity.load.max(1);
        portions.extend((1..=lot.pieces / load).map(|full| full * load));
    }
    portions.push(lot.pieces);
    portions.sort_unstable();
    portions.dedup();
    let mut handed = 0.0;
    for pieces in portions {
        let good = course.good(pieces);
        let full = pieces.div_ceil(box_of).saturating_mul(box_of).min(lot.pieces);
        let ready = match (lag, next) {
            (Lag::Boxes { seconds, .. }, _) => time(course.done(full) + f64_of(seconds)),
            (Lag::SameSlot, _) => time(course.done(pieces)),
            (Lag::NextSlot, Some(next)) if course.outside => time(f64_of(next.max(lot.end))),
            (Lag::NextSlot, Some(next)) => time(f64_of(next)),
            (Lag::NextSlot, None) => Time::MAX,
        };
        if good > handed {
            entries.push((time(course.done(pieces)), Event::Come(ready), good - handed));
        }
        handed = good;
    }
}

/// Steps of which some goods come back from a firm, in the midst of a slot.
fn from_firms(sheet: &Sheet<'_>) -> Vec<bool> {
    let mut from_firms = vec![false; sheet.problem.steps.len()];
    for course in sheet.courses.iter().filter(|course| course.outside) {
        from_firms[course.activity.step] = true;
    }
    from_firms
}

/// What a lot takes: load by load, or all at its start where goods are only handed on when a slot begins.
fn used(sheet: &Sheet<'_>, of: (usize, &Course<'_>), from_firms: &[bool], entries: &mut [Vec<Entry>]) {
    let (id, course) = of;
    let lot = course.lot;
    let load = if course.outside { lot.pieces } else { course.activity.load.max(1) };
    for (input, each) in &sheet.problem.steps[course.activity.step].inputs {
        let by_slot = sheet.problem.steps[*input].lag == Lag::NextSlot && !from_firms[*input];
        let portion = if by_slot { lot.pieces } else { load };
        let mut piece = 0;
        while piece < lot.pieces {
            let pieces = portion.min(lot.pieces - piece);
            // What starts at the end of its slot does not start in the next.
            let latest = f64_of(sheet.problem.slots[lot.slot].end) - 0.5;
            let at = course.starts(piece / load).min(latest);
            let event = Event::Use { lot: id, piece: lot.first_piece + piece };
            entries[*input].push((time(at), event, each * f64::from(pieces)));
            piece += pieces;
        }
    }
}

/// Serves all takers of a step in order of time.
fn settle(sheet: &Sheet<'_>, step: usize, mut entries: Vec<Entry>, found: &mut Vec<Violation>) {
    let of = &sheet.problem.steps[step];
    // Goods that come count at once.
    let rank = |event: &Event| match event {
        Event::Come(_) => 0,
        Event::Use { .. } => 1,
        Event::Ship { .. } => 2,
    };
    entries.sort_by_key(|(time, event, _)| (*time, rank(event)));
    let mut pool: BTreeMap<Time, f64> = BTreeMap::new();
    pool.insert(Time::MIN, of.opening.floor());
    let (mut short_used, mut short_shipped) = (false, false);
    for (now, event, pieces) in entries {
        match event {
            Event::Come(ready) => *pool.entry(ready).or_insert(0.0) += pieces,
            Event::Use { lot, piece } => {
                let short = take(&mut pool, pieces, |pool| {
                    pool.first_key_value().map(|(ready, _)| *ready).filter(|ready| *ready <= now)
                });
                if short > 1e-6 && !short_used {
                    short_used = true;
                    found.push(too_soon(sheet, (of, &sheet.courses[lot]), (piece, now, short)));
                }
            }
            Event::Ship { demand } => {
                let short = take(&mut pool, pieces, |pool| pool.last_key_value().map(|(ready, _)| *ready));
                if short > 1e-6 && !short_shipped {
                    short_shipped = true;
                    let name = &sheet.problem.demands[demand].name;
                    found.push(Violation(format!(
                        "more pieces of {} are shipped to {name} at {} s than are done: {short:.2} too many",
                        of.name,
                        now / 1000
                    )));
                }
            }
        }
    }
}

fn too_soon(sheet: &Sheet<'_>, of: (&Step, &Course<'_>), at: (u32, Time, f64)) -> Violation {
    let ((step, course), (piece, now, short)) = (of, at);
    Violation(format!(
        "more pieces of {} are used than lie there: {} on {} starts piece {piece} at {} s, {short:.2} short",
        step.name,
        sheet.makes(course),
        sheet.on(course),
        now / 1000
    ))
}

/// Takes pieces out of a pool, from the places that are named in turn; what it could not take.
fn take(
    pool: &mut BTreeMap<Time, f64>,
    pieces: f64,
    place: impl Fn(&BTreeMap<Time, f64>) -> Option<Time>,
) -> f64 {
    let mut open = pieces;
    while open > 1e-9 {
        let Some(ready) = place(pool) else { break };
        let Some(there) = pool.get_mut(&ready) else { break };
        let taken = there.min(open);
        *there -= taken;
        open -= taken;
        if *there <= 1e-9 {
            pool.remove(&ready);
        }
    }
    open
}

fn time(seconds: f64) -> Time {
    #[expect(clippy::cast_possible_truncation, reason = "a horizon has far fewer than 2^53 milliseconds")]
    let time = (seconds * 1000.0).round() as Time;
    time
}
