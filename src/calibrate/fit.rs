//! What a censored fit says: errors, intervals, quantiles, residuals.

use super::likelihood::Axes;
use super::matrix::{dot, quadratic};
use super::normal::two_sided;
use super::sample::{Family, Row};

/// A censored fit of ln T = b0 + b1 x1 + ... + sigma W.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// Distribution of W.
    pub family: Family,
    /// b0, the constant, then one for each covariate.
    pub coefficients: Vec<f64>,
    /// Scatter of ln T; the Weibull shape is its reciprocal.
    pub sigma: f64,
    /// Log-likelihood of the data with the full density, the factor 1/t included.
    pub log_likelihood: f64,
    /// Covariance of (coefficients, ln sigma), from the observed information.
    pub covariance: Vec<Vec<f64>>,
    /// Edges that failed.
    pub failures: f64,
    /// Edges changed early.
    pub censored: f64,
    /// With a prior: what share of each coefficient the data decided, 0 where it is the prior's alone, 1 where the data's.
    pub data_weight: Option<Vec<f64>>,
}

/// A logarithm of a life and its standard error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogLife {
    /// ln T.
    pub value: f64,
    /// Its standard error.
    pub standard_error: f64,
}

impl LogLife {
    /// The life itself.
    #[must_use]
    pub fn life(self) -> f64 {
        self.value.exp()
    }

    /// Ends of the life by the normal approximation of its logarithm, at the confidence `level`.
    #[must_use]
    pub fn interval(self, level: f64) -> (f64, f64) {
        let half = two_sided(level) * self.standard_error;
        ((self.value - half).exp(), (self.value + half).exp())
    }
}

impl Fit {
    /// Standard errors of the coefficients, then of ln sigma.
    #[must_use]
    pub fn standard_errors(&self) -> Vec<f64> {
        (0..self.covariance.len()).map(|at| self.covariance[at][at].sqrt()).collect()
    }

    /// Ends of each coefficient, then of sigma, by the normal approximation at the confidence `level`:
    /// b -+ z se, and sigma exp(-+ z se(ln sigma)).
    #[must_use]
    pub fn wald(&self, level: f64) -> Vec<(f64, f64)> {
        let (z, errors) = (two_sided(level), self.standard_errors());
        let ends = |(value, error): (&f64, &f64)| (value - z * error, value + z * error);
        let mut intervals: Vec<(f64, f64)> = self.coefficients.iter().zip(&errors).map(ends).collect();
        let half = z * errors.last().copied().unwrap_or_default();
        intervals.push((self.sigma * (-half).exp(), self.sigma * half.exp()));
        intervals
    }

    /// Location x'b: the logarithm of the life that 63.2 % (Weibull) or half (lognormal) of the edges do not reach.
    #[must_use]
    pub fn location(&self, x: &[f64]) -> f64 {
        self.coefficients[0] + dot(&self.coefficients[1..], x)
    }

    /// Logarithm of the life that a share `p` of the edges does not reach, with its standard error by the delta method.
    #[must_use]
    pub fn quantile(&self, p: f64, x: &[f64]) -> LogLife {
        let deviate = self.family.deviate(p);
        let direction: Vec<f64> =
            std::iter::once(1.0).chain(x.iter().copied()).chain([deviate * self.sigma]).collect();
        LogLife {
            value: self.location(x) + deviate * self.sigma,
            standard_error: quadratic(&self.covariance, &direction).sqrt(),
        }
    }

    /// (ln t - x'b)/sigma of each row. Of a row changed early the true one is larger.
    #[must_use]
    pub fn standardised_residuals(&self, rows: &[Row]) -> Vec<f64> {
        rows.iter().map(|row| (row.life.ln() - self.location(&row.x)) / self.sigma).collect()
    }

    /// -ln S(t) of each row: if the model holds, a sample with censoring from the exponential distribution with mean 1.
    #[must_use]
    pub fn cox_snell_residuals(&self, rows: &[Row]) -> Vec<f64> {
        self.standardised_residuals(rows).iter().map(|z| -self.family.log_tail(*z)[0]).collect()
    }

    /// Axes whose constant is the quantile `p` at `x`.
    pub(super) fn axes_at(&self, rows: &[Row], p: f64, x: &[f64]) -> Axes {
        Axes { log_life: Axes::central(rows).log_life, x: x.to_vec(), deviate: self.family.deviate(p) }
    }
}
