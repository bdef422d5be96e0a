//! The straight line through ln T by least squares.

use super::check::{sound_rows, spread};
use super::error::{Among, FitError};
use super::matrix::{dot, least_squares};
use super::normal::ratio_tail;
use super::sample::Row;
use std::cmp::Ordering;

/// A line fitted by least squares: ln T = b0 + b1 x1 + ... + e.
#[derive(Debug, Clone, PartialEq)]
pub struct LineFit {
    /// b0, the constant, then one for each covariate.
    pub coefficients: Vec<f64>,
    /// Covariance of the coefficients for a variance of one: the inverse of X'X.
    pub inverse: Vec<Vec<f64>>,
    /// Sum of squared residuals.
    pub residual_sum: f64,
    /// Degrees of freedom left: edges less coefficients.
    pub degrees: f64,
    /// Standard deviation of the residuals; `None` where no degree of freedom is left.
    pub scatter: Option<f64>,
    /// Share of the variation of ln T that the line explains.
    pub r_squared: f64,
    /// Whether a line is enough; `None` without repeats, or without settings to spare.
    pub lack_of_fit: Option<LackOfFit>,
    /// Edges in the fit.
    pub used: f64,
    /// Edges changed early, which least squares must leave out.
    pub left_out: f64,
}

/// F test of the line against the scatter of repeats at the same setting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LackOfFit {
    /// Sum of squares within the settings.
    pub pure_error: f64,
    /// Mean square of the settings about the line over the mean square within them.
    pub ratio: f64,
    /// Degrees of freedom of the settings about the line.
    pub between: f64,
    /// Degrees of freedom within the settings.
    pub within: f64,
    /// Chance of a ratio as large if the line is right.
    pub chance: f64,
}

/// Fits ln T = b0 + b1 x1 + ... by least squares to the rows that failed.
///
/// b = (X'X)^-1 X' ln T, by Householder reflections; rows that stand for several edges count as often.
///
/// # Symbols
/// T life. x covariates. b coefficients.
/// # Range
/// At least as many failures as coefficients. Lives cut short are left out, which biases lives downwards: use the
/// censored fit where there are any.
/// # Errors
/// Rows that are no lives, too few failures, covariates without spread or that moved together.
/// # Source
/// \[groover\] for the law on logarithmic axes.
/// # Example
/// 10 min at 100 m/min and 30 min at 75 m/min \[groover\]: n = 0.262, C = 183 m/min.
/// ```
/// use wearland::calibrate::{Row, fit_least_squares};
/// let rows = [(100.0, 10.0), (75.0, 30.0)].map(|(v, t): (f64, f64)| Row::failed(vec![v.ln()], t));
/// let constants = fit_least_squares(&rows)?.taylor(0.95).unwrap();
/// assert!((constants.n.value - 0.262).abs() < 5e-4);
/// assert!((constants.c.value - 183.0).abs() < 0.5);
/// # Ok::<(), wearland::calibrate::FitError>(())
/// ```
pub fn fit_least_squares(rows: &[Row]) -> Result<LineFit, FitError> {
    let covariates = sound_rows(rows)?;
    let failed: Vec<&Row> = rows.iter().filter(|row| row.has_failed()).collect();
    if failed.is_empty() {
        return Err(FitError::NoFailure);
    }
    let used: f64 = failed.iter().map(|row| row.weight).sum();
    if failed.len() < covariates + 1 {
        return Err(FitError::TooFewFailures { failures: used, needed: covariates + 1 });
    }
    spread(&failed, &(0..covariates).collect::<Vec<_>>(), Among::Failures)?;
    let design: Vec<Vec<f64>> = failed
        .iter()
        .map(|row| std::iter::once(1.0).chain(row.x.iter().copied()).map(|x| x * row.weight.sqrt()).collect())
        .collect();
    let lives: Vec<f64> = failed.iter().map(|row| row.weight.sqrt() * row.life.ln()).collect();
    let fit = least_squares(&design, &lives).ok_or(FitError::Collinear { among: Among::Failures })?;
    let mean = failed.iter().map(|row| row.weight * row.life.ln()).sum::<f64>() / used;
    let total: f64 = failed.iter().map(|row| row.weight * (row.life.ln() - mean).powi(2)).sum();
    let degrees = used - fit.solution.iter().map(|_| 1.0).sum::<f64>();
    Ok(LineFit {
        lack_of_fit: lack_of_fit(&failed, fit.residual_sum, degrees),
        scatter: (degrees > 0.0).then(|| (fit.residual_sum / degrees).sqrt()),
        r_squared: if total > 0.0 { 1.0 - fit.residual_sum / total } else { 0.0 },
        coefficients: fit.solution,
        inverse: fit.inverse,
        residual_sum: fit.residual_sum,
        degrees,
        used,
        left_out: rows.iter().map(|row| row.weight).sum::<f64>() - used,
    })
}

fn by_setting(one: &Row, other: &Row) -> Ordering {
    let pairs = one.x.iter().zip(&other.x);
    pairs.map(|(a, b)| a.total_cmp(b)).find(|order| order.is_ne()).unwrap_or(Ordering::Equal)
}

fn lack_of_fit(failed: &[&Row], residual_sum: f64, degrees: f64) -> Option<LackOfFit> {
    let (mut pure_error, mut within) = (0.0, 0.0);
    let mut sorted = failed.to_vec();
    sorted.sort_by(|one, other| by_setting(one, other));
    for setting in sorted.chunk_by(|one, other| by_setting(one, other).is_eq()) {
        let count: f64 = setting.iter().map(|row| row.weight).sum();
        let mean = setting.iter().map(|row| row.weight * row.life.ln()).sum::<f64>() / count;
        pure_error += setting.iter().map(|row| row.weight * (row.life.ln() - mean).powi(2)).sum::<f64>();
        within += count - 1.0;
    }
    let between = degrees - within;
    if within <= 0.0 || between < 0.5 || pure_error <= 0.0 {
        return None;
    }
    let ratio = ((residual_sum - pure_error) / between / (pure_error / within)).max(0.0);
    Some(LackOfFit { pure_error, ratio, between, within, chance: ratio_tail(ratio, between, within) })
}

impl LineFit {
    /// Standard errors of the coefficients; `None` where no degree of freedom is left.
    #[must_use]
    pub fn standard_errors(&self) -> Option<Vec<f64>> {
        let scatter = self.scatter?;
        Some((0..self.inverse.len()).map(|at| scatter * self.inverse[at][at].sqrt()).collect())
    }

    /// Mean of ln T at the covariates; its exponential is the median life.
    #[must_use]
    pub fn mean(&self, x: &[f64]) -> f64 {
        self.coefficients[0] + dot(&self.coefficients[1..], x)
    }
}
