//! Logs made from known constants: intervals must cover them as often as they say.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use wearland::calibrate::{Family, Profiled, Row, fit_censored, profile_interval};

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

/// The interval is that of the likelihood ratio: in samples of this size the normal one is a little too narrow.
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
    assert!((91..=99).contains(&profile), "likelihood ratio {profile}, normal {wald}");
    assert!(wald >= 85, "normal {wald}");
    assert!((sum / 100.0 - N).abs() < 0.01, "mean n {}", sum / 100.0);
}
