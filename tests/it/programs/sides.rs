//! Prices against solving again, and the right sides for which they hold.

use wearland::schedule::{Model, Resolver, Row, one_sided, range_of_price, solve, solve_priced};

use super::duality::random_program;
use super::whole_numbers;

/// The right side of a row that has one, and the row with another.
fn with_right_side(model: &Model, row: usize, right: f64) -> Model {
    let mut moved = model.clone();
    let Row { lower, upper, .. } = &mut moved.rows[row];
    for bound in [lower, upper].into_iter().filter(|bound| bound.is_finite()) {
        *bound = right;
    }
    moved
}

fn right_side(row: &Row) -> Option<f64> {
    match (row.lower.is_finite(), row.upper.is_finite()) {
        (true, true) => row.is_equation().then_some(row.upper),
        (true, false) => Some(row.lower),
        (false, true) => Some(row.upper),
        (false, false) => None,
    }
}

#[test]
fn a_price_lies_between_a_unit_fewer_and_a_unit_more() {
    let mut sides = 0;
    for seed in 0..60 {
        let model = random_program(seed);
        let priced = solve_priced(&model).unwrap();
        for row in 0..model.rows.len() {
            if right_side(&model.rows[row]).is_none() {
                continue;
            }
            let (price, near) = (priced.row_prices[row], 1e-5);
            let found =
                one_sided(&model, row, 0.125).map_err(|error| format!("seed {seed}: {error}")).unwrap();
            let fewer = found.fewer.unwrap_or(f64::NEG_INFINITY);
            let more = found.more.unwrap_or(f64::INFINITY);
            assert!(
                fewer - near <= price && price <= more + near,
                "seed {seed} row {row}: {price}, {found:?}"
            );
            sides += 1;
        }
    }
    assert!(sides > 150, "only {sides}");
}

#[test]
fn a_price_holds_within_its_range_and_no_further() {
    let (mut ends, mut inside) = (0, 0);
    for seed in 0..40 {
        let model = random_program(seed);
        let priced = solve_priced(&model).unwrap();
        for row in 0..model.rows.len() {
            let Some(now) = right_side(&model.rows[row]) else { continue };
            let price = priced.row_prices[row];
            let range = range_of_price(&model, row).map_err(|error| format!("seed {seed}: {error}")).unwrap();
            assert!(
                range.least <= now && now <= range.largest,
                "seed {seed} row {row}: {range:?} around {now}"
            );
            let hoped = |right: f64| priced.cost + price * (right - now);
            let near = |cost: f64| 1e-5 * cost.abs().max(1.0);
            for end in [range.least.max(now - 100.0), range.largest.min(now + 100.0)] {
                let cost = solve(&with_right_side(&model, row, end)).unwrap().cost;
                let what =
                    format!("seed {seed} row {row}: {cost} at {end}, {} by the price {price}", hoped(end));
                assert!((cost - hoped(end)).abs() <= near(cost), "{what}");
                inside += 1;
            }
            for beyond in [range.least - 1.0, range.largest + 1.0].into_iter().filter(|end| end.is_finite()) {
                // Beyond its range a price promises too much: the cost is above it, or there is no answer.
                let cost =
                    solve(&with_right_side(&model, row, beyond)).map_or(f64::INFINITY, |answer| answer.cost);
                let what =
                    format!("seed {seed} row {row}: {cost} at {beyond}, {} by the price", hoped(beyond));
                assert!(cost > hoped(beyond) + 1e-8 * hoped(beyond).abs().max(1.0), "{what}, {range:?}");
                ends += 1;
            }
        }
    }
    assert!(ends > 100 && inside > 200, "{ends} ends, {inside} inside");
}

#[test]
fn a_side_without_answer_has_no_price() {
    let mut model = Model::default();
    let x = model.column("x".into(), 3.0, 2.0);
    model.at_least("need".into(), vec![(x, 1.0)], 3.0);
    let sides = one_sided(&model, 0, 1.0).unwrap();
    assert_eq!((sides.fewer, sides.more), (Some(2.0), None));
    let range = range_of_price(&model, 0).unwrap();
    approx::assert_abs_diff_eq!(range.least, 0.0, epsilon = 1e-6);
    approx::assert_abs_diff_eq!(range.largest, 3.0, epsilon = 1e-6);
}

#[test]
fn whole_numbers_jump() {
    let mut model = Model::default();
    let lot = model.whole_column("lot".into(), f64::INFINITY, 10.0);
    model.at_least("need".into(), vec![(lot, 4.0)], 12.0);
    let sides = one_sided(&model, 0, 1.0).unwrap();
    assert_eq!((sides.fewer, sides.more), (Some(0.0), Some(10.0)));
}

#[test]
fn a_kept_model_gives_what_a_new_one_gives() {
    for seed in 0..40 {
        let model = random_program(seed);
        let mut resolver = Resolver::new(model.clone());
        resolver.solve().unwrap();
        for (row, right) in model.rows.iter().map(right_side).enumerate() {
            let Some(right) = right else { continue };
            for by in [0.5, -0.5, 0.0] {
                let moved = with_right_side(&model, row, right + by);
                resolver.set_right_side(row, moved.rows[row].lower, moved.rows[row].upper);
                match (resolver.solve(), solve(&moved)) {
                    (Ok(kept), Ok(anew)) => {
                        let near = 1e-6 * anew.cost.abs().max(1.0);
                        assert!(
                            (kept.cost - anew.cost).abs() <= near,
                            "seed {seed}: {} {}",
                            kept.cost,
                            anew.cost
                        );
                    }
                    (kept, anew) => assert_eq!(kept, anew, "seed {seed} row {row} by {by}"),
                }
            }
        }
        resolver.set_cost(0, model.columns[0].cost);
        assert_eq!(resolver.model(), &model);
    }
    let feasible = (0..).map(whole_numbers::random_program).find(|model| solve(model).is_ok());
    let mut whole = Resolver::new(feasible.unwrap());
    let before = whole.solve().unwrap().cost;
    for at in 0..whole.model().columns.len() {
        whole.set_cost(at, 3.0);
    }
    let after = whole.solve().unwrap().cost;
    approx::assert_relative_eq!(after, solve(whole.model()).unwrap().cost, max_relative = 1e-9);
    assert!((before - after).abs() > 1e-6, "{before} {after}");
}
