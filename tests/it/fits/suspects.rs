//! Rows that move the line, slips of the decimal point, and what constants should be read with.

use wearland::calibrate::{
    Family, Remark, Row, WearLife, fit_least_squares, fit_power_curve, influence, influence_on_line,
    power_life, power_start, wear_life,
};

use super::data;

#[test]
fn the_slipped_decimal_is_named_and_no_other() {
    let rows = data::lives("S2x").unwrap();
    for found in [influence_on_line(&rows).unwrap(), influence(&rows, Family::Lognormal, None).unwrap()] {
        let slips: Vec<(usize, f64)> =
            found.iter().filter_map(|row| row.slip.map(|slip| (row.row, slip.life))).collect();
        assert!(matches!(slips[..], [(3, life)] if (life - 2.6).abs() < 1e-12), "{slips:?}");
        let moved = found.iter().max_by(|one, other| shift(one).total_cmp(&shift(other))).unwrap();
        assert_eq!(moved.row, 3);
        let n = -1.0 / moved.without.as_ref().unwrap()[1];
        assert!((n - 0.17).abs() < 0.01, "{n}");
    }
}

fn shift(row: &wearland::calibrate::Influence) -> f64 {
    row.shifts.as_ref().map_or(0.0, |shifts| shifts[1].abs())
}

#[test]
fn sound_lives_are_not_called_slips() {
    for name in ["S1", "S2", "S11", "turning-36", "lathe-20", "generated-a", "generated-vf"] {
        let rows = data::lives(name).unwrap();
        for family in [Family::Weibull, Family::Lognormal] {
            let slips = influence(&rows, family, None).unwrap();
            assert!(slips.iter().all(|row| row.slip.is_none()), "{name}");
        }
    }
}

/// A slip is named if the true life lies near enough to the line, and no other row is blamed for it.
#[test]
fn slips_are_found_in_a_long_log() {
    let sound = data::lives("generated-a").unwrap();
    let clean = influence(&sound, Family::Lognormal, None).unwrap();
    let (mut named, mut tried) = (0, 0);
    for (row, factor) in (8..40).step_by(3).flat_map(|row| [(row, 10.0), (row, 0.1)]) {
        let mut rows = sound.clone();
        rows[row].life *= factor;
        let found = influence(&rows, Family::Lognormal, None).unwrap();
        let without = clean[row].without.as_ref().unwrap();
        let own = sound[row].life.ln() - without[0] - without[1] * sound[row].x[0];
        let near = own.abs() <= 0.2 * (own + f64::ln(factor)).abs();
        let slips: Vec<usize> = found.iter().filter(|row| row.slip.is_some()).map(|row| row.row).collect();
        assert_eq!(slips, if near { vec![row] } else { vec![] }, "row {row} times {factor}");
        if let Some(slip) = found[row].slip {
            assert!((slip.life - sound[row].life).abs() < 1e-9 && slip.rise > 6.6);
        }
        named += usize::from(near);
        tried += 1;
    }
    assert!(3 * named > 2 * tried, "{named} of {tried}");
}

#[test]
fn leaving_a_row_out_is_what_it_says() {
    let rows = data::lives("turning-36").unwrap();
    let found = influence_on_line(&rows).unwrap();
    let mut others = rows.clone();
    others.remove(15);
    let line = fit_least_squares(&others).unwrap();
    assert_eq!(found[15].without.as_ref(), Some(&line.coefficients));
}

#[test]
fn constants_that_no_tool_has_are_remarked_on() {
    let line = |lives: &[(f64, f64)]| {
        let rows: Vec<Row> = lives.iter().map(|(v, t)| Row::failed(vec![f64::ln(*v)], *t)).collect();
        fit_least_squares(&rows).unwrap().taylor(0.95).unwrap()
    };
    assert_eq!(line(&[(100.0, 20.0), (200.0, 30.0)]).remarks, [Remark::NotFalling]);
    assert_eq!(line(&[(100.0, 20.0), (200.0, 15.0)]).remarks, [Remark::ExponentAboveOne]);
    assert_eq!(line(&[(100.0, 40.0), (200.0, 4.0)]).remarks, []);
    let poor = line(&[(100.0, 40.0), (120.0, 4.0), (150.0, 30.0), (200.0, 4.0)]);
    assert!(matches!(poor.remarks[..], [Remark::PoorLine { r_squared }] if r_squared < 0.8), "{poor:?}");
    assert!(poor.n.interval.unwrap().1.is_infinite());
}

#[test]
fn regressions_of_speed_on_life_are_the_flatter_by_r_squared() {
    for series in ["S1", "S2", "S2x", "S3", "S4", "S5", "S6", "S6b", "S6c", "S7", "S8", "S9", "S10", "S11"] {
        let rows = data::lives(series).unwrap();
        let line = fit_least_squares(&rows).unwrap();
        let turned: Vec<Row> =
            rows.iter().map(|row| Row::failed(vec![row.life.ln()], row.x[0].exp())).collect();
        let other = fit_least_squares(&turned).unwrap();
        let (n, flatter) = (-1.0 / line.coefficients[1], -other.coefficients[1]);
        assert!((flatter - line.r_squared * n).abs() < 1e-12, "{series}: {flatter} and {n}");
    }
}

#[test]
fn a_limit_is_reached_or_not() {
    let readings = data::points("milling-readings", ["time_min", "wear_mm"], Some("1"));
    assert_eq!(wear_life(&readings, 0.6), Ok(WearLife::NotReached(48.0)));
    let single = data::points("milling-readings", ["time_min", "wear_mm"], Some("6"));
    assert_eq!(wear_life(&single, 0.45), Ok(WearLife::NotReached(single[0].0)));
    assert_eq!(wear_life(&[(5.0, 0.5), (2.0, 0.4)], 0.3), Ok(WearLife::AtFirstReading(2.0)));
    assert!(wear_life(&[], 0.3).is_err() && wear_life(&[(1.0, -0.1)], 0.3).is_err());
    // A wear land that shrinks counts as it stood: 0.2 is passed at 15 min although 20 min reads 0.15.
    let dip = [(10.0, 0.1), (15.0, 0.22), (20.0, 0.15), (30.0, 0.32)];
    assert_eq!(wear_life(&dip, 0.22), Ok(WearLife::Reached(15.0)));
    assert_eq!(wear_life(&dip, 0.27), Ok(WearLife::Reached(25.0)));
}

#[test]
fn a_fitted_wear_curve_says_how_far_it_reaches() {
    let points: Vec<(f64, f64)> =
        (1..=8).map(|t| (5.0 * f64::from(t), 0.03 * (5.0 * f64::from(t)).powf(0.6))).collect();
    let curve = fit_power_curve(&points, power_start(&points).unwrap()).unwrap();
    assert!((curve.factor - 0.03).abs() < 1e-12 && (curve.exponent - 0.6).abs() < 1e-12);
    let life = power_life(&curve, 0.3).unwrap();
    assert!((life.time - 10_f64.powf(1.0 / 0.6)).abs() < 1e-9 && life.beyond > 1.0, "{life:?}");
    assert!(power_life(&curve, 0.2).unwrap().beyond < 1.0);
    assert_eq!(power_life(&curve, 0.0), None);
}
