//! The catalog joined with a log, and the constants laid over a scenario.

use super::program_files::{Folder, number, report, row, rows};
use crate::families::workshop::assert_near;
use crate::program::run;
use serde_json::Value;

fn constant(report: &Value, name: &str) -> Value {
    row(&rows(report, "constants"), &[("constant", name)])
}

/// What the catalog says of `turn-80-08` in C45, and how far it is doubted: speed, life, n; deviations of ln T and of 1/n.
const SPEED: f64 = 230.0;
const LIFE: f64 = 15.0;
const N: f64 = 0.25;
const LIFE_DOUBT: f64 = std::f64::consts::LN_2;
const SLOPE_DOUBT: f64 = 0.1 / (N * N);

/// A log of edges that all failed at one speed.
fn at_one_speed(speed: f64) -> String {
    let lives = [14.2, 11.9, 17.5, 13.1, 15.8, 12.6];
    let rows: String = lives.iter().map(|life| format!("{speed},{life},worn\n")).collect();
    format!("speed_m_per_min,time_min,outcome\n{rows}")
}

#[test]
fn one_speed_tells_the_life_and_leaves_the_exponent_to_the_catalog() {
    let folder = Folder::new("fit-one-speed");
    let with_prior =
        |log: &str| report(&["fit", log, "--tool", "turn-80-08", "--material", "C45", "--prior"]);
    // At the speed of the reference cut nothing at all is said of n.
    let there = with_prior(&folder.write("there.csv", &at_one_speed(SPEED)));
    let n = constant(&there, "n");
    assert_near(number(&n, "value"), N, 1e-3);
    assert!(number(&n, "data_weight_percent") < 1.0, "{n}");
    let life = constant(&there, "T_0");
    assert!(number(&life, "data_weight_percent") > 90.0, "{life}");
    assert_near(number(&life, "prior"), LIFE, 1e-9);
    let mean = (14.2 + 11.9 + 17.5 + 13.1 + 15.8 + 12.6) / 6.0;
    assert_near(number(&life, "value"), mean, 0.05);
    // Beside it the log tells the life there, a sum of both figures that are doubted: each gets its share of the doubt.
    let beside = with_prior(&folder.write("beside.csv", &at_one_speed(200.0)));
    let from_speed = ((200.0_f64 / SPEED).ln() * SLOPE_DOUBT).powi(2);
    let all = LIFE_DOUBT * LIFE_DOUBT + from_speed;
    let n = constant(&beside, "n");
    assert!((number(&n, "data_weight_percent") / 100.0 - from_speed / all).abs() < 0.01, "{n}");
    let life = constant(&beside, "T_0");
    assert!(
        (number(&life, "data_weight_percent") / 100.0 - LIFE_DOUBT * LIFE_DOUBT / all).abs() < 0.01,
        "{life}"
    );
    // Two edges changed early at a lower speed say a little more of n: that it is not so large that they would have failed.
    let early = with_prior("tests/logs/one-speed.csv");
    let weight = |report: &Value, name| number(&constant(report, name), "data_weight_percent");
    assert!(weight(&beside, "n") < weight(&early, "n") && weight(&early, "n") < 50.0);
    assert!(weight(&early, "T_0") > 50.0);
}

/// A log of edges at two speeds about that of the shaft.
const LOG: &str = "tests/logs/generated-a.csv";

fn overlay(folder: &Folder, more: &[&str]) -> (Value, String) {
    let to = folder.path("own.toml");
    let arguments = ["fit", LOG, "--tool", "turn-80-08", "--material", "C45", "--to", &to];
    (report(&[&arguments[..], more].concat()), to)
}

