//! The distribution of life with mean one: ages are shares of the mean life.

use super::{LifeFamily, Scatter, gamma_shape, log_deviation, root, weibull_shape, weibull_variation};
use statrs::function::erf::{erfc, erfc_inv};
use statrs::function::gamma::{gamma_lr, gamma_ur, ln_gamma};
use std::f64::consts::{PI, SQRT_2};

/// Life of equal edges about a mean of one. Built once, then cheap to ask.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LifeSpread {
    law: Law,
    variation: f64,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Law {
    Weibull { shape: f64, scale: f64 },
    Lognormal { deviation: f64 },
    Gamma { shape: f64, log_gamma: f64 },
}

impl LifeSpread {
    /// Of a scatter. A variation outside [`Scatter::LEAST`] to [`Scatter::MOST`] counts as the nearer end.
    #[must_use]
    pub fn new(scatter: Scatter) -> Self {
        let variation = scatter.variation.clamp(Scatter::LEAST, Scatter::MOST);
        match scatter.family {
            LifeFamily::Weibull => Self::weibull(weibull_shape(variation)),
            LifeFamily::Lognormal => {
                Self { law: Law::Lognormal { deviation: log_deviation(variation) }, variation }
            }
            LifeFamily::Gamma => {
                let shape = gamma_shape(variation);
                Self { law: Law::Gamma { shape, log_gamma: ln_gamma(shape) }, variation }
            }
        }
    }

    /// Weibull of a shape that is known, as from a fit.
    #[must_use]
    pub fn weibull(shape: f64) -> Self {
        let scale = (-ln_gamma(1.0 + 1.0 / shape)).exp();
        Self { law: Law::Weibull { shape, scale }, variation: weibull_variation(shape) }
    }

    /// R: share of edges that outlive an age.
    #[must_use]
    pub fn survival(&self, age: f64) -> f64 {
        if age <= 0.0 {
            return 1.0;
        }
        match self.law {
            Law::Weibull { shape, scale } => (-(age / scale).powf(shape)).exp(),
            Law::Lognormal { deviation } => normal_tail(age.ln() / deviation + 0.5 * deviation),
            Law::Gamma { shape, .. } if age.is_finite() => gamma_ur(shape, shape * age),
            Law::Gamma { .. } => 0.0,
        }
    }

    /// F: share of edges worn by an age.
    #[must_use]
    pub fn worn(&self, age: f64) -> f64 {
        if age <= 0.0 {
            return 0.0;
        }
        match self.law {
            Law::Weibull { shape, scale } => -(-(age / scale).powf(shape)).exp_m1(),
            Law::Lognormal { deviation } => normal_tail(-(age.ln() / deviation + 0.5 * deviation)),
            Law::Gamma { shape, .. } if age.is_finite() => gamma_lr(shape, shape * age),
            Law::Gamma { .. } => 1.0,
        }
    }

    /// h: failures for each mean life among edges of this age, f / R.
    #[must_use]
    pub fn hazard(&self, age: f64) -> f64 {
        let age = age.max(f64::MIN_POSITIVE);
        match self.law {
            Law::Weibull { shape, scale } => shape / scale * (age / scale).powf(shape - 1.0),
            Law::Lognormal { deviation } => {
                let z = age.ln() / deviation + 0.5 * deviation;
                normal_hazard(z) / (deviation * age)
            }
            Law::Gamma { shape, log_gamma } => {
                let density = (shape * shape.ln() + (shape - 1.0) * age.ln() - shape * age - log_gamma).exp();
                let survival = self.survival(age);
                // Far out both die away and their ratio tends to the shape.
                if survival > 1e-290 { density / survival } else { shape - (shape - 1.0) / age }
            }
        }
    }

    /// Age that a share of edges outlives; infinite for a share of zero.
    #[must_use]
    pub fn age_at(&self, survival: f64) -> f64 {
        if survival >= 1.0 {
            return 0.0;
        }
        if survival <= 0.0 {
            return f64::INFINITY;
        }
        match self.law {
            Law::Weibull { shape, scale } => scale * (-survival.ln()).powf(1.0 / shape),
            Law::Lognormal { deviation } => {
                (deviation * (SQRT_2 * erfc_inv(2.0 * survival) - 0.5 * deviation)).exp()
            }
            Law::Gamma { .. } => root((1e-30, 1e4), |age| self.survival(age) < survival),
        }
    }

