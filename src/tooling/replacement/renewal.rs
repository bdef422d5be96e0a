//! How many edges wear out by an age, each followed by a new one.

use super::super::scatter::LifeSpread;
use super::count::index;
use crate::quantity::Formula;

/// Formula of [`renewal`].
pub const RENEWAL: Formula = Formula {
    figure: "expected failures",
    text: "M(t) = F(t) + integral 0..t of M(t - u) dF(u)",
    source: "tijms-2003",
};

/// Formula of the steps by which [`renewal`] is worked.
pub const RENEWAL_STEPS: Formula = Formula {
    figure: "expected failures in steps",
    text: "M_i = (F_i + sum over j from 1 to i - 1 of F(t_i - t_(j-1/2)) * (M_j - M_(j-1)) - F(h/2) * M_(i-1)) / (1 - F(h/2))",
    source: "xie-1989",
};

/// Mean lives beyond which the straight line stands for the renewal function.
const FAR: f64 = 20.0;
/// Steps of the coarse grid.
const STEPS: f64 = 400.0;
/// Steps of the coarse grid over one standard deviation of life.
const STEPS_A_DEVIATION: f64 = 15.0;
/// Most steps of the coarse grid.
const MOST_STEPS: f64 = 3000.0;

/// Expected failures by an age, in mean lives, starting with a new edge.
///
/// M(t) = F(t) + integral 0..t of M(t - u) dF(u)
///
/// # Symbols
/// M expected failures. t age in mean lives. F share worn.
/// # Range
/// Up to 20 mean lives in steps, on two grids and extrapolated: 1e-6 up to an age of 200 standard deviations, 1e-5 for
/// a Weibull shape below 1. Beyond 20 mean lives the straight line t - (1 - CV^2) / 2; below a CV of 0.1 M still climbs
/// in waves about it there.
/// # Source
/// [tijms-2003]; the steps [xie-1989]. Worked examples: tests/published/replacement.toml.
/// # Example
/// ```
/// use wearland::tooling::replacement::renewal;
/// use wearland::tooling::scatter::{LifeFamily, LifeSpread, Scatter};
/// let spread = LifeSpread::new(Scatter { family: LifeFamily::Weibull, variation: 0.5 });
/// assert!((renewal(&spread, 1.0) - 0.6091).abs() < 5e-5);
/// ```
#[must_use]
pub fn renewal(spread: &LifeSpread, age: f64) -> f64 {
    if age <= 0.0 {
        return 0.0;
    }
    if age > FAR {
        return age - 0.5 * (1.0 - spread.variance());
    }
    let steps = STEPS.max(STEPS_A_DEVIATION * age / spread.variance().sqrt()).min(MOST_STEPS);
    renewal_grid(spread, age, steps).last().map_or(0.0, |(_, failures)| *failures)
}

/// Ages and expected failures at equal steps up to an age.
pub(super) fn renewal_grid(spread: &LifeSpread, age: f64, steps: f64) -> Vec<(f64, f64)> {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few thousand steps")]
    let count = steps as usize;
    let coarse = midpoint_recursion(spread, age, count);
    let fine = midpoint_recursion(spread, age, 2 * count);
    let step = age / steps.floor();
    coarse
        .iter()
        .zip(fine.iter().step_by(2))
        .zip(0_u32..)
        .map(|((coarse, fine), at)| (f64::from(at) * step, fine + (fine - coarse) / 3.0))
        .collect()
}

/// M at 0, h, 2h, ..: dM carried over each step by F from its middle.
fn midpoint_recursion(spread: &LifeSpread, age: f64, count: usize) -> Vec<f64> {
    let step = age / index(count);
    let middles: Vec<f64> = (0..count).map(|at| spread.worn((index(at) + 0.5) * step)).collect();
    let mut failures = vec![0.0];
    let mut rises: Vec<f64> = Vec::with_capacity(count);
    for at in 1..=count {
        let carried: f64 =
            rises.iter().zip(middles[1..at].iter().rev()).map(|(rise, worn)| rise * worn).sum();
        let before = failures[at - 1];
        let now = (spread.worn(index(at) * step) + carried - middles[0] * before) / (1.0 - middles[0]);
        rises.push(now - before);
        failures.push(now);
    }
    failures
}

/// Formula of [`renewals_by_piece`].
pub const RENEWAL_BY_PIECE: Formula = Formula {
    figure: "expected failures by piece",
    text: "M(k) = sum over j from 1 to k of p_j * (1 + M(k - j)), p_j = R((j - 1) w) - R(j w)",
    source: "derived",
};

/// Expected failures after 0, 1, .. pieces, starting with a new edge; a failure shows at the end of its piece.
///
/// M(k) = sum over j from 1 to k of p_j * (1 + M(k - j)), p_j = R((j - 1) w) - R(j w)
///
/// # Symbols
/// M expected failures. p_j share of edges that fail in their j-th piece. w share of a mean life for each piece. R survival.
/// # Range
/// Exact. The work grows with the square of the pieces.
/// # Source
/// \[derived\]: the renewal equation for whole pieces.
/// # Example
/// ```
/// use wearland::tooling::replacement::renewals_by_piece;
/// use wearland::tooling::scatter::LifeSpread;
/// // No wear-out: each piece fails with the same share, so failures rise evenly.
/// let failures = renewals_by_piece(&LifeSpread::weibull(1.0), 0.1, 3);
/// let share = 1.0 - (-0.1_f64).exp();
/// assert!((failures[3] - 3.0 * share).abs() < 1e-12);
/// ```
#[must_use]
pub fn renewals_by_piece(spread: &LifeSpread, wear: f64, pieces: u32) -> Vec<f64> {
    let mut alive = 1.0;
    let shares: Vec<f64> = (1..=pieces)
        .map(|piece| {
            let before = std::mem::replace(&mut alive, spread.survival(f64::from(piece) * wear));
            before - alive
        })
        .collect();
    renewals_by_share(&shares, pieces)
}

/// [`renewals_by_piece`] from the shares that fail in the first, second, .. piece; shares left out are zero.
#[must_use]
pub fn renewals_by_share(shares: &[f64], pieces: u32) -> Vec<f64> {
    let used = shares.iter().rposition(|share| *share > 0.0).map_or(0, |last| last + 1);
    let mut failures = vec![0.0];
    for piece in 1..=pieces as usize {
        let reach = used.min(piece);
        let past = failures[piece - reach..].iter().rev();
        failures.push(shares[..reach].iter().zip(past).map(|(share, past)| share * (1.0 + past)).sum());
    }
    failures
}