#[test]
fn each_figure_laid_over_says_where_it_is_from() {
    let folder = Folder::new("fit-figures");
    let (report, _) = overlay(&folder, &[]);
    let text = folder.read("own.toml");
    let table: toml::Table = text.parse().unwrap();
    let law = table["tool"]["turn-80-08"]["life"]["P"].as_table().unwrap();
    for key in ["speed", "life", "n", "variation"] {
        assert_eq!(law[key]["source"].as_str(), Some("shop-log"), "{key}");
        assert_eq!(law[key]["standing"].as_str(), Some("shop log"), "{key}");
        assert!(law[key]["at"].as_str().unwrap().contains("generated-a.csv: 40 edges"), "{key}");
    }
    let quantity = |key: &str| -> f64 {
        law[key]["value"].as_str().unwrap().split(' ').next().unwrap().parse().unwrap()
    };
    assert_near(quantity("speed"), number(&constant(&report, "V_0"), "value"), 1e-5);
    assert_near(quantity("life"), number(&constant(&report, "T_0"), "value"), 1e-5);
    let plain = |key: &str| law[key]["value"].as_float().unwrap();
    assert_near(plain("n"), number(&constant(&report, "n"), "value"), 1e-5);
    assert_near(plain("variation"), number(&constant(&report, "CV"), "value"), 1e-5);
    assert_eq!(law["family"].as_str(), Some("weibull"));
    assert_eq!(law["speeds"].as_str(), Some("150 .. 270 m/min"));
    let (first, again) = (text, overlay(&folder, &[]));
    assert_eq!(first, folder.read("own.toml"), "{}", again.1);
}

#[test]
fn a_plan_takes_the_constants_and_shows_what_they_change() {
    let folder = Folder::new("fit-plan");
    let (_, to) = overlay(&folder, &[]);
    let output = run(&["plan", "--overlay", &to, "--format", "json"]);
    let code = output.status.code();
    assert!(code == Some(0) || code == Some(1), "{}", String::from_utf8_lossy(&output.stderr));
    let plan: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(rows(&plan, "plan_against_written").len(), 2);
    assert!(!rows(&plan, "operations_against_written").is_empty());
    let edges = rows(&plan, "edges_against_written");
    let turning: Vec<&Value> =
        edges.iter().filter(|row| row["tool"].as_str().unwrap().starts_with("turn-80-08")).collect();
    assert!(!turning.is_empty(), "{edges:#?}");
    for row in &turning {
        assert!(
            (number(row, "per_edge_as_written_pieces") - number(row, "per_edge_changed_pieces")).abs() > 0.5
        );
    }
    // The log holds for steel; what that tool does not cut stays.
    let others: Vec<&Value> = edges.iter().filter(|row| !turning.contains(row)).collect();
    assert!(others.iter().all(|row| !row["tool"].as_str().unwrap().starts_with("mill")), "{others:#?}");
}

/// One turned cut at a speed, at the feed and depth of the reference cut of `turn-80-08`.
pub(super) fn scenario(speed: f64) -> String {
    format!(
        r#"[scenario]
title = "round trip"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 1
[shift.early]
from = "06:00"
to = "14:00"
[machine.lathe]
like = "chucking-lathe"
availability = "90 %"
coolant = "soluble-flood"
[part.shaft]
material = "C45"
[part.shaft.blank]
[[part.shaft.operation]]
id = 10
machines = ["lathe"]
[[part.shaft.operation.cut]]
id = "turn"
tool = "turn-80-08"
speed = "{speed} m/min"
feed = "0.3 mm/rev"
depth = "2.5 mm"
turn = {{ from = "60 mm", to = "55 mm", length = "100 mm" }}
"#
    )
}

#[test]
fn a_cycle_at_the_middle_of_the_log_gives_the_life_fitted() {
    let folder = Folder::new("fit-round-trip");
    for (by, speed_at) in [("weibull", 1.0), ("lognormal", 1.0), ("least-squares", 1.0), ("weibull", 0.9)] {
        let (fitted, to) = overlay(&folder, &["--by", by]);
        let middle = number(&constant(&fitted, "V_0"), "value");
        let (life, n) =
            (number(&constant(&fitted, "T_0"), "value"), number(&constant(&fitted, "n"), "value"));
        // Least squares tells the median, and an overlay states means: of a lognormal life sqrt(1 + CV^2) medians.
        let variation = number(&constant(&fitted, "CV"), "value");
        let life = if by == "least-squares" { life * (1.0 + variation * variation).sqrt() } else { life };
        let file = folder.write("shaft.toml", &scenario(middle * speed_at));
        let cycle = report(&["cycle", &file, "--overlay", &to]);
        let row = row(&rows(&cycle, "wear"), &[("cut", "turn")]);
        assert_near(number(&row, "life_min"), life * speed_at.powf(-1.0 / n), 1e-4);
    }
}
