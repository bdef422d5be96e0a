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
    /// Tasks whose start or tail differs from the board's, or that are behind or ahead.
    moved: Vec<bool>,
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
            moved: vec![false; count],
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
        let follower = board.next[task];
        self.moved.fill(false);
        self.moved[task] = true;
        for &other in &board.sequence[place + 1..] {
            let previous = board.previous[other];
            let mut moved = other == follower || (previous != NONE && self.moved[previous]);
            for arc in graph.before(other) {
                moved |= self.moved[arc.task];
            }
            if moved {
                let mut behind = previous != NONE && self.behind[previous];
                for arc in graph.before(other) {
                    behind |= self.behind[arc.task];
                }
                let head = board.head_of(graph, &self.head, other);
                self.moved[other] = behind || head != self.head[other];
                self.head[other] = head;
                self.behind[other] = behind;
            }
            self.longest = self.longest.max(self.head[other] + board.time[other] + graph.allowance[other]);
        }
        if graph.is_greatest() {
            self.tail.copy_from_slice(&board.tail);
        }
        self.tail[task] = NEVER;
        let leader = board.previous[task];
        for &other in board.sequence[..place].iter().rev() {
            let next = board.next[other];
            let mut moved = other == leader || (next != NONE && self.moved[next]);
            for arc in graph.after(other) {
                moved |= self.moved[arc.task];
            }
            if moved {
                let mut ahead = next != NONE && self.ahead[next];
                for arc in graph.after(other) {
                    ahead |= self.ahead[arc.task];
                }
                let old = self.tail[other];
                if graph.is_greatest() {
                    self.tail[other] = board.tail_of(graph, &self.tail, other);
                }
                self.moved[other] = ahead || self.tail[other] != old;
                self.ahead[other] = ahead;
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
        let next = board.next[task];
        let followers = graph.after(task).iter().map(|arc| arc.task).chain((next != NONE).then_some(next));
        if let Some(from) = followers.map(|other| board.place[other]).min() {
            for &other in &board.sequence[from..] {
                if other != task {
                    heads[other] = board.head_of(graph, heads, other);
                }
            }
        }
        board.worth(graph, heads)
    }

    /// Whether `task` can stand between two tasks of a queue without waiting for itself.
    pub(super) fn fits(&self, previous: usize, next: usize) -> bool {
        (previous == NONE || !self.behind[previous]) && (next == NONE || !self.ahead[next])
    }

    /// Greatest value of the board with a path through the task.
    pub(super) fn greatest(&self, through: i64) -> f64 {
        number(self.longest.max(through))
    }
}
