//! Small random floors with setups, links and ways, each against all orders there are.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use wearland::schedule::{Aim, Effort, Link, OrderFault, Task, TaskSet, Tie, Way, order};

use super::checker::fault;
use super::every_order::best_of_all;

/// Floors tried for each aim.
const FLOORS: usize = 200;

fn floor(random: &mut ChaCha8Rng) -> TaskSet {
    let machines = random.random_range(2..=3);
    let count = random.random_range(3..=7);
    let tasks = (0..count).map(|_| task(random, machines)).collect();
    let mut set = TaskSet::new(machines, tasks);
    for after in 1..count {
        if random.random_range(0..2) == 0 {
            let before = random.random_range(0..after);
            set.links.push(match random.random_range(0..3) {
                0 => Link::after(before, after),
                1 => Link { before, after, tie: Tie::AfterEnd(random.random_range(0..4)) },
                _ => Link::overlap(before, after, random.random_range(0..4), random.random_range(0..4)),
            });
        }
    }
    let states = [None, Some(0), Some(1), Some(2)];
    for machine in 0..machines {
        set.free[machine] = random.random_range(0..5);
        set.initial[machine] = states[random.random_range(0..states.len())];
        for from in states {
            for to in states {
                if from != to && random.random_range(0..3) > 0 {
                    set.setups.set(machine, from, to, random.random_range(0..6));
                }
            }
        }
    }
    set
}

fn task(random: &mut ChaCha8Rng, machines: usize) -> Task {
    let first = random.random_range(0..machines);
    let mut ways = vec![Way { machine: first, time: random.random_range(1..10) }];
    for machine in (0..machines).filter(|machine| *machine != first) {
        if random.random_range(0..2) == 0 {
            ways.push(Way { machine, time: random.random_range(1..10) });
        }
    }
    Task {
        ways,
        release: random.random_range(0..8),
        due: (random.random_range(0..4) > 0).then(|| random.random_range(5..30)),
        weight: f64::from(random.random_range(0..5)),
        family: [None, Some(0), Some(1), Some(2)][random.random_range(0..4)],
    }
}

/// Number of floors on which the best value is met; it is never beaten.
fn met(aim: Aim, seed: u64) -> usize {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let mut met = 0;
    for at in 0..FLOORS {
        let mut set = floor(&mut random);
        if set.tasks.iter().all(|task| task.due.is_none()) {
            set.tasks[0].due = Some(10);
        }
        let best = best_of_all(&set, aim);
        let ordered = order(&set, aim, Effort::moves(400)).unwrap();
        assert_eq!(fault(&set, aim, &ordered), None, "floor {at}: {set:?}");
        assert!(ordered.bound <= best + 1e-9, "floor {at}: bound {} above {best}: {set:?}", ordered.bound);
        assert!(ordered.value >= best - 1e-9, "floor {at}: {} beats {best}: {set:?}", ordered.value);
        met += usize::from(ordered.value <= best + 1e-9);
    }
    met
}

#[test]
fn the_last_end_is_the_least_of_all_orders() {
    let met = met(Aim::LastEnd, 1);
    assert!(met * 100 >= FLOORS * 95, "{met} of {FLOORS}");
}

#[test]
fn the_greatest_lateness_is_the_least_of_all_orders() {
    let met = met(Aim::GreatestLateness, 2);
    assert!(met * 100 >= FLOORS * 95, "{met} of {FLOORS}");
}

#[test]
fn the_weighted_lateness_is_the_least_of_all_orders() {
    let met = met(Aim::WeightedLateness, 3);
    assert!(met * 100 >= FLOORS * 95, "{met} of {FLOORS}");
}

#[test]
fn the_weighted_ends_are_the_least_of_all_orders() {
    let met = met(Aim::WeightedEnds, 4);
    assert!(met * 100 >= FLOORS * 95, "{met} of {FLOORS}");
}

#[test]
fn what_cannot_be_ordered_is_refused() {
    let plain = || TaskSet::new(2, vec![Task::on(0, 3), Task::on(1, 4)]);
    let asked = |change: &dyn Fn(&mut TaskSet)| {
        let mut set = plain();
        change(&mut set);
        order(&set, Aim::LastEnd, Effort::moves(10)).unwrap_err()
    };
    assert!(order(&plain(), Aim::LastEnd, Effort::moves(10)).is_ok());
    assert_eq!(
        asked(&|set| set.links = vec![Link::after(0, 1), Link::overlap(1, 0, 0, 0)]),
        OrderFault::Circle { task: 0 }
    );
    assert_eq!(asked(&|set| set.tasks[1].ways.clear()), OrderFault::NoWay { task: 1 });
    assert_eq!(asked(&|set| set.tasks[1].ways[0].machine = 2), OrderFault::NoMachine { machine: 2 });
    assert_eq!(asked(&|set| set.tasks[1].ways[0].time = -1), OrderFault::Time { time: -1 });
    assert_eq!(asked(&|set| set.tasks[0].weight = f64::NAN), OrderFault::Weight { task: 0 });
    assert_eq!(asked(&|set| set.links = vec![Link::after(0, 2)]), OrderFault::NoTask { task: 2 });
    assert_eq!(asked(&|set| set.initial = vec![None]), OrderFault::Machines { free: 2, initial: 1 });
    assert_eq!(asked(&|set| set.setups.set(0, None, Some(1), -2)), OrderFault::Time { time: -2 });
    assert_eq!(
        asked(&|set| set.links = vec![Link { before: 0, after: 1, tie: Tie::AfterEnd(-5) }]),
        OrderFault::Time { time: -5 }
    );
}

#[test]
fn a_floor_without_work_is_in_order() {
    for aim in [Aim::LastEnd, Aim::GreatestLateness, Aim::WeightedLateness, Aim::WeightedEnds] {
        let ordered = order(&TaskSet::new(2, Vec::new()), aim, Effort::moves(10)).unwrap();
        assert_eq!((ordered.value, ordered.order), (0.0, vec![Vec::new(), Vec::new()]));
        let idle = order(&TaskSet::new(1, vec![Task::on(0, 0)]), aim, Effort::moves(10)).unwrap();
        assert_eq!(idle.order, [[0]]);
    }
}
