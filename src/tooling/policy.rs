//! When an edge is to come out, and what one that fails before costs.

use crate::quantity::{Duration, Fraction, Money};

/// What decides when an edge comes out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChangeBy {
    /// Least cost of a good piece; without prices, most good pieces an hour.
    LeastCost,
    /// Whole pieces of the average life: somebody watches the edge and takes it out when it is worn.
    AverageLife,
}

impl ChangeBy {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 2] =
        [("least cost", Self::LeastCost), ("average life", Self::AverageLife)];
}

/// When edges come out, and what one that fails before costs. What is `None` is left to the policy below.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ChangePolicy {
    /// What decides.
    pub by: Option<ChangeBy>,
    /// Share of the edges that must last until the change.
    pub survival: Option<Fraction>,
    /// Most pieces an edge may make.
    pub most: Option<u32>,
    /// Time the machine stands for an edge that failed.
    pub stop: Option<Duration>,
    /// Pieces lost when an edge fails.
    pub scrap: Option<u32>,
    /// Further damage when an edge fails: holder, work, neighbouring tools.
    pub damage: Option<Money>,
}

impl ChangePolicy {
    /// This policy where it says something, the other one below it.
    #[must_use]
    pub fn over(self, below: Self) -> Self {
        Self {
            by: self.by.or(below.by),
            survival: self.survival.or(below.survival),
            most: self.most.or(below.most),
            stop: self.stop.or(below.stop),
            scrap: self.scrap.or(below.scrap),
            damage: self.damage.or(below.damage),
        }
    }

    /// Time the machine stands for an edge that failed: as stated, else three planned changes (common practice); never less than a
    /// planned change.
    #[must_use]
    pub fn failure_stop(self, planned: Duration) -> Duration {
        self.stop.unwrap_or(planned * 3.0).larger(planned)
    }
}
