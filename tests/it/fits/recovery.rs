//! Logs made from known constants: intervals must cover them as often as they say.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use wearland::calibrate::{Family, FitError, Profiled, Row, fit_censored, profile_interval};

const N: f64 = 0.25;
const C: f64 = 400.0;
const SHAPE: f64 = 3.0;

/// Four speeds, eight edges at each; edges are changed at 45 min at the latest.
fn log(seed: u64) -> Vec<Row> {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let mut rows = Vec::new();
    for speed in [150.0, 190.0, 230.0, 270.0_f64] {
        for _ in 0..8 {
            let scale = (C / speed).powf(1.0 / N);
            let life = scale * (-random.random_range(f64::EPSILON..1.0).ln()).powf(1.0 / SHAPE);
            let x = vec![speed.ln()];
            rows.push(if life < 45.0 { Row::failed(x, life) } else { Row::censored(x, 45.0) });
        }
    }
    rows
}

/// Both the interval of the likelihood ratio and the normal one, within two standard errors of a count of 95 in 100.
#[test]
fn intervals_of_n_cover_it_as_often_as_they_say() {
    let slope = -1.0 / N;
    let (mut profile, mut wald, mut sum) = (0, 0, 0.0);
    for seed in 0..100 {
        let rows = log(seed);
        let fit = fit_censored(&rows, Family::Weibull, None).unwrap();
        let ends = fit.wald(0.95)[1];
        wald += usize::from(ends.0 <= slope && slope <= ends.1);
        let ends = profile_interval(&rows, Family::Weibull, &Profiled::Coefficient(1), 0.95).unwrap();
        profile += usize::from(ends.0 <= slope && slope <= ends.1);
        sum += -1.0 / fit.coefficients[1];
    }
    for count in [profile, wald] {
        assert!((91..=99).contains(&count), "likelihood ratio {profile}, normal {wald}");
    }
    assert!((sum / 100.0 - N).abs() < 0.01, "mean n {}", sum / 100.0);
}

/// Short logs of which most edges were changed early: each is fitted or refused for a reason that can be seen in it.
#[test]
fn short_logs_are_fitted_or_refused_for_a_reason() {
    let (mut fitted, mut refused) = (0, 0);
    for seed in 0..400 {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        let rows: Vec<Row> = (0..random.random_range(4..14))
            .map(|_| {
                let x = vec![[150.0_f64, 200.0, 260.0][random.random_range(0..3)].ln()];
                let life = random.random_range(0.1..60.0_f64);
                if random.random_bool(0.4) { Row::failed(x, life) } else { Row::censored(x, life) }
            })
            .collect();
        for family in [Family::Weibull, Family::Lognormal] {
            match fit_censored(&rows, family, None) {
                Ok(fit) => {
                    assert!(fit.log_likelihood.is_finite() && fit.sigma > 0.0);
                    assert!(fit.standard_errors().iter().all(|error| error.is_finite()));
                    fitted += 1;
                }
                Err(FitError::NoPeak) => panic!("seed {seed}, {family:?}: {rows:?}"),
                Err(_) => refused += 1,
            }
        }
    }
    assert!(fitted > 200 && refused > 100, "{fitted} fitted, {refused} refused");
}
