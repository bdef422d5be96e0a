//! What goes wrong without the censored lives, and residuals.

use wearland::calibrate::{Family, Outcome, Profiled, fit_censored, kaplan_meier, profile_interval};

use super::data;

/// Both shortcuts put the life of the fans far below what all rows say.
#[test]
fn dropping_or_counting_lives_cut_short_biases_them_down() {
    let rows = data::lives("diesel-fans").unwrap();
    let scale = |rows: &[_]| fit_censored(rows, Family::Weibull, None).unwrap().coefficients[0].exp();
    let whole = scale(&rows);
    let dropped: Vec<_> = rows.iter().filter(|row| row.outcome == Outcome::Failed).cloned().collect();
    let mut counted = rows.clone();
    counted.iter_mut().for_each(|row| row.outcome = Outcome::Failed);
    assert!(scale(&dropped) < 0.25 * whole, "{} of {whole}", scale(&dropped));
    assert!(scale(&counted) < 0.25 * whole, "{} of {whole}", scale(&counted));
}

/// A row that stands for several edges is as good as the edges one by one.
#[test]
fn weights_are_counts() {
    let counted = data::lives("bearing-cages").unwrap();
    let mut single = Vec::new();
    for row in &counted {
        let mut copies = row.weight;
        while copies > 0.5 {
            single.push(wearland::calibrate::Row { weight: 1.0, ..row.clone() });
            copies -= 1.0;
        }
    }
    assert_eq!(single.len(), 1703);
    for family in [Family::Weibull, Family::Lognormal] {
        let (one, other) =
            (fit_censored(&counted, family, None).unwrap(), fit_censored(&single, family, None).unwrap());
        assert!((one.coefficients[0] - other.coefficients[0]).abs() < 1e-9);
        assert!((one.log_likelihood - other.log_likelihood).abs() < 1e-9);
    }
}

/// The unit of life moves the constant and nothing else.
#[test]
fn lives_in_other_units_give_the_same_slopes() {
    for family in [Family::Weibull, Family::Lognormal] {
        let rows = data::lives("generated-vf").unwrap();
        let mut seconds = rows.clone();
        seconds.iter_mut().for_each(|row| row.life *= 60.0);
        let (one, other) =
            (fit_censored(&rows, family, None).unwrap(), fit_censored(&seconds, family, None).unwrap());
        assert!((other.coefficients[0] - one.coefficients[0] - 60_f64.ln()).abs() < 1e-8);
        assert!((other.coefficients[1] - one.coefficients[1]).abs() < 1e-8);
        assert!((other.sigma - one.sigma).abs() < 1e-10);
        let of = Profiled::Coefficient(1);
        let one = profile_interval(&rows, family, &of, 0.9).unwrap();
        let other = profile_interval(&seconds, family, &of, 0.9).unwrap();
        assert!((one.0 - other.0).abs() < 1e-7 && (one.1 - other.1).abs() < 1e-7);
    }
}

/// Weibull residuals add up to the number of failures, and their survival is near that of the exponential distribution.
#[test]
fn residuals_behave_as_a_censored_exponential_sample() {
    let mut rows = data::lives("generated-a").unwrap();
    let fit = fit_censored(&rows, Family::Weibull, None).unwrap();
    let residuals = fit.cox_snell_residuals(&rows);
    assert!((residuals.iter().sum::<f64>() - fit.failures).abs() < 1e-9);
    for (row, residual) in rows.iter_mut().zip(&residuals) {
        row.life = *residual;
    }
    for step in kaplan_meier(&rows) {
        let expected = (-step.life).exp();
        assert!((step.survival - expected).abs() < 0.16, "{step:?} against {expected}");
    }
}

/// On either side of each coefficient the likelihood falls, and by the allowed amount only some standard errors away.
#[test]
fn intervals_of_the_likelihood_ratio_hold_the_coefficient() {
    for name in data::NAMES {
        let rows = data::lives(name).unwrap();
        for family in [Family::Weibull, Family::Lognormal] {
            let fit = fit_censored(&rows, family, None).unwrap();
            let errors = fit.standard_errors();
            for (at, value) in fit.coefficients.iter().copied().enumerate() {
                let ends = profile_interval(&rows, family, &Profiled::Coefficient(at), 0.95).unwrap();
                assert!(ends.0 < value && value < ends.1, "{name} {family:?} {at}: {ends:?} {value}");
                assert!((2.0..10.0).contains(&((ends.1 - ends.0) / errors[at])), "{name} {family:?} {at}");
            }
        }
    }
}
