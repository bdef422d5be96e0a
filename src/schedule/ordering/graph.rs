//! A set of tasks laid out flat for quick work.

use super::aim::Aim;
use super::fault::{OrderFault, check};
use super::tasks::{Link, TaskSet, Tie, Way};

/// A time that never decides.
pub(super) const NEVER: i64 = i64::MIN / 4;

/// No task.
pub(super) const NONE: usize = usize::MAX;

/// One end of a link.
#[derive(Debug, Clone, Copy)]
pub(super) struct Arc {
    /// The task at the other end.
    pub(super) task: usize,
    start: i64,
    end: i64,
    after: i64,
}

impl Arc {
    fn new(task: usize, tie: Tie) -> Self {
        match tie {
            Tie::AfterEnd(lag) => Self { task, start: NEVER, end: NEVER, after: lag },
            Tie::Overlap { start_lag, end_lag } => {
                Self { task, start: start_lag, end: end_lag, after: NEVER }
            }
        }
    }

    /// Least time from start to start.
    pub(super) fn lag(self, time_before: i64, time_after: i64) -> i64 {
        self.start.max(time_before + self.end - time_after).max(time_before + self.after)
    }

    /// Least time from the end of the one to the end of the waiting task.
    pub(super) fn end_to_end(self, time_after: i64) -> i64 {
        self.end.max(self.after + time_after)
    }

    /// Earliest start and end of the waiting task, from those of the other.
    pub(super) fn earliest(self, start: i64, end: i64) -> (i64, i64) {
        ((start + self.start).max(end + self.after), end + self.end)
    }
}

/// Arcs of all tasks, one after another.
#[derive(Debug)]
struct Arcs {
    from: Vec<usize>,
    arcs: Vec<Arc>,
}

impl Arcs {
    fn new(count: usize, ends: impl Fn(&Link) -> (usize, usize), links: &[Link]) -> Self {
        let mut by_task = vec![Vec::new(); count];
        for link in links {
            let (task, other) = ends(link);
            by_task[task].push(Arc::new(other, link.tie));
        }
        let mut from = vec![0];
        let mut arcs = Vec::new();
        for list in by_task {
            arcs.extend(list);
            from.push(arcs.len());
        }
        Self { from, arcs }
    }

    fn of(&self, task: usize) -> &[Arc] {
        &self.arcs[self.from[task]..self.from[task + 1]]
    }
}

/// All that does not change while an order is sought.
#[derive(Debug)]
pub(super) struct Graph {
    pub(super) aim: Aim,
    pub(super) ways: Vec<Vec<Way>>,
    pub(super) release: Vec<i64>,
    pub(super) due: Vec<Option<i64>>,
    pub(super) weight: Vec<f64>,
    /// What is added to the end of a task to get its share in a greatest value: nothing, less its due date, or never.
    pub(super) allowance: Vec<i64>,
    pub(super) free: Vec<i64>,
    /// Tasks in an order that keeps the links.
    pub(super) linked: Vec<usize>,
    before: Arcs,
    after: Arcs,
    family: Vec<usize>,
    initial: Vec<usize>,
    families: usize,
    setups: Vec<i64>,
}

impl Graph {
    /// Lays out a set of tasks.
    pub(super) fn new(set: &TaskSet, aim: Aim) -> Result<Self, OrderFault> {
        check(set)?;
        let count = set.tasks.len();
        let code = |family: &Option<usize>| family.map_or(0, |family| family + 1);
        let named = set.tasks.iter().map(|task| &task.family).chain(&set.initial);
        let mut known: Vec<usize> = named.map(code).chain([0]).collect();
        known.sort_unstable();
        known.dedup();
        let place = |family: &Option<usize>| known.binary_search(&code(family)).unwrap_or(0);
        let mut graph = Self {
            aim,
            ways: set.tasks.iter().map(|task| task.ways.clone()).collect(),
            release: set.tasks.iter().map(|task| task.release).collect(),
            due: set.tasks.iter().map(|task| task.due).collect(),
            weight: set.tasks.iter().map(|task| task.weight).collect(),
            allowance: set.tasks.iter().map(|task| allowance(task.due, aim)).collect(),
            free: set.free.clone(),
            linked: Vec::new(),
            before: Arcs::new(count, |link| (link.after, link.before), &set.links),
            after: Arcs::new(count, |link| (link.before, link.after), &set.links),
            family: set.tasks.iter().map(|task| place(&task.family)).collect(),
            initial: set.initial.iter().map(place).collect(),
            families: known.len(),
            setups: Vec::new(),
        };
        graph.linked = graph.keep_links()?;
        graph.lay_setups(set, &known);
        Ok(graph)
    }

