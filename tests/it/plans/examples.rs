//! Every example worked and held against its optimum, its plan, its one-sided prices, and its capacity.

use wearland::schedule::capacity;

use super::layout::{CapacityLine, Example, MadeLine, Missing, PriceLine, VariantLine, examples};
use super::mapping::{Answer, Mapped, mapped};

/// Prices are printed to six digits.
const PRICE_TOLERANCE: f64 = 1e-5;

/// Makes an example wrong.
type Spoil = fn(&mut Example);

#[test]
fn published_plans_are_met() {
    let examples = examples().unwrap();
    let faults: Vec<String> = examples
        .iter()
        .flat_map(|(file, example)| {
            let faults = faults(example).unwrap_or_else(|fault| vec![fault]);
            faults.into_iter().map(move |fault| told(file, example, &fault))
        })
        .collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(examples.len() >= 14, "only {} examples", examples.len());
    let prices: usize = examples.iter().map(|(_, example)| example.price.len()).sum();
    assert!(prices >= 50, "only {prices} prices");
}

#[test]
fn a_wrong_example_is_found_out() {
    let examples = examples().unwrap();
    let of = |file: &str| examples.iter().find(|(name, _)| name == file).unwrap().1.clone();
    let wrong: [(&str, Spoil); 9] = [
        ("bottleneck.toml", |example| example.value = 6300.1),
        ("bottleneck.toml", |example| example.printed = Some(6301.0)),
        ("bottleneck.toml", |example| example.made[0].pieces[0] = 99.0),
        ("bottleneck.toml", |example| example.price[1].more = 2.001),
        ("bottleneck.toml", |example| example.price[0].fewer = 0.001),
        ("bottleneck.toml", |example| example.capacity.as_mut().unwrap().units = 1.001),
        ("switches.toml", |example| example.variant[0].value = Some(816_400.0)),
        ("glasses.toml", |example| example.item[0].holding = 25.5),
        ("sailboats.toml", |example| example.call_off[0].missing = 440.0),
    ];
    for (at, (file, spoil)) in wrong.into_iter().enumerate() {
        let mut example = of(file);
        assert_eq!(faults(&example), Ok(Vec::new()), "{file}");
        spoil(&mut example);
        assert_ne!(faults(&example), Ok(Vec::new()), "spoilt example {at} of {file} passes");
    }
}

/// The stock of the published plan of glasses fills less than half the space, which the program does not know.
#[test]
fn the_stock_of_glasses_has_space() {
    let space_of_a_batch = [4.0, 5.0, 5.0, 6.0, 4.0, 9.0];
    let examples = examples().unwrap();
    let (_, glasses) = examples.iter().find(|(name, _)| name == "glasses.toml").unwrap();
    let answer = mapped(glasses).unwrap().answer().unwrap();
    for week in 0..12 {
        let taken: f64 =
            answer.stock.iter().zip(space_of_a_batch).map(|(stock, space)| stock[week] * space).sum();
        assert!(taken < 500.0, "week {}: {taken}", week + 1);
    }
}

fn told(file: &str, example: &Example, fault: &str) -> String {
    let note = example.note.as_deref().unwrap_or("");
    format!("{file} [{}] {}: {fault} {note}", example.source, example.at)
}

/// All that is wrong with an example or with the model.
fn faults(example: &Example) -> Result<Vec<String>, String> {
    let mapped = mapped(example)?;
    let answer = mapped.answer()?;
    let mut faults = Vec::new();
    faults.extend(differs("value", answer.value, example.value, example.tolerance));
    // A print rounds to whole units.
    if let Some(printed) = example.printed.filter(|printed| (answer.value - printed).abs() > 0.5) {
        faults.push(format!("printed {printed}, got {}", answer.value));
    }
    if answer.missing > 1e-6 {
        faults.push(format!("{} pieces are missing", answer.missing));
    }
    for line in &example.made {
        faults.extend(made_otherwise(&mapped, &answer, line)?);
    }
    for line in &example.price {
        faults.extend(priced_otherwise(&mapped, &answer, line)?);
    }
    for line in &example.variant {
        faults.extend(varies_otherwise(&mapped, line, example.tolerance)?);
    }
    if let Some(line) = &example.capacity {
        faults.extend(other_capacity(&mapped, line)?);
    }
    Ok(faults)
}

fn differs(what: &str, got: f64, expected: f64, tolerance: f64) -> Option<String> {
    // Written so that an answer that is not a number counts as different.
    let close = (got - expected).abs() <= tolerance * expected.abs().max(1.0);
    (!close).then(|| format!("{what}: expected {expected}, got {got}, tolerance {tolerance:e}"))
}

