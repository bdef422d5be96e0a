//! A plan: lots on machines, changes of edges, shipments, stock.

use super::lp::MISSING_AT_END;
use super::problem::{Problem, hours};

/// Pieces of one activity made in one go in one slot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lot {
    /// The activity.
    pub activity: usize,
    /// The slot.
    pub slot: usize,
    /// When the machine turns to it, setup included; seconds from the start of the plan.
    pub start: i64,
    /// When the last piece leaves.
    pub end: i64,
    /// Minutes of setup at its start.
    pub setup: f64,
    /// Number of its first piece, counted on this machine for this step from 1.
    pub first_piece: u32,
    /// Pieces started.
    pub pieces: u32,
    /// Good pieces among them.
    pub good: u32,
}

/// Whether a machine is stopped for a change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// It is stopped for it.
    Stopped,
    /// It stands anyway: a break begins, or the shift, after a time in which it did not run.
    Anyway,
}

/// A worn edge replaced.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// The edge place.
    pub point: usize,
    /// The lot during which it happens.
    pub lot: usize,
    /// When.
    pub at: i64,
    /// The change comes before this piece, counted as in [`Lot::first_piece`].
    pub before_piece: u32,
    /// Share of the pieces to its change that the edge made.
    pub worn: f64,
    /// It is made while the machine stands anyway, so that the stop is not counted.
    pub standing: Standing,
}

/// Pieces shipped to a demand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shipment {
    /// The demand.
    pub demand: usize,
    /// The slot.
    pub slot: usize,
    /// When the last of them was ready.
    pub at: i64,
    /// Pieces.
    pub pieces: u32,
}

/// All of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plan {
    /// Lots, in the order they were laid: slot by slot.
    pub lots: Vec<Lot>,
    /// Changes, in order of time on each machine.
    pub changes: Vec<Change>,
    /// Shipments, slot by slot.
    pub shipments: Vec<Shipment>,
    /// Good pieces lying at each step after each slot.
    pub stock: Vec<Vec<u32>>,
}

impl Plan {
    /// Pieces shipped to a demand.
    #[must_use]
    pub fn shipped(&self, demand: usize) -> u32 {
        self.shipments
            .iter()
            .filter(|shipment| shipment.demand == demand)
            .map(|shipment| shipment.pieces)
            .sum()
    }

    /// Minutes for which the machine of a lot stands for changes; edges changed before the same piece share the stop.
    #[must_use]
    pub fn changing(&self, problem: &Problem, lot: usize) -> f64 {
        let mut minutes = 0.0;
        let mut last: Option<(u32, f64)> = None;
        for change in self.changes.iter().filter(|change| change.lot == lot) {
            let point = &problem.points[change.point];
            let owed = if change.standing == Standing::Anyway { 0.0 } else { point.stop };
            // Changes stand in the order of their pieces.
            let counted =
                last.filter(|(piece, _)| *piece == change.before_piece).map_or(0.0, |(_, stop)| stop);
            minutes += point.change - point.stop + (owed - counted).max(0.0);
            last = Some((change.before_piece, owed.max(counted)));
        }
        minutes
    }

    /// When a demand is complete; `None` if it never is.
    #[must_use]
    pub fn finish(&self, problem: &Problem, demand: usize) -> Option<i64> {
        let complete = f64::from(self.shipped(demand)) >= problem.demands[demand].quantity - 1e-6;
        let last = self
            .shipments
            .iter()
            .filter(|shipment| shipment.demand == demand)
            .map(|shipment| shipment.at)
            .max();
        complete.then_some(last.unwrap_or(0))
    }

    /// Lateness of a demand in weighted piece-hours.
    #[must_use]
    pub fn lateness_of(&self, problem: &Problem, demand: usize) -> f64 {
        self.piece_hours_late(problem, demand) * problem.demands[demand].weight
    }

    /// Lateness of a demand in piece-hours; pieces never shipped count as a day later than the horizon's end.
    #[must_use]
    pub fn piece_hours_late(&self, problem: &Problem, demand: usize) -> f64 {
        let wanted = &problem.demands[demand];
        if wanted.market.is_some() {
            return 0.0;
        }
        let shipped: f64 = self
            .shipments
            .iter()
            .filter(|shipment| shipment.demand == demand)
            .map(|shipment| hours(shipment.at - wanted.due).max(0.0) * f64::from(shipment.pieces))
            .sum();
        let end = problem.slots.last().map_or(0, |slot| slot.end);
        let owed = wanted.quantity - f64::from(self.shipped(demand));
        shipped + owed.max(0.0) * (hours(end - wanted.due).max(0.0) + 24.0)
    }

    /// Pieces missing from the stock that a step must have at the end.
    #[must_use]
    pub fn missing_at_end(&self, problem: &Problem, step: usize) -> f64 {
        let lying = self.stock[step].last().copied().unwrap_or(0);
        (problem.steps[step].closing - f64::from(lying)).max(0.0)
    }

    /// Lateness of all demands; a piece missing from the stock wanted at the end counts as a day late.
    #[must_use]
    pub fn lateness(&self, problem: &Problem) -> f64 {
        let demands: f64 = (0..problem.demands.len()).map(|demand| self.lateness_of(problem, demand)).sum();
        let missing: f64 = (0..problem.steps.len()).map(|step| self.missing_at_end(problem, step)).sum();
        demands + missing * MISSING_AT_END
    }

    /// Money: minutes run and set up, piece costs, holding, lateness that has a price.
    #[must_use]
    pub fn cost(&self, problem: &Problem) -> f64 {
        let making: f64 = self
            .lots
            .iter()
            .map(|lot| {
                let activity = &problem.activities[lot.activity];
                let minute =
                    activity.machine.map_or(0.0, |machine| problem.resources[machine].cost[lot.slot]);
                let used: f64 = activity
                    .uses
                    .iter()
                    .map(|(resource, minutes)| minutes * problem.resources[*resource].cost[lot.slot])
                    .sum();
                f64::from(lot.pieces) * (used + activity.cost) + lot.setup * minute
            })
            .sum();
        let holding: f64 = problem
            .steps
            .iter()
            .zip(&self.stock)
            .map(|(step, stock)| step.holding * stock.iter().map(|pieces| f64::from(*pieces)).sum::<f64>())
            .sum();
        let late: f64 = (0..problem.demands.len())
            .map(|demand| self.piece_hours_late(problem, demand) * problem.demands[demand].late_price)
            .sum();
        making + holding + late
    }

    /// Minutes of a resource used in a slot, setups and changes as they fall.
    #[must_use]
    pub fn minutes_used(&self, problem: &Problem, resource: usize, slot: usize) -> f64 {
        let lots: f64 = self
            .lots
            .iter()
            .filter(|lot| lot.slot == slot)
            .map(|lot| {
                let activity = &problem.activities[lot.activity];
                if activity.machine == Some(resource) {
                    return lot.setup + activity.running(lot.pieces);
                }
                let uses: f64 =
                    activity.uses.iter().filter(|(of, _)| *of == resource).map(|(_, minutes)| minutes).sum();
                let setting = if activity.setter == Some(resource) { lot.setup } else { 0.0 };
                uses * f64::from(lot.pieces) + setting
            })
            .sum();
        let changes: f64 = self
            .changes
            .iter()
            .filter(|change| self.lots[change.lot].slot == slot)
            .map(|change| &problem.points[change.point])
            .filter(|point| point.resource == resource)
            .map(|point| point.change)
            .sum();
        lots + changes
    }
}
