//! Setup times that depend on what the machine did before.

use std::collections::BTreeMap;

/// Time from one family to the next, by machine; what is not given takes no time.
///
/// No family stands for an unknown state: a machine at the beginning, or after a task without family. A setup may be
/// made before the task arrives.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Setups {
    times: BTreeMap<(usize, Option<usize>, Option<usize>), i64>,
}

impl Setups {
    /// Sets the time on `machine` from one family to another.
    pub fn set(&mut self, machine: usize, from: Option<usize>, to: Option<usize>, time: i64) {
        self.times.insert((machine, from, to), time);
    }

    /// Time on `machine` from one family to another.
    #[must_use]
    pub fn time(&self, machine: usize, from: Option<usize>, to: Option<usize>) -> i64 {
        self.times.get(&(machine, from, to)).copied().unwrap_or(0)
    }

    /// All times that are given: machine, from, to, time.
    pub fn all(&self) -> impl Iterator<Item = (usize, Option<usize>, Option<usize>, i64)> + '_ {
        self.times.iter().map(|((machine, from, to), time)| (*machine, *from, *to, *time))
    }
}
