//! What an order is good for, and how long to look for it.

/// What shall be least.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Aim {
    /// The end of the last task.
    LastEnd,
    /// The greatest lateness, end less due date, of all tasks with a due date; negative if all are early.
    GreatestLateness,
    /// The sum of weight times time late; early tasks count nothing.
    WeightedLateness,
    /// The sum of weight times end.
    WeightedEnds,
}

/// How long to search, counted in moves, never in time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Moves made at most; none gives the best of the dispatch rules.
    pub moves: u64,
    /// Start of the random numbers that break ties.
    pub seed: u64,
}

impl Effort {
    /// This many moves, with the usual seed.
    #[must_use]
    pub fn moves(moves: u64) -> Self {
        Self { moves, seed: 1 }
    }
}
