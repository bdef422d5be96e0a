//! Whole cuts of gear teeth against the worked times of tests/published/gears.toml and hobbing.toml, read from a scenario.

use super::workshop::assert_near;
use wearland::commands::{CycleView, Request, Speeds, cycle};
use wearland::cycle::{CutEstimate, estimate_operation};
use wearland::diag::{Color, render};
use wearland::input::{Origin, load};
use wearland::report::write_json;

const HEAD: &str = r#"
[scenario]
title = "gears"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 1
[shift.early]
from = "06:00"
to = "14:00"
[machine.hobber]
like = "hobber-gantry"
availability = "90 %"
coolant = "neat-oil"
[machine.shaper]
like = "gear-shaper"
availability = "90 %"
coolant = "neat-oil"
[machine.shaver]
like = "gear-shaver"
availability = "90 %"
coolant = "neat-oil"
[machine.grinder]
like = "gear-grinder"
availability = "90 %"
coolant = "neat-oil"
[machine.tester]
like = "roll-tester"
availability = "90 %"
[part.gear]
material = "C45"
[part.gear.blank]
"#;

/// The worked times take the hob as square to a spur gear; here it swivels by its own lead angle and runs a little
/// farther up, by the square of the angle: four times as far with two starts.
const SQUARE: f64 = 1e-3;

fn text(gear: &str, body: &str) -> String {
    format!("{HEAD}\n[part.gear.gear]\n{gear}\n[[part.gear.operation]]\nid = 10\n{body}")
}

fn cut(gear: &str, body: &str) -> CutEstimate {
    let bytes = text(gear, body).into_bytes();
    let loaded = load(&Origin::Text { name: "gears.toml".to_owned(), bytes }).unwrap();
    assert!(loaded.scenario.is_some(), "{}", render(&loaded.diagnostics, &loaded.sources, Color::Plain));
    let scenario = loaded.scenario.unwrap();
    let machine = scenario.shop.items[0].operations[0].machines[0];
    estimate_operation(&scenario.shop, (0, 0, machine), wearland::quantity::Money::ZERO)
        .unwrap()
        .cuts
        .remove(0)
        .0
}

fn hob(diameter: &str, starts: u32, speed: &str, feed: &str, work: &str) -> String {
    format!(
        "machines = [\"hobber\"]\n[[part.gear.operation.cut]]\nid = \"hob\"\ntool = \"worm\"\nspeed = \"{speed}\"\nfeed = \"{feed}\"\n\
         hob = {{ {work} }}\n[tool.worm]\nlike = \"hob-70-coated\"\ndiameter = \"{diameter}\"\nstarts = {starts}\n"
    )
}

#[test]
fn hobbing_takes_the_worked_times() {
    // m 3, z 40, b 30, hob 90, 90 m/min, 2.5 mm/rev, overrun 2: 2.8000 min; two starts at 2.0: 1.7500 min.
    let gear = "module = \"module 3 mm\"\nteeth = 40\nface = \"30 mm\"";
    let one = cut(gear, &hob("90 mm", 1, "90 m/min", "2.5 mm/rev", "overrun = \"2 mm\""));
    assert_near(one.cut_time.to_min(), 2.8000, SQUARE);
    let two = cut(gear, &hob("90 mm", 2, "90 m/min", "2.0 mm/rev", "overrun = \"2 mm\""));
    assert_near(two.cut_time.to_min(), 1.7500, 4.0 * SQUARE);
    // Marks of 2.0 mm a turn by a 90 mm hob: 3.80 um.
    assert_near(two.roughness.unwrap().to_um(), 3.80, 2e-3);
}

#[test]
fn a_finishing_cut_of_a_hob_has_its_own_depth_feed_and_speed() {
    // m 5, z 30, b 60, hob 125: 10.20 deep at 60 m/min and 3.0, then 1.05 at 75 m/min and 1.5: 13.9848 min.
    let gear = "module = \"module 5 mm\"\nteeth = 30\nface = \"60 mm\"";
    let finish =
        "overrun = \"2 mm\", finish = { depth = \"1.05 mm\", feed = \"1.5 mm/rev\", speed = \"75 m/min\" }";
    let both = cut(gear, &hob("125 mm", 1, "60 m/min", "3 mm/rev", finish));
    assert_near(both.cut_time.to_min(), 13.9848, SQUARE);
    assert_eq!(both.passes, 2);
    let alone = cut(gear, &hob("125 mm", 1, "60 m/min", "3 mm/rev", "overrun = \"2 mm\""));
    assert!(both.edge.share > alone.edge.share, "the finishing cut wears the hob too");
}

