//! Edges that an order of good pieces takes.

use super::count::{GoodPieces, whole};
use super::pieces::PieceChange;
use crate::quantity::Formula;
use statrs::function::erf::erfc_inv;
use std::f64::consts::SQRT_2;

/// Formula of [`edges_for`] for large orders.
pub const EDGE_DEMAND: Formula = Formula {
    figure: "edges for an order",
    text: "E = (Q - 1) / g + (s^2 + g^2 + g) / (2 * g^2)",
    source: "derived",
};

/// Formula of the deviation of [`edges_for`] for large orders.
pub const EDGE_DEVIATION: Formula = Formula {
    figure: "deviation of the edges for an order",
    text: "sqrt(Q * s^2 / g^3 + 1/12 + 5 * s^4 / (4 * g^4) - 2 * m_3 / (3 * g^3))",
    source: "cox-1962",
};

/// Edges for an order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeDemand {
    /// Expected edges, the one in use at the end counted whole.
    pub mean: f64,
    /// Standard deviation of it.
    pub deviation: f64,
    /// Edges that suffice at the level asked for.
    pub at_level: u32,
}

/// Products of the convolution, above which pieces are put together in lots.
const MOST_PRODUCTS: f64 = 1e7;
/// Lots an edge, at least; with fewer the normal law stands for the convolution.
const LEAST_LOTS: f64 = 100.0;
/// Probability of needing still more edges at which the convolution stops.
const REST: f64 = 1e-13;

/// Edges that an order of good pieces takes, starting with a new edge, each changed after so many pieces or when it fails.
///
/// E = (Q - 1) / g + (s^2 + g^2 + g) / (2 * g^2)
///
/// # Symbols
/// E expected edges. Q good pieces ordered. g, s mean and standard deviation of the good pieces of an edge.
/// # Range
/// Exact by convolution where pieces an edge times pieces ordered times edges stay below 10^7. Beyond, up to some thirty
/// edges, by convolution of lots, 100 or more to an edge. With more edges the count is taken as normal with the mean
/// above and the variance Q s^2 / g^3 + 1/12 + 5 s^4 / (4 g^4) - 2 m_3 / (3 g^3), m_3 third moment of the good pieces
/// about their mean. Infinite where an edge makes no good piece.
/// # Source
/// \[derived\]: renewal counts in whole pieces; the variance [cox-1962].
/// Worked examples: tests/published/replacement.toml.
/// # Example
/// ```
/// use wearland::quantity::{Duration, Money, MoneyRate};
/// use wearland::tooling::replacement::{PieceChange, edges_for};
/// use wearland::tooling::scatter::{Scatter, LifeSpread};
/// let change = PieceChange {
///     spread: LifeSpread::new(Scatter::USUAL), wear: 0.05, cycle: Duration::s(60.0), planned: Duration::s(90.0),
///     failure: Duration::min(8.0), edge: Money::ZERO, scrap: Money::ZERO, rate: MoneyRate::ZERO,
/// };
/// let need = edges_for(&change, 12, 120, 0.95);
/// assert!(10.0 < need.mean && need.mean < 12.0 && need.at_level >= 11);
/// ```
#[must_use]
pub fn edges_for(change: &PieceChange, pieces_per_edge: u32, good: u32, level: f64) -> EdgeDemand {
    if good == 0 {
        return EdgeDemand { mean: 0.0, deviation: 0.0, at_level: 0 };
    }
    let counts = change.good_pieces();
    // An edge that makes the whole order does not care how many more it would make.
    let most = pieces_per_edge.max(1).min(counts.last()).min(good);
    let mean = counts.good(most);
    if mean < 1e-9 {
        return EdgeDemand { mean: f64::INFINITY, deviation: f64::INFINITY, at_level: u32::MAX };
    }
    let (ordered, pieces) = (f64::from(good), f64::from(most));
    let products = ordered / mean * ordered * pieces;
    let lots = (pieces * (MOST_PRODUCTS / products).sqrt().min(1.0)).floor();
    if lots < pieces.min(LEAST_LOTS) {
        return by_normal(&moments(&counts, most), ordered, level);
    }
    let order = whole(ordered / pieces * lots - 1e-6);
    by_convolution(&good_shares(&counts, pieces, whole(lots)), order as usize, level)
}

/// Share of edges that make 0, 1, .. good lots of equal size, the last being all pieces. Within a lot edges fail evenly;
/// what lies between two whole lots is shared between them by its distance, so that the mean stays.
fn good_shares(counts: &GoodPieces, pieces: f64, lots: u32) -> Vec<f64> {
    let size = pieces / f64::from(lots);
    let over = 0.5 - 0.5 / size;
    let (mut alive, mut carried) = (1.0, 0.0);
    let mut shares = Vec::with_capacity(lots as usize + 1);
    for lot in 1..=lots {
        let after = counts.survival_after(f64::from(lot) * size);
        shares.push(carried + (alive - after) * (1.0 - over));
        carried = (alive - after) * over;
        alive = after;
    }
    shares.push(carried + alive);
    shares
}

