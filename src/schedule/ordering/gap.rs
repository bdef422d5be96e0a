//! The board without one task: where it could go back, and at what price.

use super::board::Board;
use super::graph::{Graph, NEVER, NONE, number};
use super::tasks::Way;

/// Starts and tails of all other tasks while one is out, and which of them must stay before or behind it.
///
/// While the task is out, no path leads from those it waits for to it, so starts of all tasks before a place and tails
/// of all behind it are exact, and the longest path through the task at that place is known at once.
#[derive(Debug)]
pub(super) struct Gap {
    pub(super) head: Vec<i64>,
    pub(super) tail: Vec<i64>,
    /// Tasks that wait for the task through links or queues.
    pub(super) behind: Vec<bool>,
    /// Tasks that the task waits for through links or queues.
    pub(super) ahead: Vec<bool>,
    /// Greatest value of a path without the task.
    pub(super) longest: i64,
}

impl Gap {
    pub(super) fn new(count: usize) -> Self {
        Self {
            head: vec![0; count],
            tail: vec![0; count],
            behind: vec![false; count],
            ahead: vec![false; count],
            longest: NEVER,
        }
    }

    /// Works out the gap that `task` leaves; it is already out of its queue. `reached` is the greatest value of the
    /// tasks up to each place of the sequence.
    pub(super) fn open(&mut self, graph: &Graph, board: &Board, task: usize, reached: &[i64]) {
        let place = board.place[task];
        self.head.copy_from_slice(&board.head);
        self.behind.fill(false);
        self.ahead.fill(false);
        self.head[task] = NEVER;
        self.behind[task] = true;
        self.ahead[task] = true;
        self.longest = if place == 0 { NEVER } else { reached[place - 1] };
        for &other in &board.sequence[place + 1..] {
            let time = board.time[other];
            let mut head = graph.release[other];
            let mut behind = false;
            for arc in graph.before(other) {
                head = head.max(self.head[arc.task] + arc.lag(board.time[arc.task], time));
                behind |= self.behind[arc.task];
            }
            let previous = board.previous[other];
            behind |= previous != NONE && self.behind[previous];
            head = head.max(board.follow(graph, &self.head, previous, (other, board.machine[other])));
            self.head[other] = head;
            self.behind[other] = behind;
            self.longest = self.longest.max(head + time + graph.allowance[other]);
        }
        if graph.is_greatest() {
            self.tail.copy_from_slice(&board.tail);
        }
        self.tail[task] = NEVER;
        for &other in board.sequence[..place].iter().rev() {
            let next = board.next[other];
            self.ahead[other] = (next != NONE && self.ahead[next])
                || graph.after(other).iter().any(|arc| self.ahead[arc.task]);
            if graph.is_greatest() {
                self.tail[other] = board.tail_of(graph, &self.tail, other);
            }
        }
    }

    /// Start and tail of `task` done in a way, as far as links go.
    pub(super) fn linked(&self, graph: &Graph, board: &Board, task: usize, time: i64) -> (i64, i64) {
        let head = graph
            .before(task)
            .iter()
            .map(|arc| self.head[arc.task] + arc.lag(board.time[arc.task], time))
            .fold(graph.release[task], i64::max);
        let tail = graph
            .after(task)
            .iter()
            .map(|arc| self.tail[arc.task] + arc.lag(time, board.time[arc.task]))
            .fold(time + graph.allowance[task], i64::max);
        (head, tail)
    }

    /// Longest path through `task` put between two tasks of the queue of a way's machine.
    pub(super) fn through(
        &self,
        graph: &Graph,
        board: &Board,
        (task, way, linked): (usize, Way, (i64, i64)),
        (previous, next): (usize, usize),
    ) -> i64 {
        let head = linked.0.max(board.follow(graph, &self.head, previous, (task, way.machine)));
        let tail = if next == NONE {
            linked.1
        } else {
            linked.1.max(way.time + graph.setup(way.machine, task, next) + self.tail[next])
        };
        head + tail
    }

    /// Exact value with `task` put back: it stands on the board at its new place, the sequence is still the old one.
    pub(super) fn exact(&self, graph: &Graph, board: &Board, task: usize, heads: &mut [i64]) -> f64 {
        heads.copy_from_slice(&self.head);
        heads[task] = board.head_of(graph, heads, task);
        for &other in &board.sequence {
            if other != task {
                heads[other] = board.head_of(graph, heads, other);
            }
        }
        board.worth(graph, heads)
    }

    /// Whether `task` can stand between two tasks of a queue without waiting for itself.
    pub(super) fn fits(&self, previous: usize, next: usize) -> bool {
        (previous == NONE || !self.behind[previous]) && (next == NONE || !self.ahead[next])
    }

    /// A path's value as a number, or the value of a board that nobody waits for.
    pub(super) fn greatest(&self, through: i64) -> f64 {
        number(self.longest.max(through))
    }
}