    /// Mean age reached by edges that are changed at an age or when worn: the integral of R from 0 to it.
    #[must_use]
    pub fn lived(&self, age: f64) -> f64 {
        if age <= 0.0 {
            return 0.0;
        }
        if !age.is_finite() {
            return 1.0;
        }
        match self.law {
            Law::Weibull { shape, scale } => {
                let power = (age / scale).powf(shape);
                if power < 1e-300 { age } else { gamma_lr(1.0 / shape, power.min(1e300)) }
            }
            Law::Lognormal { deviation } => {
                age * self.survival(age) + normal_tail(-(age.ln() / deviation - 0.5 * deviation))
            }
            Law::Gamma { shape, .. } => age * self.survival(age) + gamma_lr(shape + 1.0, shape * age),
        }
    }

    /// Variance: the square of the coefficient of variation, as the mean is one.
    #[must_use]
    pub fn variance(&self) -> f64 {
        self.variation * self.variation
    }

    /// Third moment about the mean.
    #[must_use]
    pub fn third_moment(&self) -> f64 {
        match self.law {
            Law::Weibull { shape, .. } => {
                let moment = |n: f64| (ln_gamma(1.0 + n / shape) - n * ln_gamma(1.0 + 1.0 / shape)).exp();
                moment(3.0) - 3.0 * moment(2.0) + 2.0
            }
            Law::Lognormal { .. } => self.variance().powi(2) * (3.0 + self.variance()),
            Law::Gamma { .. } => 2.0 * self.variance().powi(2),
        }
    }

    /// Age from which the hazard falls: zero if it never rises, infinite if it never falls.
    #[must_use]
    pub fn hazard_peak(&self) -> f64 {
        match self.law {
            Law::Weibull { shape, .. } | Law::Gamma { shape, .. } => {
                if shape >= 1.0 {
                    f64::INFINITY
                } else {
                    0.0
                }
            }
            // d ln h / d ln t = 0: the normal hazard at z less z equals the deviation, and falls all the way.
            Law::Lognormal { deviation } => {
                let (mut low, mut high) = (-10.0, 1.0 / deviation + 10.0);
                for _ in 0..60 {
                    let z = 0.5 * (low + high);
                    if normal_hazard(z) - z > deviation { low = z } else { high = z }
                }
                (deviation * (low - 0.5 * deviation)).exp()
            }
        }
    }
}

/// Share of the normal law above z.
fn normal_tail(z: f64) -> f64 {
    0.5 * erfc(z / SQRT_2)
}

/// Density over tail of the normal law.
fn normal_hazard(z: f64) -> f64 {
    if z > 30.0 {
        let square = z * z;
        return z * (1.0 + 1.0 / square - 2.0 / (square * square));
    }
    (-0.5 * z * z).exp() / (2.0 * PI).sqrt() / normal_tail(z)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_laws_agree_with_themselves() {
        for (_, family) in LifeFamily::NAMES {
            for variation in [0.02, 0.1, 0.3, 0.5, 1.0, 1.5] {
                let spread = LifeSpread::new(Scatter { family, variation });
                assert!((spread.variance().sqrt() - variation).abs() < 1e-10);
                assert!((spread.lived(1e6) - 1.0).abs() < 1e-9, "{family:?} {variation}");
                for share in [0.999, 0.9, 0.5, 0.1, 1e-3, 1e-9] {
                    let age = spread.age_at(share);
                    assert!(
                        (spread.survival(age) / share - 1.0).abs() < 1e-9,
                        "{family:?} {variation} {share}"
                    );
                    assert!((spread.worn(age) + spread.survival(age) - 1.0).abs() < 1e-13);
                    let step = 1e-5 * age;
                    let fall =
                        (spread.survival(age - step) / spread.survival(age + step)).ln() / (2.0 * step);
                    assert!((spread.hazard(age) / fall - 1.0).abs() < 1e-4, "{family:?} {variation} {share}");
                    let lived = (spread.lived(age + step) - spread.lived(age - step)) / (2.0 * step);
                    assert!((lived - share).abs() < 1e-4 * share + 1e-8, "{family:?} {variation} {share}");
                }
            }
        }
    }

    #[test]
    fn a_lognormal_hazard_rises_to_its_peak_and_falls() {
        for variation in [0.05, 0.3, 1.5] {
            let spread = LifeSpread::new(Scatter { family: LifeFamily::Lognormal, variation });
            let peak = spread.hazard_peak();
            assert!(spread.hazard(0.98 * peak) < spread.hazard(peak));
            assert!(spread.hazard(1.02 * peak) < spread.hazard(peak));
        }
    }
}
