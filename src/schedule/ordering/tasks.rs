//! Tasks, the ways to do them, the links between them and the machines they wait for.

use super::setups::Setups;

/// One way to do a task.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Way {
    /// Machine that does it.
    pub machine: usize,
    /// Time it takes there, without setup.
    pub time: i64,
}

/// One thing to do without a break on one machine.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// Machines that can do it, at least one.
    pub ways: Vec<Way>,
    /// Earliest start.
    pub release: i64,
    /// When it should be done, if anybody waits for it.
    pub due: Option<i64>,
    /// What one unit of time of lateness, or of its end, weighs.
    pub weight: f64,
    /// What the machine is set up for; a task without family needs no setup unless [`Setups`] says so.
    pub family: Option<usize>,
}

impl Task {
    /// A task that can start at once, of weight one, without due date and family.
    #[must_use]
    pub fn new(ways: Vec<Way>) -> Self {
        Self { ways, release: 0, due: None, weight: 1.0, family: None }
    }

    /// A task that one machine alone can do.
    #[must_use]
    pub fn on(machine: usize, time: i64) -> Self {
        Self::new(vec![Way { machine, time }])
    }
}

/// How one task waits for another. Lags are not negative.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tie {
    /// It starts at the end of the other plus this lag, or later.
    AfterEnd(i64),
    /// Pieces are handed on while the other still runs.
    Overlap {
        /// It starts at the start of the other plus this lag, or later: the first transfer batch.
        start_lag: i64,
        /// It ends at the end of the other plus this lag, or later: the last transfer batch.
        end_lag: i64,
    },
}

/// One task waits for another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Link {
    /// The task waited for.
    pub before: usize,
    /// The task that waits.
    pub after: usize,
    /// How it waits.
    pub tie: Tie,
}

impl Link {
    /// Start of `after` not before the end of `before`.
    #[must_use]
    pub fn after(before: usize, after: usize) -> Self {
        Self { before, after, tie: Tie::AfterEnd(0) }
    }

    /// `after` takes over pieces while `before` still runs.
    #[must_use]
    pub fn overlap(before: usize, after: usize, start_lag: i64, end_lag: i64) -> Self {
        Self { before, after, tie: Tie::Overlap { start_lag, end_lag } }
    }
}

/// All that is to be put in order.
#[derive(Debug, Clone, PartialEq)]
pub struct TaskSet {
    /// Tasks.
    pub tasks: Vec<Task>,
    /// Links between tasks.
    pub links: Vec<Link>,
    /// Setup times.
    pub setups: Setups,
    /// When each machine becomes free; its length is the number of machines.
    pub free: Vec<i64>,
    /// What each machine is set up for at the beginning.
    pub initial: Vec<Option<usize>>,
}

impl TaskSet {
    /// Tasks on machines that are free at 0, without links and setups.
    #[must_use]
    pub fn new(machines: usize, tasks: Vec<Task>) -> Self {
        Self {
            tasks,
            links: Vec::new(),
            setups: Setups::default(),
            free: vec![0; machines],
            initial: vec![None; machines],
        }
    }

    /// Number of machines.
    #[must_use]
    pub fn machines(&self) -> usize {
        self.free.len()
    }
}
