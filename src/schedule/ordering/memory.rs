//! What was done lately and must not be undone at once.

use super::board::Board;
use super::graph::NONE;

/// Whether a move may be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Leave {
    Free,
    /// It undoes what was done lately.
    Forbidden,
}

/// Forbids, for some moves, that one task goes before another again, or back to a machine.
#[derive(Debug)]
pub(super) struct Memory {
    count: usize,
    machines: usize,
    before: Vec<u64>,
    machine: Vec<u64>,
}

impl Memory {
    pub(super) fn new(count: usize, machines: usize) -> Self {
        Self { count, machines, before: vec![0; count * count], machine: vec![0; count * machines] }
    }

    pub(super) fn clear(&mut self) {
        self.before.fill(0);
        self.machine.fill(0);
    }

    /// Whether `first` may go before `second` again.
    pub(super) fn before(&self, first: usize, second: usize, now: u64) -> Leave {
        if self.before[first * self.count + second] > now { Leave::Forbidden } else { Leave::Free }
    }

    /// Whether the task may go to the machine again.
    pub(super) fn machine(&self, task: usize, machine: usize, now: u64) -> Leave {
        if self.machine[task * self.machines + machine] > now { Leave::Forbidden } else { Leave::Free }
    }

    /// Remembers a task's place on the board before it is moved to stand behind `after` on `machine`.
    pub(super) fn remember(
        &mut self,
        board: &Board,
        task: usize,
        (machine, after): (usize, usize),
        until: u64,
    ) {
        let old = board.machine[task];
        if old != machine {
            self.machine[task * self.machines + old] = until;
            return;
        }
        // To the right: all passed tasks up to the new neighbour.
        let mut passed = Vec::new();
        let mut other = board.next[task];
        while other != NONE {
            passed.push(other);
            if other == after {
                for other in passed {
                    self.before[task * self.count + other] = until;
                }
                return;
            }
            other = board.next[other];
        }
        // To the left: all passed tasks down to the new neighbour.
        let mut other = board.previous[task];
        while other != NONE && other != after {
            self.before[other * self.count + task] = until;
            other = board.previous[other];
        }
    }
}
