//! `wear` as it is read: change points with their cost, lives, curves, and what another speed would do.

use super::program_files::{Folder, number, report, row, rows};
use super::shop::{Edge, Shop, Weibull, run as minutes};
use crate::families::workshop::assert_near;
use crate::program::run;
use serde_json::Value;
use wearland::cycle::estimate_operation;
use wearland::quantity::Money;

const SHOP: Shop<'_> = Shop {
    top: "",
    operation: "",
    cut: "",
    more_cuts: "",
    machine: "rate = \"60 EUR/h\"",
    tool: "price = \"9 EUR\"",
    life: "variation = 0.3",
    end: "",
};

/// The same cut again, as the next operation.
const NEXT: &str = r#"
[[part.shaft.operation]]
id = 20
machines = ["lathe"]
[[part.shaft.operation.cut]]
id = "turn"
tool = "own"
speed = "200 m/min"
feed = "0.2 mm/rev"
depth = "1 mm"
turn = { from = "58 mm", to = "56 mm", length = "120 mm" }
"#;

fn edge() -> Edge {
    let of = SHOP.estimate();
    let run = minutes(&of);
    let wear = of.cuts[0].0.cut_time.to_min() / 15.0;
    Edge { wear, run, planned: 1.5, failure: 4.5, edge: 4.5, scrap: 12.0, per_min: 1.0 }
}

fn asked(shop: &Shop<'_>, operation: &str) -> serde_json::Value {
    let folder = Folder::new(&format!("wear-{operation}"));
    let file = folder.write("shaft.toml", &shop.text());
    report(&["wear", &file, "--item", "shaft", "--op", operation])
}

#[test]
fn change_points_and_curves_are_those_of_the_theory() {
    let (edge, life) = (edge(), Weibull::of_variation(0.3));
    let report = asked(&SHOP, "10");
    // What the edge costs beyond the machine time of a good piece.
    let cost = |pieces: u32| edge.of_good_piece(&life, pieces).0 - edge.run;
    let best = edge.best(&life, |(cost, _)| cost);
    let point = &rows(&report, "change_points")[0];
    assert_near(number(point, "economy_pieces"), f64::from(best), 1e-12);
    assert_near(number(point, "change_after_pieces"), f64::from(best), 1e-12);
    assert_eq!(point["ruled_by"], "least cost");
    assert_near(number(point, "cost_eur"), cost(best), 1e-8);
    let average = 1.0 / edge.wear;
    let whole = (1..400).take_while(|pieces| f64::from(*pieces) <= average).count();
    assert_near(number(point, "at_average_eur"), cost(u32::try_from(whole).unwrap()), 1e-8);
    // Beyond three average lives hardly an edge is left.
    let end = (1..400).take_while(|pieces| f64::from(*pieces) <= 3.0 * average).count();
    assert_near(number(point, "to_failure_eur"), cost(u32::try_from(end).unwrap()), 1e-6);
    let points = rows(&report, "cost_curve_points");
    assert!(points.len() > 20, "{} points", points.len());
    for row in &points {
        let pieces = (1..400).find(|pieces| row["change_after_pieces"] == *pieces).unwrap();
        assert_near(number(row, "cost_eur"), cost(pieces), 1e-8);
        let failed = 1.0 - life.survival(f64::from(pieces) * edge.wear);
        assert!((number(row, "fail_before_percent") - 100.0 * failed).abs() < 1e-6, "{row}");
        let hourly = 60.0 / edge.of_good_piece(&life, pieces).1;
        assert_near(number(row, "good_per_h"), hourly, 1e-8);
    }
}

#[test]
fn lives_are_shares_of_the_average_edge() {
    let (edge, life) = (edge(), Weibull::of_variation(0.3));
    let row = &rows(&asked(&SHOP, "10"), "lives")[0];
    assert_near(number(row, "average_pieces"), 1.0 / edge.wear, 1e-8);
    assert_near(number(row, "life_min"), 15.0, 1e-8);
    for (key, survival) in [("early_pieces", 0.95), ("half_pieces", 0.5), ("late_pieces", 0.05)] {
        assert_near(number(row, key), (life.age_at(survival) / edge.wear).floor(), 1e-12);
    }
    assert_eq!((row["family"].as_str(), row["known"].as_str()), (Some("weibull"), Some("scenario, given")));
}

