//! One order: every task on a machine, in a queue, with its start.

use super::graph::{Graph, NEVER, NONE, number};

/// An order and what follows from it.
#[derive(Debug, Clone)]
pub(super) struct Board {
    /// Way chosen by task.
    pub(super) way: Vec<usize>,
    pub(super) machine: Vec<usize>,
    pub(super) time: Vec<i64>,
    /// Task before and after on the machine.
    pub(super) previous: Vec<usize>,
    pub(super) next: Vec<usize>,
    /// First task by machine.
    pub(super) first: Vec<usize>,
    /// All tasks, none before one that it waits for.
    pub(super) sequence: Vec<usize>,
    /// Place of a task in the sequence.
    pub(super) place: Vec<usize>,
    /// Earliest start by task.
    pub(super) head: Vec<i64>,
    /// Longest way from the start of a task to the greatest value.
    pub(super) tail: Vec<i64>,
    pub(super) value: f64,
    marks: Vec<bool>,
    sorted: Vec<usize>,
}

impl Board {
    /// A board without tasks.
    pub(super) fn new(graph: &Graph) -> Self {
        let count = graph.count();
        Self {
            way: vec![0; count],
            machine: vec![0; count],
            time: vec![0; count],
            previous: vec![NONE; count],
            next: vec![NONE; count],
            first: vec![NONE; graph.free.len()],
            sequence: Vec::with_capacity(count),
            place: vec![0; count],
            head: vec![0; count],
            tail: vec![0; count],
            value: f64::INFINITY,
            marks: vec![false; count],
            sorted: Vec::with_capacity(count),
        }
    }

    /// Sets the way of a task and hangs it behind `after` in the queue of its machine.
    pub(super) fn put(&mut self, graph: &Graph, task: usize, way: usize, after: usize) {
        let chosen = graph.ways[task][way];
        self.way[task] = way;
        self.machine[task] = chosen.machine;
        self.time[task] = chosen.time;
        let next = if after == NONE { self.first[chosen.machine] } else { self.next[after] };
        self.previous[task] = after;
        self.next[task] = next;
        if after == NONE {
            self.first[chosen.machine] = task;
        } else {
            self.next[after] = task;
        }
        if next != NONE {
            self.previous[next] = task;
        }
    }

    /// Takes a task out of its queue; it still knows where it stood.
    pub(super) fn take(&mut self, task: usize) {
        let (previous, next) = (self.previous[task], self.next[task]);
        if previous == NONE {
            self.first[self.machine[task]] = next;
        } else {
            self.next[previous] = next;
        }
        if next != NONE {
            self.previous[next] = previous;
        }
    }

    /// Puts a task that was moved at a place in the sequence that keeps all links and queues.
    pub(super) fn sort_in(&mut self, graph: &Graph, task: usize) {
        self.marks.fill(false);
        self.marks[task] = true;
        for &other in self.sequence.iter().rev() {
            if other != task {
                let next = self.next[other];
                self.marks[other] = (next != NONE && self.marks[next])
                    || graph.after(other).iter().any(|arc| self.marks[arc.task]);
            }
        }
        self.sorted.clear();
        self.sorted.extend(self.sequence.iter().filter(|other| **other != task && self.marks[**other]));
        self.sorted.push(task);
        self.sorted.extend(self.sequence.iter().filter(|other| !self.marks[**other]));
        std::mem::swap(&mut self.sorted, &mut self.sequence);
    }

    /// Works out starts, tails and value from the queues and the sequence.
    pub(super) fn work_out(&mut self, graph: &Graph) {
        let mut heads = std::mem::take(&mut self.head);
        for (place, &task) in self.sequence.iter().enumerate() {
            self.place[task] = place;
            heads[task] = self.head_of(graph, &heads, task);
        }
        self.head = heads;
        if graph.is_greatest() {
            let mut tails = std::mem::take(&mut self.tail);
            for &task in self.sequence.iter().rev() {
                tails[task] = self.tail_of(graph, &tails, task);
            }
            self.tail = tails;
        }
        self.value = self.worth(graph, &self.head);
    }

    /// Earliest start of a task from the starts of those before it.
    pub(super) fn head_of(&self, graph: &Graph, heads: &[i64], task: usize) -> i64 {
        let time = self.time[task];
        let mut head = graph.release[task];
        for arc in graph.before(task) {
            head = head.max(heads[arc.task] + arc.lag(self.time[arc.task], time));
        }
        head.max(self.queue_head(graph, heads, task))
    }

    fn queue_head(&self, graph: &Graph, heads: &[i64], task: usize) -> i64 {
        self.follow(graph, heads, self.previous[task], (task, self.machine[task]))
    }

    /// When a task can start behind another in the queue of a machine.
    pub(super) fn follow(
        &self,
        graph: &Graph,
        heads: &[i64],
        previous: usize,
        (task, machine): (usize, usize),
    ) -> i64 {
        if previous == NONE {
            graph.opening(machine, task)
        } else {
            heads[previous] + self.time[previous] + graph.setup(machine, previous, task)
        }
    }

    /// Tail of a task from the tails of those behind it.
    pub(super) fn tail_of(&self, graph: &Graph, tails: &[i64], task: usize) -> i64 {
        let time = self.time[task];
        let mut tail = time + graph.allowance[task];
        for arc in graph.after(task) {
            tail = tail.max(tails[arc.task] + arc.lag(time, self.time[arc.task]));
        }
        let next = self.next[task];
        if next != NONE {
            tail = tail.max(time + graph.setup(self.machine[task], task, next) + tails[next]);
        }
        tail
    }

    /// Value of the aim for these starts.
    pub(super) fn worth(&self, graph: &Graph, heads: &[i64]) -> f64 {
        let ends = heads.iter().zip(&self.time).map(|(head, time)| head + time);
        if graph.is_greatest() {
            let greatest = ends.zip(&graph.allowance).map(|(end, allowance)| end + allowance).max();
            // Nobody waits for any task.
            greatest.filter(|greatest| *greatest > NEVER / 2).map_or(0.0, number)
        } else {
            ends.enumerate().map(|(task, end)| graph.share(task, end)).sum()
        }
    }

    /// Tasks of a machine in their order.
    pub(super) fn queue(&self, machine: usize) -> Vec<usize> {
        let mut queue = Vec::new();
        let mut task = self.first[machine];
        while task != NONE {
            queue.push(task);
            task = self.next[task];
        }
        queue
    }
}
