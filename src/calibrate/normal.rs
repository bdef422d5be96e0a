//! Quantiles and tails of the distributions that intervals rest on.

use statrs::function::beta::beta_reg;
use statrs::function::erf::{erfc, erfc_inv};

/// Beyond this the tail of the normal distribution is taken from its asymptotic series.
const FAR: f64 = 25.0;

/// z with a share `p` of the standard normal distribution below it.
pub(super) fn normal_quantile(p: f64) -> f64 {
    -std::f64::consts::SQRT_2 * erfc_inv(2.0 * p)
}

/// Half width, in standard errors, of a two-sided normal interval.
pub(super) fn two_sided(level: f64) -> f64 {
    normal_quantile(0.5 + 0.5 * level)
}

/// Logarithm of the standard normal tail above z, and the hazard: density over tail.
pub(super) fn normal_tail(z: f64) -> (f64, f64) {
    let half_log_two_pi = 0.5 * (2.0 * std::f64::consts::PI).ln();
    let log_density = -0.5 * z * z - half_log_two_pi;
    let log_tail = if z < FAR {
        (0.5 * erfc(z / std::f64::consts::SQRT_2)).ln()
    } else {
        let square = (z * z).recip();
        let series = 1.0 - square * (1.0 - 3.0 * square * (1.0 - 5.0 * square * (1.0 - 7.0 * square)));
        log_density - z.ln() + series.ln()
    };
    (log_tail, (log_density - log_tail).exp())
}

/// Half width, in standard errors, of a two-sided interval of Student's t.
pub(super) fn student_two_sided(level: f64, degrees: f64) -> f64 {
    let outside = |t: f64| beta_reg(0.5 * degrees, 0.5, degrees / (degrees + t * t));
    let (mut low, mut high) = (0.0, 2.0);
    while outside(high) > 1.0 - level && high < 1e12 {
        (low, high) = (high, 2.0 * high);
    }
    for _ in 0..100 {
        let middle = 0.5 * (low + high);
        if outside(middle) > 1.0 - level {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// Chance of a ratio of variances of at least `ratio`.
pub(super) fn ratio_tail(ratio: f64, above: f64, below: f64) -> f64 {
    beta_reg(0.5 * below, 0.5 * above, below / (below + above * ratio))
}

#[cfg(test)]
mod tests {
    use super::{FAR, normal_quantile, normal_tail, ratio_tail, student_two_sided};

    #[test]
    fn quantiles_are_those_of_the_tables() {
        assert!((normal_quantile(0.975) - 1.959_963_984_540_054).abs() < 1e-12);
        assert!((student_two_sided(0.95, 18.0) - 2.100_922_040_240_96).abs() < 1e-11);
        assert!((student_two_sided(0.95, 1.0) - 12.706_204_736_174_7).abs() < 1e-9);
        assert!((ratio_tail(1.0, 7.0, 7.0) - 0.5).abs() < 1e-14);
    }

    #[test]
    fn the_far_tail_joins_the_near_one() {
        let (near, far) = (normal_tail(FAR - 1e-9), normal_tail(FAR));
        assert!((near.0 - far.0).abs() < 1e-6 && (near.1 - far.1).abs() < 1e-6, "{near:?} {far:?}");
        assert!((normal_tail(0.0).0 - 0.5_f64.ln()).abs() < 1e-15);
    }
}
