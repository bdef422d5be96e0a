//! Families of life distributions and their parameters from the coefficient of variation.

use super::root;
use crate::quantity::Formula;
use statrs::function::gamma::ln_gamma;

/// Law by which life scatters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LifeFamily {
    /// Weibull: wear together with chipping and fracture.
    Weibull,
    /// Lognormal: wear by many causes that multiply.
    Lognormal,
    /// Gamma: wear as a sum of small steps.
    Gamma,
}

impl LifeFamily {
    /// Names as written in scenarios and reports.
    pub const NAMES: [(&'static str, Self); 3] =
        [("weibull", Self::Weibull), ("lognormal", Self::Lognormal), ("gamma", Self::Gamma)];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Weibull => "weibull",
            Self::Lognormal => "lognormal",
            Self::Gamma => "gamma",
        }
    }
}

/// How much the life of equal edges scatters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scatter {
    /// Law.
    pub family: LifeFamily,
    /// Coefficient of variation: standard deviation over mean.
    pub variation: f64,
}

/// Formula of [`Scatter::USUAL`].
pub const USUAL_SCATTER: Formula =
    Formula { figure: "scatter of life", text: "CV = 0.3", source: "wager-barash-1971" };

impl Scatter {
    /// Where nothing better is known: 0.3, as measured on tools of high-speed steel in low-carbon steel, where lives
    /// were near normal. A Weibull law of that variation is near normal too.
    pub const USUAL: Self = Self { family: LifeFamily::Weibull, variation: 0.3 };
    /// Least coefficient of variation that is worked.
    pub const LEAST: f64 = 0.02;
    /// Largest coefficient of variation that is worked.
    pub const MOST: f64 = 1.5;
}

/// Formula of [`weibull_shape`].
pub const WEIBULL_SHAPE: Formula = Formula {
    figure: "Weibull shape",
    text: "Gamma(1 + 2/beta) / Gamma(1 + 1/beta)^2 = 1 + CV^2",
    source: "derived",
};

/// Weibull shape of a coefficient of variation.
///
/// Gamma(1 + 2/beta) / Gamma(1 + 1/beta)^2 = 1 + CV^2
///
/// # Symbols
/// beta shape. CV coefficient of variation.
/// # Range
/// Shapes from 0.2 to 200, that is CV from 0.0064 to 15; the ends hold outside.
/// # Source
/// \[derived\] from mean and variance of the Weibull law.
/// # Example
/// ```
/// use wearland::tooling::scatter::weibull_shape;
/// assert!((weibull_shape(0.3) - 3.7137724).abs() < 1e-7);
/// ```
#[must_use]
pub fn weibull_shape(variation: f64) -> f64 {
    root((0.2, 200.0), |shape| weibull_variation(shape) < variation)
}

/// Coefficient of variation of a Weibull shape: [`weibull_shape`] the other way round.
#[must_use]
pub fn weibull_variation(shape: f64) -> f64 {
    (ln_gamma(1.0 + 2.0 / shape) - 2.0 * ln_gamma(1.0 + 1.0 / shape)).exp_m1().max(0.0).sqrt()
}

/// Formula of [`log_deviation`].
pub const LOG_DEVIATION: Formula =
    Formula { figure: "deviation of log life", text: "sigma = sqrt(ln(1 + CV^2))", source: "derived" };

/// Standard deviation of the natural logarithm of a lognormal life.
///
/// sigma = sqrt(ln(1 + CV^2))
///
/// # Symbols
/// sigma deviation of ln T. CV coefficient of variation of T.
/// # Range
/// All CV above zero.
/// # Source
/// \[derived\] from mean and variance of the lognormal law.
/// # Example
/// ```
/// use wearland::tooling::scatter::log_deviation;
/// assert!((log_deviation(0.3) - 0.2936).abs() < 5e-5);
/// ```
#[must_use]
pub fn log_deviation(variation: f64) -> f64 {
    (variation * variation).ln_1p().sqrt()
}

/// Formula of [`gamma_shape`].
pub const GAMMA_SHAPE: Formula = Formula { figure: "gamma shape", text: "k = 1 / CV^2", source: "derived" };

/// Shape of a gamma life.
///
/// k = 1 / CV^2
///
/// # Symbols
/// k shape. CV coefficient of variation.
/// # Range
/// All CV above zero.
/// # Source
/// \[derived\] from mean and variance of the gamma law.
/// # Example
/// ```
/// use wearland::tooling::scatter::gamma_shape;
/// assert!((gamma_shape(0.4) - 6.25).abs() < 1e-12);
/// ```
#[must_use]
pub fn gamma_shape(variation: f64) -> f64 {
    1.0 / (variation * variation)
}
