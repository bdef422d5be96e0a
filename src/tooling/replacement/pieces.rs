//! One edge in whole pieces: good pieces, time, scrap and cost by the count after which it is changed.

use super::super::scatter::LifeSpread;
use super::count::{Best, Burden, GoodPieces, whole};
use crate::quantity::{Duration, Formula, Money, MoneyRate};

/// Formula of the good pieces an edge makes.
pub const GOOD_PIECES: Formula = Formula {
    figure: "good pieces an edge",
    text: "g = sum over k from 1 to K of R(k w)",
    source: "derived",
};

/// Formula of the time an edge takes.
pub const TIME_PER_EDGE: Formula = Formula {
    figure: "time for each edge",
    text: "t = t_c * (g + F) + F * t_f + (1 - F) * t_p, F = 1 - R(K w)",
    source: "derived",
};

/// One edge, changed after so many pieces or when it fails. A failure shows at the end of the piece in which it
/// happens: that piece is scrap and its full time is spent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceChange {
    /// How life scatters.
    pub spread: LifeSpread,
    /// Share of the mean life that one piece takes; below 1e-9 it counts as 1e-9.
    pub wear: f64,
    /// Time of a piece without tool changes.
    pub cycle: Duration,
    /// Time the machine stands at a planned change.
    pub planned: Duration,
    /// Time the machine stands when an edge fails.
    pub failure: Duration,
    /// Cost of an edge.
    pub edge: Money,
    /// Cost of a scrapped piece.
    pub scrap: Money,
    /// Cost of the machine.
    pub rate: MoneyRate,
}

/// What comes of a count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceOutcome {
    /// Pieces after which the edge is changed.
    pub pieces: u32,
    /// Running to failure: `pieces` is then the count that fewer than one edge in 10^9 outlives.
    pub to_failure: bool,
    /// Share of edges that make all these pieces.
    pub survival: f64,
    /// Good pieces an edge.
    pub good: f64,
    /// Share of edges that fail first.
    pub failed: f64,
    /// Time for each edge, its change and its failure included.
    pub time: Duration,
    /// Good pieces an hour.
    pub good_per_hour: f64,
    /// Cost of each good piece; infinite where no piece is good.
    pub cost_per_good: Money,
    /// Share of scrap among the pieces made.
    pub scrap_share: f64,
}

impl PieceChange {
    /// What comes of changing after so many pieces, one at least.
    #[must_use]
    pub fn outcome(&self, pieces: u32) -> PieceOutcome {
        self.outcome_of(&self.good_pieces(), pieces)
    }

    /// What comes of running every edge until it fails.
    #[must_use]
    pub fn run_to_failure(&self) -> PieceOutcome {
        let good = self.good_pieces();
        PieceOutcome { to_failure: true, ..self.outcome_of(&good, good.last()) }
    }

    /// The count at which a good piece costs least; of equals the smallest. Running to failure if nothing is cheaper.
    #[must_use]
    pub fn cheapest(&self) -> PieceOutcome {
        self.cheapest_within(u32::MAX)
    }

    /// [`Self::cheapest`] of the counts up to a limit.
    #[must_use]
    pub fn cheapest_within(&self, most: u32) -> PieceOutcome {
        let stand = |time: Duration| self.rate.over(time).amount();
        let burden = Burden {
            piece: stand(self.cycle),
            edge: stand(self.planned) + self.edge.amount(),
            failure: stand(self.failure) - stand(self.planned) + self.scrap.amount(),
        };
        self.best(burden, most)
    }

    /// The count that makes most good pieces an hour; of equals the smallest. For use where no money is known.
    #[must_use]
    pub fn quickest(&self) -> PieceOutcome {
        self.quickest_within(u32::MAX)
    }

    /// [`Self::quickest`] of the counts up to a limit.
    #[must_use]
    pub fn quickest_within(&self, most: u32) -> PieceOutcome {
        let burden = Burden {
            piece: self.cycle.to_s(),
            edge: self.planned.to_s(),
            failure: self.failure.to_s() - self.planned.to_s(),
        };
        self.best(burden, most)
    }

    /// Outcomes at up to so many counts, evenly from one piece to twice the mean life.
    #[must_use]
    pub fn curve(&self, points: u32) -> Vec<PieceOutcome> {
        let good = self.good_pieces();
        let widest = whole(2.0 / self.wear.max(1e-9)).max(2);
        let step = f64::from(widest - 1) / f64::from(points.max(2) - 1);
        let mut counts: Vec<u32> =
            (0..points.max(2)).map(|at| whole((1.0 + f64::from(at) * step - 0.5).max(1.0))).collect();
        counts.dedup();
        counts.into_iter().map(|pieces| self.outcome_of(&good, pieces)).collect()
    }

    pub(super) fn good_pieces(&self) -> GoodPieces {
        GoodPieces::new(self.spread, self.wear)
    }

    fn best(&self, burden: Burden, most: u32) -> PieceOutcome {
        let good = self.good_pieces();
        match good.best(burden, most) {
            Best::Pieces(pieces) => self.outcome_of(&good, pieces),
            Best::Failure => PieceOutcome { to_failure: true, ..self.outcome_of(&good, good.last()) },
        }
    }

    fn outcome_of(&self, counts: &GoodPieces, pieces: u32) -> PieceOutcome {
        let pieces = pieces.max(1);
        let (good, survival) = (counts.good(pieces), counts.survival(pieces));
        let failed = 1.0 - survival;
        let time = self.cycle * (good + failed) + self.failure * failed + self.planned * survival;
        PieceOutcome {
            pieces,
            to_failure: false,
            survival,
            good,
            failed,
            time,
            good_per_hour: good / time.to_h(),
            cost_per_good: (self.rate.over(time) + self.edge + self.scrap * failed) / good,
            scrap_share: failed / (good + failed),
        }
    }
}
