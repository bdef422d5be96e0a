//! A plan from a moment on: slots that have passed are dropped, the one under way is cut, and what lies there, who is missing
//! and how far edges are worn is as it is known at that moment.

use super::problem::{EdgeStock, Problem, ResourceKind, Running};
use crate::plant::Calendar;

/// What is known of the floor at a moment.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FloorState {
    /// The moment, seconds from the start of the plan.
    pub now: i64,
    /// Pieces started since the start of the plan, by step.
    pub started: Vec<u32>,
    /// Good pieces made since then, by step.
    pub good: Vec<u32>,
    /// Pieces found beyond what the counts say, by step; below zero for pieces that were not there.
    pub found: Vec<i64>,
    /// Pieces shipped since then, by demand.
    pub shipped: Vec<u32>,
    /// Share of its life that each edge is worn, by wear point.
    pub worn: Vec<f64>,
    /// Edges taken since then, by edge stock; below zero if more were counted than can have come.
    pub taken: Vec<i64>,
    /// What each resource stands set up for.
    pub set_up: Vec<Option<usize>>,
    /// Work that goes on.
    pub running: Vec<Running>,
}

/// A machine that is down, or people who are missing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outage {
    /// The machine or crew.
    pub resource: usize,
    /// From when, seconds from the start of the plan.
    pub from: i64,
    /// Until when.
    pub until: i64,
    /// People who are missing; counts for crews alone.
    pub people: u32,
}

impl FloorState {
    /// The start of a plan: nothing made, edges and set-ups as the problem has them.
    #[must_use]
    pub fn at_start(problem: &Problem) -> Self {
        Self {
            now: problem.slots.first().map_or(0, |slot| slot.start),
            started: vec![0; problem.steps.len()],
            good: vec![0; problem.steps.len()],
            found: vec![0; problem.steps.len()],
            shipped: vec![0; problem.demands.len()],
            worn: problem.points.iter().map(|point| point.worn).collect(),
            taken: vec![0; problem.edge_stocks.len()],
            set_up: problem.resources.iter().map(|resource| resource.set_up).collect(),
            running: problem.running.clone(),
        }
    }

    /// Good pieces lying after a step: those at the start, made and found, less those used and shipped. Below zero where the
    /// counts do not agree.
    #[must_use]
    pub fn lying(&self, problem: &Problem, step: usize) -> f64 {
        let used: f64 =
            problem.users(step).map(|(user, pieces)| pieces * f64::from(self.started[user])).sum();
        let shipped: f64 = problem
            .demands
            .iter()
            .zip(&self.shipped)
            .filter(|(demand, _)| demand.step == step)
            .map(|(_, pieces)| f64::from(*pieces))
            .sum();
        problem.steps[step].opening + f64::from(self.good[step]) + f64_of(self.found[step]) - used - shipped
    }
}

/// First slot that has not passed; `None` if all have.
#[must_use]
pub fn first_slot(problem: &Problem, now: i64) -> Option<usize> {
    problem.slots.iter().position(|slot| slot.end > now)
}

/// The problem from a moment on. Demands lose what was shipped and keep their place; steps whose counts do not agree have
/// nothing lying there.
#[must_use]
pub fn problem_from(problem: &Problem, state: &FloorState, outages: &[Outage]) -> Problem {
    let first = first_slot(problem, state.now).unwrap_or(problem.slots.len());
    let mut from = problem.clone();
    from.slots.drain(..first);
    if let Some(slot) = from.slots.first_mut() {
        slot.start = slot.start.max(state.now);
    }
    for resource in &mut from.resources {
        resource.minutes.drain(..first);
        resource.cost.drain(..first);
        resource.windows.drain(..first);
    }
    take_time(&mut from, state.now, outages);
    for (id, step) in from.steps.iter_mut().enumerate() {
        step.opening = state.lying(problem, id).max(0.0);
    }
    for (demand, shipped) in from.demands.iter_mut().zip(&state.shipped) {
        demand.quantity = (demand.quantity - f64::from(*shipped)).max(0.0);
    }
    for (point, worn) in from.points.iter_mut().zip(&state.worn) {
        point.worn = worn.clamp(0.0, 1.0);
    }
    for (id, stock) in from.edge_stocks.iter_mut().enumerate() {
        stock.arrivals = arrivals_from(&problem.edge_stocks[id], first, state.taken[id]);
    }
    for (resource, set_up) in from.resources.iter_mut().zip(&state.set_up) {
        resource.set_up = *set_up;
    }
    from.running = state.running.iter().copied().filter(|running| running.pieces > 0).collect();
    keep_what_can_run(&mut from);
    from
}

