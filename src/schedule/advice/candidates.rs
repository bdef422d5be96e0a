//! What might be asked for so that orders come in time: generated from the problem, slot by slot.

use super::super::plan::Plan;
use super::super::problem::{Problem, ResourceKind};
use super::relaxation::{Opened, Relaxation};

/// Longest overtime at a stretch, and shortest gap between shifts that is worth one.
const LONGEST: i64 = 8 * 3600;
const SHORTEST: i64 = 2 * 3600;

/// Everything that could be granted, time by time, at some machines and crews before a date.
pub(super) fn candidates(problem: &Problem, plan: &Plan, resources: &[usize], by: i64) -> Vec<Relaxation> {
    let mut found = Vec::new();
    for resource in resources {
        match problem.resources[*resource].kind {
            ResourceKind::Machine => openings(problem, plan, *resource, &mut found),
            ResourceKind::Crew => persons(problem, *resource, &mut found),
            ResourceKind::Outside => {}
        }
    }
    found.retain(|one| one.spans().iter().all(|(start, _)| *start < by));
    for (stock, of) in problem.edge_stocks.iter().enumerate() {
        let arrived: u32 = of.arrivals.iter().sum();
        found.push(Relaxation::Edges { stock, edges: (arrived / 2).max(10) });
    }
    found
}

/// Slots in which a machine stands, and gaps in which no shift works.
fn openings(problem: &Problem, plan: &Plan, machine: usize, found: &mut Vec<Relaxation>) {
    let of = &problem.resources[machine];
    for (slot, minutes) in of.minutes.iter().enumerate() {
        if *minutes > 0.0 {
            continue;
        }
        let span = (problem.slots[slot].start, problem.slots[slot].end);
        let like = |other: usize| {
            let start = problem.slots[other].start;
            (start - span.0).rem_euclid(86_400) == 0 && of.minutes[other] > 0.0
        };
        let kind =
            if (0..problem.slots.len()).any(like) { Opened::StopCalledOff } else { Opened::FurtherShift };
        let people = people(problem, plan, machine, Some(slot));
        found.push(Relaxation::Open { machine, spans: vec![span], people, kind });
    }
    for pair in problem.slots.windows(2) {
        let gap = pair[1].start - pair[0].end;
        if gap >= SHORTEST {
            let span = (pair[0].end, pair[0].end + gap.min(LONGEST));
            let people = people(problem, plan, machine, None);
            found.push(Relaxation::Open { machine, spans: vec![span], people, kind: Opened::Overtime });
        }
    }
}

/// Crews that the work of a machine needs and that have nobody free in a slot.
fn people(problem: &Problem, plan: &Plan, machine: usize, slot: Option<usize>) -> Vec<usize> {
    let works = problem.activities.iter().filter(|activity| activity.machine == Some(machine));
    let mut needed: Vec<(usize, f64)> = Vec::new();
    for activity in works {
        let share = |minutes: f64| minutes / activity.run.max(1e-9);
        let uses = activity.uses.iter().map(|(resource, minutes)| (*resource, share(*minutes)));
        // A setter is wanted for as long as a setup takes: he need only be there.
        let setter = activity.setter.map(|setter| (setter, 0.0));
        for (crew, share) in uses.chain(setter) {
            if problem.resources[crew].kind != ResourceKind::Crew {
                continue;
            }
            match needed.iter_mut().find(|(known, _)| *known == crew) {
                Some((_, most)) => *most = most.max(share),
                None => needed.push((crew, share)),
            }
        }
    }
    let lacks = |crew: usize, share: f64| {
        let Some(slot) = slot else { return true };
        let of = &problem.resources[crew];
        let free = of.minutes[slot] - plan.minutes_used(problem, crew, slot);
        let seconds: i64 = of.windows[slot].iter().map(|(from, to)| to - from).sum();
        #[expect(clippy::cast_precision_loss, reason = "a slot has far fewer than 2^52 seconds")]
        let shift = seconds as f64 / 60.0;
        of.minutes[slot] <= 0.0 || free < share.min(1.0) * shift * 0.9
    };
    needed.retain(|(crew, share)| lacks(*crew, *share));
    needed.into_iter().map(|(crew, _)| crew).collect()
}

/// One more person in each slot.
fn persons(problem: &Problem, crew: usize, found: &mut Vec<Relaxation>) {
    for (slot, minutes) in problem.resources[crew].minutes.iter().enumerate() {
        if *minutes > 0.0 && minutes.is_finite() {
            let span = (problem.slots[slot].start, problem.slots[slot].end);
            found.push(Relaxation::Person { crew, spans: vec![span] });
        }
    }
}

/// Times of the same machine or crew as one thing to ask for.
pub(super) fn grouped(set: Vec<Relaxation>) -> Vec<Relaxation> {
    let mut groups: Vec<Relaxation> = Vec::new();
    for one in set {
        let joined = groups.iter_mut().any(|known| match (known, &one) {
            (
                Relaxation::Open { machine, spans, people, kind },
                Relaxation::Open { machine: same, spans: more, people: with, kind: alike },
            ) if (*machine, *kind) == (*same, *alike) && people == with => {
                spans.extend(more);
                spans.sort_unstable();
                true
            }
            (Relaxation::Person { crew, spans }, Relaxation::Person { crew: same, spans: more })
                if crew == same =>
            {
                spans.extend(more);
                spans.sort_unstable();
                true
            }
            _ => false,
        });
        if !joined {
            groups.push(one);
        }
    }
    groups
}
