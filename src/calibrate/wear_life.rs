//! Life at a wear limit, from readings of the wear land.

use super::error::FitError;
use super::power::PowerFit;

/// What readings say of the life at a limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WearLife {
    /// The limit was reached after this time.
    Reached(f64),
    /// The limit was not reached by the last reading, at this time: the life is longer.
    NotReached(f64),
    /// The first reading, at this time, was at the limit or beyond: the life is no longer than that.
    AtFirstReading(f64),
}

/// Time at which the wear reaches `limit`, by a straight line between the readings on either side.
///
/// Readings (time, wear) are taken in the order of time. A reading below an earlier one counts as the earlier one: an
/// edge does not grow back.
///
/// # Symbols
/// Time in cut, minutes. Wear land VB and limit in the same unit, mm.
/// # Range
/// Inside the readings; nothing is extended beyond the last.
/// # Errors
/// No reading, or one that is no number of zero or above.
/// # Source
/// \[iso-3685\].
pub fn wear_life(readings: &[(f64, f64)], limit: f64) -> Result<WearLife, FitError> {
    for (row, (time, wear)) in readings.iter().enumerate() {
        for value in [*time, *wear] {
            if !(value >= 0.0 && value.is_finite()) {
                return Err(FitError::Reading { row, value });
            }
        }
    }
    let mut sorted = readings.to_vec();
    sorted.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (first, rest) = sorted.split_first().ok_or(FitError::Empty)?;
    if first.1 >= limit {
        return Ok(WearLife::AtFirstReading(first.0));
    }
    let mut before = *first;
    for &(time, wear) in rest {
        if wear >= limit {
            let share = (limit - before.1) / (wear - before.1);
            return Ok(WearLife::Reached(before.0 + share * (time - before.0)));
        }
        before = (time, wear.max(before.1));
    }
    Ok(WearLife::NotReached(before.0))
}

/// A life read off a fitted wear curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerLife {
    /// Time at which the curve reaches the limit.
    pub time: f64,
    /// Standard error of its logarithm; `None` where no degree of freedom is left.
    pub log_error: Option<f64>,
    /// Time over that of the last reading: above 1 the life is extrapolated.
    pub beyond: f64,
}

/// Time at which the fitted curve VB = a t^b reaches `limit`: t = (limit/a)^(1/b).
///
/// `None` unless a, b and the limit are above zero.
///
/// # Symbols
/// t time in cut. VB wear land. a factor, b exponent.
/// # Range
/// Trusted up to the last reading; [`PowerLife::beyond`] says how far past it the life lies.
/// # Source
/// Inverse of the power curve, error by the delta method.
#[must_use]
pub fn power_life(curve: &PowerFit, limit: f64) -> Option<PowerLife> {
    let (a, b) = (curve.factor, curve.exponent);
    if !(a > 0.0 && b > 0.0 && limit > 0.0) {
        return None;
    }
    let log_time = (limit / a).ln() / b;
    let slope = [-(a * b).recip(), -log_time / b];
    let variance = |covariance: [[f64; 2]; 2]| {
        slope[0] * slope[0] * covariance[0][0]
            + 2.0 * slope[0] * slope[1] * covariance[0][1]
            + slope[1] * slope[1] * covariance[1][1]
    };
    let time = log_time.exp();
    Some(PowerLife {
        time,
        log_error: curve.covariance.map(|covariance| variance(covariance).sqrt()),
        beyond: time / curve.last,
    })
}
