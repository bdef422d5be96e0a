//! Newton's way to the maximum of a likelihood, damped until each step goes up.

use super::error::FitError;
use super::likelihood::{Likelihood, Slope, split};
use super::matrix::{Cholesky, dot};

/// Twice the gain that one more full step promises, at which the peak counts as reached.
const REACHED: f64 = 1e-19;
/// Below this sigma (as a logarithm) the rows lie on the line.
const LEAST_LOG_SIGMA: f64 = -12.0;
/// Most that ln sigma may move in one step.
const LONGEST: f64 = 1.5;
/// Least share of information an unknown must have of its own.
const LEAST_SHARE: f64 = 1e-10;

/// Goes up from `start`, moving the unknowns in `free` alone. Ends at a peak that holds: no slope left, curved in each direction.
pub(super) fn maximum(likelihood: &Likelihood, start: &[f64], free: &[usize]) -> Result<Vec<f64>, FitError> {
    let mut at = start.to_vec();
    let mut damping = 0.0;
    for _ in 0..200 {
        let slope = likelihood.slope(&at);
        let uphill: Vec<f64> = free.iter().map(|unknown| slope.gradient[*unknown]).collect();
        let Some(curvature) = Cholesky::of(&information(&slope, free, damping)) else {
            damping = f64::max(10.0 * damping, 1e-3);
            continue;
        };
        let step = curvature.solve(&uphill);
        let promise = dot(&uphill, &step);
        if damping <= 0.0 && promise <= REACHED {
            let own = curvature.least_own_share();
            return if own > LEAST_SHARE { Ok(moved(&at, free, &step, 1.0)) } else { Err(FitError::NoPeak) };
        }
        match climbed(likelihood, &slope, &at, (free, &step)) {
            Some(higher) => {
                at = higher;
                damping = if damping > 1e-6 { 0.1 * damping } else { 0.0 };
            }
            None => damping = f64::max(10.0 * damping, 1e-3),
        }
        if split(&at).1 < LEAST_LOG_SIGMA {
            return Err(FitError::NoScatter);
        }
        if damping > 1e12 {
            break;
        }
    }
    Err(FitError::NoPeak)
}

/// The first of full step, half, quarter ... that does not go down.
fn climbed(
    likelihood: &Likelihood,
    slope: &Slope,
    at: &[f64],
    (free, step): (&[usize], &[f64]),
) -> Option<Vec<f64>> {
    let last = at.len() - 1;
    let sigma_step = free.iter().position(|unknown| *unknown == last).map_or(0.0, |place| step[place].abs());
    let mut share = if sigma_step > LONGEST { LONGEST / sigma_step } else { 1.0 };
    let rounding = 1e-13 * (1.0 + slope.value.abs());
    for _ in 0..12 {
        let candidate = moved(at, free, step, share);
        if likelihood.value(&candidate) >= slope.value - rounding {
            return Some(candidate);
        }
        share *= 0.5;
    }
    None
}

fn moved(at: &[f64], free: &[usize], step: &[f64], share: f64) -> Vec<f64> {
    let mut moved = at.to_vec();
    for (unknown, step) in free.iter().zip(step) {
        moved[*unknown] += share * step;
    }
    moved
}

/// Observed information of the free unknowns, its diagonal raised by the damping.
fn information(slope: &Slope, free: &[usize], damping: f64) -> Vec<Vec<f64>> {
    let entry = |row: usize, column: usize| {
        let curve = -slope.hessian[row][column];
        if row == column { curve + damping * (curve.abs() + 1e-12) } else { curve }
    };
    free.iter().map(|row| free.iter().map(|column| entry(*row, *column)).collect()).collect()
}

/// Covariance of all unknowns at the peak: the inverse of the observed information.
pub(super) fn covariance(likelihood: &Likelihood, peak: &[f64]) -> Result<Vec<Vec<f64>>, FitError> {
    let all: Vec<usize> = (0..peak.len()).collect();
    let information = information(&likelihood.slope(peak), &all, 0.0);
    Ok(Cholesky::of(&information).ok_or(FitError::NoPeak)?.inverse())
}
