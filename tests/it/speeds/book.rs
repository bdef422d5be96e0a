//! Cheapest and quickest speeds that textbooks print, and whole pieces against a dense scan.

use super::shop::Book;
use crate::families::workshop::assert_near;
use wearland::cycle::{SpeedRule, Worths};
use wearland::quantity::MoneyRate;

/// Groover, Fundamentals of Modern Manufacturing, machining economics in metric units, but for the length: hundreds of pieces an
/// edge, so that whole pieces hardly show.
pub(super) const GROOVER: Book = Book {
    n: 0.125,
    c: 70.0,
    change: 2.0,
    edge: 3.0,
    per_min: 0.5,
    handling: 5.0,
    diameter: 100.0,
    length: 5.0,
    feed: 0.25,
};

fn at_rate(book: &Book) -> f64 {
    let rate = MoneyRate::per_h(book.per_min * 60.0);
    let priced = book.priced(&Worths::of_minute(rate));
    assert_eq!(priced.changed.len(), 1);
    priced.operation.cuts[0].speed.to_m_per_min()
}

fn quickest(book: &Book) -> f64 {
    book.priced(&Worths::TIME_ALONE).operation.cuts[0].speed.to_m_per_min()
}

#[test]
fn groover_in_metres_and_in_feet() {
    // Printed 42 and 50 m/min.
    assert_near(at_rate(&GROOVER), 42.32, 5e-4);
    assert_near(quickest(&GROOVER), 50.33, 5e-4);
    // Printed 121 and 144 ft/min.
    let feet = Book { c: 200.0 * 0.3048, diameter: 101.6, feed: 0.254, ..GROOVER };
    assert_near(at_rate(&feet) / 0.3048, 120.92, 5e-4);
    assert_near(quickest(&feet) / 0.3048, 143.80, 5e-4);
}

#[test]
fn groover_high_speed_steel() {
    // Tool of 20 with 15 sharpenings at 2: 3.333 for an edge; printed 47.7 m/min.
    let tool =
        Book { n: 0.13, c: 80.0, change: 3.0, edge: 20.0 / 15.0 + 2.0, per_min: 40.0 / 60.0, ..GROOVER };
    assert_near(at_rate(&tool), 47.68, 5e-4);
}

#[test]
fn ghosh_and_mallik_example_4_26() {
    let example = Book { n: 0.25, c: 75.0, change: 2.0, edge: 2.5, per_min: 0.15, ..GROOVER };
    assert_near(at_rate(&example), 27.42, 5e-4);
}

#[test]
fn sharma_example_14_2() {
    // Change 8 min, regrinding 5 min at 5 an hour and 0.30 of the tool; printed 56.5 m/min.
    let per_min = 5.0 / 60.0;
    let example = Book { n: 0.25, c: 150.0, change: 8.0, edge: 5.0 * per_min + 0.30, per_min, ..GROOVER };
    assert_near(at_rate(&example), 56.47, 1e-3);
}

#[test]
fn the_speed_rises_with_the_worth_of_the_minute_as_by_the_closed_form() {
    for (worth, speed) in [(0.5, 42.32), (1.0, 44.88), (2.0, 46.93), (5.0, 48.71), (20.0, 49.88)] {
        let priced = GROOVER.priced(&Worths::of_minute(MoneyRate::per_h(worth * 60.0)));
        assert_near(priced.operation.cuts[0].speed.to_m_per_min(), speed, 1e-3);
        assert_near(speed, GROOVER.closed(worth), 1e-4);
    }
}

/// The least of a figure over a dense scan of speeds, with the speeds at which an edge makes whole pieces.
fn scanned(book: &Book, figure: impl Fn((f64, f64)) -> f64) -> (f64, f64) {
    let dense = (0..20_000).map(|step| book.c * (0.1 + 0.9 * f64::from(step) / 20_000.0));
    let teeth = (1..400).map(|pieces| {
        // Life over time in cut goes with the speed to the power 1 - 1/n.
        let (life, cut) = book.times(book.c * 0.5);
        let share = life / cut / f64::from(pieces);
        book.c * 0.5 * share.powf(1.0 / (1.0 / book.n - 1.0)) * (1.0 - 1e-11)
    });
    let weighed = dense.chain(teeth).filter_map(|speed| Some((speed, figure(book.piece(speed)?))));
    weighed.min_by(|one, other| one.1.total_cmp(&other.1)).unwrap()
}

#[test]
fn whole_pieces_move_the_speed_to_a_tooth() {
    // The length of the book: 3.77 pieces an edge at the cheapest speed, 1.12 at the quickest.
    for length in [500.0, 300.0, 150.0] {
        let book = Book { length, ..GROOVER };
        let priced = book.priced(&Worths::of_minute(MoneyRate::per_h(30.0)));
        let cost = |speed: f64| book.piece(speed).map(|(time, edge)| 0.5 * time + edge).unwrap();
        let best = scanned(&book, |(time, edge)| 0.5 * time + edge);
        let speed = priced.operation.cuts[0].speed.to_m_per_min();
        assert_near(cost(speed), best.1, 1e-6);
        assert_near(speed, best.0, 1e-6);
        assert_eq!(priced.changed[0].rule, SpeedRule::WholePieces);
        assert_near(priced.estimate.cycle.to_min() * 0.5 + priced.edge_cost.amount(), best.1, 1e-6);
        let quick = book.priced(&Worths::TIME_ALONE);
        let best = scanned(&book, |(time, _)| time);
        assert_near(quick.estimate.cycle.to_min(), best.1, 1e-6);
    }
}
