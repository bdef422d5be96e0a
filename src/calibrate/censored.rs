//! Maximum likelihood for lives of which some were cut short.

use super::check::fit_for_censored;
use super::error::FitError;
use super::fit::Fit;
use super::likelihood::{Axes, Likelihood};
use super::matrix::{dot, least_squares, transformed};
use super::maximum::{covariance, maximum};
use super::sample::{Family, Prior, Row, failure_count};

/// Fits ln T = b0 + b1 x1 + ... + sigma W by maximum likelihood, with rows that were changed early.
///
/// l = sum over failures of ln(f(z)/(sigma t)) + sum over the others of ln S(z), z = (ln t - x'b)/sigma. With a prior
/// the sum of ((b - mean)/sd)^2 / 2 is taken off; l itself is reported without it.
///
/// # Symbols
/// T life. x covariates. b coefficients. sigma scatter of ln T. f, S density and tail of W.
/// # Range
/// At least one failure more than there are coefficients without a prior.
/// # Errors
/// Rows that are no lives, too few failures, covariates without spread or that moved together, no clear peak.
/// # Source
/// \[lawless\], \[nelson-1982\], \[meeker-escobar\].
/// # Example
/// Ten of twenty units failed, the others were still running at 500 h \[nist-handbook\]:
/// ```
/// use wearland::calibrate::{Family, Outcome, Row, fit_censored};
/// let failed = [54.0, 187.0, 216.0, 240.0, 244.0, 335.0, 361.0, 373.0, 375.0, 386.0];
/// let mut rows: Vec<Row> = failed.iter().map(|life| Row::failed(vec![], *life)).collect();
/// rows.push(Row { x: vec![], life: 500.0, outcome: Outcome::RightCensored, weight: 10.0 });
/// let fit = fit_censored(&rows, Family::Weibull, None)?;
/// assert!((1.0 / fit.sigma - 1.7208).abs() < 1e-4);
/// assert!((fit.coefficients[0].exp() - 606.528).abs() < 1e-3);
/// # Ok::<(), wearland::calibrate::FitError>(())
/// ```
pub fn fit_censored(rows: &[Row], family: Family, prior: Option<&Prior>) -> Result<Fit, FitError> {
    fit_from(rows, family, prior, &[])
}

/// The same, with guesses (coefficients and ln sigma) to start from as well.
pub(super) fn fit_from(
    rows: &[Row],
    family: Family,
    prior: Option<&Prior>,
    guesses: &[(Vec<f64>, f64)],
) -> Result<Fit, FitError> {
    fit_for_censored(rows, prior)?;
    let axes = Axes::central(rows);
    let mut likelihood = Likelihood::new(rows, family, &axes);
    if let Some(prior) = prior {
        likelihood = likelihood.with_prior(prior, &axes);
    }
    let free: Vec<usize> = (0..likelihood.unknowns()).collect();
    let mut best: Result<Vec<f64>, FitError> = Err(FitError::NoPeak);
    let mut starts: Vec<Vec<f64>> =
        guesses.iter().map(|(coefficients, log_sigma)| centred(coefficients, *log_sigma, &axes)).collect();
    if starts.is_empty() {
        starts = own_starts(&likelihood, prior);
    }
    for start in starts {
        match (maximum(&likelihood, &start, &free), &best) {
            (Ok(peak), Ok(so_far)) if likelihood.value(&peak) <= likelihood.value(so_far) => {}
            (Ok(peak), _) => best = Ok(peak),
            (Err(FitError::NoScatter), Err(_)) => best = Err(FitError::NoScatter),
            (Err(_), _) => {}
        }
    }
    described(&likelihood, &best?, &axes, (rows, prior))
}

/// Least squares of the failures, of all rows, no slope at all, and the slopes of the prior.
fn own_starts(likelihood: &Likelihood, prior: Option<&Prior>) -> Vec<Vec<f64>> {
    let covariates = likelihood.unknowns() - 2;
    let mut slopes: Vec<Vec<f64>> = Vec::new();
    for all in [false, true] {
        let points = || likelihood.points.iter().filter(move |point| all || point.failed);
        let design: Vec<Vec<f64>> = points().map(|point| point.design.clone()).collect();
        let lives: Vec<f64> = points().map(|point| point.log_life).collect();
        slopes.extend(least_squares(&design, &lives).map(|fit| fit.solution[1..].to_vec()));
    }
    slopes.push(vec![0.0; covariates]);
    if let Some(prior) = prior {
        let known = |at: usize| if prior.speaks_of(at) { prior.mean[at] } else { 0.0 };
        slopes.push((1..=covariates).map(known).collect());
    }
    slopes.iter().map(|slopes| start_along(likelihood, slopes)).collect()
}

/// Constant and sigma that go with the slopes, as the failures have them.
fn start_along(likelihood: &Likelihood, slopes: &[f64]) -> Vec<f64> {
    let failed: Vec<(f64, f64)> = likelihood
        .points
        .iter()
        .filter(|point| point.failed)
        .map(|point| (point.weight, point.log_life - dot(&point.design[1..], slopes)))
        .collect();
    let whole: f64 = failed.iter().map(|(weight, _)| weight).sum();
    let mean = failed.iter().map(|(weight, rest)| weight * rest).sum::<f64>() / whole;
    let variance = failed.iter().map(|(weight, rest)| weight * (rest - mean).powi(2)).sum::<f64>() / whole;
    let sigma = variance.sqrt().max(0.02);
    let constant = mean - likelihood.family.mean_deviate() * sigma;
    std::iter::once(constant).chain(slopes.iter().copied()).chain([sigma.ln()]).collect()
}

/// Coefficients as the axes have them.
pub(super) fn centred(coefficients: &[f64], log_sigma: f64, axes: &Axes) -> Vec<f64> {
    let slopes = &coefficients[1..];
    let constant = coefficients[0] + dot(slopes, &axes.x) + axes.deviate * log_sigma.exp() - axes.log_life;
    std::iter::once(constant).chain(slopes.iter().copied()).chain([log_sigma]).collect()
}

/// The peak in the caller's own axes.
fn described(
    likelihood: &Likelihood,
    peak: &[f64],
    axes: &Axes,
    (rows, prior): (&[Row], Option<&Prior>),
) -> Result<Fit, FitError> {
    let last = peak.len() - 1;
    let mut coefficients = peak[..last].to_vec();
    coefficients[0] += axes.log_life - dot(&peak[1..last], &axes.x);
    let jacobian: Vec<Vec<f64>> = (0..=last)
        .map(|row| {
            (0..=last)
                .map(|column| match (row, column) {
                    _ if row == column => 1.0,
                    (0, column) if column < last => -axes.x[column - 1],
                    _ => 0.0,
                })
                .collect()
        })
        .collect();
    let covariance = transformed(&jacobian, &covariance(likelihood, peak)?);
    let failures = failure_count(rows);
    let logs: f64 = rows.iter().filter(|row| row.has_failed()).map(|row| row.weight * row.life.ln()).sum();
    let data_weight = prior.map(|prior| {
        // Where data and prior contradict each other the information may fall short of the prior's.
        let weight = |at: usize| (1.0 - covariance[at][at] / prior.sd[at].powi(2)).clamp(0.0, 1.0);
        (0..last).map(weight).collect::<Vec<f64>>()
    });
    Ok(Fit {
        family: likelihood.family,
        coefficients,
        sigma: peak[last].exp(),
        log_likelihood: likelihood.of_data(peak) - logs,
        covariance,
        failures,
        censored: rows.iter().map(|row| row.weight).sum::<f64>() - failures,
        data_weight,
    })
}
