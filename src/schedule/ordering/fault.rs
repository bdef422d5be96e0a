//! What makes a set of tasks impossible to order.

use super::tasks::{Link, TaskSet, Tie};

/// Longest time, lag, release or due date that is taken: sums of a million of them still fit.
const LONGEST: i64 = 1 << 40;

/// Why a set of tasks cannot be ordered.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum OrderFault {
    /// No machine can do a task.
    #[error("task {task} has no way to be done")]
    NoWay {
        /// The task.
        task: usize,
    },
    /// A task or a setup is given to a machine that is not there.
    #[error("machine {machine} is not there")]
    NoMachine {
        /// The machine.
        machine: usize,
    },
    /// A link names a task that is not there.
    #[error("task {task} of a link is not there")]
    NoTask {
        /// The task.
        task: usize,
    },
    /// The lists of machines differ in length.
    #[error("{free} machines become free, but {initial} have an initial family")]
    Machines {
        /// Machines that become free.
        free: usize,
        /// Machines with an initial family.
        initial: usize,
    },
    /// A time or a lag is negative, or too long to be added up.
    #[error("a time of {time} is out of range")]
    Time {
        /// The time.
        time: i64,
    },
    /// A weight is negative or no number.
    #[error("the weight of task {task} is negative or no number")]
    Weight {
        /// The task.
        task: usize,
    },
    /// Tasks wait for each other in a circle.
    #[error("task {task} waits for itself through its links")]
    Circle {
        /// One task of the circle.
        task: usize,
    },
}

/// Refuses what cannot be ordered, circles aside.
pub(super) fn check(set: &TaskSet) -> Result<(), OrderFault> {
    let machines = set.machines();
    if set.initial.len() != machines {
        return Err(OrderFault::Machines { free: machines, initial: set.initial.len() });
    }
    for (task, it) in set.tasks.iter().enumerate() {
        if it.ways.is_empty() {
            return Err(OrderFault::NoWay { task });
        }
        for way in &it.ways {
            machine_is_there(way.machine, machines)?;
            length(way.time)?;
        }
        if !it.weight.is_finite() || it.weight < 0.0 {
            return Err(OrderFault::Weight { task });
        }
        within(it.release)?;
        within(it.due.unwrap_or(0))?;
    }
    for free in &set.free {
        within(*free)?;
    }
    for (machine, _, _, time) in set.setups.all() {
        machine_is_there(machine, machines)?;
        length(time)?;
    }
    set.links.iter().try_for_each(|link| check_link(link, set.tasks.len()))
}

fn check_link(link: &Link, tasks: usize) -> Result<(), OrderFault> {
    for task in [link.before, link.after] {
        if tasks <= task {
            return Err(OrderFault::NoTask { task });
        }
    }
    match link.tie {
        Tie::AfterEnd(lag) => length(lag),
        Tie::Overlap { start_lag, end_lag } => length(start_lag).and(length(end_lag)),
    }
}

fn machine_is_there(machine: usize, machines: usize) -> Result<(), OrderFault> {
    if machine < machines { Ok(()) } else { Err(OrderFault::NoMachine { machine }) }
}

fn length(time: i64) -> Result<(), OrderFault> {
    if (0..=LONGEST).contains(&time) { Ok(()) } else { Err(OrderFault::Time { time }) }
}

fn within(time: i64) -> Result<(), OrderFault> {
    if (-LONGEST..=LONGEST).contains(&time) { Ok(()) } else { Err(OrderFault::Time { time }) }
}
