//! Reads the rows, works them, and says what is wrong.

use std::path::Path;

use serde::Deserialize;

use super::inputs::{Answer, Inputs};
use super::{chains, formulas, wear};

/// What a figure may rest on.
const STANDINGS: [&str; 5] = ["read", "secondary", "memory", "common practice", "derived"];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    row: Vec<Row>,
}

/// One figure. Where the print does not reproduce, `expect` is ours and `printed` what the source says.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    formula: String,
    inputs: toml::Table,
    expect: toml::Value,
    tolerance: f64,
    source: String,
    at: String,
    standing: String,
    note: Option<String>,
    printed: Option<toml::Value>,
    #[serde(default = "yes")]
    reproduces: bool,
}

fn yes() -> bool {
    true
}

#[test]
fn published_figures_are_met() {
    let (mut passed, mut faults) = (0, Vec::new());
    for (file, row) in rows().unwrap() {
        match fault(&row) {
            Ok(()) => passed += 1,
            Err(fault) => {
                faults.push(format!("{file}: {}\n    inputs {}\n    {fault}", row.formula, row.inputs))
            }
        }
    }
    assert!(
        faults.is_empty(),
        "{} of {} rows fail\n{}",
        faults.len(),
        passed + faults.len(),
        faults.join("\n")
    );
    assert!(passed >= 60, "only {passed} rows");
}

#[test]
fn a_wrong_row_is_found_out() {
    let row = |text: &str| toml::from_str::<Row>(text).unwrap();
    let tail = "tolerance = 1e-4\nsource = \"derived\"\nat = \"\"\nstanding = \"derived\"\n";
    let wrong = [
        "formula = \"spindle_speed\"\ninputs = { speed = \"100 m/min\", diameter = \"50 mm\" }\nexpect = \"637.5 rpm\"\n",
        "formula = \"spindle_sped\"\ninputs = { speed = \"100 m/min\", diameter = \"50 mm\" }\nexpect = \"636.62 rpm\"\n",
        "formula = \"spindle_speed\"\ninputs = { speed = \"100 m/min\", diameter = \"50 mm\", feed = \"1 mm\" }\nexpect = \"636.62 rpm\"\n",
        "formula = \"spindle_speed\"\ninputs = { speed = \"100 m/min\" }\nexpect = \"636.62 rpm\"\n",
        "formula = \"spindle_speed\"\ninputs = { speed = \"100 m/min\", diameter = \"50 mm\" }\nexpect = \"636.62 mm\"\n",
        "formula = \"spindle_speed\"\ninputs = { speed = \"100 m/min\", diameter = \"50 mm\" }\nexpect = \"636.62 rpm\"\nreproduces = false\n",
        "formula = \"spindle_speed\"\ninputs = { speed = \"100 m/min\", diameter = \"50 mm\" }\nexpect = \"636.62 rpm\"\nreproduces = false\nprinted = \"636.62 rpm\"\n",
    ];
    for text in wrong {
        assert!(fault(&row(&format!("{text}{tail}"))).is_err(), "passes: {text}");
    }
    let right = "formula = \"spindle_speed\"\ninputs = { speed = \"100 m/min\", diameter = \"50 mm\" }\nexpect = \"636.62 rpm\"\n";
    assert_eq!(fault(&row(&format!("{right}{tail}"))), Ok(()));
}

/// All rows with the name of their file, in the order of names.
fn rows() -> Result<Vec<(String, Row)>, Box<dyn std::error::Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let mut files = folder.read_dir()?.map(|entry| Ok(entry?.path())).collect::<std::io::Result<Vec<_>>>()?;
    files.retain(|file| file.extension().is_some_and(|extension| extension == "toml"));
    files.sort();
    let mut rows = Vec::new();
    for file in files {
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        #[expect(clippy::disallowed_methods, reason = "the rows are data of this test")]
        let text = std::fs::read_to_string(&file)?;
        let table: Table = toml::from_str(&text).map_err(|error| format!("{name}: {error}"))?;
        rows.extend(table.row.into_iter().map(|row| (name.clone(), row)));
    }
    Ok(rows)
}

/// Works a row; says what is wrong with it or with the formula.
fn fault(row: &Row) -> Result<(), String> {
    if !STANDINGS.contains(&row.standing.as_str()) {
        return Err(format!("standing `{}` is none of {}", row.standing, STANDINGS.join(", ")));
    }
    if row.source.is_empty() || !(row.tolerance > 0.0 && row.tolerance <= 0.1) {
        return Err("a row needs a source and a tolerance above 0, up to 0.1".to_owned());
    }
    let inputs = Inputs::new(&row.inputs);
    let answer = match formulas::work(&row.formula, &inputs)? {
        Some(answer) => answer,
        None => match wear::work(&row.formula, &inputs)? {
            Some(answer) => answer,
            None => chains::work(&row.formula, &inputs)?.ok_or("no such formula")?,
        },
    };
    inputs.all_used()?;
    held_against(&answer, &row.expect, row.tolerance).map_err(|error| {
        let note = row.note.as_deref().unwrap_or("");
        format!("{error}; [{}] {} ({}) {note}", row.source, row.at, row.standing)
    })?;
    match (&row.printed, row.reproduces) {
        (None, true) => Ok(()),
        (Some(printed), false) => match held_against(&answer, printed, row.tolerance) {
            Ok(()) => Err("is said not to reproduce, but does".to_owned()),
            Err(_) => Ok(()),
        },
        (Some(_), true) => Err("`printed` belongs to rows with `reproduces = false`".to_owned()),
        (None, false) => Err("a row that does not reproduce needs `printed`".to_owned()),
    }
}

fn held_against(answer: &Answer, expect: &toml::Value, tolerance: f64) -> Result<(), String> {
    let expected = answer.read(expect)?;
    let got = &answer.values;
    let error = expected
        .iter()
        .zip(got)
        .map(|(expected, got)| (got - expected).abs() / if *expected == 0.0 { 1.0 } else { expected.abs() })
        .fold(0.0, f64::max);
    if expected.len() == got.len() && error <= tolerance {
        return Ok(());
    }
    let unit = answer.unit;
    Err(format!(
        "expected {expected:?} {unit}, got {got:?} {unit}, relative error {error:.3e}, tolerance {tolerance:.1e}"
    ))
}