fn made_otherwise(mapped: &Mapped, answer: &Answer, line: &MadeLine) -> Result<Vec<String>, String> {
    let step = mapped.step(&line.item)?;
    let on = line.on.as_deref().map(|on| mapped.resource(on)).transpose()?;
    let counted: Vec<&Vec<f64>> = mapped
        .problem
        .activities
        .iter()
        .zip(&answer.started)
        .filter(|(activity, _)| {
            let uses = |resource| activity.uses.iter().any(|(of, _)| *of == resource);
            activity.step == step && on.is_none_or(uses)
        })
        .map(|(_, pieces)| pieces)
        .collect();
    if line.pieces.len() != mapped.problem.slots.len() || counted.is_empty() {
        return Err(format!("`made` of {} names no work, or not every slot", line.item));
    }
    let faults = line.pieces.iter().enumerate().filter_map(|(slot, expected)| {
        let pieces: f64 = counted.iter().map(|pieces| pieces[slot]).sum();
        let what = format!("{} on {} in slot {}", line.item, line.on.as_deref().unwrap_or("all"), slot + 1);
        differs(&what, pieces, *expected, 1e-6)
    });
    Ok(faults.collect())
}

/// Prices by solving again with a unit more and a unit fewer.
fn priced_otherwise(mapped: &Mapped, answer: &Answer, line: &PriceLine) -> Result<Vec<String>, String> {
    let moved = |by: f64| -> Result<f64, String> {
        let mut moved = mapped.clone();
        let slot = line.slot - 1;
        match (&line.on, &line.item) {
            (Some(resource), None) => {
                let resource = mapped.resource(resource)?;
                moved.problem.resources[resource].minutes[slot] += by;
            }
            (None, Some(item)) => {
                let step = mapped.step(item)?;
                let of = |at: &usize| mapped.problem.demands[*at].step == step && mapped.slot_of[*at] == slot;
                let demand = (0..mapped.slot_of.len()).find(of).ok_or("no such demand")?;
                moved.problem.demands[demand].quantity += by;
            }
            _ => return Err("a price is of a resource or of an item".to_owned()),
        }
        let value = moved.answer()?;
        if value.missing > 1e-6 { Err("pieces are missing".to_owned()) } else { Ok(value.value) }
    };
    let of = line.on.as_deref().or(line.item.as_deref()).unwrap_or("");
    let what = |side: &str| format!("a unit {side} of {of} in slot {}", line.slot);
    let more = moved(1.0)? - answer.value;
    let fewer = answer.value - moved(-1.0)?;
    Ok(differs(&what("more"), more, line.more, PRICE_TOLERANCE)
        .into_iter()
        .chain(differs(&what("fewer"), fewer, line.fewer, PRICE_TOLERANCE))
        .collect())
}

fn varies_otherwise(mapped: &Mapped, line: &VariantLine, tolerance: f64) -> Result<Vec<String>, String> {
    let mut varied = mapped.clone();
    for (resource, units) in &line.units {
        varied.problem.resources[mapped.resource(resource)?].minutes.fill(*units);
    }
    let answer = varied.answer()?;
    let mut faults = Vec::new();
    if let Some(value) = line.value {
        faults.extend(differs(&format!("value with {:?}", line.units), answer.value, value, tolerance));
    }
    let missing = if answer.missing > 1e-6 { Missing::Some } else { Missing::Nothing };
    if missing != line.missing.unwrap_or(Missing::Nothing) {
        faults.push(format!("{} pieces are missing with {:?}", answer.missing, line.units));
    }
    Ok(faults)
}

fn other_capacity(mapped: &Mapped, line: &CapacityLine) -> Result<Vec<String>, String> {
    let mix = line.mix.iter().map(|(item, pieces)| Ok((mapped.step(item)?, *pieces)));
    let mix = mix.collect::<Result<Vec<_>, String>>()?;
    let found = capacity(&mapped.problem, &mix).map_err(|error| error.to_string())?;
    let mut faults = Vec::new();
    faults.extend(differs("units of the mix", found.units, line.units, 1e-7));
    if let Some(gains) = &line.one_more_hour {
        for (resource, gain) in mapped.problem.resources.iter().zip(&found.one_more_hour) {
            let expected = gains.get(&resource.name).copied().unwrap_or(0.0);
            let what = format!("one more hour of {}", resource.name);
            faults.extend(differs(&what, gain.unwrap_or(0.0), expected, 1e-6));
        }
    }
    Ok(faults)
}