/// What has come in by now lies there in the first slot, less what was taken.
fn arrivals_from(stock: &EdgeStock, first: usize, taken: i64) -> Vec<u32> {
    let mut arrivals: Vec<u32> = stock.arrivals.iter().skip(first).copied().collect();
    if let Some(there) = arrivals.first_mut() {
        *there = u32::try_from((stock.come_by(first) - taken).max(0)).unwrap_or(u32::MAX);
    }
    arrivals
}

impl EdgeStock {
    /// Edges that have come in by a slot.
    #[must_use]
    pub fn come_by(&self, slot: usize) -> i64 {
        self.arrivals.iter().take(slot + 1).map(|edges| i64::from(*edges)).sum()
    }
}

/// Takes the time before now, and that of outages, out of windows and minutes.
fn take_time(problem: &mut Problem, now: i64, outages: &[Outage]) {
    for (id, resource) in problem.resources.iter_mut().enumerate() {
        let own = || outages.iter().filter(move |outage| outage.resource == id);
        for (minutes, windows) in resource.minutes.iter_mut().zip(&mut resource.windows) {
            let before = open_seconds(windows);
            *windows = without(windows, (i64::MIN, now));
            if resource.kind == ResourceKind::Machine {
                for outage in own() {
                    *windows = without(windows, (outage.from, outage.until));
                }
            }
            let after = open_seconds(windows);
            if before > 0 && after < before {
                *minutes = if after == 0 { 0.0 } else { *minutes * f64_of(after) / f64_of(before) };
            }
            if resource.kind == ResourceKind::Crew {
                for outage in own() {
                    let away = after - open_seconds(&without(windows, (outage.from, outage.until)));
                    *minutes = (*minutes - f64::from(outage.people) * f64_of(away) / 60.0).max(0.0);
                }
            }
        }
    }
}

/// Windows without a span of time.
fn without(windows: &[(i64, i64)], (from, until): (i64, i64)) -> Vec<(i64, i64)> {
    let parts =
        windows.iter().flat_map(|(start, end)| [(*start, (*end).min(from)), ((*start).max(until), *end)]);
    parts.filter(|(start, end)| start < end).collect()
}

/// Work goes on only as far as there are pieces for it, on a machine that is open in the slot under way.
fn keep_what_can_run(problem: &mut Problem) {
    let mut lying: Vec<f64> = problem.steps.iter().map(|step| step.opening).collect();
    let mut kept = Vec::new();
    for running in &problem.running {
        let activity = &problem.activities[running.activity];
        let open = activity.machine.is_some_and(|machine| {
            problem.resources[machine].minutes.first().is_some_and(|open| *open > 0.0)
        });
        let inputs = &problem.steps[activity.step].inputs;
        let most = inputs.iter().map(|(input, each)| lying[*input] / each).fold(f64::INFINITY, f64::min);
        let pieces = f64::from(running.pieces).min((most + 1e-9).floor());
        if !open || pieces < 1.0 {
            continue;
        }
        for (input, each) in inputs {
            lying[*input] -= each * pieces;
        }
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 1 to a u32")]
        kept.push(Running { pieces: pieces as u32, ..*running });
    }
    problem.running = kept;
}

/// The calendar from a moment on, slot for slot as [`problem_from`] has it; dates stay as they are.
#[must_use]
pub fn calendar_from(calendar: &Calendar, now: i64) -> Calendar {
    let mut from = calendar.clone();
    from.buckets.retain(|bucket| bucket.end > now);
    if let Some(bucket) = from.buckets.first_mut() {
        bucket.start = bucket.start.max(now);
        bucket.breaks = without(&bucket.breaks, (i64::MIN, now));
    }
    from
}

/// Seconds in which windows are open.
pub(super) fn open_seconds(windows: &[(i64, i64)]) -> i64 {
    windows.iter().map(|(from, to)| to - from).sum()
}

/// A number of seconds or pieces.
pub(super) fn f64_of(seconds: i64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a horizon has far fewer than 2^52 seconds")]
    let seconds = seconds as f64;
    seconds
}

#[cfg(test)]
mod tests {
    use super::{FloorState, Outage, open_seconds, problem_from, without};
    use crate::schedule::{
        Activity, Demand, EdgeStock, Problem, Resource, ResourceKind, Running, Slot, Step, WearPoint,
    };

