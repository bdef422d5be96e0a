//! Share of gears that miss a limit.

use statrs::function::erf::erfc;

use crate::quantity::{Formula, Fraction, Length, Range};

/// Formula of [`reject_share`].
pub const REJECT_SHARE: Formula =
    Formula { figure: "share of rejects", text: "q = 1 - Phi((T - mu) / sigma)", source: "derived" };

/// Share of pieces above a limit, for a normally distributed deviation.
///
/// q = 1 - Phi((T - mu) / sigma)
///
/// # Symbols
/// q share. Phi standard normal distribution. T limit. mu mean, sigma standard deviation of what is measured.
/// # Range
/// A deviation is never negative: mu some three sigma above zero, or its distribution is lopsided and q too small.
/// With sigma zero all pieces are alike: they miss the limit together or not at all.
/// # Source
/// \[derived\]: upper tail of the normal distribution. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::roll_test::reject_share;
/// use wearland::quantity::Length;
/// let share = reject_share(Length::mm(0.061), Length::mm(0.038), Length::mm(0.009));
/// assert!((share.value() - 0.0053).abs() < 1e-4);
/// ```
#[must_use]
pub fn reject_share(limit: Length, mean: Length, deviation: Length) -> Fraction {
    if deviation <= Length::ZERO {
        return if mean > limit { Fraction::ONE } else { Fraction::ZERO };
    }
    let share = erfc((limit - mean) / deviation / std::f64::consts::SQRT_2) / 2.0;
    Fraction::new(share).unwrap_or(Fraction::ONE)
}

/// Least and greatest share of pieces that miss one limit or the other, whatever the two have to do with each other.
///
/// The least is the worse of the two alone, the greatest their sum.
///
/// ```
/// use wearland::cutting::roll_test::joint_reject_share;
/// use wearland::quantity::Fraction;
/// let (Some(total), Some(tooth)) = (Fraction::new(0.02), Fraction::new(0.03)) else { return };
/// let share = joint_reject_share(total, tooth);
/// assert!((share.low.value() - 0.03).abs() < 1e-12);
/// assert!((share.high.value() - 0.05).abs() < 1e-12);
/// ```
#[must_use]
pub fn joint_reject_share(total: Fraction, tooth: Fraction) -> Range<Fraction> {
    let low = if total < tooth { tooth } else { total };
    let high = Fraction::new(total.value() + tooth.value()).unwrap_or(Fraction::ONE);
    Range { low, high }
}