#[test]
fn a_faster_cut_wears_by_the_law() {
    let report = asked(&SHOP, "10");
    let edges = rows(&report, "what_if_edges");
    let average = |variant: &str| number(&row(&edges, &[("variant", variant)]), "average_pieces");
    // Life falls with the fourth power of the speed, time in cut with the first.
    assert_near(average("speed +10 %"), average("as written") / 1.1_f64.powi(3), 1e-8);
    assert_near(average("speed -10 %"), average("as written") / 0.9_f64.powi(3), 1e-8);
    let whole = rows(&report, "what_if");
    let cycle = |variant: &str| number(&row(&whole, &[("variant", variant)]), "cycle_s");
    assert_near(cycle("as written"), SHOP.estimate().cycle.to_s(), 1e-8);
    let output = |variant: &str| number(&row(&whole, &[("variant", variant)]), "output_sets_per_day");
    // One lathe makes all: its pieces a day go against the cycle.
    assert_near(
        output("speed -10 %") / output("as written"),
        cycle("as written") / cycle("speed -10 %"),
        1e-6,
    );
}

#[test]
fn a_later_piece_is_lost_with_all_that_was_put_into_it() {
    let shop = Shop { end: NEXT, ..SHOP };
    let first = shop.estimate();
    let second = estimate_operation(&shop.scenario().shop, (0, 1, 0), Money::ZERO).unwrap();
    let edge = edge();
    let life = Weibull::of_variation(0.3);
    let pieces = first.tools[0].pieces;
    let good: f64 = (1..=pieces).map(|piece| life.survival(f64::from(piece) * edge.wear)).sum();
    let made = good + 1.0 - life.survival(f64::from(pieces) * edge.wear);
    // Stock, minutes of the first operation at a euro each, and its share of an edge.
    let worth = 12.0 + first.cycle.to_min() + 4.5 / made;
    let run = minutes(&second);
    let wear = second.cuts[0].0.cut_time.to_min() / 15.0;
    let later = Edge { wear, run, scrap: worth, ..edge };
    let best = later.best(&life, |(cost, _)| cost);
    let point = &rows(&asked(&shop, "20"), "change_points")[0];
    assert_near(number(point, "change_after_pieces"), f64::from(best), 1e-12);
    assert_near(number(point, "cost_eur"), later.of_good_piece(&life, best).0 - run, 1e-8);
}

#[test]
fn what_is_not_there_is_a_wrong_command() {
    for arguments in [
        &["--item", "drive-shift"][..],
        &["--item", "drive-shaft", "--op", "15"],
        &["--item", "housing", "--op", "20"],
    ] {
        let output = run(&[&["wear"], arguments].concat());
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(output.stdout.is_empty());
    }
    let demo = report(&["wear", "--item", "drive-shaft"]);
    let corrections = rows(&demo, "corrections");
    // 15 mm to IT7 of ISO 286: 18 um, half of it for wear.
    let seat = row(&corrections, &[("cut", "finish-seat")]);
    assert_near(number(&seat, "tolerance_mm"), 0.018, 1e-9);
    assert_near(number(&seat, "correct_by_mm"), 0.009, 1e-9);
}

#[test]
fn edges_put_in_day_by_day_are_those_of_the_list() {
    let plan = report(&["plan"]);
    let list = rows(&plan, "edges");
    let days = rows(&plan, "edges_by_day");
    for tool in &list {
        let own: Vec<&Value> = days.iter().filter(|day| day["tool"] == tool["tool"]).collect();
        let sum: f64 = own.iter().map(|day| number(day, "put_in_edges")).sum();
        assert_near(sum, number(tool, "planned_edges"), 1e-12);
        assert_near(number(own[own.len() - 1], "so_far_edges"), sum, 1e-12);
        // Early failures come on top, and being sure takes more than the plan.
        assert!(number(tool, "enough_edges") >= sum, "{tool}");
        assert!(number(tool, "expected_edges") > number(tool, "fail_early_edges"), "{tool}");
    }
    let changes = rows(&plan, "tool_changes").len();
    let places: f64 = list.iter().map(|tool| number(tool, "places")).sum();
    let all: f64 = list.iter().map(|tool| number(tool, "planned_edges")).sum();
    assert_near(all, places + f64::from(u32::try_from(changes).unwrap()), 1e-12);
}
