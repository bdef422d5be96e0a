//! Plans of seeded random problems: verified, and never better than what the bounds allow.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};

use wearland::schedule::{
    Activity, Demand, Lag, Planned, Problem, Resource, ResourceKind, Search, Slot, Step, Wear, WearPoint,
    audit, plan, verify,
};

const TRIALS: u64 = 60;
const SHIFT: i64 = 8 * 3600;

/// Random problems and their plans.
pub(super) fn planned() -> Vec<(u64, Problem, Planned)> {
    (0..TRIALS)
        .map(|seed| {
            let problem = problem(&mut ChaCha8Rng::seed_from_u64(seed));
            let planned =
                plan(&problem, &Search::default()).map_err(|error| format!("seed {seed}: {error}")).unwrap();
            (seed, problem, planned)
        })
        .collect()
}

#[test]
fn plans_are_verified_and_no_better_than_their_bounds() {
    let (mut late, mut in_time, mut changes) = (0, 0, 0);
    for (seed, problem, planned) in planned() {
        assert_eq!(verify(&problem, &planned.plan), [], "seed {seed}");
        let (lateness, cost) = (planned.plan.lateness(&problem), planned.plan.cost(&problem));
        approx::assert_relative_eq!(lateness, planned.lateness, max_relative = 1e-9);
        approx::assert_relative_eq!(cost, planned.cost, max_relative = 1e-9);
        let added = audit(&problem, &planned.plan);
        approx::assert_relative_eq!(added.0, planned.lateness, max_relative = 1e-9);
        approx::assert_relative_eq!(added.1, planned.cost, max_relative = 1e-9);
        let bound = planned.lateness_bound;
        assert!(lateness >= bound - 1e-6 * bound.max(1.0), "seed {seed}: late {lateness}, bound {bound}");
        let bound = planned.cost_bound;
        assert!(cost >= bound - 1e-6 * bound.max(1.0), "seed {seed}: costs {cost}, bound {bound}");
        if lateness > 1e-6 {
            late += 1;
        } else {
            in_time += 1;
        }
        changes += planned.plan.changes.len();
    }
    // The problems are of both kinds, and edges wear out in them.
    assert!(late >= 10 && in_time >= 10, "{late} late, {in_time} in time");
    assert!(changes >= 100, "{changes} changes");
}

/// One to three items of one to three steps, perhaps a product of two of them, on one to three machines with one crew.
fn problem(random: &mut ChaCha8Rng) -> Problem {
    let count: i64 = random.random_range(3..8);
    let slots: Vec<Slot> = (0..count).map(|at| Slot { start: at * SHIFT, end: (at + 1) * SHIFT }).collect();
    let machines: usize = random.random_range(1..4);
    let mut problem = Problem { slots, ..Problem::default() };
    for machine in 0..machines {
        let availability = random.random_range(0.85..1.0);
        let opens = random.random_range(0.6..1.0);
        let resource = resource(random, &problem.slots, (availability, opens));
        problem.resources.push(Resource {
            name: format!("M{machine}"),
            kind: ResourceKind::Machine,
            ..resource
        });
    }
    let people = random.random_range(0.5..3.0);
    let crew = resource(random, &problem.slots, (people, 1.0));
    problem.resources.push(Resource { name: "crew".into(), kind: ResourceKind::Crew, ..crew });
    let mut last = Vec::new();
    for item in 0..random.random_range(1..4) {
        for at in 0..random.random_range(1..4) {
            let inputs = if at > 0 { vec![(problem.steps.len() - 1, 1.0)] } else { Vec::new() };
            add_step(random, &mut problem, format!("item {item} step {at}"), inputs);
        }
        last.push(problem.steps.len() - 1);
    }
    if last.len() > 1 && random.random_bool(0.5) {
        let inputs = vec![(last[0], 1.0), (last[1], f64::from(random.random_range(1..3)))];
        add_step(random, &mut problem, "product".into(), inputs);
        last = vec![problem.steps.len() - 1];
    }
    for step in last {
        for order in 0..random.random_range(1..4) {
            let due = random.random_range(1..=problem.slots.len());
            problem.demands.push(Demand {
                name: format!("order {order} of {step}"),
                step,
                quantity: f64::from(random.random_range(5..60)),
                due: problem.slots[due - 1].end - random.random_range(0..3600),
                weight: random.random_range(1.0..3.0),
                market: None,
                ..Demand::default()
            });
        }
    }
    problem
}

/// A break of half an hour in each shift; a share of the time and a chance to be open at all.
fn resource(random: &mut ChaCha8Rng, slots: &[Slot], (share, opens): (f64, f64)) -> Resource {
    let windows: Vec<Vec<(i64, i64)>> = slots
        .iter()
        .map(|slot| {
            let pause = slot.start + random.random_range(2..6) * 3600;
            if random.random_bool(opens) {
                vec![(slot.start, pause), (pause + 1800, slot.end)]
            } else {
                Vec::new()
            }
        })
        .collect();
    Resource {
        name: String::new(),
        kind: ResourceKind::Machine,
        minutes: windows.iter().map(|of| if of.is_empty() { 0.0 } else { 450.0 * share }).collect(),
        cost: slots.iter().map(|_| random.random_range(0.0..2.0)).collect(),
        windows,
        ..Resource::default()
    }
}

/// A step that one machine or two can do, each with an edge of its own.
fn add_step(random: &mut ChaCha8Rng, problem: &mut Problem, name: String, inputs: Vec<(usize, f64)>) {
    let step = problem.steps.len();
    let crew = problem.resources.len() - 1;
    problem.steps.push(Step {
        name,
        good: if random.random_bool(0.5) { 1.0 } else { random.random_range(0.9..1.0) },
        inputs,
        lag: Lag::NextSlot,
        opening: f64::from(random.random_range(0..20)),
        closing: f64::from(random.random_range(0..8)),
        holding: random.random_range(0.0..0.05),
    });
    let first = random.random_range(0..crew);
    let second = random.random_range(0..crew);
    let machines = if first == second { vec![first] } else { vec![first, second] };
    for machine in machines {
        let (run, change) = (random.random_range(0.5..8.0), random.random_range(1.0..15.0));
        let share = random.random_range(0.005..0.2);
        problem.points.push(WearPoint {
            resource: machine,
            name: format!("edge {step}"),
            change,
            stop: 0.0,
            early: 2.0,
            ..WearPoint::default()
        });
        problem.activities.push(Activity {
            step,
            machine: Some(machine),
            uses: vec![(machine, run + share * change), (crew, run * random.random_range(0.0..0.6))],
            run,
            load: if random.random_bool(0.2) { random.random_range(2..6) } else { 1 },
            cost: random.random_range(0.0..5.0),
            setup: random.random_range(0.0..40.0),
            setter: random.random_bool(0.3).then_some(crew),
            wear: vec![Wear { point: problem.points.len() - 1, share }],
            ..Activity::default()
        });
    }
}
