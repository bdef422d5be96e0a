//! Random linear programs: prices signed as they must be, worth the cost, and idle where a row or column is.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use wearland::schedule::{Column, Model, Priced, Row, solve, solve_priced};

const TRIALS: u64 = 300;

/// A program with an answer and without a runaway: rows are laid around known values, costs around known prices.
pub(super) fn random_program(seed: u64) -> Model {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let random = &mut random;
    let (columns, rows) = (random.random_range(1..=9), random.random_range(1..=8));
    let mut model = Model::default();
    let mut values = Vec::new();
    for at in 0..columns {
        let value = f64::from(random.random_range(-4..=6));
        let (below, above) = (f64::from(random.random_range(0..=3)), f64::from(random.random_range(0..=3)));
        let (lower, upper) = match random.random_range(0..6) {
            0 => (f64::NEG_INFINITY, f64::INFINITY),
            1 => (f64::NEG_INFINITY, value + above),
            2 => (value, value),
            3 => (value - below, value + above),
            _ => (value - below, f64::INFINITY),
        };
        model.columns.push(Column { name: format!("x{at}"), lower, upper, cost: 0.0, whole: false });
        values.push(value);
    }
    for at in 0..rows {
        let mut terms = Vec::new();
        for column in 0..columns {
            if random.random_range(0..100) < 60 {
                terms.push((column, f64::from(random.random_range(-50..=50)) / 4.0));
            }
        }
        let sum: f64 = terms.iter().map(|(column, factor)| factor * values[*column]).sum();
        let slack = f64::from(random.random_range(0..=2)) * 3.0;
        let (lower, upper) = match random.random_range(0..5) {
            0 => (sum, sum),
            1 => (sum - slack, f64::INFINITY),
            2 => (sum - slack, sum + 5.0),
            _ => (f64::NEG_INFINITY, sum + slack),
        };
        // A price of the sign that the bounds allow bends the costs, so that the program cannot run away.
        let price = f64::from(random.random_range(-8..=8)) / 2.0;
        let price = if price > 0.0 && lower.is_infinite() || price < 0.0 && upper.is_infinite() {
            -price
        } else {
            price
        };
        terms.iter().for_each(|(column, factor)| model.columns[*column].cost += price * factor);
        model.rows.push(Row { name: format!("r{at}"), lower, upper, terms });
    }
    for column in &mut model.columns {
        let reduced = f64::from(random.random_range(-6..=6));
        let held = reduced > 0.0 && column.lower.is_finite() || reduced < 0.0 && column.upper.is_finite();
        column.cost += if held { reduced } else { 0.0 };
    }
    model
}

/// Whatever is wrong with the prices, reckoned from the model alone.
fn faults(model: &Model, priced: &Priced) -> Vec<String> {
    let mut faults = Vec::new();
    let mut costs = Vec::new();
    let mut worth = 0.0;
    let mut hold = |name: &str, price: f64, at: f64, (lower, upper): (f64, f64)| {
        let bound = if price > 0.0 { lower } else { upper };
        // Duals are held to a ten-millionth: less is rounding.
        if price.abs() > 2e-6 {
            worth += price * bound;
            if !bound.is_finite() || (at - bound).abs() > 1e-5 * bound.abs().max(1.0) {
                faults.push(format!("{name} stands at {at} of {lower} to {upper}, price {price}"));
            }
        }
    };
    for (row, price) in model.rows.iter().zip(&priced.row_prices) {
        hold(&row.name, *price, row.sum(&priced.values), (row.lower, row.upper));
    }
    for (at, column) in model.columns.iter().enumerate() {
        let paid: f64 = model
            .rows
            .iter()
            .zip(&priced.row_prices)
            .flat_map(|(row, price)| row.terms.iter().map(move |(of, factor)| (*of, factor * price)))
            .filter(|(of, _)| *of == at)
            .map(|(_, paid)| paid)
            .sum();
        let reduced = priced.reduced_costs[at];
        if (column.cost - paid - reduced).abs() > 1e-5 {
            costs.push(format!("{} costs {}, is paid {paid}, keeps {reduced}", column.name, column.cost));
        }
    }
    for ((column, reduced), value) in model.columns.iter().zip(&priced.reduced_costs).zip(&priced.values) {
        hold(&column.name, *reduced, *value, (column.lower, column.upper));
    }
    faults.extend(costs);
    if (worth - priced.cost).abs() > 1e-6 * priced.cost.abs().max(1.0) {
        faults.push(format!("costs {}, prices are worth {worth}", priced.cost));
    }
    faults
}

#[test]
fn prices_of_random_programs_are_proofs() {
    let mut with_prices = 0;
    for seed in 0..TRIALS {
        let model = random_program(seed);
        let priced = solve_priced(&model).map_err(|error| format!("seed {seed}: {error}")).unwrap();
        assert_eq!(faults(&model, &priced), Vec::<String>::new(), "seed {seed}");
        let cost = solve(&model).unwrap().cost;
        let near = 1e-6 * cost.abs().max(1.0);
        assert!((cost - priced.cost).abs() <= near, "seed {seed}: {cost}, {} priced", priced.cost);
        with_prices += usize::from(priced.row_prices.iter().any(|price| price.abs() > 1e-9));
    }
    assert!(with_prices > 200, "only {with_prices} programs have prices");
}

#[test]
fn wrong_prices_are_found_out() {
    let model = random_program(3);
    let priced = solve_priced(&model).unwrap();
    for at in 0..model.rows.len() {
        let mut wrong = priced.clone();
        wrong.row_prices[at] += 1.0;
        assert_ne!(faults(&model, &wrong), Vec::<String>::new(), "row {at}");
    }
}

/// Assignment: each answer has as many rows in the way as it has columns at nought.
#[test]
fn degenerate_programs_have_prices_too() {
    let mut model = Model::default();
    let size = 5;
    let mut places = Vec::new();
    for at in 0..size * size {
        let cost = f64::from(u32::try_from(at * 7 % 11).unwrap());
        places.push(model.column(format!("x{at}"), f64::INFINITY, cost));
    }
    for at in 0..size {
        let across = (0..size).map(|other| (places[at * size + other], 1.0)).collect();
        let down = (0..size).map(|other| (places[other * size + at], 1.0)).collect();
        model.equal(format!("across {at}"), across, 1.0);
        model.equal(format!("down {at}"), down, 1.0);
    }
    // Said twice, said with no terms, and a column held fast.
    model.rows.push(Row { name: "again".into(), ..model.rows[0].clone() });
    model.at_most("empty".into(), Vec::new(), 4.0);
    model.columns[7].upper = 0.0;
    let priced = solve_priced(&model).unwrap();
    assert_eq!(faults(&model, &priced), Vec::<String>::new());
}

#[test]
fn small_programs_have_the_prices_they_must() {
    assert!(solve_priced(&Model::default()).unwrap().values.is_empty());
    let mut alone = Model::default();
    alone.column("x".into(), 3.0, -2.0);
    let priced = solve_priced(&alone).unwrap();
    assert_eq!((priced.values, priced.reduced_costs), (vec![3.0], vec![-2.0]));
    let mut free = Model::default();
    let x = free.free_column("x".into(), 1.0);
    free.at_least("floor".into(), vec![(x, 2.0)], -7.0);
    approx::assert_relative_eq!(solve_priced(&free).unwrap().row_prices[0], 0.5, max_relative = 1e-9);
}
