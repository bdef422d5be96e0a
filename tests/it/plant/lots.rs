//! Families of setups, least lots, boxes, gauging at a shared station, what machines stand set up for.

use super::pins::{PINS, Pins};
use crate::families::workshop::assert_near;
use wearland::schedule::{Lag, Search, plan};

#[test]
fn a_family_is_set_up_faster_after_its_own() {
    let built = Pins { operation: "family = \"pins\"\nfamily_setup = \"10 min\"", ..PINS }.built();
    let [turning, pressing] = &built.problem().activities[..] else { panic!("two activities") };
    assert_near(turning.setup_after(None), 30.0, 1e-9);
    assert_near(turning.setup_after(Some(turning)), 10.0, 1e-9);
    assert_near(turning.setup_after(Some(pressing)), 30.0, 1e-9);
    // Without `family_setup` work of a family follows at once.
    let built = Pins { operation: "family = \"pins\"", ..PINS }.built();
    let turning = &built.problem().activities[0];
    assert_eq!(turning.setup_after(Some(turning)).to_bits(), 0);
}

#[test]
fn lots_and_boxes_reach_the_problem() {
    let built =
        Pins { operation: "least_lot = 40\nboxes = { pieces = 25, time = \"10 min\" }", ..PINS }.built();
    let problem = built.problem();
    assert_eq!((problem.activities[0].least_lot, problem.activities[1].least_lot), (40, 0));
    assert_eq!(problem.steps[0].lag, Lag::Boxes { pieces: 25, seconds: 600 });
    assert_eq!(problem.steps[1].lag, Lag::NextSlot);
}

#[test]
fn gauging_at_a_station_takes_its_minutes() {
    let gauge = "gauge = { time = \"90 s\", every = 5, while = \"cutting\", at = \"gauging\" }";
    let built = Pins { operation: gauge, ..PINS }.built();
    let uses = &built.problem().activities[0].uses;
    let station = uses.iter().find(|(resource, _)| *resource == 2).unwrap();
    assert_near(station.1, 90.0 / 60.0 / 5.0, 1e-9);
    // The cycle is that of gauging beside the machine.
    let beside = Pins { operation: &gauge.replace(", at = \"gauging\"", ""), ..PINS }.built();
    assert_near(built.estimates[0].cycle.to_s(), beside.estimates[0].cycle.to_s(), 1e-12);
    assert!(beside.problem().activities[0].uses.iter().all(|(resource, _)| *resource != 2));
}

#[test]
fn a_station_gauges_no_more_than_its_minutes() {
    // Turned pieces and pressed ones meet at the measuring machine, which has too little time for both.
    let gauge = "gauge = { time = \"45 s\", every = 1, while = \"cutting\", at = \"gauging\" }";
    let second = "machines = [\"gauging\"]\nfixed = { time = \"30 s\" }";
    let built = Pins { operation: gauge, second, pieces: 1900, ..PINS }.built();
    let problem = built.problem();
    let plan = plan(problem, &Search::default()).unwrap().plan;
    let used = |slot: usize| plan.minutes_used(problem, 2, slot);
    for slot in 0..problem.slots.len() {
        assert!(used(slot) <= problem.resources[2].minutes[slot] + 1e-6, "shift {slot}: {}", used(slot));
    }
    assert!((1..4).any(|slot| used(slot) > 0.9 * problem.resources[2].minutes[slot]));
}

#[test]
fn a_machine_begins_with_what_it_stands_set_up_for() {
    let pins = Pins { lathe: "set_up = { item = \"pin\", operation = 10 }", ..PINS };
    let built = pins.built();
    assert_eq!(built.problem().resources[0].set_up, Some(0));
    assert_eq!(built.problem().resources[1].set_up, None);
}

#[test]
fn work_that_a_machine_stands_set_up_for_needs_no_setup() {
    let pins = Pins { lathe: "set_up = { item = \"pin\", operation = 10 }", ..PINS };
    let setups = |pins: &Pins<'_>, name| -> f64 {
        let plan = pins.table(name, "plan", "plan");
        super::pins::column(&plan, "setups_h")[0].parse().unwrap()
    };
    assert_eq!(setups(&pins, "standing").to_bits(), 0);
    assert_near(setups(&PINS, "not-standing"), 0.5, 1e-9);
}
