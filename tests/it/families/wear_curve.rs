//! The built-in wear curve against measured wear.

use crate::program::project;
use std::collections::BTreeMap;
use wearland::tooling::WearCurve;

/// Columns of numbers behind a key.
fn rows(name: &str) -> Vec<(String, Vec<f64>)> {
    let text = std::fs::read_to_string(project(&format!("tests/data/{name}"))).unwrap();
    let lines = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    let row = |line: &str| {
        let (key, numbers) = line.split_once(',').unwrap();
        (key.to_owned(), numbers.split(',').map(|number| number.parse().unwrap()).collect())
    };
    lines.map(row).collect()
}

/// Wear of each milling insert over time from the new edge on; wear never falls.
fn readings() -> Vec<Vec<(f64, f64)>> {
    let mut tools: BTreeMap<String, Vec<(f64, f64)>> = BTreeMap::new();
    for (tool, row) in rows("mill_wear_readings.csv") {
        let curve = tools.entry(tool).or_insert_with(|| vec![(0.0, 0.0)]);
        let worn = curve.last().unwrap().1.max(row[1]);
        curve.push((row[0], worn));
    }
    tools.into_values().collect()
}

fn between(at: f64, from: (f64, f64), to: (f64, f64)) -> f64 {
    if to.0 > from.0 { from.1 + (at - from.0) * (to.1 - from.1) / (to.0 - from.0) } else { to.1 }
}

/// Wear at a time.
fn wear(curve: &[(f64, f64)], time: f64) -> f64 {
    let place = curve.iter().position(|point| point.0 >= time).unwrap().max(1);
    between(time, curve[place - 1], curve[place])
}

/// Time at which a wear land is reached.
fn life(curve: &[(f64, f64)], land: f64) -> f64 {
    let place = curve.iter().position(|point| point.1 >= land).unwrap();
    let swap = |point: (f64, f64)| (point.1, point.0);
    between(land, swap(curve[place - 1]), swap(curve[place]))
}

fn mean(values: impl ExactSizeIterator<Item = f64>) -> f64 {
    let count = values.len();
    values.sum::<f64>() / f64::from(u32::try_from(count).unwrap())
}

#[test]
fn the_built_in_curve_is_the_mean_of_the_measured_ones() {
    let tools = readings();
    assert_eq!(tools.len(), 15);
    let curve = WearCurve::milled().value;
    for (age, share) in curve.points() {
        let measured = mean(tools.iter().map(|tool| wear(tool, age * life(tool, 0.3)) / 0.3));
        assert!((measured - share).abs() < 0.0051, "at {age} of the life: {share}, measured {measured:.4}");
    }
}

#[test]
fn lives_to_other_lands_are_foretold() {
    let tools = readings();
    let curve = WearCurve::milled().value;
    // The smaller land lies within the curve, the larger one beyond its end; a single tool misses it by up to a quarter.
    for (land, error_of_mean, error_of_one) in [(0.2, 0.02, 0.28), (0.45, 0.04, 0.22)] {
        let foretold = curve.age_at(land / 0.3);
        let measured: Vec<f64> = tools.iter().map(|tool| life(tool, land) / life(tool, 0.3)).collect();
        let of_mean = foretold / mean(measured.iter().copied()) - 1.0;
        assert!(of_mean.abs() < error_of_mean, "{land} mm: mean missed by {:.1} %", 100.0 * of_mean);
        let worst = measured.iter().map(|one| (foretold / one - 1.0).abs()).fold(0.0, f64::max);
        assert!(worst < error_of_one, "{land} mm: a tool missed by {:.1} %", 100.0 * worst);
    }
}

#[test]
fn other_tools_follow_it_in_the_mean_and_scatter_singly() {
    let curve = WearCurve::milled().value;
    let foretold = curve.age_at(0.15 / 0.20);
    let tools = rows("mill_wear_lives.csv");
    assert_eq!(tools.len(), 8);
    let measured: Vec<f64> = tools.iter().map(|(_, times)| times[0] / times[1]).collect();
    let of_mean = foretold / mean(measured.iter().copied()) - 1.0;
    // None of these tools stands behind the curve; one of them wore most of its land at once and is foretold at twice its age.
    assert!(of_mean.abs() < 0.05, "mean missed by {:.1} %", 100.0 * of_mean);
    let within = measured.iter().filter(|one| (foretold / **one - 1.0).abs() < 0.26).count();
    assert_eq!(within, 7, "tools within a quarter: {measured:?} against {foretold:.3}");
}
