//! Edges that an order of good pieces takes.

use super::count::whole;
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

/// Products of the exact way, above which the normal law stands for it.
const MOST_PRODUCTS: f64 = 1e7;
/// Probability of needing still more edges at which the exact way stops.
const REST: f64 = 1e-13;

/// Edges that an order of good pieces takes, starting with a new edge, each changed after so many pieces or when it fails.
///
/// E = (Q - 1) / g + (s^2 + g^2 + g) / (2 * g^2)
///
/// # Symbols
/// E expected edges. Q good pieces ordered. g, s mean and standard deviation of the good pieces of an edge.
/// # Range
/// Exact by convolution where pieces an edge times pieces times edges stay below 10^7. Above that the count is taken as
/// normal, with the mean above and the variance Q s^2 / g^3 + 1/12 + 5 s^4 / (4 g^4) - 2 m_3 / (3 g^3), m_3 third
/// moment of the good pieces about their mean; where few edges make very many pieces each that can be an edge off.
/// Infinite where an edge makes no good piece.
/// # Source
/// \[derived\]: renewal counts in whole pieces; the variance [cox-1962].
/// Worked examples: tests/published/replacement.toml.
#[must_use]
pub fn edges_for(change: &PieceChange, pieces_per_edge: u32, good: u32, level: f64) -> EdgeDemand {
    if good == 0 {
        return EdgeDemand { mean: 0.0, deviation: 0.0, at_level: 0 };
    }
    let counts = change.good_pieces();
    let most = pieces_per_edge.max(1).min(counts.last());
    let mean = counts.good(most);
    if mean < 1e-9 {
        return EdgeDemand { mean: f64::INFINITY, deviation: f64::INFINITY, at_level: u32::MAX };
    }
    let products = f64::from(good) / mean * f64::from(good) * f64::from(most);
    if products > MOST_PRODUCTS {
        return by_normal(&moments(change, most), f64::from(good), level);
    }
    let mut alive = 1.0;
    // Share of edges that make 0, 1, .. good pieces.
    let mut shares: Vec<f64> = (1..=most)
        .map(|piece| {
            let before = std::mem::replace(&mut alive, counts.survival(piece));
            before - alive
        })
        .collect();
    shares.push(alive);
    by_convolution(&shares, good as usize, level)
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
fn moments(change: &PieceChange, most: u32) -> Moments {
    let counts = change.good_pieces();
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
}