fn by_convolution(shares: &[f64], good: usize, level: f64) -> EdgeDemand {
    // Chance of having made 0, 1, .. good pieces, as long as the order is not done.
    let mut made = vec![0.0; good];
    made[0] = 1.0;
    let (mut open, mut edges, mut mean, mut square) = (1.0, 0_u32, 0.0, 0.0);
    let mut at_level = None;
    while open > REST {
        if open <= 1.0 - level {
            at_level.get_or_insert(edges);
        }
        mean += open;
        square += (2.0 * f64::from(edges) + 1.0) * open;
        let mut next = vec![0.0; good];
        for (more, share) in shares.iter().enumerate().take(good).filter(|(_, share)| **share > 0.0) {
            for (after, before) in next[more..].iter_mut().zip(&made) {
                *after += share * before;
            }
        }
        made = next;
        open = made.iter().sum();
        edges += 1;
    }
    let variance: f64 = square - mean * mean;
    EdgeDemand { mean, deviation: variance.max(0.0).sqrt(), at_level: at_level.unwrap_or(edges) }
}

/// Mean, variance and third moment about the mean of the good pieces of an edge.
struct Moments {
    mean: f64,
    variance: f64,
    third: f64,
}

/// Sums over the pieces, in lots where there are very many.
fn moments(counts: &GoodPieces, most: u32) -> Moments {
    let lot = most.div_ceil(4096);
    let (mean, mut variance, mut third) = (counts.good(most), 0.0, 0.0);
    let mut add = |share: f64, good: f64| {
        let off = good - mean;
        variance += share * off * off;
        third += share * off * off * off;
    };
    let (mut alive, mut made) = (1.0, 0);
    while made < most {
        let next = (made + lot).min(most);
        let after = counts.survival(next);
        add(alive - after, 0.5 * (f64::from(made) + f64::from(next - 1)));
        (alive, made) = (after, next);
    }
    add(alive, f64::from(most));
    Moments { mean, variance, third }
}

fn by_normal(edge: &Moments, good: f64, level: f64) -> EdgeDemand {
    let Moments { mean: g, variance, third } = *edge;
    let mean = (good - 1.0) / g + (variance + g * g + g) / (2.0 * g * g);
    let spread = good * variance / g.powi(3) + 1.0 / 12.0 + 1.25 * (variance / (g * g)).powi(2)
        - 2.0 * third / (3.0 * g.powi(3));
    let deviation = spread.max(0.0).sqrt();
    let quantile = -SQRT_2 * erfc_inv(2.0 * level.clamp(1e-9, 1.0 - 1e-9));
    EdgeDemand { mean, deviation, at_level: whole(mean + quantile * deviation - 0.5) }
}

#[cfg(test)]
mod tests {
    use super::super::super::scatter::{LifeFamily, LifeSpread, Scatter};
    use super::super::count::index;
    use super::*;

    #[test]
    fn the_normal_law_comes_near_the_exact_way() {
        let shares: Vec<f64> = vec![0.01, 0.01, 0.02, 0.03, 0.03, 0.05, 0.08, 0.1, 0.67];
        let mean: f64 = shares.iter().enumerate().map(|(good, share)| index(good) * share).sum();
        let moment = |power: i32| {
            shares
                .iter()
                .enumerate()
                .map(|(good, share)| share * (index(good) - mean).powi(power))
                .sum::<f64>()
        };
        let edge = Moments { mean, variance: moment(2), third: moment(3) };
        let (exact, normal) = (by_convolution(&shares, 3000, 0.95), by_normal(&edge, 3000.0, 0.95));
        assert!((exact.mean - normal.mean).abs() < 1e-3, "{exact:?} {normal:?}");
        assert!((exact.deviation / normal.deviation - 1.0).abs() < 0.01, "{exact:?} {normal:?}");
        assert!(exact.at_level.abs_diff(normal.at_level) <= 1, "{exact:?} {normal:?}");
    }

    #[test]
    fn lots_come_near_single_pieces() {
        let spread = LifeSpread::new(Scatter { family: LifeFamily::Weibull, variation: 0.4 });
        let counts = GoodPieces::new(spread, 0.002);
        let exact = by_convolution(&good_shares(&counts, 400.0, 400), 2000, 0.95);
        let lots = by_convolution(&good_shares(&counts, 400.0, 100), 500, 0.95);
        assert!((exact.mean - lots.mean).abs() < 0.01, "{exact:?} {lots:?}");
        assert!((exact.deviation - lots.deviation).abs() < 0.01, "{exact:?} {lots:?}");
        assert_eq!(exact.at_level, lots.at_level);
    }
}
