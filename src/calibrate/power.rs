//! The power curve y = a x^b by least squares on the scale of y itself.

use super::error::{Among, FitError};
use super::matrix::{LeastSquares, least_squares};

/// A fitted curve y = a x^b.
#[derive(Debug, Clone, PartialEq)]
pub struct PowerFit {
    /// Factor a: y at x = 1.
    pub factor: f64,
    /// Exponent b.
    pub exponent: f64,
    /// Sum of squared residuals.
    pub residual_sum: f64,
    /// Points less two.
    pub degrees: f64,
    /// Covariance of (a, b) from the slope at the end; `None` where no degree of freedom is left.
    pub covariance: Option<[[f64; 2]; 2]>,
    /// Largest x in the fit.
    pub last: f64,
}

impl PowerFit {
    /// y at `x`.
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        self.factor * x.powf(self.exponent)
    }

    /// Standard errors of a and b.
    #[must_use]
    pub fn standard_errors(&self) -> Option<(f64, f64)> {
        self.covariance.map(|covariance| (covariance[0][0].sqrt(), covariance[1][1].sqrt()))
    }
}

/// Fits y = a x^b to points (x, y) from a start (a, b): least squares of y, not of ln y, by damped Gauss-Newton steps.
///
/// # Symbols
/// x time in cut. y wear. a factor, b exponent.
/// # Range
/// Two points or more with x above zero and not all the same. The result differs from a log-log line, which counts
/// relative residuals.
/// # Errors
/// Points that are no numbers above zero, too few of them, all at one x, or no clear minimum from this start.
/// # Source
/// \[nist-strd\], problem DanWood.
pub fn fit_power_curve(points: &[(f64, f64)], start: (f64, f64)) -> Result<PowerFit, FitError> {
    sound(points)?;
    let (mut at, mut damping) = (start, 1e-3);
    let mut sum = residual_sum(points, at);
    for _ in 0..500 {
        let step = damped_step(points, at, damping).ok_or(FitError::NoPeak)?;
        let next = (at.0 + step.0, at.1 + step.1);
        let below = residual_sum(points, next);
        let small = step.0.abs() <= 1e-13 * at.0.abs() && step.1.abs() <= 1e-13 * at.1.abs();
        if below <= sum {
            (at, sum, damping) = (next, below, 0.1 * damping);
        } else {
            damping = f64::max(10.0 * damping, 1e-12);
        }
        if small || damping > 1e12 {
            return described(points, at);
        }
        if damping < 1e-15 {
            damping = 0.0;
        }
    }
    described(points, at)
}

/// A start for [`fit_power_curve`] from the log-log line through the points.
///
/// # Errors
/// Points that are no numbers above zero, too few of them, or all at one x.
pub fn power_start(points: &[(f64, f64)]) -> Result<(f64, f64), FitError> {
    sound(points)?;
    let design: Vec<Vec<f64>> = points.iter().map(|(x, _)| vec![1.0, x.ln()]).collect();
    let logs: Vec<f64> = points.iter().map(|(_, y)| y.ln()).collect();
    let line = least_squares(&design, &logs).ok_or(FitError::Collinear { among: Among::Rows })?;
    Ok((line.solution[0].exp(), line.solution[1]))
}

fn sound(points: &[(f64, f64)]) -> Result<(), FitError> {
    for (row, (x, y)) in points.iter().enumerate() {
        for value in [*x, *y] {
            if !(value > 0.0 && value.is_finite()) {
                return Err(FitError::NotPositive { row, value });
            }
        }
    }
    let low = points.iter().map(|point| point.0).fold(f64::INFINITY, f64::min);
    let high = points.iter().map(|point| point.0).fold(0.0, f64::max);
    match points.len() {
        0 => Err(FitError::Empty),
        1 => Err(FitError::TooFewFailures { failures: 1.0, needed: 2 }),
        _ if high - low <= 1e-9 * high => Err(FitError::NoSpread { covariate: 0, among: Among::Rows }),
        _ => Ok(()),
    }
}

fn residual_sum(points: &[(f64, f64)], (factor, exponent): (f64, f64)) -> f64 {
    points.iter().map(|(x, y)| (y - factor * x.powf(exponent)).powi(2)).sum()
}

/// Slope of the curve in a and in b at each point, and the residuals.
fn linearised(points: &[(f64, f64)], (factor, exponent): (f64, f64)) -> (Vec<Vec<f64>>, Vec<f64>) {
    let slopes = points.iter().map(|(x, _)| {
        let power = x.powf(exponent);
        vec![power, factor * power * x.ln()]
    });
    (slopes.collect(), points.iter().map(|(x, y)| y - factor * x.powf(exponent)).collect())
}

fn damped_step(points: &[(f64, f64)], at: (f64, f64), damping: f64) -> Option<(f64, f64)> {
    let (mut slopes, mut residuals) = linearised(points, at);
    for unknown in 0..2 {
        let size: f64 = slopes.iter().map(|row| row[unknown] * row[unknown]).sum();
        let mut row = vec![0.0, 0.0];
        row[unknown] = (damping * size).sqrt();
        slopes.push(row);
        residuals.push(0.0);
    }
    let LeastSquares { solution, .. } = least_squares(&slopes, &residuals)?;
    Some((solution[0], solution[1]))
}

fn described(points: &[(f64, f64)], at: (f64, f64)) -> Result<PowerFit, FitError> {
    let (slopes, residuals) = linearised(points, at);
    let linear = least_squares(&slopes, &residuals).ok_or(FitError::NoPeak)?;
    let residual_sum = residual_sum(points, at);
    // What one more step would still gain must be nothing beside the residuals, or beside the rounding of the readings.
    let rounding: f64 = points.iter().map(|(_, y)| 1e-24 * y * y).sum();
    let still = residual_sum - linear.residual_sum > 1e-9 * residual_sum + rounding;
    if still || at.0 <= 0.0 || at.0.is_nan() {
        return Err(FitError::NoPeak);
    }
    let degrees = points.iter().map(|_| 1.0).sum::<f64>() - 2.0;
    let variance = residual_sum / degrees;
    let inverse = &linear.inverse;
    let covariance = [
        [variance * inverse[0][0], variance * inverse[0][1]],
        [variance * inverse[1][0], variance * inverse[1][1]],
    ];
    Ok(PowerFit {
        factor: at.0,
        exponent: at.1,
        residual_sum,
        degrees,
        covariance: (degrees > 0.0).then_some(covariance),
        last: points.iter().map(|point| point.0).fold(0.0, f64::max),
    })
}
