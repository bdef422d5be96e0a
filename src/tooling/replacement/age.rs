//! Change at an age or when worn, whichever comes first.

use super::super::scatter::{LifeSpread, root};
use crate::quantity::Formula;

/// Formula of [`age_cost_rate`].
pub const AGE_COST_RATE: Formula = Formula {
    figure: "cost of change by age",
    text: "C(t) = (C_p * R(t) + C_f * F(t)) / integral 0..t of R",
    source: "barlow-proschan",
};

/// Cost for each mean life of running, if edges are changed at an age or when worn.
///
/// C(t) = (C_p * R(t) + C_f * F(t)) / integral 0..t of R
///
/// # Symbols
/// t age at change, in mean lives. C_p cost of a planned change. C_f cost of a failure. R survival. F = 1 - R.
/// # Range
/// t above zero. In costs for each mean life: divide by the mean life for a rate in time.
/// # Source
/// [barlow-proschan]. Worked examples: tests/published/replacement.toml.
/// # Example
/// ```
/// use wearland::tooling::replacement::age_cost_rate;
/// use wearland::tooling::scatter::LifeSpread;
/// // Weibull of shape 2.5 changed at 0.556 of its mean life, failures five times as dear: 0.614 of run to failure.
/// let cost = age_cost_rate(&LifeSpread::weibull(2.5), 0.5557, 1.0, 5.0);
/// assert!((cost / 5.0 - 0.614).abs() < 5e-4);
/// ```
#[must_use]
pub fn age_cost_rate(spread: &LifeSpread, age: f64, planned: f64, failure: f64) -> f64 {
    (planned * spread.survival(age) + failure * spread.worn(age)) / spread.lived(age)
}

/// Formula of [`best_age`].
pub const BEST_AGE: Formula = Formula {
    figure: "best age at change",
    text: "h(t) * integral 0..t of R - F(t) = C_p / (C_f - C_p)",
    source: "barlow-proschan",
};

/// Survival below which waiting longer is running to failure.
const GONE: f64 = 1e-12;

/// Age at change that costs least, in mean lives; `None` if running to failure costs no more.
///
/// h(t) * integral 0..t of R - F(t) = C_p / (C_f - C_p)
///
/// # Symbols
/// t age at change. h hazard. R survival. F = 1 - R. C_p cost of a planned change. C_f cost of a failure.
/// # Range
/// A failure dearer than a planned change and a hazard that rises. A lognormal hazard falls far out: the root before
/// its peak is taken, and only if it is cheaper than running to failure. An age that fewer than one edge in 10^12
/// would reach counts as running to failure.
/// # Source
/// [barlow-proschan]. Worked examples: tests/published/replacement.toml.
/// # Example
/// ```
/// use wearland::tooling::replacement::best_age;
/// use wearland::tooling::scatter::LifeSpread;
/// let age = best_age(&LifeSpread::weibull(3.0), 1.0, 5.0).unwrap();
/// assert!((age - 0.563).abs() < 5e-4);
/// assert_eq!(best_age(&LifeSpread::weibull(1.0), 1.0, 5.0), None); // no wear-out, no planned change
/// ```
#[must_use]
pub fn best_age(spread: &LifeSpread, planned: f64, failure: f64) -> Option<f64> {
    if failure <= planned || planned <= 0.0 {
        return None;
    }
    let ratio = planned / (failure - planned);
    let passed = |age: f64| spread.hazard(age) * spread.lived(age) - spread.worn(age) >= ratio;
    let last = spread.age_at(GONE).min(spread.hazard_peak());
    if last <= 0.0 || !passed(last) {
        return None;
    }
    let age = root((1e-9 * last, last), passed);
    (age_cost_rate(spread, age, planned, failure) < failure).then_some(age)
}
