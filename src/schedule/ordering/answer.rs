//! The question and its answer.

use super::aim::{Aim, Effort};
use super::bound::bound;
use super::fault::OrderFault;
use super::graph::Graph;
use super::search::search;
use super::tasks::TaskSet;

/// An order of all tasks.
#[derive(Debug, Clone, PartialEq)]
pub struct Ordered {
    /// Machine by task.
    pub machine: Vec<usize>,
    /// Way by task, its place among the ways of the task.
    pub way: Vec<usize>,
    /// Start by task, as early as the order allows.
    pub start: Vec<i64>,
    /// Tasks of each machine, first to last.
    pub order: Vec<Vec<usize>>,
    /// Value of the aim.
    pub value: f64,
    /// No order has a value below this one; equal to the value, it proves that none is better.
    pub bound: f64,
    /// Moves made.
    pub moves: u64,
}

/// Orders tasks on machines so that the aim is as small as the effort allows.
///
/// Each task starts as early as its place in the order allows. The bound is close for [`Aim::LastEnd`], fair for
/// [`Aim::GreatestLateness`], and weak for the sums, where it lets no task wait for a machine.
///
/// # Errors
/// If tasks wait for each other in a circle, or the set is not whole: see [`OrderFault`].
///
/// # Example
/// ```
/// use wearland::schedule::{Aim, Effort, Link, Task, TaskSet, order};
/// // Three parts, each turned on machine 0 and then ground on machine 1.
/// let times = [(4, 1), (2, 5), (3, 3)];
/// let tasks = times.iter().flat_map(|(turn, grind)| [Task::on(0, *turn), Task::on(1, *grind)]).collect();
/// let mut set = TaskSet::new(2, tasks);
/// set.links = vec![Link::after(0, 1), Link::after(2, 3), Link::after(4, 5)];
/// let best = order(&set, Aim::LastEnd, Effort::moves(1000))?;
/// assert_eq!(best.order[0], [2, 4, 0]);
/// assert_eq!(best.value, 11.0);
/// # Ok::<(), wearland::schedule::OrderFault>(())
/// ```
pub fn order(tasks: &TaskSet, aim: Aim, effort: Effort) -> Result<Ordered, OrderFault> {
    let graph = Graph::new(tasks, aim)?;
    let bound = bound(&graph);
    let (board, moves) = search(&graph, effort, bound);
    Ok(Ordered {
        order: (0..tasks.machines()).map(|machine| board.queue(machine)).collect(),
        machine: board.machine,
        way: board.way,
        start: board.head,
        value: board.value,
        bound,
        moves,
    })
}
