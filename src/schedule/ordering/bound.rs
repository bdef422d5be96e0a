//! Values that no order can beat.
//!
//! Of these the greatest counts: the longest chain of links with least times; each machine alone with breaks allowed;
//! the load of each machine with its least setups; and, for tasks with several ways, the machines' loads shared out
//! with prices on the machines. Any prices that add to one give a true bound; they are raised step by step where the
//! load is high.

use super::aim::Aim;
use super::dispatch::least_time;
use super::graph::{Graph, NEVER, number};
use super::one_machine::greatest_with_breaks;

/// Steps in which prices of machines are bettered.
const STEPS: usize = 400;

/// Earliest starts and ends, least times and longest tails of tasks, over the links alone.
struct Chains {
    start: Vec<i64>,
    end: Vec<i64>,
    least: Vec<i64>,
    /// From the end of the task to the greatest value.
    tail: Vec<i64>,
}

/// The bound for an aim.
///
/// For sums it is the sum over tasks, each at its earliest end by links alone; this is weak where machines are full.
pub(super) fn bound(graph: &Graph) -> f64 {
    let chains = Chains::new(graph);
    if !graph.is_greatest() {
        return chains.end.iter().enumerate().map(|(task, end)| graph.share(task, *end)).sum();
    }
    let longest = chains.end.iter().zip(&chains.tail).map(|(end, tail)| end + tail).max();
    let mut greatest = longest.unwrap_or(0);
    for machine in 0..graph.free.len() {
        greatest = greatest.max(chains.machine_alone(graph, machine));
    }
    if greatest < NEVER / 2 {
        return 0.0;
    }
    let shared = if graph.aim == Aim::LastEnd { chains.shared_load(graph) } else { f64::NEG_INFINITY };
    number(greatest).max((shared - 1e-6).ceil())
}

impl Chains {
    fn new(graph: &Graph) -> Self {
        let count = graph.count();
        let least: Vec<i64> = (0..count).map(|task| least_time(graph, task)).collect();
        let mut start = vec![0; count];
        let mut end = vec![0; count];
        for &task in &graph.linked {
            let ways = graph.ways[task].iter();
            let free = ways.clone().map(|way| graph.free[way.machine]).min().unwrap_or(0);
            let mut earliest = (graph.release[task].max(free), NEVER);
            for arc in graph.before(task) {
                let linked = arc.earliest(start[arc.task], end[arc.task]);
                earliest = (earliest.0.max(linked.0), earliest.1.max(linked.1));
            }
            start[task] = earliest.0;
            end[task] = earliest.1.max(earliest.0 + least[task]);
        }
        let mut tail = graph.allowance.clone();
        for &task in graph.linked.iter().rev() {
            for arc in graph.after(task) {
                tail[task] = tail[task].max(tail[arc.task] + arc.end_to_end(least[arc.task]));
            }
        }
        Self { start, end, least, tail }
    }

    /// Bounds of the tasks that only one machine can do.
    fn machine_alone(&self, graph: &Graph, machine: usize) -> i64 {
        let own: Vec<usize> = (0..graph.count())
            .filter(|task| graph.ways[*task].iter().all(|way| way.machine == machine))
            .collect();
        let free = graph.free[machine];
        let tasks: Vec<(i64, i64, i64)> = own
            .iter()
            .map(|task| (self.start[*task].max(free), self.least[*task], self.tail[*task]))
            .collect();
        let broken = greatest_with_breaks(&tasks).unwrap_or(NEVER);
        let Some(tail) = own.iter().map(|task| self.tail[*task]).min() else { return broken };
        let load: i64 = own.iter().map(|task| self.least[*task] + least_setup(graph, machine, *task)).sum();
        broken.max(free + load + tail)
    }

    /// Greatest load over all machines if tasks may be split among their ways: from below, by prices.
    fn shared_load(&self, graph: &Graph) -> f64 {
        let machines = graph.free.len();
        if machines == 0 || graph.count() == 0 {
            return f64::NEG_INFINITY;
        }
        let edges: Vec<f64> = (0..machines).map(|machine| self.edges(graph, machine)).collect();
        let mut price = vec![1.0 / number(i64::try_from(machines).unwrap_or(i64::MAX)); machines];
        let mut best = f64::NEG_INFINITY;
        let mut step = 0.3;
        for at in 0..STEPS {
            let mut load = edges.clone();
            let mut value: f64 = price.iter().zip(&edges).map(|(price, edge)| price * edge).sum();
            for ways in &graph.ways {
                let priced = ways.iter().map(|way| (price[way.machine] * number(way.time), way));
                if let Some((cost, way)) = priced.min_by(|one, other| one.0.total_cmp(&other.0)) {
                    value += cost;
                    load[way.machine] += number(way.time);
                }
            }
            best = best.max(value);
            let mean = load.iter().sum::<f64>() / number(i64::try_from(machines).unwrap_or(i64::MAX));
            for (price, load) in price.iter_mut().zip(&load) {
                *price *= (step * (load / mean.max(1.0) - 1.0)).clamp(-1.0, 1.0).exp();
            }
            let sum: f64 = price.iter().sum();
            price.iter_mut().for_each(|price| *price /= sum);
            if at % 20 == 19 {
                step *= 0.75;
            }
        }
        best
    }

    /// Time at both ends of the day in which no task of the machine can run.
    fn edges(&self, graph: &Graph, machine: usize) -> f64 {
        let can = |task: &usize| graph.ways[*task].iter().any(|way| way.machine == machine);
        let able = || (0..graph.count()).filter(can);
        let start = able().map(|task| self.start[task]).min().unwrap_or(0).max(graph.free[machine]);
        number(start + able().map(|task| self.tail[task]).min().unwrap_or(0))
    }
}

/// Least setup into a task on a machine, over all that may stand before it.
fn least_setup(graph: &Graph, machine: usize, task: usize) -> i64 {
    let opening = graph.opening(machine, task) - graph.free[machine];
    (0..graph.count())
        .filter(|other| *other != task && graph.ways[*other].iter().any(|way| way.machine == machine))
        .map(|other| graph.setup(machine, other, task))
        .fold(opening, i64::min)
}
