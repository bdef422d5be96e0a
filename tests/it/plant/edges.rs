//! Edges at hand and on order, and lateness that has a price.

use super::pins::{PINS, Pins, column};
use crate::families::workshop::assert_near;

#[test]
fn edges_at_hand_and_deliveries_come_in_by_shift() {
    let delivery = |edges: u32, at: &str| {
        format!("[[delivery]]\ntool = \"turn-80-08\"\nedges = {edges}\nat = \"2027-03-{at}\"\n")
    };
    // In time for Tuesday's shift to the minute; during Wednesday's, so for Thursday's; after the last.
    let end = delivery(8, "02 06:00") + &delivery(4, "03 06:01") + &delivery(100, "05 07:00");
    let built = Pins { tool: "on_hand = 2", end: &end, ..PINS }.built();
    let problem = built.problem();
    assert_eq!(problem.edge_stocks.len(), 1);
    assert_eq!(problem.edge_stocks[0].name, "turn-80-08");
    assert_eq!(problem.edge_stocks[0].arrivals, [2, 8, 0, 4, 0]);
    assert_eq!(problem.points[0].stock, Some(0));
    assert_eq!(built.scenario.shop.tools[built.built.stock_of[0]].key, "turn-80-08");
    let without = PINS.built();
    assert!(without.problem().edge_stocks.is_empty());
    assert_eq!(without.problem().points[0].stock, None);
}

#[test]
fn no_more_edges_are_put_in_than_there_are() {
    let few = Pins { tool: "on_hand = 1", pieces: 2000, due: "2027-03-01 14:00", ..PINS };
    let changes = column(&few.table("few-edges", "plan", "tool_changes"), "tool");
    let all = column(&Pins { tool: "", ..few }.table("all-edges", "plan", "tool_changes"), "tool");
    assert!(changes.len() <= 1 && all.len() > 1, "{changes:?} of {all:?}");
}

#[test]
fn lateness_with_a_price_is_money_and_has_no_weight() {
    let built = Pins { order: "day_late = \"0.48 EUR\"", ..PINS }.built();
    let demand = &built.problem().demands[0];
    assert_near(demand.late_price, 0.02, 1e-12);
    assert_eq!(demand.weight.to_bits(), 0);
    let demand = &Pins { order: "priority = 3", ..PINS }.built().built.problem.demands[0];
    assert_near(demand.weight, 3.0, 1e-12);
    assert_eq!(demand.late_price.to_bits(), 0);
}

#[test]
fn an_order_with_a_price_of_lateness_is_late_and_says_so() {
    let late = |order| Pins { order, due: "2027-03-01 07:00", ..PINS };
    let (priced, ranked) = (late("day_late = \"24 EUR\""), late("priority = 1"));
    let output = priced.run("late-priced", &["plan"]);
    assert_eq!(output.status.code(), Some(1), "{}", String::from_utf8_lossy(&output.stderr));
    let of = |pins: &Pins<'_>, name, column_of| -> f64 {
        column(&pins.table(name, "plan", "plan"), column_of)[0].parse().unwrap()
    };
    assert_near(of(&priced, "late-priced", "late_orders"), 1.0, 1e-12);
    assert_eq!(of(&priced, "late-priced", "lateness_piece_h").to_bits(), 0);
    let (hours, cost) =
        (of(&ranked, "late-ranked", "lateness_piece_h"), of(&ranked, "late-ranked", "cost_eur"));
    assert!(hours > 0.0);
    // The same plan is the best of both, and an hour of a piece costs one.
    assert_near(of(&priced, "late-priced", "cost_eur"), cost + hours, 1e-6 * (cost + hours));
}
