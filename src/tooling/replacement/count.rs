//! Whole pieces an edge makes good before it is changed or fails, and the count at which a cost is least.

use super::super::scatter::LifeSpread;

/// Pieces summed one by one; beyond them the sum goes by the integral of survival with its first two corrections.
const COUNTED: u32 = 1024;
/// Survival at which an edge has failed for all that matters.
pub(super) const GONE: f64 = 1e-9;
/// Least wear for a piece that is told from none.
const LEAST_WEAR: f64 = 1e-9;

/// Good pieces by count, for one spread and one wear.
pub(super) struct GoodPieces {
    spread: LifeSpread,
    wear: f64,
    /// Sum of survival after 0, 1, .. pieces.
    counted: Vec<f64>,
}

/// What is to be least for each good piece.
#[derive(Debug, Clone, Copy)]
pub(super) struct Burden {
    /// Of each piece made, good or scrap.
    pub(super) piece: f64,
    /// Of each edge that is changed as planned.
    pub(super) edge: f64,
    /// More than that for an edge that fails.
    pub(super) failure: f64,
}

/// The best count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Best {
    /// Change after so many pieces.
    Pieces(u32),
    /// Run to failure.
    Failure,
}

impl GoodPieces {
    pub(super) fn new(spread: LifeSpread, wear: f64) -> Self {
        let wear = wear.max(LEAST_WEAR);
        let mut good = 0.0;
        let mut counted = vec![0.0];
        for piece in 1..=COUNTED.min(whole(spread.age_at(GONE) / wear)) {
            good += spread.survival(f64::from(piece) * wear);
            counted.push(good);
        }
        Self { spread, wear, counted }
    }

    /// Share of edges that outlive so many pieces.
    pub(super) fn survival(&self, pieces: u32) -> f64 {
        self.survival_after(f64::from(pieces))
    }

    /// The same for parts of pieces.
    pub(super) fn survival_after(&self, pieces: f64) -> f64 {
        self.spread.survival(pieces * self.wear)
    }

    /// Good pieces an edge: the sum of survival after 1, 2, .. pieces.
    pub(super) fn good(&self, pieces: u32) -> f64 {
        let last = self.counted.len() - 1;
        if let Some(good) = self.counted.get(pieces as usize) {
            return *good;
        }
        let age = |pieces: f64| pieces * self.wear;
        let (from, to) = (age(index(last)), age(f64::from(pieces)));
        let slope = |age: f64| -self.spread.hazard(age) * self.spread.survival(age);
        self.counted[last]
            + (self.spread.lived(to) - self.spread.lived(from)) / self.wear
            + 0.5 * (self.spread.survival(to) - self.spread.survival(from))
            + self.wear / 12.0 * (slope(to) - slope(from))
    }

    /// Pieces after which all but [`GONE`] of the edges have failed.
    pub(super) fn last(&self) -> u32 {
        whole(self.spread.age_at(GONE) / self.wear)
    }

    /// The burden for each good piece if edges are changed after so many pieces.
    pub(super) fn share(&self, burden: Burden, pieces: u32) -> f64 {
        let (good, failed) = (self.good(pieces), 1.0 - self.survival(pieces));
        (burden.piece * (good + failed) + burden.edge + burden.failure * failed) / good
    }

    /// The count up to `most` at which the burden for each good piece is least; of equals the smallest.
    ///
    /// One piece more adds (piece + q failure) / (1 - q) for each good piece it adds, q the share of edges that fail
    /// in it. The mean falls as long as that is below it. While q rises from piece to piece, the first count at which it
    /// is not is the best; once q falls, the mean falls to the end if it still falls then.
    pub(super) fn best(&self, burden: Burden, most: u32) -> Best {
        let end = self.last().min(most.max(1));
        let peak = whole(self.spread.hazard_peak() / self.wear);
        let rising = if burden.piece + burden.failure <= 0.0 { 1 } else { end.min(peak) };
        let turned =
            |pieces: u32| self.added(burden, pieces + 1) >= self.share(burden, pieces) * (1.0 - 1e-13);
        let first = (1..=rising.min(COUNTED)).find(|pieces| turned(*pieces)).or_else(|| {
            if rising <= COUNTED || !turned(rising) {
                return None;
            }
            let (mut falls, mut turns) = (COUNTED, rising);
            while turns - falls > 1 {
                let middle = falls + (turns - falls) / 2;
                if turned(middle) { turns = middle } else { falls = middle }
            }
            Some(turns)
        });
        let last = if end < self.last() { Best::Pieces(end) } else { Best::Failure };
        match first {
            Some(pieces) if self.share(burden, pieces) <= self.share(burden, end) => Best::Pieces(pieces),
            _ => last,
        }
    }

    /// What a piece adds to the burden, for each good piece it adds.
    fn added(&self, burden: Burden, piece: u32) -> f64 {
        let (before, after) = (self.survival(piece - 1), self.survival(piece));
        (burden.piece * before + burden.failure * (before - after)) / after
    }
}

/// Rounded up to a count of one at least.
pub(super) fn whole(pieces: f64) -> u32 {
    let bounded = pieces.ceil().clamp(1.0, f64::from(u32::MAX - 1));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded just before")]
    let count = bounded as u32;
    count
}

/// A position as a number.
pub(super) fn index(at: usize) -> f64 {
    u32::try_from(at).map_or(f64::INFINITY, f64::from)
}
