//! How much too large a Weibull shape comes out of a short log.

/// Number of lives, and the factor that brings the shape down to the true one on the average.
const FACTORS: [(f64, f64); 9] = [
    (4.0, 0.605),
    (5.0, 0.692),
    (6.0, 0.749),
    (8.0, 0.817),
    (10.0, 0.855),
    (15.0, 0.905),
    (20.0, 0.930),
    (30.0, 0.953),
    (50.0, 0.972),
];

/// Factor B(n) by which the maximum likelihood shape of `count` complete lives is multiplied to be right on the average.
///
/// Between the sizes worked out it runs straight in 1/n, and on to 1 for large n.
///
/// # Symbols
/// n number of lives, none cut short. B factor, below 1.
/// # Range
/// One sample without covariates; `None` below four lives, where the average hardly exists. With lives cut short the bias
/// is larger than for as many lives and smaller than for as many failures.
/// # Source
/// \[derived\], by simulation of 100 000 samples and more of each size; \[thoman-bain-antle-1969\] agrees within 0.004 but for
/// n = 5.
#[must_use]
pub fn weibull_shape_bias(count: u32) -> Option<f64> {
    let share = f64::from(count).recip();
    let ends = FACTORS.windows(2).find(|pair| f64::from(count) >= pair[0].0 && f64::from(count) <= pair[1].0);
    if let Some([low, high]) = ends {
        let place = (low.0.recip() - share) / (low.0.recip() - high.0.recip());
        return Some(low.1 + place * (high.1 - low.1));
    }
    let (most, factor) = FACTORS[FACTORS.len() - 1];
    (f64::from(count) > most).then_some(1.0 - (1.0 - factor) * most * share)
}

#[cfg(test)]
mod tests {
    use super::weibull_shape_bias;

    #[test]
    fn the_factor_grows_towards_one() {
        assert_eq!(weibull_shape_bias(3), None);
        let factors: Vec<f64> = (4..200).filter_map(weibull_shape_bias).collect();
        assert!(factors.windows(2).all(|pair| pair[0] < pair[1] && pair[1] < 1.0));
        assert!((factors[4] - 0.817).abs() < 1e-12 && factors[3] > 0.749 && factors[3] < 0.817);
    }
}
