//! What each row does to the fit, and which may have slipped by a decimal.

use super::censored::{fit_censored, fit_from};
use super::error::FitError;
use super::fit::Fit;
use super::line::{LineFit, fit_least_squares};
use super::normal::two_sided;
use super::sample::{Family, Prior, Row};

/// A residual must fall to this share for a slip to be named.
const LEFT: f64 = 0.2;
/// And twice the log-likelihood must rise by more than chance would lift it for the worst of all rows once in a hundred logs.
const CHANCE: f64 = 0.01;

/// What the fit would be without one row.
#[derive(Debug, Clone, PartialEq)]
pub struct Influence {
    /// The row, from 0.
    pub row: usize,
    /// Coefficients without it; `None` where the other rows do not determine them.
    pub without: Option<Vec<f64>>,
    /// How far each coefficient moves when the row is left out, in standard errors of the whole fit.
    pub shifts: Option<Vec<f64>>,
    /// A slip of the decimal point that would explain the row.
    pub slip: Option<Slip>,
}

/// A life that falls in line when its decimal point is moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slip {
    /// The life as it should be read.
    pub life: f64,
    /// By how much twice the log-likelihood rises with it.
    pub rise: f64,
}

/// Coefficients with their errors, and the log-likelihood on the scale of ln T.
struct Measure {
    coefficients: Vec<f64>,
    errors: Vec<f64>,
    log_likelihood: f64,
}

/// Leaves out each row in turn from a censored fit.
///
/// A life is called a slip of the decimal point if ten times it, or a tenth, brings its distance from the line through
/// the other rows down to a fifth or less, and raises twice the log-likelihood beyond the 99 % point of chi-square for the worst of
/// as many rows.
///
/// # Errors
/// Those of [`fit_censored`] with all rows.
pub fn influence(rows: &[Row], family: Family, prior: Option<&Prior>) -> Result<Vec<Influence>, FitError> {
    let whole = fit_censored(rows, family, prior)?;
    let guesses = [(whole.coefficients.clone(), whole.sigma.ln())];
    // The start at hand is the quickest; if it leads nowhere the full set is tried.
    let refit = |rows: &[Row]| {
        let fit = fit_from(rows, family, prior, &guesses).or_else(|_| fit_censored(rows, family, prior));
        fit.ok().map(|fit| measure(&fit, rows))
    };
    Ok(each(rows, &measure(&whole, rows), &refit))
}

/// Leaves out each row in turn from a line of least squares; see [`influence`].
///
/// # Errors
/// Those of [`fit_least_squares`] with all rows; too few rows to tell a scatter.
pub fn influence_on_line(rows: &[Row]) -> Result<Vec<Influence>, FitError> {
    let whole = fit_least_squares(rows)?;
    let needed = whole.coefficients.len() + 1;
    let measured = line_measure(&whole).ok_or(FitError::TooFewFailures { failures: whole.used, needed })?;
    let refit = |rows: &[Row]| fit_least_squares(rows).ok().and_then(|line| line_measure(&line));
    Ok(each(rows, &measured, &refit))
}

fn measure(fit: &Fit, rows: &[Row]) -> Measure {
    let logs: f64 = rows.iter().filter(|row| row.has_failed()).map(|row| row.weight * row.life.ln()).sum();
    Measure {
        coefficients: fit.coefficients.clone(),
        errors: fit.standard_errors(),
        log_likelihood: fit.log_likelihood + logs,
    }
}

fn line_measure(line: &LineFit) -> Option<Measure> {
    Some(Measure {
        coefficients: line.coefficients.clone(),
        errors: line.standard_errors()?,
        log_likelihood: -0.5 * line.used * (line.residual_sum / line.used).ln(),
    })
}

fn each(rows: &[Row], whole: &Measure, refit: &dyn Fn(&[Row]) -> Option<Measure>) -> Vec<Influence> {
    (0..rows.len())
        .map(|row| {
            let mut others = rows.to_vec();
            others.remove(row);
            let without = refit(&others);
            let shifts = without.as_ref().map(|without| {
                let parts = whole.coefficients.iter().zip(&without.coefficients).zip(&whole.errors);
                parts.map(|((with, without), error)| (without - with) / error).collect()
            });
            let slip = without.as_ref().and_then(|without| slip(rows, row, (whole, without), refit));
            Influence { row, without: without.map(|without| without.coefficients), shifts, slip }
        })
        .collect()
}

fn slip(
    rows: &[Row],
    row: usize,
    (whole, without): (&Measure, &Measure),
    refit: &dyn Fn(&[Row]) -> Option<Measure>,
) -> Option<Slip> {
    let suspect = rows.get(row).filter(|row| row.has_failed())?;
    let expected = without.coefficients[0] + super::matrix::dot(&without.coefficients[1..], &suspect.x);
    let off = suspect.life.ln() - expected;
    let factor: f64 = if off > 0.0 { 0.1 } else { 10.0 };
    if (off + factor.ln()).abs() > LEFT * off.abs() {
        return None;
    }
    let mut mended = rows.to_vec();
    mended[row].life *= factor;
    let rise = 2.0 * (refit(&mended)?.log_likelihood - whole.log_likelihood);
    let needed = two_sided(1.0 - CHANCE / f64::from(u32::try_from(rows.len()).unwrap_or(u32::MAX))).powi(2);
    (rise >= needed).then_some(Slip { life: mended[row].life, rise })
}
