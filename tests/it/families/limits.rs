//! Limits held against whole cuts, with figures worked by hand.

use serde_json::Value;
use wearland::commands::{CycleView, Request, Speeds, cycle};
use wearland::input::Origin;
use wearland::report::write_json;

/// A lathe of 15 kW, full torque 95.49 N m up to 1500 rpm, and a bar of 60 mm turned from 50 to 46 mm at f 0.3 mm, a_p 2 mm,
/// v_c 200 m/min: n = 1273.24 rpm. The material is given in full: k_c1.1 1500 N/mm2, m_c 0.22, so that at 95 degrees
/// h = 0.298858 mm, b = 2.007639 mm, k_c = 1956.54 N/mm2, F_c = 1173.92 N.
const HEAD: &str = r#"
[scenario]
title = "limits"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 1
[shift.early]
from = "06:00"
to = "14:00"
[material.steel]
like = "C45"
kc11 = "1500 N/mm2"
mc = 0.22
density = "7.85 g/cm3"
modulus = "206 GPa"
[tool.bit]
like = "turn-80-08"
edge_angle = "95 deg"
"#;

struct Shop {
    machine: &'static str,
    tool: &'static str,
    operation: &'static str,
    cut: &'static str,
}

const PLAIN: Shop = Shop { machine: "", tool: "", operation: "", cut: "" };

fn scenario(shop: &Shop) -> String {
    format!(
        r#"{HEAD}{}
[machine.lathe]
like = "bar-lathe-65"
availability = "90 %"
coolant = "soluble-flood"
power = "15 kW"
efficiency = 0.8
torque = "95.49 N m"
spindle_speed = "4000 rpm"
feed_limit = "5 m/min"
{}
[part.shaft]
material = "steel"
[part.shaft.blank]
[[part.shaft.operation]]
id = 10
machines = ["lathe"]
{}
[[part.shaft.operation.cut]]
id = "turn"
tool = "bit"
speed = "200 m/min"
feed = "0.3 mm/rev"
{}
turn = {{ from = "50 mm", to = "46 mm", length = "80 mm" }}
"#,
        shop.tool, shop.machine, shop.operation, shop.cut
    )
}

/// The rows of a table, or what is wrong with the file.
fn rows(shop: &Shop, table: &str) -> Result<Vec<Value>, String> {
    read(&scenario(shop), table)
}

fn read(text: &str, table: &str) -> Result<Vec<Value>, String> {
    let origin = Origin::Text { name: "limits.toml".to_owned(), bytes: text.into() };
    let answer = cycle(
        &Request { origin, overlays: Vec::new(), coolant: None, speeds: Speeds::AsWritten },
        &CycleView::default(),
    )
    .map_err(|failure| format!("{failure:?}"))?;
    let json: Value = serde_json::from_str(&write_json(&answer.document, &answer.units)).unwrap();
    Ok(json["tables"][table].as_array().unwrap().clone())
}

fn limit(shop: &Shop, name: &str) -> Option<Value> {
    rows(shop, "limits").unwrap().into_iter().find(|row| row["limit"] == name)
}

/// The number at the head of a figure, or behind `at most`.
fn number(row: &Value, key: &str) -> f64 {
    let text = row[key].as_str().unwrap();
    let word = text.split(' ').find(|word| word.parse::<f64>().is_ok()).unwrap();
    word.parse().unwrap()
}

fn near(got: f64, expected: f64) {
    assert!((got / expected - 1.0).abs() < 1e-3, "got {got}, expected {expected}");
}

#[test]
fn below_the_base_speed_the_power_falls() {
    let shop = Shop { machine: "base_speed = \"1500 rpm\"", ..PLAIN };
    let power = limit(&shop, "power").unwrap();
    // 1173.92 N * 200 m/min / 60 / 0.8 = 4.8913 kW; 15 kW * 1273.24 / 1500 = 12.7324 kW.
    near(number(&power, "asked"), 4.8913);
    near(number(&limit(&shop, "torque").unwrap(), "asked"), 29.348);
    near(number(&power, "allowed"), 12.7324);
    near(number(&limit(&PLAIN, "power").unwrap(), "allowed"), 15.0);
}

