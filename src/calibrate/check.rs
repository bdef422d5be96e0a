//! What a log must hold before a likelihood is worth maximising.

use super::error::{Among, FitError};
use super::matrix::least_squares;
use super::sample::{Prior, Row, failure_count, known_before};

/// Covariates are logarithms: settings that differ by less than half a percent are one setting.
const SAME: f64 = 0.005;

/// Each row on its own: lives and weights above zero, as many covariates as in the first row.
pub(super) fn sound_rows(rows: &[Row]) -> Result<usize, FitError> {
    let covariates = rows.first().ok_or(FitError::Empty)?.x.len();
    for (row, entry) in rows.iter().enumerate() {
        for value in [entry.life, entry.weight] {
            if !(value > 0.0 && value.is_finite()) {
                return Err(FitError::NotPositive { row, value });
            }
        }
        if entry.x.len() != covariates || !entry.x.iter().all(|x| x.is_finite()) {
            return Err(FitError::Covariates { row });
        }
    }
    Ok(covariates)
}

/// Rows that may yield a censored fit.
pub(super) fn fit_for_censored(rows: &[Row], prior: Option<&Prior>) -> Result<(), FitError> {
    let covariates = sound_rows(rows)?;
    if let Some(prior) = prior {
        sound_prior(prior, covariates + 1)?;
    }
    let failures = failure_count(rows);
    if failures <= 0.0 {
        return Err(FitError::NoFailure);
    }
    let unknown_before = (0..=covariates).filter(|at| !known_before(prior, *at)).count();
    #[expect(clippy::cast_precision_loss, reason = "a handful of coefficients")]
    if failures < (unknown_before + 1) as f64 {
        return Err(FitError::TooFewFailures { failures, needed: unknown_before + 1 });
    }
    if covariates == 0 && !known_before(prior, 0) {
        let longest = rows.iter().map(|row| row.life).fold(0.0, f64::max);
        if rows.iter().filter(|row| row.has_failed()).all(|row| row.life >= longest) {
            return Err(FitError::FailuresAtLongestLife);
        }
    }
    let free: Vec<usize> = (0..covariates).filter(|at| !known_before(prior, at + 1)).collect();
    let failed: Vec<&Row> = rows.iter().filter(|row| row.has_failed()).collect();
    spread(&rows.iter().collect::<Vec<_>>(), &free, Among::Rows)?;
    spread(&failed, &free, Among::Failures)
}

fn sound_prior(prior: &Prior, coefficients: usize) -> Result<(), FitError> {
    let sound = prior.mean.len() == coefficients
        && prior.sd.len() == coefficients
        && prior.sd.iter().all(|sd| *sd > 0.0)
        && prior.mean.iter().zip(&prior.sd).all(|(mean, sd)| mean.is_finite() || sd.is_infinite());
    if sound { Ok(()) } else { Err(FitError::Prior { coefficients }) }
}

/// Each covariate must vary, and none may be made of the others.
pub(super) fn spread(rows: &[&Row], covariates: &[usize], among: Among) -> Result<(), FitError> {
    for &covariate in covariates {
        let (low, high) = rows
            .iter()
            .map(|row| row.x[covariate])
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| (low.min(x), high.max(x)));
        if high - low <= SAME {
            return Err(FitError::NoSpread { covariate, among });
        }
    }
    let count: f64 = rows.iter().map(|_| 1.0).sum();
    let mean = |at: usize| rows.iter().map(|row| row.x[at]).sum::<f64>() / count;
    let means: Vec<f64> = covariates.iter().map(|at| mean(*at)).collect();
    let design: Vec<Vec<f64>> = rows
        .iter()
        .map(|row| {
            std::iter::once(1.0)
                .chain(covariates.iter().zip(&means).map(|(at, mean)| row.x[*at] - mean))
                .collect()
        })
        .collect();
    for (at, covariate) in covariates.iter().enumerate() {
        // What the others leave of it must still vary.
        let others: Vec<Vec<f64>> = design.iter().map(|row| without(row, at + 1)).collect();
        let own: Vec<f64> = rows.iter().map(|row| row.x[*covariate]).collect();
        let left = least_squares(&others, &own).ok_or(FitError::Collinear { among })?;
        if left.residual_sum <= SAME * SAME {
            return Err(FitError::Collinear { among });
        }
    }
    Ok(())
}

fn without(row: &[f64], at: usize) -> Vec<f64> {
    row.iter().enumerate().filter(|(place, _)| *place != at).map(|(_, value)| *value).collect()
}
