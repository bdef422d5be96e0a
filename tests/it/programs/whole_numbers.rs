//! Random programs with whole numbers, against every combination of the whole columns.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use wearland::schedule::{Column, Model, Row, SolveError, WholeStatus, solve, solve_whole};

const TRIALS: u64 = 200;

/// One to five whole columns of a few values each, and none or one column besides.
pub(super) fn random_program(seed: u64) -> Model {
    let mut random = ChaCha8Rng::seed_from_u64(1000 + seed);
    let mut model = Model::default();
    let whole = random.random_range(1..=5);
    let others = random.random_range(0..=1);
    for at in 0..whole + others {
        let lower = f64::from(random.random_range(-2..=1));
        let upper = lower + f64::from(random.random_range(0..=4));
        let cost = f64::from(random.random_range(-40..=40)) / 4.0;
        // A bound between whole numbers asks to be moved inwards.
        let upper = if random.random_range(0..4) == 0 { upper + 0.5 } else { upper };
        model.columns.push(Column { name: format!("x{at}"), lower, upper, cost, whole: at < whole });
    }
    for at in 0..random.random_range(1..=5) {
        let mut terms = Vec::new();
        for column in 0..whole + others {
            if random.random_range(0..100) < 70 {
                terms.push((column, f64::from(random.random_range(-30..=40)) / 4.0));
            }
        }
        let sum = f64::from(random.random_range(-20..=40)) / 2.0;
        let (lower, upper) = match random.random_range(0..6) {
            0 => (-sum, f64::INFINITY),
            1 => (sum - 12.0, sum),
            _ => (f64::NEG_INFINITY, sum),
        };
        model.rows.push(Row { name: format!("r{at}"), lower, upper, terms });
    }
    model
}

/// Least cost over every combination of the whole columns; the last column, where it is not whole, goes as far as it can.
fn least_cost(model: &Model) -> Option<f64> {
    let whole = model.columns.iter().filter(|column| column.whole).count();
    let mut values: Vec<f64> = model.columns.iter().map(|column| column.lower).collect();
    let mut least: Option<f64> = None;
    loop {
        if let Some(cost) = completed(model, &mut values.clone(), whole)
            && least.is_none_or(|least| cost < least)
        {
            least = Some(cost);
        }
        let Some(at) = (0..whole).find(|at| values[*at] + 1.0 <= model.columns[*at].upper) else {
            return least;
        };
        values[at] += 1.0;
        values[..at].iter_mut().zip(&model.columns).for_each(|(value, column)| *value = column.lower);
    }
}

/// Cost with the remaining column at its best, if it has any place to stand.
fn completed(model: &Model, values: &mut [f64], whole: usize) -> Option<f64> {
    if whole == model.columns.len() {
        return keeps(model, values).then(|| model.cost(values));
    }
    let column = &model.columns[whole];
    let (mut lower, mut upper) = (column.lower, column.upper);
    values[whole] = 0.0;
    for row in &model.rows {
        let rest = row.sum(values);
        let factor: f64 = row.terms.iter().filter(|(at, _)| *at == whole).map(|(_, factor)| factor).sum();
        if factor != 0.0 {
            let (one, other) = ((row.lower - rest) / factor, (row.upper - rest) / factor);
            lower = lower.max(one.min(other));
            upper = upper.min(one.max(other));
        }
    }
    if lower > upper + 1e-9 {
        return None;
    }
    values[whole] = if column.cost < 0.0 { upper } else { lower };
    keeps(model, values).then(|| model.cost(values))
}

fn keeps(model: &Model, values: &[f64]) -> bool {
    model.rows.iter().all(|row| {
        let sum = row.sum(values);
        row.lower - 1e-9 <= sum && sum <= row.upper + 1e-9
    })
}

#[test]
fn whole_numbers_are_as_cheap_as_the_cheapest_combination() {
    let (mut solved, mut infeasible, mut dearer) = (0, 0, 0);
    for seed in 0..TRIALS {
        let model = random_program(seed);
        match (solve_whole(&model, None, &Default::default()), least_cost(&model)) {
            (Ok(whole), Some(least)) => {
                assert_eq!(whole.status, WholeStatus::Proven, "seed {seed}");
                let near = 1e-6 * least.abs().max(1.0);
                assert!((whole.cost - least).abs() <= near, "seed {seed}: {} for {least}", whole.cost);
                assert!(whole.bound <= least + near && whole.bound <= whole.cost, "seed {seed}: {whole:?}");
                assert_eq!(model.check_answer(&whole.values), Ok(()), "seed {seed}");
                solved += 1;
                let relaxed = solve(&model.relaxed()).unwrap().cost;
                assert!(relaxed <= least + near, "seed {seed}: {relaxed} relaxed, {least} whole");
                dearer += usize::from(relaxed < least - 1e-6);
            }
            (Err(SolveError::Infeasible), None) => infeasible += 1,
            (got, expected) => panic!("seed {seed}: {got:?}, expected {expected:?}"),
        }
    }
    assert!(solved >= 100 && infeasible >= 10, "{solved} solved, {infeasible} infeasible");
    assert!(dearer >= 60, "only {dearer} programs are dearer in whole numbers");
}

/// Two columns besides, whose best place each combination finds by a linear program.
#[test]
fn whole_numbers_beside_others_are_as_cheap_as_can_be() {
    for seed in 0..20 {
        let mut model = random_program(seed);
        for column in model.columns.iter_mut().skip(2) {
            column.whole = false;
        }
        let whole = model.columns.iter().filter(|column| column.whole).count();
        let mut values: Vec<f64> = model.columns.iter().map(|column| column.lower).collect();
        let mut least: Option<f64> = None;
        loop {
            if let Ok(answer) = solve(&model.with_whole_columns_at(&values)) {
                least = Some(least.map_or(answer.cost, |least| least.min(answer.cost)));
            }
            let next = (0..whole).find(|at| values[*at] + 1.0 <= model.columns[*at].upper);
            let Some(at) = next else { break };
            values[at] += 1.0;
            values[..at].iter_mut().zip(&model.columns).for_each(|(value, column)| *value = column.lower);
        }
        let got = solve_whole(&model, None, &Default::default()).ok().map(|whole| whole.cost);
        match (got, least) {
            (Some(got), Some(least)) => {
                approx::assert_relative_eq!(got, least, max_relative = 1e-6, epsilon = 1e-6)
            }
            (None, None) => {}
            other => panic!("seed {seed}: {other:?}"),
        }
    }
}
