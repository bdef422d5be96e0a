//! `fit` as a shop runs it: published logs, refusals at their lines, wear readings.

use super::program_files::{number, report, row, rows, said};
use crate::errors::found;
use crate::families::workshop::assert_near;
use crate::program::{project, run};
use serde_json::Value;
use std::collections::BTreeSet;

fn constant(report: &Value, name: &str) -> f64 {
    number(&row(&rows(report, "constants"), &[("constant", name)]), "value")
}

#[test]
fn least_squares_gives_the_published_lines() {
    for (log, expected) in [
        ("lathe1", [25.287_919_86, -4.541_196_216, -1.595_819_469]),
        ("vardeman-jobe", [18.749_626_68, -5.120_884_397, -3.737_859_667]),
    ] {
        let path = format!("tests/logs/{log}.csv");
        let inch = report(&["fit", &path, "--by", "least-squares", "--units", "inch"]);
        for (name, expected) in ["b_0", "b_V", "b_f"].into_iter().zip(expected) {
            assert_near(constant(&inch, name), expected, 1e-9);
        }
        let [constant_term, on_speed, on_feed] = expected;
        assert_near(constant(&inch, "n"), -1.0 / on_speed, 1e-9);
        assert_near(constant(&inch, "a"), on_feed / on_speed, 1e-9);
        assert_near(constant(&inch, "C"), (-constant_term / on_speed).exp(), 1e-8);
        // The same line in metric units: the slopes stay, the constant moves with feet and inches.
        let metric = report(&["fit", &path, "--by", "least-squares"]);
        assert_near(constant(&metric, "b_V"), on_speed, 1e-9);
        let moved = constant_term - on_speed * 0.3048_f64.ln() - on_feed * 25.4_f64.ln();
        assert_near(constant(&metric, "b_0"), moved, 1e-8);
    }
}

#[test]
fn the_censored_fit_gives_the_reference_solution() {
    let report = report(&["fit", "tests/logs/generated-a.csv"]);
    assert_near(constant(&report, "b_0"), 22.748_555_05, 1e-8);
    assert_near(constant(&report, "b_V"), -3.756_199_96, 1e-8);
    assert_near(constant(&report, "beta"), 1.0 / 0.241_756_623_2, 1e-8);
    assert_near(constant(&report, "n"), 1.0 / 3.756_199_96, 1e-8);
    let quality = &rows(&report, "quality")[0];
    assert_near(number(quality, "to_the_end_edges"), 35.0, 1e-12);
    assert_near(number(quality, "early_edges"), 5.0, 1e-12);
    // The truth that it was generated with lies between the ends.
    let n = row(&rows(&report, "constants"), &[("constant", "n")]);
    assert!(number(&n, "low") < 0.25 && 0.25 < number(&n, "high"), "{n}");
}

#[test]
fn a_life_that_lost_its_decimal_point_is_named() {
    for by in ["weibull", "lognormal", "least-squares"] {
        let report = report(&["fit", "tests/logs/four-speeds-misprinted.csv", "--by", by]);
        let remarks: Vec<&str> =
            report["notes"]["remarks"].as_array().unwrap().iter().filter_map(Value::as_str).collect();
        let slip: Vec<&&str> = remarks.iter().filter(|line| line.contains("slip of the decimal")).collect();
        assert_eq!(slip.len(), 1, "{by}: {remarks:#?}");
        assert!(slip[0].contains("line 6") && slip[0].contains(" 2.6"), "{by}: {}", slip[0]);
    }
    let right = report(&["fit", "tests/logs/four-speeds.csv", "--by", "least-squares"]);
    assert!(!right["notes"]["remarks"].to_string().contains("slip of the decimal"), "{}", right["notes"]);
}

#[test]
fn what_a_log_cannot_tell_is_refused_at_its_line() {
    // The block pasted in begins again behind the 8 rows at 150 m/min and the 12 that it repeats.
    for (log, place) in [("one-speed", "3:1"), ("no-failure", "3:1"), ("pasted-twice", "23:1")] {
        for by in ["weibull", "lognormal", "least-squares"] {
            let output = run(&["fit", &format!("tests/logs/{log}.csv"), "--by", by]);
            let said = said(&output);
            assert_eq!(output.status.code(), Some(3), "{log} {by}: {said}");
            assert_eq!(found(&said), BTreeSet::from([format!("E305 at {place}")]), "{log} {by}: {said}");
            assert!(output.stdout.is_empty(), "{log} {by}");
        }
    }
}

/// Minutes at which each edge of the readings comes to a land, on the straight line between two of them.
fn lives(land: f64) -> Vec<(String, Option<f64>)> {
    let text = std::fs::read_to_string(project("tests/logs/milling-wear.csv")).unwrap();
    let lines = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    let mut edges: Vec<(String, Vec<(f64, f64)>)> = Vec::new();
    for line in lines {
        let cells: Vec<&str> = line.split(',').collect();
        let reading = (cells[1].parse().unwrap(), cells[2].parse().unwrap());
        match edges.iter_mut().find(|(edge, _)| edge == cells[0]) {
            Some((_, readings)) => readings.push(reading),
            None => edges.push((cells[0].to_owned(), vec![reading])),
        }
    }
    let life = |readings: &[(f64, f64)]| {
        let pair = readings.windows(2).find(|pair| pair[0].1 < land && land <= pair[1].1)?;
        let share = (land - pair[0].1) / (pair[1].1 - pair[0].1);
        Some(pair[0].0 + share * (pair[1].0 - pair[0].0))
    };
    edges.into_iter().map(|(edge, readings)| (edge, life(&readings))).collect()
}

#[test]
fn lives_are_read_off_wear_readings() {
    let report = report(&["fit", "tests/logs/milling-wear.csv", "--limit", "0.45 mm"]);
    let read = rows(&report, "read_lives");
    let expected = lives(0.45);
    assert_eq!(expected.len(), 16);
    let mut compared = 0;
    for (edge, life) in &expected {
        let found = read.iter().find(|row| row["edge"] == **edge);
        match (life, found) {
            (Some(life), Some(row)) => {
                assert_eq!(row["how"], "read at the limit", "{edge}");
                assert_near(number(row, "life_min"), *life, 1e-9);
                compared += 1;
            }
            (None, found) => assert!(found.is_none_or(|row| row["how"] != "read at the limit"), "{edge}"),
            (Some(life), None) => panic!("{edge} came to the land after {life} min and is not told"),
        }
    }
    assert!(compared >= 12, "{compared} edges compared");
    // As published for the first two tests.
    for (edge, life) in [("case-1", 41.0), ("case-2", 61.8)] {
        assert_near(number(&row(&read, &[("edge", edge)]), "life_min"), life, 1e-9);
    }
    let output = run(&["fit", "tests/logs/milling-wear.csv"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("--limit"));
}

#[test]
fn the_same_log_gives_the_same_bytes() {
    for arguments in [
        &["fit", "tests/logs/generated-a.csv"][..],
        &["fit", "tests/logs/lathe1.csv", "--by", "lognormal", "--units", "inch"],
        &["fit", "tests/logs/milling-wear.csv", "--limit", "0.45 mm"],
        &["actual", "tests/logs/counts-vent-drive.csv"],
        &["wear", "scenarios/inch-shaft.toml"],
    ] {
        for format in ["text", "json", "csv"] {
            let arguments = [arguments, &["--format", format]].concat();
            let (first, second) = (run(&arguments), run(&arguments));
            assert_eq!(first.status.code(), Some(0), "{arguments:?}: {}", said(&first));
            assert_eq!(first.stdout, second.stdout, "{arguments:?}");
        }
    }
}