    fn lay_setups(&mut self, set: &TaskSet, known: &[usize]) {
        let mut setups = vec![0; self.free.len() * known.len() * known.len()];
        let mut any = 0;
        for (machine, from, to, time) in set.setups.all() {
            let place = |family: Option<usize>| known.binary_search(&family.map_or(0, |family| family + 1));
            if let (Ok(from), Ok(to)) = (place(from), place(to)) {
                setups[(machine * known.len() + from) * known.len() + to] = time;
                any = any.max(time);
            }
        }
        if any > 0 {
            self.setups = setups;
        }
    }

    /// Tasks so that none stands before one that it waits for.
    fn keep_links(&self) -> Result<Vec<usize>, OrderFault> {
        let mut open: Vec<usize> = (0..self.count()).map(|task| self.before(task).len()).collect();
        let mut linked: Vec<usize> = (0..self.count()).filter(|task| open[*task] == 0).collect();
        let mut at = 0;
        while at < linked.len() {
            for arc in self.after(linked[at]) {
                open[arc.task] -= 1;
                if open[arc.task] == 0 {
                    linked.push(arc.task);
                }
            }
            at += 1;
        }
        match open.iter().position(|left| *left > 0) {
            Some(task) => Err(OrderFault::Circle { task }),
            None => Ok(linked),
        }
    }

    pub(super) fn count(&self) -> usize {
        self.ways.len()
    }

    /// Links of a task to those it waits for.
    pub(super) fn before(&self, task: usize) -> &[Arc] {
        self.before.of(task)
    }

    /// Links of a task to those that wait for it.
    pub(super) fn after(&self, task: usize) -> &[Arc] {
        self.after.of(task)
    }

    /// Setup between two tasks on a machine.
    pub(super) fn setup(&self, machine: usize, from: usize, to: usize) -> i64 {
        if self.setups.is_empty() {
            return 0;
        }
        self.setups[(machine * self.families + self.family[from]) * self.families + self.family[to]]
    }

    /// When the first task of a machine can start.
    pub(super) fn opening(&self, machine: usize, task: usize) -> i64 {
        let setup = if self.setups.is_empty() {
            0
        } else {
            self.setups[(machine * self.families + self.initial[machine]) * self.families + self.family[task]]
        };
        self.free[machine] + setup
    }

    /// Whether the aim is the greatest of all tasks and not a sum.
    pub(super) fn is_greatest(&self) -> bool {
        matches!(self.aim, Aim::LastEnd | Aim::GreatestLateness)
    }

    /// Share of a task in a sum.
    pub(super) fn share(&self, task: usize, end: i64) -> f64 {
        let over = match (self.aim, self.due[task]) {
            (Aim::WeightedLateness, Some(due)) => (end - due).max(0),
            (Aim::WeightedLateness, None) => 0,
            _ => end,
        };
        self.weight[task] * number(over)
    }
}

fn allowance(due: Option<i64>, aim: Aim) -> i64 {
    match aim {
        Aim::LastEnd => 0,
        Aim::GreatestLateness => due.map_or(NEVER, |due| -due),
        Aim::WeightedLateness | Aim::WeightedEnds => NEVER,
    }
}

/// Times are far below 2^53.
#[expect(clippy::cast_precision_loss, reason = "times are checked to be far below 2^53")]
pub(super) fn number(time: i64) -> f64 {
    time as f64
}
