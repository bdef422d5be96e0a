//! First orders by dispatch rules: of the tasks that could go next, the most pressing goes first.

use rand::RngExt;
use rand::rngs::ChaCha8Rng;

use super::board::Board;
use super::graph::{Graph, NONE, number};

/// What presses most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rule {
    /// Earliest start, then most work behind.
    MostWork,
    /// Earliest end, then most work behind.
    EarliestEnd,
    /// Earliest start, then earliest due date less work behind.
    DueDate,
    /// Earliest start, then heaviest for its time.
    HeaviestShort,
    /// Earliest start, then least time.
    Shortest,
    /// Longest first, wherever it ends earliest.
    Longest,
}

/// All rules.
pub(super) const RULES: [Rule; 6] =
    [Rule::MostWork, Rule::EarliestEnd, Rule::DueDate, Rule::HeaviestShort, Rule::Shortest, Rule::Longest];

/// Work behind each task and the due date that presses it, over the links alone and with least times.
pub(super) struct Pressure {
    work: Vec<i64>,
    due: Vec<i64>,
    least: Vec<i64>,
}

impl Pressure {
    pub(super) fn new(graph: &Graph) -> Self {
        let least: Vec<i64> = (0..graph.count()).map(|task| least_time(graph, task)).collect();
        let mut work = least.clone();
        let mut due: Vec<i64> =
            graph.due.iter().zip(&least).map(|(due, least)| due.unwrap_or(i64::MAX / 4) - least).collect();
        for &task in graph.linked.iter().rev() {
            for arc in graph.after(task) {
                let lag = arc.lag(least[task], least[arc.task]).max(0);
                work[task] = work[task].max(work[arc.task] + lag);
                due[task] = due[task].min(due[arc.task] - lag);
            }
        }
        Self { work, due, least }
    }
}

/// Least time of a task over its ways.
pub(super) fn least_time(graph: &Graph, task: usize) -> i64 {
    graph.ways[task].iter().map(|way| way.time).min().unwrap_or(0)
}

/// An order by a rule; `scatter` is the share by which keys are changed at random.
pub(super) fn dispatch(
    graph: &Graph,
    pressure: &Pressure,
    rule: Rule,
    (scatter, random): (f64, &mut ChaCha8Rng),
) -> Board {
    let count = graph.count();
    let mut board = Board::new(graph);
    let mut last = vec![NONE; graph.free.len()];
    let mut open: Vec<usize> = (0..count).map(|task| graph.before(task).len()).collect();
    let mut ready: Vec<usize> = (0..count).filter(|task| open[*task] == 0).collect();
    let noise: Vec<f64> = (0..count)
        .map(|_| if scatter > 0.0 { 1.0 + scatter * (random.random::<f64>() - 0.5) } else { 1.0 })
        .collect();
    while !ready.is_empty() {
        let mut best = (0, 0, (f64::INFINITY, f64::INFINITY));
        for (at, &task) in ready.iter().enumerate() {
            for (way, chosen) in graph.ways[task].iter().enumerate() {
                let start = start_of(graph, &board, (task, way), last[chosen.machine]);
                let key = key(graph, pressure, rule, (task, start, start + chosen.time));
                let key = (key.0 * noise[task], key.1 * noise[task]);
                if key.0 < best.2.0 || (key.0 <= best.2.0 && key.1 < best.2.1) {
                    best = (at, way, key);
                }
            }
        }
        let (at, way, _) = best;
        let task = ready.swap_remove(at);
        let machine = graph.ways[task][way].machine;
        let start = start_of(graph, &board, (task, way), last[machine]);
        board.put(graph, task, way, last[machine]);
        board.head[task] = start;
        board.sequence.push(task);
        last[machine] = task;
        for arc in graph.after(task) {
            open[arc.task] -= 1;
            if open[arc.task] == 0 {
                ready.push(arc.task);
            }
        }
    }
    board.work_out(graph);
    board
}

fn start_of(graph: &Graph, board: &Board, (task, way): (usize, usize), last: usize) -> i64 {
    let chosen = graph.ways[task][way];
    let linked = graph
        .before(task)
        .iter()
        .map(|arc| board.head[arc.task] + arc.lag(board.time[arc.task], chosen.time))
        .fold(graph.release[task], i64::max);
    linked.max(board.follow(graph, &board.head, last, (task, chosen.machine)))
}

fn key(graph: &Graph, pressure: &Pressure, rule: Rule, (task, start, end): (usize, i64, i64)) -> (f64, f64) {
    let work = number(pressure.work[task]);
    match rule {
        Rule::MostWork => (number(start), -work),
        Rule::EarliestEnd => (number(end), -work),
        Rule::DueDate => (number(start), number(pressure.due[task])),
        Rule::HeaviestShort => (number(start), -graph.weight[task] / number(end - start).max(0.5)),
        Rule::Shortest => (number(start), number(end - start)),
        Rule::Longest => (-number(pressure.least[task]), number(end)),
    }
}
