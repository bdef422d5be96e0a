//! Intervals from the likelihood ratio: what the data do not rule out.

use super::censored::{centred, fit_censored};
use super::error::FitError;
use super::likelihood::{Axes, Likelihood};
use super::maximum::{covariance, maximum};
use super::normal::two_sided;
use super::sample::{Family, Row};

/// What the interval is of.
#[derive(Debug, Clone, PartialEq)]
pub enum Profiled {
    /// A coefficient; 0 is the constant.
    Coefficient(usize),
    /// The scatter sigma.
    Sigma,
    /// The logarithm of the life that a share `p` of the edges does not reach, at the covariates `x`.
    Quantile {
        /// Share, between 0 and 1.
        p: f64,
        /// Covariates.
        x: Vec<f64>,
    },
}

/// Likelihood-ratio interval at the confidence `level`: all values c with 2 (l_max - l(c)) no more than the quantile of
/// chi-square with one degree of freedom, l(c) being maximised over all other unknowns. An end that the data do not
/// bound is infinite (0 for sigma downwards).
///
/// # Symbols
/// l log-likelihood. c value of the coefficient, of sigma, or of ln T.
/// # Range
/// As for the fit.
/// # Errors
/// Those of [`fit_censored`]; a coefficient that is not there, or covariates that do not match, are [`FitError::Covariates`].
/// # Source
/// \[meeker-escobar\], \[lawless\].
pub fn profile_interval(
    rows: &[Row],
    family: Family,
    of: &Profiled,
    level: f64,
) -> Result<(f64, f64), FitError> {
    let fit = fit_censored(rows, family, None)?;
    let covariates = fit.coefficients.len() - 1;
    let central = Axes::central(rows);
    let (axes, unknown) = match of {
        Profiled::Sigma => (central, covariates + 1),
        Profiled::Coefficient(0) => (Axes { x: vec![0.0; covariates], ..central }, 0),
        Profiled::Coefficient(at) if *at <= covariates => (central, *at),
        Profiled::Quantile { p, x } if x.len() == covariates => (fit.axes_at(rows, *p, x), 0),
        Profiled::Coefficient(_) | Profiled::Quantile { .. } => return Err(FitError::Covariates { row: 0 }),
    };
    let likelihood = Likelihood::new(rows, family, &axes);
    let peak = centred(&fit.coefficients, fit.sigma.ln(), &axes);
    let profile = Profile {
        highest: likelihood.value(&peak),
        step: covariance(&likelihood, &peak)?[unknown][unknown].sqrt(),
        allowed: two_sided(level).powi(2),
        free: (0..peak.len()).filter(|at| *at != unknown).collect(),
        likelihood,
        peak,
        unknown,
    };
    let ends = (profile.end(-1.0)?, profile.end(1.0)?);
    Ok(match of {
        Profiled::Sigma => (ends.0.exp(), ends.1.exp()),
        Profiled::Coefficient(1..) => ends,
        Profiled::Coefficient(_) | Profiled::Quantile { .. } => {
            (ends.0 + axes.log_life, ends.1 + axes.log_life)
        }
    })
}

struct Profile {
    likelihood: Likelihood,
    peak: Vec<f64>,
    highest: f64,
    unknown: usize,
    free: Vec<usize>,
    step: f64,
    allowed: f64,
}

/// A value of the profiled unknown, the other unknowns there, and by how much the ratio exceeds what is allowed.
struct Station {
    at: Vec<f64>,
    excess: f64,
}

impl Profile {
    fn station(&self, value: f64, near: &[f64]) -> Result<Station, FitError> {
        let mut start = near.to_vec();
        start[self.unknown] = value;
        let at = maximum(&self.likelihood, &start, &self.free)?;
        let excess = 2.0 * (self.highest - self.likelihood.value(&at)) - self.allowed;
        Ok(Station { at, excess })
    }

    /// The end on one side, infinite if the ratio stays below what is allowed.
    fn end(&self, side: f64) -> Result<f64, FitError> {
        let mut inner = Station { at: self.peak.clone(), excess: -self.allowed };
        let mut reach = self.step * self.allowed.sqrt();
        let outer = loop {
            let station = self.station(inner.at[self.unknown] + side * reach, &inner.at)?;
            if station.excess >= 0.0 {
                break station;
            }
            inner = station;
            reach *= 1.5;
            if reach > 1e4 * self.step {
                return Ok(side * f64::INFINITY);
            }
        };
        self.crossing(inner, outer)
    }

    /// Regula falsi; an end that stays put twice running counts for half, so that both ends move.
    fn crossing(&self, mut inner: Station, mut outer: Station) -> Result<f64, FitError> {
        let (mut below, mut above, mut side) = (inner.excess, outer.excess, 0);
        for _ in 0..100 {
            let (low, high) = (inner.at[self.unknown], outer.at[self.unknown]);
            let next = self.station(low + (high - low) * below / (below - above), &inner.at)?;
            if next.excess.abs() < 1e-10 || (high - low).abs() < 1e-12 * self.step {
                return Ok(next.at[self.unknown]);
            }
            if next.excess < 0.0 {
                below = next.excess;
                above *= if side < 0 { 0.5 } else { 1.0 };
                (inner, side) = (next, -1);
            } else {
                above = next.excess;
                below *= if side > 0 { 0.5 } else { 1.0 };
                (outer, side) = (next, 1);
            }
        }
        Ok(0.5 * (inner.at[self.unknown] + outer.at[self.unknown]))
    }
}
