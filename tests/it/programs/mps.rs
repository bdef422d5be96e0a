//! Models written to files, read back by a reader of the tests, and solved by a second solver where there is one.

use std::process::Command;
use wearland::schedule::{Model, Row, solve, write_mps};

use super::examples::examples;
use super::mps_reader::read_mps;
use super::{duality, whole_numbers};
use crate::program::project;

fn written(model: &Model) -> String {
    let mut text = String::new();
    write_mps(model, "a model", &mut text).unwrap();
    text
}

/// Everything but the names, which the writer may change.
fn differs(one: &Model, other: &Model) -> Option<String> {
    if (one.columns.len(), one.rows.len()) != (other.columns.len(), other.rows.len()) {
        return Some("other sizes".to_owned());
    }
    for (one, other) in one.columns.iter().zip(&other.columns) {
        let numbers = |column: &wearland::schedule::Column| {
            ([column.lower, column.upper, column.cost + 0.0].map(f64::to_bits), column.whole)
        };
        if numbers(one) != numbers(other) {
            return Some(format!("{one:?} {other:?}"));
        }
    }
    for (one, other) in one.rows.iter().zip(&other.rows) {
        let mut terms = [one.terms.clone(), other.terms.clone()];
        terms.iter_mut().for_each(|terms| terms.sort_by_key(|(at, _)| *at));
        // The bound that comes from a difference is rounded.
        let near = |one: f64, other: f64| {
            one.total_cmp(&other).is_eq() || (one - other).abs() <= 1e-14 * one.abs().max(1.0)
        };
        if terms[0] != terms[1] || !near(one.lower, other.lower) || !near(one.upper, other.upper) {
            return Some(format!("{one:?} {other:?}"));
        }
    }
    None
}

/// Bounds and numbers of every kind.
fn every_kind() -> Model {
    let mut model = Model::default();
    let infinite = f64::INFINITY;
    let bounds = [
        (0.0, infinite),
        (-infinite, infinite),
        (-infinite, -3.5),
        (-2.0, infinite),
        (-2.0, 1e-7),
        (4.0, 4.0),
    ];
    for (at, (lower, upper)) in bounds.into_iter().enumerate() {
        for whole in [false, true] {
            let place = model.column(format!("Größe {at} of *"), 0.0, 1.0 / 3.0);
            (model.columns[place].lower, model.columns[place].upper) = (lower, upper);
            model.columns[place].whole = whole;
        }
    }
    model.columns[3].cost = 0.0;
    let terms: Vec<(usize, f64)> = (0..11).map(|at| (at, 1.0 / (at as f64 + 7.0) - 0.1)).collect();
    for (lower, upper) in
        [(-infinite, 0.1), (1e-300, infinite), (2.5, 2.5), (-1.0, 1e16), (-infinite, infinite), (0.0, 0.0)]
    {
        model.rows.push(Row { name: "RHS".into(), lower, upper, terms: terms.clone() });
    }
    model.at_most("COSTS".into(), vec![(3, 5.0), (2, -1.0)], -7.0);
    model.at_most("of nothing".into(), Vec::new(), 1.0);
    model
}

#[test]
fn what_is_written_reads_back() {
    let mut models = vec![every_kind(), Model::default()];
    models.extend((0..60).map(duality::random_program));
    models.extend((0..60).map(whole_numbers::random_program));
    models.extend(examples().into_iter().map(|(_, example)| example.model().unwrap()));
    for model in &models {
        let text = written(model);
        let read = read_mps(&text).map_err(|fault| format!("{fault}\n{text}")).unwrap();
        assert_eq!(differs(model, &read), None, "{text}");
        // What was read has plain names, which are written as they are.
        let again = written(&read);
        assert!(model.rows.iter().any(Row::is_two_sided) || again == text, "{text}\n{again}");
    }
}

#[test]
fn a_changed_file_is_found_out() {
    let model = every_kind();
    let text = written(&model);
    for (from, to) in
        [(" FR BOUND", " PL BOUND"), ("'INTORG'", "'INTEND'"), (" RANGE ", " RANGE0 "), ("-3.5", "-3.25")]
    {
        assert!(text.contains(from), "{text}");
        let changed =
            if from == " RANGE " { text.replace("10000000000000000", "1") } else { text.replace(from, to) };
        assert!(read_mps(&changed).map_or(true, |read| differs(&model, &read).is_some()), "{from}");
    }
}

/// Needs `WEARLAND_SECOND_SOLVER`, the path of a Python that has `highspy`.
#[test]
#[expect(clippy::print_stderr, reason = "who runs the tests is to know that one was left out")]
fn a_second_solver_finds_the_same_cost() {
    let Some(python) = std::env::var_os("WEARLAND_SECOND_SOLVER") else {
        eprintln!("skipped: WEARLAND_SECOND_SOLVER names no Python with highspy");
        return;
    };
    let folder = std::env::temp_dir().join(format!("wearland-mps-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let mut costs = Vec::new();
    let mut files = Vec::new();
    let mut add = |name: String, model: &Model| {
        let file = folder.join(format!("{name}.mps"));
        std::fs::write(&file, written(model)).unwrap();
        files.push(file);
        costs.push(solve(model).ok().map(|answer| answer.cost));
    };
    for seed in 0..25 {
        add(format!("program-{seed}"), &duality::random_program(seed));
        add(format!("whole-{seed}"), &whole_numbers::random_program(seed));
    }
    for (name, example) in examples() {
        add(name, &example.model().unwrap());
    }
    let output = Command::new(python).arg(project("tests/second-solver.py")).args(&files).output().unwrap();
    std::fs::remove_dir_all(&folder).unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let printed = String::from_utf8(output.stdout).unwrap();
    let lines: Vec<&str> =
        printed.lines().filter_map(|line| line.split_once('\t')).map(|(_, cost)| cost).collect();
    assert_eq!(lines.len(), files.len(), "{printed}");
    for ((line, cost), file) in lines.iter().zip(&costs).zip(&files) {
        match (line.parse::<f64>(), cost) {
            (Ok(found), Some(cost)) => {
                approx::assert_relative_eq!(found, *cost, max_relative = 1e-6, epsilon = 1e-6)
            }
            (Err(_), None) if *line == "infeasible" => {}
            other => panic!("{}: {other:?}", file.display()),
        }
    }
}
