//! Speeds chosen inside the plan of the demo, against speeds as written.

use serde_json::Value;
use wearland::commands::{Advice, PlanRequest, Request, Speeds, plan};
use wearland::input::Origin;
use wearland::report::write_json;
use wearland::schedule::Search;

fn tables(speeds: Speeds) -> Value {
    let scenario = Request { origin: Origin::Demo, overlays: Vec::new(), coolant: None, speeds };
    let request = PlanRequest {
        scenario,
        status: None,
        last: None,
        search: Search::default(),
        advice: Advice::Causes,
        model: None,
    };
    let answer = plan(&request).unwrap();
    let json: Value = serde_json::from_str(&write_json(&answer.document, &answer.units)).unwrap();
    json["tables"].clone()
}

fn number(table: &Value, row: usize, key: &str) -> f64 {
    let row = &table[row];
    row[key].as_f64().unwrap()
}

#[test]
fn free_speeds_cost_less_and_make_no_less() {
    let (free, written) = (tables(Speeds::Free), tables(Speeds::AsWritten));
    let (one, other) = (&free["plan"], &written["plan"]);
    assert!(number(one, 0, "lateness_piece_h") <= number(other, 0, "lateness_piece_h") + 1e-6);
    // At least five percent of the money.
    assert!(number(one, 0, "cost_EUR") < 0.95 * number(other, 0, "cost_EUR"));
    // The proof holds on either side.
    for plan in [one, other] {
        let (cost, bound) = (number(plan, 0, "cost_EUR"), number(plan, 0, "least_cost_EUR"));
        assert!(bound <= cost && cost < 1.04 * bound, "{cost} against {bound}");
    }
    // What is on screen as written is the plan as written.
    let compared = &free["plan_against_written"];
    approx::assert_relative_eq!(number(compared, 0, "cost_EUR"), number(other, 0, "cost_EUR"));
    // The mix is the least of the three programs, one setting each next.
    let programs = &free["speed_programs"];
    let cost = |row: usize| number(programs, row, "cost_EUR");
    assert!(cost(1) <= cost(2) + 1e-6 && cost(2) <= cost(0) + 1e-6);
    let changed = free["speeds"].as_array().unwrap();
    assert!(changed.iter().any(|row| row["chosen_m_per_min"].as_f64() > row["written_m_per_min"].as_f64()));
    assert!(changed.iter().any(|row| row["chosen_m_per_min"].as_f64() < row["written_m_per_min"].as_f64()));
}