    /// One machine with a break, a crew of two, two steps, two shifts of an hour.
    fn problem() -> Problem {
        let windows = vec![vec![(0, 1800), (2400, 3600)], vec![(3600, 7200)]];
        Problem {
            slots: vec![Slot { start: 0, end: 3600 }, Slot { start: 3600, end: 7200 }],
            resources: vec![
                Resource {
                    minutes: vec![40.0, 48.0],
                    cost: vec![1.0, 2.0],
                    windows: windows.clone(),
                    ..Resource::default()
                },
                Resource {
                    kind: ResourceKind::Crew,
                    minutes: vec![100.0, 120.0],
                    cost: vec![0.0; 2],
                    windows,
                    ..Resource::default()
                },
            ],
            steps: vec![
                Step { good: 1.0, opening: 10.0, ..Step::default() },
                Step { good: 0.5, inputs: vec![(0, 2.0)], opening: 1.0, ..Step::default() },
            ],
            activities: vec![Activity {
                step: 1,
                machine: Some(0),
                run: 1.0,
                load: 1,
                ..Activity::default()
            }],
            demands: vec![Demand { step: 1, quantity: 9.0, ..Demand::default() }],
            points: vec![WearPoint::default()],
            edge_stocks: vec![EdgeStock { arrivals: vec![5, 2], ..EdgeStock::default() }],
            ..Problem::default()
        }
    }

    #[test]
    fn time_that_has_passed_is_gone_in_proportion() {
        let problem = problem();
        let mut state = FloorState::at_start(&problem);
        state.now = 1200;
        let from = problem_from(&problem, &state, &[]);
        assert_eq!((from.slots[0].start, from.slots.len()), (1200, 2));
        // 600 s and 1200 s of 3000 s are left.
        assert_eq!(from.resources[0].windows[0], [(1200, 1800), (2400, 3600)]);
        assert!((from.resources[0].minutes[0] - 24.0).abs() < 1e-9);
        assert!((from.resources[1].minutes[0] - 60.0).abs() < 1e-9);
        state.now = 3600;
        let from = problem_from(&problem, &state, &[]);
        assert_eq!((from.slots.len(), from.resources[0].minutes.len()), (1, 1));
        assert_eq!(from.edge_stocks[0].arrivals, [7]);
    }

    #[test]
    fn outages_take_windows_from_machines_and_minutes_from_crews() {
        let problem = problem();
        let state = FloorState::at_start(&problem);
        let outage = |resource, people| Outage { resource, from: 0, until: 3000, people };
        let from = problem_from(&problem, &state, &[outage(0, 0), outage(1, 1)]);
        assert_eq!(from.resources[0].windows[0], [(3000, 3600)]);
        assert!((from.resources[0].minutes[0] - 8.0).abs() < 1e-9);
        assert!((from.resources[0].minutes[1] - 48.0).abs() < 1e-9);
        // One of two is away for 2400 s of open time.
        assert!((from.resources[1].minutes[0] - 60.0).abs() < 1e-9);
        assert_eq!(open_seconds(&without(&[(0, 10)], (3, 5))), 8);
    }

    #[test]
    fn what_lies_there_is_opening_and_made_less_used_and_shipped() {
        let problem = problem();
        let mut state = FloorState::at_start(&problem);
        (state.started, state.good, state.shipped) = (vec![0, 3], vec![0, 2], vec![2]);
        (state.worn, state.taken) = (vec![1.2], vec![4]);
        state.running = vec![Running { activity: 0, pieces: 5 }];
        let from = problem_from(&problem, &state, &[]);
        assert!((from.steps[0].opening - 4.0).abs() < 1e-9 && (from.steps[1].opening - 1.0).abs() < 1e-9);
        assert!((from.demands[0].quantity - 7.0).abs() < 1e-9 && (from.points[0].worn - 1.0).abs() < 1e-9);
        assert_eq!(from.edge_stocks[0].arrivals, [1, 2]);
        // Four pieces lie before it, two go into each.
        assert_eq!(from.running, [Running { activity: 0, pieces: 2 }]);
        let down = Outage { resource: 0, from: 0, until: 3600, people: 0 };
        assert!(problem_from(&problem, &state, &[down]).running.is_empty());
        state.started = vec![0, 9];
        assert!(state.lying(&problem, 0) < 0.0);
        assert!(problem_from(&problem, &state, &[]).steps[0].opening.abs() < 1e-9);
    }
}
