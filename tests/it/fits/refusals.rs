//! Logs that do not determine constants are refused, each for its own reason.

use wearland::calibrate::{
    Among, Family, FitError, Outcome, Prior, Profiled, Row, fit_censored, fit_least_squares,
    profile_interval, refuse_pasted_rows,
};

use super::data;

const FAMILIES: [Family; 2] = [Family::Weibull, Family::Lognormal];

fn both(rows: &[Row], expected: &FitError) {
    for family in FAMILIES {
        assert_eq!(fit_censored(rows, family, None).as_ref().err(), Some(expected), "{family:?}");
    }
}

fn sample(lives: &[(f64, bool)]) -> Vec<Row> {
    let row = |&(life, failed)| if failed { Row::failed(vec![], life) } else { Row::censored(vec![], life) };
    lives.iter().map(row).collect()
}

fn at_speeds(lives: &[(f64, f64, bool)]) -> Vec<Row> {
    let row = |&(speed, life, failed): &(f64, f64, bool)| Row {
        x: vec![speed.ln()],
        life,
        outcome: if failed { Outcome::Failed } else { Outcome::RightCensored },
        weight: 1.0,
    };
    lives.iter().map(row).collect()
}

#[test]
fn too_little_is_refused() {
    both(&[], &FitError::Empty);
    both(&sample(&[(10.0, false), (12.0, false)]), &FitError::NoFailure);
    both(&sample(&[(10.0, true), (12.0, false)]), &FitError::TooFewFailures { failures: 1.0, needed: 2 });
    both(&sample(&[(12.0, true), (12.0, true), (9.0, false)]), &FitError::FailuresAtLongestLife);
    both(&sample(&[(12.0, true), (0.0, true)]), &FitError::NotPositive { row: 1, value: 0.0 });
    // Two equal failures with a longer life beside them do have a peak.
    for family in FAMILIES {
        assert!(fit_censored(&sample(&[(12.0, true), (12.0, true), (15.0, false)]), family, None).is_ok());
    }
}

#[test]
fn covariates_without_spread_are_refused() {
    let one_speed = [(100.0, 30.0, true), (100.0, 40.0, true), (100.0, 35.0, true)];
    both(&at_speeds(&one_speed), &FitError::NoSpread { covariate: 0, among: Among::Rows });
    let failures_at_one = [
        (100.0, 60.0, false),
        (100.0, 60.0, false),
        (150.0, 20.0, true),
        (150.0, 25.0, true),
        (150.0, 31.0, true),
    ];
    both(&at_speeds(&failures_at_one), &FitError::NoSpread { covariate: 0, among: Among::Failures });
}

#[test]
fn covariates_that_moved_together_are_refused() {
    let mut rows = data::lives("generated-a").unwrap();
    rows.iter_mut().for_each(|row| row.x.push(0.7 * row.x[0] - 2.0));
    both(&rows, &FitError::Collinear { among: Among::Rows });
    assert_eq!(fit_least_squares(&rows), Err(FitError::Collinear { among: Among::Failures }));
    // Nearly together is told apart, with errors to match.
    rows[7].x[1] += 0.3;
    let fit = fit_censored(&rows, Family::Weibull, None).unwrap();
    assert!(fit.standard_errors()[1] > 0.2, "{:?}", fit.standard_errors());
}

#[test]
fn rows_on_the_line_have_no_scatter() {
    let exact: Vec<Row> = [100.0_f64, 120.0, 150.0, 180.0]
        .iter()
        .map(|v| Row::failed(vec![v.ln()], (400.0 / v).powi(4)))
        .collect();
    both(&exact, &FitError::NoScatter);
    let line = fit_least_squares(&exact).unwrap();
    assert!((line.coefficients[1] + 4.0).abs() < 1e-10);
}

#[test]
fn a_prior_stands_in_for_what_the_log_does_not_tell() {
    let rows =
        at_speeds(&[(150.0, 20.0, true), (150.0, 25.0, true), (150.0, 31.0, true), (150.0, 31.0, false)]);
    let prior = Prior { mean: vec![0.0, -4.0], sd: vec![f64::INFINITY, 0.5] };
    for family in FAMILIES {
        let fit = fit_censored(&rows, family, Some(&prior)).unwrap();
        assert!((fit.coefficients[1] + 4.0).abs() < 1e-9, "{:?}", fit.coefficients);
        assert!((fit.standard_errors()[1] - 0.5).abs() < 1e-9);
        let shares = fit.data_weight.unwrap();
        assert!(shares[1].abs() < 1e-9 && (shares[0] - 1.0).abs() < 1e-12, "{shares:?}");
    }
    let wrong = Prior { mean: vec![0.0], sd: vec![1.0] };
    assert_eq!(fit_censored(&rows, Family::Weibull, Some(&wrong)), Err(FitError::Prior { coefficients: 2 }));
}

#[test]
fn a_prior_pulls_by_as_much_as_it_is_sure() {
    let rows = data::lives("generated-b").unwrap();
    let free = fit_censored(&rows, Family::Weibull, None).unwrap().coefficients[1];
    let mut before = free;
    let mut share_before = 1.0;
    for sd in [10.0, 1.0, 0.1] {
        let prior = Prior { mean: vec![0.0, -4.0], sd: vec![f64::INFINITY, sd] };
        let fit = fit_censored(&rows, Family::Weibull, Some(&prior)).unwrap();
        let share = fit.data_weight.as_ref().unwrap()[1];
        assert!(before < fit.coefficients[1] && fit.coefficients[1] < -4.0, "{sd}: {}", fit.coefficients[1]);
        assert!(share < share_before && share > 0.0, "{sd}: {share}");
        (before, share_before) = (fit.coefficients[1], share);
    }
    // The peak of likelihood times prior: the likelihood alone must be lower there than at its own peak.
    let wide = Prior { mean: vec![0.0, -4.0], sd: vec![f64::INFINITY, 1e9] };
    let fit = fit_censored(&rows, Family::Weibull, Some(&wide)).unwrap();
    assert!((fit.coefficients[1] - free).abs() < 1e-8);
}

#[test]
fn pasted_rows_are_named() {
    for name in data::NAMES.iter().filter(|name| !["router-bits", "milling-45"].contains(name)) {
        assert_eq!(refuse_pasted_rows(&data::lives(name).unwrap()), Ok(()), "{name}");
    }
    let mut rows = data::lives("turning-36").unwrap();
    let block = rows[4..9].to_vec();
    rows.splice(20..20, block);
    assert_eq!(refuse_pasted_rows(&rows), Err(FitError::Pasted { first: 4, again: 20, length: 5 }));
    let mut rows = data::lives("turning-36").unwrap();
    rows.extend(rows.clone());
    assert_eq!(refuse_pasted_rows(&rows), Err(FitError::Pasted { first: 0, again: 36, length: 36 }));
}

#[test]
fn an_interval_that_the_data_leave_open_is_infinite() {
    let rows =
        sample(&[(10.0, true), (11.0, true), (20.0, false), (20.0, false), (20.0, false), (20.0, false)]);
    let wide = profile_interval(&rows, Family::Weibull, &Profiled::Coefficient(0), 0.95).unwrap();
    let fit = fit_censored(&rows, Family::Weibull, None).unwrap();
    assert!(wide.0 < fit.coefficients[0] && wide.1 > fit.coefficients[0]);
    let unknown = profile_interval(&rows, Family::Weibull, &Profiled::Coefficient(3), 0.95);
    assert!(unknown.is_err());
}