#[test]
fn a_feed_drive_meets_half_the_cutting_force() {
    let shop = Shop { machine: "feed_force = \"1 kN\"", ..PLAIN };
    near(number(&limit(&shop, "feed force").unwrap(), "asked"), 0.5 * 1173.92);
    near(number(&limit(&PLAIN, "feed force").unwrap(), "allowed"), 9000.0);
}

#[test]
fn a_chuck_must_hold_at_the_speed() {
    let chuck = r#"chuck = { grip = "45 kN", jaw_moment = "1.7 kg m", fastest = "3000 rpm", friction = 0.2, safety = 1.5 }"#;
    let shop = Shop { machine: chuck, ..PLAIN };
    // F_spz = 1173.92 / 0.2 = 5869.6 N; the jaws pull 1.7 * (pi * 1273.24 / 30)^2 = 30222.6 N;
    // 1.5 * (5869.6 * 1.5 + 30222.6) = 58540.5 N: too much.
    let fault = rows(&shop, "limits").unwrap_err();
    assert!(fault.contains("E301") || fault.contains("MachineLimit"), "{fault}");
    let slow = Shop { cut: "repair = \"slow down\"", ..shop };
    let grip = limit(&slow, "grip at rest").unwrap();
    near(number(&grip, "asked"), 45000.0);
    // n = 30 / pi * sqrt((45000 / 1.5 - 1.5 * 5869.6) / 1.7) = 1066.3 rpm.
    let cuts = rows(&slow, "cuts").unwrap();
    near(cuts[0]["spindle_speed_rpm"].as_f64().unwrap(), 1066.3);
}

#[test]
fn slender_work_is_a_caution_and_bends() {
    let hold = r#"hold = { support = "chuck", overhang = "200 mm", diameter = "46 mm" }"#;
    let cut = "tolerance = \"IT9\"\ntolerance_size = \"46 mm\"";
    let shop = Shop { operation: hold, cut, ..PLAIN };
    let slender = limit(&shop, "length by diameter of the work").unwrap();
    near(number(&slender, "asked"), 200.0 / 46.0);
    assert_eq!(slender["state"], "passed");
    // 586.96 N at 200 mm: I = pi * 46^4 / 64 = 219787 mm4, y = 586.96 * 8e6 / (3 * 206000 * 219787) = 0.034571 mm,
    // 0.069142 mm on the diameter, against 62 um of IT9.
    let bending = limit(&shop, "bending of the work").unwrap();
    assert_eq!(bending["state"], "passed");
    near(number(&bending, "allowed"), 0.062);
    near(number(&bending, "asked"), 0.069_142);
}

#[test]
fn a_drawing_lowers_the_feed() {
    // r 0.8 mm: Ra = 0.3^2 / (31.177 * 0.8) = 3.608 um.
    let shop = Shop { cut: "roughness = \"1.6 um\"", ..PLAIN };
    assert!(rows(&shop, "limits").is_err());
    let slow = Shop { cut: "roughness = \"1.6 um\"\nrepair = \"slow down\"", ..PLAIN };
    let cuts = rows(&slow, "cuts").unwrap();
    near(cuts[0]["feed_per_rev_mm_per_rev"].as_f64().unwrap(), 0.199_77);
}

#[test]
fn a_finishing_pass_answers_for_the_surface() {
    // f 0.1 mm, r 0.8 mm: Ra = 0.01 / (31.177 * 0.8) = 0.40094 um; its depth of 0.2 mm is below r / 3.
    let text = scenario(&Shop { cut: "roughness = \"1.6 um\"", ..PLAIN }).replace(
        "length = \"80 mm\" }",
        "length = \"80 mm\", finish = { depth = \"0.2 mm\", feed = \"0.1 mm/rev\" } }",
    );
    let rows = read(&text, "limits").unwrap();
    let of = |name: &str| rows.iter().find(|row| row["limit"] == name).unwrap();
    near(number(of("roughness Ra"), "asked"), 0.400_94);
    near(number(of("least depth"), "asked"), 0.2);
    assert_eq!(of("least depth")["state"], "passed");
}

