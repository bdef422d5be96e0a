//! Every worked example held against its optimum, its relaxation, its print, its prices and its variants.

use wearland::schedule::{
    Model, SolveError, WholeStatus, one_sided, range_of_price, solve, solve_priced, solve_whole,
};

use super::layout::{Example, Standing};
use crate::program::project;

/// Prices are printed to six digits.
const PRICE_TOLERANCE: f64 = 2e-5;

/// Makes an example wrong.
type Spoil = fn(&mut Example);

/// The examples by name.
pub(super) fn examples() -> Vec<(String, Example)> {
    let mut examples = Vec::new();
    for entry in std::fs::read_dir(project("tests/schedules/models")).unwrap() {
        let path = entry.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        let example = toml::from_str(&text).map_err(|error| format!("{}: {error}", path.display())).unwrap();
        examples.push((path.file_stem().unwrap().to_str().unwrap().to_owned(), example));
    }
    examples.sort_by(|(one, _), (other, _)| one.cmp(other));
    examples
}

#[test]
fn worked_examples_come_out() {
    let examples = examples();
    let faults: Vec<String> = examples
        .iter()
        .flat_map(|(name, example)| {
            let faults = faults(example).unwrap_or_else(|fault| vec![fault]);
            faults.into_iter().map(move |fault| {
                let note = example.note.as_deref().unwrap_or("");
                format!("{name} [{}] {}, {:?}: {fault} {note}", example.source, example.at, example.data)
            })
        })
        .collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    let count =
        |kind: fn(&Example) -> usize| -> usize { examples.iter().map(|(_, example)| kind(example)).sum() };
    assert!(examples.len() >= 24, "only {} examples", examples.len());
    assert!(count(|example| example.prices.len()) >= 60, "{} prices", count(|example| example.prices.len()));
    assert!(count(|example| usize::from(!example.whole.is_empty())) >= 8, "whole numbers");
    assert!(count(|example| usize::from(example.reproduces == Some(true))) >= 12, "prints that come out");
}

#[test]
fn a_wrong_example_is_found_out() {
    let examples = examples();
    let wrong: [(&str, Spoil); 6] = [
        ("pm_toys", |example| example.value = 180.001),
        ("pm_toys", |example| example.printed = Some(181.0)),
        ("pm_toys", |example| example.prices.values_mut().for_each(|price| price[1] += 0.001)),
        ("pm_toys", |example| example.rows[0] = example.rows[0].replace("100", "101")),
        ("ls_winston4", |example| example.whole.clear()),
        ("ls_winston4", |example| example.relaxed = Some(6.81)),
    ];
    for (at, (name, spoil)) in wrong.into_iter().enumerate() {
        let mut example = examples.iter().find(|(own, _)| own == name).unwrap().1.clone();
        assert_eq!(faults(&example), Ok(Vec::new()), "{name}");
        spoil(&mut example);
        assert_ne!(faults(&example), Ok(Vec::new()), "spoilt example {at}, {name}, passes");
    }
}

/// All that is wrong with an example or with the solvers.
fn faults(example: &Example) -> Result<Vec<String>, String> {
    let model = example.model()?;
    let told = |error: SolveError| error.to_string();
    let whole = solve_whole(&model, None, &Default::default()).map_err(told)?;
    let value = example.value_of(whole.cost);
    let mut faults = Vec::new();
    faults.extend(differs("value", value, example.value, 1e-6));
    if whole.status != WholeStatus::Proven {
        faults.push(format!("ended as {:?}", whole.status));
    }
    if let Some(relaxed) = example.relaxed {
        let got = example.value_of(solve(&model.relaxed()).map_err(told)?.cost);
        faults.extend(differs("value without whole numbers", got, relaxed, 1e-6));
    }
    faults.extend(printed_otherwise(example, value));
    faults.extend(priced_otherwise(example, &model.relaxed()).map_err(told)?);
    for variant in &example.variant {
        let got = match solve(&variant.of(&model)?) {
            Ok(answer) => Some(example.value_of(answer.cost)),
            Err(SolveError::Infeasible) => None,
            Err(error) => return Err(error.to_string()),
        };
        match (got, variant.value) {
            (Some(got), Some(value)) => {
                faults.extend(differs(&format!("value with {:?}", variant.right), got, value, 1e-6));
            }
            (None, None) => {}
            other => faults.push(format!("with {:?}: got and expected {other:?}", variant.right)),
        }
    }
    if example.optimum == Standing::Derived && example.printed.is_some() {
        faults.push("a derived optimum has no print".to_owned());
    }
    Ok(faults)
}

fn differs(what: &str, got: f64, expected: f64, tolerance: f64) -> Option<String> {
    // Written so that an answer that is not a number counts as different.
    let close = (got - expected).abs() <= tolerance * expected.abs().max(1.0);
    (!close).then(|| format!("{what}: expected {expected}, got {got}, tolerance {tolerance:e}"))
}

/// Whether the print comes out, to half of its last whole unit, is as the example says.
fn printed_otherwise(example: &Example, value: f64) -> Option<String> {
    let Some(printed) = example.printed else {
        return example.reproduces.map(|_| "`reproduces` without a print".to_owned());
    };
    let near = if printed.fract() == 0.0 { 0.5 } else { 5e-3 };
    let comes_out = (value - printed).abs() <= near;
    let said = example.reproduces?;
    (comes_out != said).then(|| format!("printed {printed}, got {value}, said to come out: {said}"))
}

/// Prices by solving again, the prices of the dual between them, and the range in which they hold.
fn priced_otherwise(example: &Example, model: &Model) -> Result<Vec<String>, SolveError> {
    let mut faults = Vec::new();
    let priced = solve_priced(model)?;
    for (name, [fewer, more]) in &example.prices {
        let Some(row) = model.rows.iter().position(|row| row.name == *name) else {
            faults.push(format!("a price of no row {name}"));
            continue;
        };
        let sides = one_sided(model, row, 0.01)?;
        for (side, got, expected) in [("fewer", sides.fewer, *fewer), ("more", sides.more, *more)] {
            let what = format!("a unit {side} of {name}");
            match got.map(|got| example.value_of(got)) {
                Some(got) => faults.extend(differs(&what, got, expected, PRICE_TOLERANCE)),
                // A side on which nothing keeps the rows has no price.
                None if expected.is_infinite() => {}
                None => faults.push(format!("{what}: expected {expected}, got no answer")),
            }
        }
        let price = example.value_of(priced.row_prices[row]);
        let (low, high) = (fewer.min(*more), fewer.max(*more));
        let near = PRICE_TOLERANCE * price.abs().max(1.0);
        if !(low - near <= price && price <= high + near) {
            faults.push(format!("price {price} of {name} is not between {low} and {high}"));
        }
        let range = range_of_price(model, row)?;
        let right =
            if model.rows[row].upper.is_finite() { model.rows[row].upper } else { model.rows[row].lower };
        if !(range.least <= right && right <= range.largest) {
            faults.push(format!("price of {name} holds for {range:?}, not at {right}"));
        }
    }
    Ok(faults)
}
