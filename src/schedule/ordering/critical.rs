//! The tasks that hold the value up.

use rand::RngExt;

use super::graph::{NEVER, NONE, number};
use super::search::Search;

/// Critical tasks looked at in one move where every place is worked out in full.
const SAMPLE: usize = 12;

impl Search<'_> {
    /// Tasks on one critical path, or on the paths to some tasks that count in a sum.
    pub(super) fn find_critical(&mut self) {
        self.critical.clear();
        if self.graph.is_greatest() {
            let last = self.pick(|search, task| {
                let end = search.board.head[task] + search.board.time[task];
                let allowance = search.graph.allowance[task];
                allowance > NEVER && number(end + allowance) >= search.board.value
            });
            if let Some(last) = last {
                self.trace(last);
            }
            return;
        }
        let counts = |search: &Self, task: usize| {
            search.graph.share(task, search.board.head[task] + search.board.time[task]) > 0.0
        };
        for _ in 0..4 {
            if let Some(last) = self.pick(counts) {
                self.trace(last);
            }
        }
        self.critical.sort_unstable();
        self.critical.dedup();
        while self.critical.len() > SAMPLE {
            let at = self.random.random_range(0..self.critical.len());
            self.critical.swap_remove(at);
        }
    }

    /// One task of those that fit, at random.
    fn pick(&mut self, fits: impl Fn(&Self, usize) -> bool) -> Option<usize> {
        let mut picked = None;
        let mut count = 0_u32;
        for task in 0..self.graph.count() {
            if fits(self, task) {
                count += 1;
                if count == 1 || self.random.random_range(0..count) == 0 {
                    picked = Some(task);
                }
            }
        }
        picked
    }

    /// Notes a task and, one after another, those that hold it up; of several, one at random.
    fn trace(&mut self, last: usize) {
        let mut task = last;
        let mut queued = false;
        loop {
            let (holder, in_queue) = self.holder(task);
            // A task between links that only one machine can do cannot be moved to any use.
            if queued || in_queue || self.graph.ways[task].len() > 1 || !self.graph.is_greatest() {
                self.critical.push(task);
            }
            if holder == NONE {
                break;
            }
            task = holder;
            queued = in_queue;
        }
        if self.critical.is_empty() {
            self.critical.push(task);
        }
    }

    /// A task that holds another up, and whether it does so in the queue of a machine.
    fn holder(&mut self, task: usize) -> (usize, bool) {
        let head = self.board.head[task];
        let previous = self.board.previous[task];
        let machine = self.board.machine[task];
        let mut holder = (NONE, false);
        let mut count = 0_u32;
        if previous != NONE
            && self.board.follow(self.graph, &self.board.head, previous, (task, machine)) == head
        {
            holder = (previous, true);
            count = 1;
        }
        for arc in self.graph.before(task) {
            if self.board.head[arc.task] + arc.lag(self.board.time[arc.task], self.board.time[task]) == head {
                count += 1;
                if count == 1 || self.random.random_range(0..count) == 0 {
                    holder = (arc.task, false);
                }
            }
        }
        holder
    }
}
