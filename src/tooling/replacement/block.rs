//! Change at fixed intervals whatever the age, and when worn in between.

use super::super::scatter::LifeSpread;
use super::renewal::{renewal, renewal_grid};
use crate::quantity::Formula;

/// Formula of [`block_cost_rate`].
pub const BLOCK_COST_RATE: Formula = Formula {
    figure: "cost of change in blocks",
    text: "C(t) = (C_p + C_f * M(t)) / t",
    source: "barlow-proschan",
};

/// Cost for each mean life of running, if edges are changed at fixed intervals and when worn in between.
///
/// C(t) = (C_p + C_f * M(t)) / t
///
/// # Symbols
/// t interval in mean lives. C_p cost of a planned change. C_f cost of a failure. M expected failures in the interval.
/// # Range
/// t above zero.
/// # Source
/// [barlow-proschan]
/// # Example
/// ```
/// use wearland::tooling::replacement::{age_cost_rate, block_cost_rate};
/// use wearland::tooling::scatter::LifeSpread;
/// let spread = LifeSpread::weibull(3.0);
/// // Young edges are thrown away too: blocks cost somewhat more than change by age.
/// assert!(block_cost_rate(&spread, 0.55, 1.0, 5.0) > age_cost_rate(&spread, 0.55, 1.0, 5.0));
/// ```
#[must_use]
pub fn block_cost_rate(spread: &LifeSpread, interval: f64, planned: f64, failure: f64) -> f64 {
    (planned + failure * renewal(spread, interval)) / interval
}

/// Longest interval tried, in mean lives.
const LONGEST: f64 = 4.0;
/// Intervals tried.
const STEPS: f64 = 1200.0;

/// Interval in mean lives that costs least; `None` if running to failure costs no more.
///
/// Intervals up to four mean lives are tried in steps of 1/300 and the best is refined by a parabola. For longer ones
/// the cost is C_f + (C_p - C_f (1 - CV^2) / 2) / t, which only falls where running to failure is cheaper still.
/// # Example
/// ```
/// use wearland::tooling::replacement::{best_age, best_block};
/// use wearland::tooling::scatter::LifeSpread;
/// let spread = LifeSpread::weibull(3.0);
/// let (block, age) = (best_block(&spread, 1.0, 5.0).unwrap(), best_age(&spread, 1.0, 5.0).unwrap());
/// assert!((block - age).abs() < 0.05);
/// assert_eq!(best_block(&spread, 1.0, 2.0), None); // C_p / C_f above (1 - CV^2) / 2
/// ```
#[must_use]
pub fn best_block(spread: &LifeSpread, planned: f64, failure: f64) -> Option<f64> {
    if failure <= 0.0 || planned <= 0.0 {
        return None;
    }
    let costs: Vec<(f64, f64)> = renewal_grid(spread, LONGEST, STEPS)
        .into_iter()
        .skip(1)
        .map(|(interval, failures)| (interval, (planned + failure * failures) / interval))
        .collect();
    let best = (0..costs.len()).min_by(|one, other| costs[*one].1.total_cmp(&costs[*other].1))?;
    let (interval, cost) = costs[best];
    if cost >= failure || best + 1 == costs.len() {
        return None;
    }
    let (Some(before), Some(after)) = (best.checked_sub(1).and_then(|at| costs.get(at)), costs.get(best + 1))
    else {
        return Some(interval);
    };
    let bend = before.1 - 2.0 * cost + after.1;
    if bend <= 0.0 {
        return Some(interval);
    }
    Some(interval + 0.25 * (after.0 - before.0) * (before.1 - after.1) / bend)
}