#[test]
fn an_edge_too_blunt_and_a_depth_too_small_are_cautions() {
    // A chip of 0.298858 mm against 0.3 * 1.5 mm of an absurdly blunt edge, 2 mm deep against a third of 6.3 mm.
    let shop = Shop { tool: "edge_radius = \"1.5 mm\"\ncorner_radius = \"6.3 mm\"", ..PLAIN };
    assert_eq!(limit(&shop, "least chip").unwrap()["state"], "passed");
    let depth = limit(&shop, "least depth").unwrap();
    near(number(&depth, "allowed"), 2.1);
    assert_eq!(depth["state"], "passed");
    let deep = Shop { tool: "most_depth = \"1.5 mm\"", ..PLAIN };
    assert!(rows(&deep, "limits").is_err());
}

#[test]
fn a_finer_grade_than_the_process_holds_is_a_caution() {
    let shop = Shop { cut: "tolerance = \"IT6\"", ..PLAIN };
    let grade = limit(&shop, "grade of the process").unwrap();
    near(number(&grade, "allowed"), 7.0);
    assert_eq!(grade["state"], "passed");
    let shop = Shop { cut: "tolerance = \"IT8\"", ..PLAIN };
    assert_eq!(limit(&shop, "grade of the process").unwrap()["state"], "kept");
}

#[test]
fn a_bar_whirls_and_a_boring_bar_is_long() {
    let stock = r#"bar = { section = "round", size = "50 mm", length = "3 m", remnant = "200 mm", cutoff = "4 mm", facing = "0.5 mm" }"#;
    let text = scenario(&Shop { machine: "bar_support = \"1.5 m\"", ..PLAIN })
        .replace("[part.shaft.blank]", &format!("length = \"90 mm\"\n{stock}"));
    // n_c = 1.2070e8 * 50 / 1500^2 = 2682.2 rpm, of it 0.6: 1609.3 rpm.
    let row =
        read(&text, "limits").unwrap().into_iter().find(|row| row["limit"] == "speed of the bar").unwrap();
    near(number(&row, "allowed"), 1609.3);
    let cut = scenario(&Shop {
        tool: "bar = \"steel\"\nbar_diameter = \"20 mm\"",
        cut: "overhang = \"120 mm\"",
        ..PLAIN
    })
    .replace("turn = { from = \"50 mm\", to = \"46 mm\"", "bore = { from = \"46 mm\", to = \"50 mm\"");
    let rows = read(&cut, "limits").unwrap();
    let row = rows.iter().find(|row| row["limit"] == "overhang of the boring bar").unwrap();
    near(number(row, "allowed"), 80.0);
    assert_eq!(row["state"], "passed");
}

#[test]
fn a_drill_must_reach_and_a_hob_must_not_outrun_its_table() {
    let drill =
        scenario(&Shop { tool: "[tool.drill]\nlike = \"drill-8-hss\"\nusable_length = \"60 mm\"", ..PLAIN })
            .replace("tool = \"bit\"\nspeed = \"200 m/min\"", "tool = \"drill\"\nspeed = \"20 m/min\"")
            .replace("feed = \"0.3 mm/rev\"", "feed = \"0.15 mm/rev\"")
            .replace(
                "turn = { from = \"50 mm\", to = \"46 mm\", length = \"80 mm\" }",
                "drill = { depth = \"80 mm\" }",
            );
    let fault = read(&drill, "limits").unwrap_err();
    assert!(fault.contains("depth of the hole"), "{fault}");
    assert!(read(&drill.replace("60 mm\"", "90 mm\""), "limits").is_ok());
    let hob = format!(
        r#"{HEAD}
[machine.hobber]
like = "hobber-gantry"
availability = "90 %"
coolant = "neat-oil"
table_speed = "10 rpm"
[part.gear]
material = "16MnCr5"
[part.gear.blank]
[part.gear.gear]
module = "module 2 mm"
teeth = 25
face = "20 mm"
[[part.gear.operation]]
id = 10
machines = ["hobber"]
[[part.gear.operation.cut]]
id = "hob"
tool = "hob-70-coated"
speed = "80 m/min"
feed = "2 mm/rev"
repair = "slow down"
hob = {{ overrun = "2 mm" }}
"#
    );
    let rows = read(&hob, "limits").unwrap();
    let row = rows.iter().find(|row| row["limit"] == "table speed").unwrap();
    // One start, 25 teeth: 10 rpm of the table are 250 rpm of the hob.
    near(number(row, "asked"), 10.0);
    near(read(&hob, "cuts").unwrap()[0]["spindle_speed_rpm"].as_f64().unwrap(), 250.0);
}