#[test]
fn a_radial_infeed_replaces_the_approach() {
    // h 6.75 at 0.5 mm a turn, then face and overrun at 2.5: z h / (n f) + z (b + U) / (n f), n 318.310.
    let gear = "module = \"module 3 mm\"\nteeth = 40\nface = \"30 mm\"";
    let work = "overrun = \"2 mm\", infeed = \"radial\", radial_feed = \"0.5 mm/rev\"";
    let radial = cut(gear, &hob("90 mm", 1, "90 m/min", "2.5 mm/rev", work));
    assert_near(radial.cut_time.to_min(), 40.0 * (6.75 / 0.5 + 32.0 / 2.5) / 318.310, 1e-5);
}

#[test]
fn shaping_shaving_and_grinding_take_the_worked_times() {
    // m 2.5, z 36, radial 0.02, circular 0.4, 500 strokes: 1.9762 min; 30 m/min over a stroke of 30 mm is 500 strokes.
    let shaped = cut(
        "module = \"module 2.5 mm\"\nteeth = 36\nface = \"24 mm\"",
        "machines = [\"shaper\"]\n[[part.gear.operation.cut]]\nid = \"shape\"\ntool = \"shaper-cutter-76\"\nspeed = \"30 m/min\"\n\
         feed = \"0.4 mm/stroke\"\nshape = { radial_feed = \"0.02 mm/stroke\", overrun = \"3 mm\" }\n",
    );
    assert_near(shaped.cut_time.to_min(), 0.5625 + 1.4137, 1e-4);
    assert_eq!(shaped.spindle_speed, None);
    // 24 strokes of 25 mm at 0.3 mm a turn and 300 turns a minute: 6.67 min. A cutter of 60 teeth at 150 turns drives 30.
    let shaved = cut(
        "module = \"module 3 mm\"\nteeth = 30\nface = \"22 mm\"",
        "machines = [\"shaver\"]\n[[part.gear.operation.cut]]\nid = \"shave\"\ntool = \"cutter\"\nspeed = \"84.823 m/min\"\n\
         feed = \"0.3 mm/rev\"\nshave = { strokes = 24, overrun = \"3 mm\" }\n\
         [tool.cutter]\nlike = \"shaving-cutter-230\"\ndiameter = \"180 mm\"\nteeth = 60\n",
    );
    assert_near(shaved.cut_time.to_min(), 24.0 * 25.0 / (0.3 * 300.0), 1e-4);
    // z 40, 3 starts, 4200 turns: 38 mm at 0.6, 0.6, 0.35: 0.7468 min. 240 mm at 4200 turns are 3166.73 m/min.
    let ground = cut(
        "module = \"module 2.5 mm\"\nteeth = 40\nface = \"35 mm\"",
        "machines = [\"grinder\"]\n[[part.gear.operation.cut]]\nid = \"grind\"\ntool = \"worm\"\nspeed = \"3166.725 m/min\"\n\
         grind_teeth = { strokes = [\"0.6 mm/rev\", \"0.6 mm/rev\", \"0.35 mm/rev\"], overrun = \"3 mm\" }\n\
         [tool.worm]\nlike = \"gear-worm-240\"\ndiameter = \"240 mm\"\nstarts = 3\n",
    );
    assert_near(ground.cut_time.to_min(), 0.7468, 1e-4);
    assert_eq!(ground.passes, 3);
}

#[test]
fn a_roll_test_gives_limits_rejects_and_the_yield() {
    // m 2, z 40, d 80, grade 8: Fi'' 61 um, fi'' 19 um. A mean of 43 with a deviation of 9 is two deviations below 61: 2.28 %.
    let gear = "module = \"module 2 mm\"\nteeth = 40\nface = \"20 mm\"";
    let body = "machines = [\"tester\"]\nfixed = { time = \"22 s\" }\n\
                roll = { grade = 8, composite = { mean = \"43 um\", deviation = \"9 um\" }, tooth = { mean = \"10 um\", deviation = \"3 um\" } }\n";
    let origin = Origin::Text { name: "gears.toml".to_owned(), bytes: text(gear, body).into_bytes() };
    let answer = cycle(
        &Request { origin, overlays: Vec::new(), coolant: None, speeds: Speeds::AsWritten },
        &CycleView::default(),
    )
    .unwrap();
    let report: serde_json::Value =
        serde_json::from_str(&write_json(&answer.document, &answer.units)).unwrap();
    let rows = report["tables"]["roll_test"].as_array().unwrap();
    assert_near(rows[0]["limit_mm"].as_f64().unwrap(), 0.061, 1e-9);
    assert_near(rows[1]["limit_mm"].as_f64().unwrap(), 0.019, 1e-9);
    assert_near(rows[0]["reject_percent"].as_f64().unwrap(), 2.275, 1e-3);
    assert_near(rows[0]["yield_percent"].as_f64().unwrap(), 100.0 - 2.275, 1e-3);
}
