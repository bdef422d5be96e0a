//! Whether an order can be run and is worth what it says, from the tasks and the starts alone.

use wearland::schedule::{Aim, Ordered, TaskSet, Tie};

/// The first thing that is wrong with an order.
pub(super) fn fault(set: &TaskSet, aim: Aim, ordered: &Ordered) -> Option<String> {
    ways(set, ordered)
        .or_else(|| machines(set, ordered))
        .or_else(|| links(set, ordered))
        .or_else(|| value(set, aim, ordered))
}

fn time(set: &TaskSet, ordered: &Ordered, task: usize) -> i64 {
    set.tasks[task].ways[ordered.way[task]].time
}

fn end(set: &TaskSet, ordered: &Ordered, task: usize) -> i64 {
    ordered.start[task] + time(set, ordered, task)
}

fn ways(set: &TaskSet, ordered: &Ordered) -> Option<String> {
    let mut placed: Vec<usize> = ordered.order.iter().flatten().copied().collect();
    placed.sort_unstable();
    if placed != (0..set.tasks.len()).collect::<Vec<_>>() {
        return Some(format!("tasks in order: {placed:?}"));
    }
    (0..set.tasks.len()).find_map(|task| {
        let it = &set.tasks[task];
        let machine = it.ways[ordered.way[task]].machine;
        if machine != ordered.machine[task] {
            Some(format!("task {task} goes to machine {} by a way of {machine}", ordered.machine[task]))
        } else if ordered.start[task] < it.release {
            Some(format!("task {task} starts before its release"))
        } else {
            None
        }
    })
}

fn machines(set: &TaskSet, ordered: &Ordered) -> Option<String> {
    for (machine, queue) in ordered.order.iter().enumerate() {
        let mut free = set.free[machine];
        let mut family = set.initial[machine];
        for &task in queue {
            if ordered.machine[task] != machine {
                return Some(format!("task {task} stands in the queue of machine {machine}"));
            }
            let next = set.tasks[task].family;
            if ordered.start[task] < free + set.setups.time(machine, family, next) {
                return Some(format!("task {task} starts too early on machine {machine}"));
            }
            free = end(set, ordered, task);
            family = next;
        }
    }
    None
}

fn links(set: &TaskSet, ordered: &Ordered) -> Option<String> {
    let ends = |task| end(set, ordered, task);
    let broken = set.links.iter().find(|link| {
        let (before, after) = (link.before, link.after);
        match link.tie {
            Tie::AfterEnd(lag) => ordered.start[after] < ends(before) + lag,
            Tie::Overlap { start_lag, end_lag } => {
                ordered.start[after] < ordered.start[before] + start_lag
                    || ends(after) < ends(before) + end_lag
            }
        }
    });
    broken.map(|link| format!("{link:?} is not kept"))
}

fn value(set: &TaskSet, aim: Aim, ordered: &Ordered) -> Option<String> {
    let late = |task: usize| Some(real(end(set, ordered, task) - set.tasks[task].due?));
    let weight = |task: usize| set.tasks[task].weight;
    let tasks = 0..set.tasks.len();
    let value = match aim {
        Aim::LastEnd => tasks.map(|task| real(end(set, ordered, task))).fold(0.0, f64::max),
        Aim::GreatestLateness => tasks.filter_map(late).fold(f64::NEG_INFINITY, f64::max),
        Aim::WeightedLateness => tasks.filter_map(|task| Some(weight(task) * late(task)?.max(0.0))).sum(),
        Aim::WeightedEnds => tasks.map(|task| weight(task) * real(end(set, ordered, task))).sum(),
    };
    if (value - ordered.value).abs() > 1e-9 * value.abs().max(1.0) {
        Some(format!("worth {value}, told {}", ordered.value))
    } else if ordered.bound > ordered.value + 1e-9 {
        Some(format!("bound {} above value {}", ordered.bound, ordered.value))
    } else {
        None
    }
}

/// A time as a number.
pub(super) fn real(time: i64) -> f64 {
    f64::from(i32::try_from(time).unwrap())
}
