//! What a minute of the machine, a minute of a person and an edge are worth, and what a piece costs by it.

use super::super::change::ToolUse;
use super::super::estimate::OperationEstimate;
use super::super::item::Operation;
use crate::plant::Machine;
use crate::quantity::{Money, MoneyRate};

/// What a minute of the machine is worth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MinuteWorth {
    /// So much an hour: the rate of the machine and what its time would earn elsewhere.
    Priced(MoneyRate),
    /// More than any edge: time alone counts, of equal times the one that takes least of the edges.
    TimeAlone,
}

/// What minutes and edges are worth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worths<'a> {
    /// Of the machine.
    pub minute: MinuteWorth,
    /// Of the person who attends.
    pub person: MoneyRate,
    /// What an edge is worth beyond its price, by tool of the shop; a tool not listed: nothing.
    pub edges: &'a [Money],
}

impl Worths<'_> {
    /// A minute of the machine at a rate, nothing beside it.
    #[must_use]
    pub const fn of_minute(rate: MoneyRate) -> Self {
        Self { minute: MinuteWorth::Priced(rate), person: MoneyRate::ZERO, edges: &[] }
    }

    /// Time alone.
    pub const TIME_ALONE: Worths<'static> =
        Worths { minute: MinuteWorth::TimeAlone, person: MoneyRate::ZERO, edges: &[] };

    /// Cost of the edges that a piece wears, with what is lost where one fails; tools without a price cost nothing.
    #[must_use]
    pub fn edge_cost(&self, estimate: &OperationEstimate) -> Money {
        estimate.tools.iter().map(|used| self.cost_of_edge(used) / used.point.made()).sum()
    }

    /// One edge, its worth beyond the price and its share of failures included.
    pub(super) fn cost_of_edge(&self, used: &ToolUse) -> Money {
        let extra = self.edges.get(used.tool).copied().unwrap_or(Money::ZERO);
        let lost = used.point.change.scrap * used.point.failed();
        used.edge_cost.unwrap_or(Money::ZERO) + extra + lost
    }

    /// What a piece costs: minutes of machine and person, and edges. `None` where time alone counts.
    #[must_use]
    pub fn cost_of_piece(&self, estimate: &OperationEstimate) -> Option<Money> {
        match self.minute {
            MinuteWorth::Priced(rate) => Some(
                rate.over(estimate.cycle) + self.person.over(estimate.attended) + self.edge_cost(estimate),
            ),
            MinuteWorth::TimeAlone => None,
        }
    }
}

/// Money beside minutes where time alone counts: just enough to tell equal times apart.
const NEXT_TO_NOTHING: f64 = 1e-9;

/// Worths as plain weights: of a minute of the run, of a minute in which an edge is changed, of a unit of money.
#[derive(Debug, Clone, Copy)]
pub(super) struct Weights {
    pub(super) run: f64,
    pub(super) change: f64,
    pub(super) money: f64,
}

impl Weights {
    pub(super) fn new(worths: &Worths<'_>, operation: &Operation, machine: &Machine) -> Self {
        let MinuteWorth::Priced(rate) = worths.minute else {
            return Self { run: 1.0, change: 1.0, money: NEXT_TO_NOTHING };
        };
        let (machine_minute, person) = (rate.to_per_h() / 60.0, worths.person.to_per_h() / 60.0);
        let (run, change) = match operation.attendance.or(machine.attendance) {
            None => (0.0, 0.0),
            // A share of the cycle is held whatever fills it; else hand work is held, and changes are hand work.
            Some(attendance) => match attendance.share {
                Some(share) => (person * share.value(), person * share.value()),
                None => (0.0, person),
            },
        };
        Self { run: machine_minute + run, change: machine_minute + change, money: 1.0 }
    }

    /// The weight of a whole estimate.
    pub(super) fn of(&self, worths: &Worths<'_>, estimate: &OperationEstimate) -> f64 {
        match worths.cost_of_piece(estimate) {
            Some(cost) => cost.amount(),
            None => estimate.cycle.to_min() + self.money * worths.edge_cost(estimate).amount(),
        }
    }

    /// What an edge costs in its change and in money, for each edge.
    pub(super) fn of_edge(&self, worths: &Worths<'_>, used: &ToolUse) -> f64 {
        let standing = used.standing_time().to_min() * used.point.made();
        self.change * standing + self.money * worths.cost_of_edge(used).amount()
    }
}
