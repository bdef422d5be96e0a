//! Facts of the trade as sanity ranges: common practice, no source. Test parts of the kind meant, with inputs chosen for
//! the part and not for the answer.

use serde_json::Value;
use wearland::commands::{CycleView, Request, capacity, cycle};
use wearland::input::Origin;
use wearland::report::write_json;

const HEAD: &str = r#"
[scenario]
title = "trade"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 1
[shift.early]
from = "06:00"
to = "14:00"
breaks = ["11:30-12:00"]
[shift.late]
from = "14:00"
to = "22:00"
breaks = ["17:30-18:00"]
[shift.night]
from = "22:00"
to = "06:00"
breaks = ["01:30-02:00"]
"#;

fn request(body: &str, coolant: Option<&str>) -> Request {
    let bytes = format!("{HEAD}{body}").into_bytes();
    Request {
        origin: Origin::Text { name: "trade.toml".to_owned(), bytes },
        coolant: coolant.map(str::to_owned),
    }
}

fn tables(answer: &wearland::commands::Answer) -> Value {
    let json: Value = serde_json::from_str(&write_json(&answer.document, &answer.units)).unwrap();
    json["tables"].clone()
}

/// A pin shaft of free-cutting steel, 10 mm by 38 mm, on a sliding-head lathe with two channels.
const SHAFT: &str = r#"
[machine.lathe]
like = "bar-lathe-20"
availability = "88 %"
coolant = "soluble-flood"
[part.pin-shaft]
material = "11SMn30"
length = "38 mm"
[part.pin-shaft.bar]
section = "round"
size = "12 mm"
length = "3 m"
remnant = "220 mm"
cutoff = "2.5 mm"
facing = "0.3 mm"
[[part.pin-shaft.operation]]
id = 10
machines = ["lathe"]
load = { time = "0 s", by = "bar" }
transfer = "2.5 s"
[[part.pin-shaft.operation.cut]]
id = "face"
tool = "turn-55-04"
speed = "150 m/min"
feed = "0.08 mm/rev"
position = "T1"
face = { from = "12 mm", to = "0 mm", depth = "0.3 mm" }
[[part.pin-shaft.operation.cut]]
id = "turn"
tool = "turn-55-04"
speed = "180 m/min"
feed = "0.08 mm/rev"
depth = "1 mm"
position = "T1"
turn = { from = "12 mm", to = "10 mm", length = "38 mm" }
[[part.pin-shaft.operation.cut]]
id = "shoulder"
tool = "turn-35-04"
speed = "180 m/min"
feed = "0.06 mm/rev"
depth = "1 mm"
position = "T2"
turn = { from = "10 mm", to = "7 mm", length = "16 mm" }
[[part.pin-shaft.operation.cut]]
id = "undercut"
tool = "form-12-hss"
speed = "30 m/min"
feed = "0.03 mm/rev"
position = "T3"
groove = { from = "7 mm", to = "5.6 mm", width = "2 mm", dwell = 3 }
[[part.pin-shaft.operation.cut]]
id = "part-off"
tool = "part-3"
speed = "90 m/min"
feed = "0.05 mm/rev"
position = "T4"
part = { from = "10 mm", to = "0 mm" }
[[part.pin-shaft.operation.cut]]
id = "centre"
tool = "drill-centre-hss"
speed = "22 m/min"
feed = "0.04 mm/rev"
channel = 2
position = "T5"
drill = { depth = "4 mm" }
[[part.pin-shaft.operation.cut]]
id = "bore"
tool = "drill-hss-4"
speed = "28 m/min"
feed = "0.06 mm/rev"
channel = 2
position = "T6"
drill = { depth = "14 mm" }
[tool.drill-hss-4]
like = "drill-8-hss"
diameter = "4 mm"
"#;

#[test]
fn a_many_tool_bar_lathe_makes_about_1500_small_shafts_in_three_shifts() {
    let answer = capacity(&request(SHAFT, None)).unwrap();
    let sets = tables(&answer)["capacity"][0]["output_sets_per_day"].as_f64().unwrap();
    assert!((1000.0..=2200.0).contains(&sets), "{sets} shafts in three shifts");
}

#[test]
fn edges_of_high_speed_steel_that_last_a_shift_wet_last_minutes_dry() {
    let clock = |coolant| {
        let answer = cycle(&request(SHAFT, coolant), &CycleView::default()).unwrap();
        let tables = tables(&answer);
        let cycle = tables["cycles"][0]["cycle_s"].as_f64().unwrap();
        let wear = tables["wear"].as_array().unwrap().clone();
        let of = |cut: &str| {
            let row = wear.iter().find(|row| row["cut"] == cut).unwrap();
            row["pieces_per_edge_pieces"].as_f64().unwrap() * cycle / 60.0
        };
        // Clock minutes from edge to edge of the tools of high-speed steel.
        ["undercut", "centre", "bore"].map(of)
    };
    let (wet, dry) = (clock(None), clock(Some("dry")));
    for (wet, dry) in wet.into_iter().zip(dry) {
        assert!(dry < wet / 5.0, "wet {wet:.0} min, dry {dry:.0} min");
    }
    assert!(wet.iter().any(|minutes| (240.0..=3000.0).contains(minutes)), "wet {wet:?} min: about a shift");
    assert!(dry.iter().any(|minutes| *minutes < 120.0), "dry {dry:?} min: minutes, not shifts");
}

/// A spur gear of module 2, 25 teeth, 20 mm wide, gantry-loaded, hobbed with a two-start coated hob.
const GEAR: &str = r#"
[machine.hobber]
like = "hobber-gantry"
availability = "92 %"
coolant = "neat-oil"
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
load = { time = "8 s", by = "gantry" }
[[part.gear.operation.cut]]
id = "hob"
tool = "hob-70-coated"
speed = "80 m/min"
feed = "2 mm/rev"
hob = { overrun = "2 mm" }
"#;

#[test]
fn a_loaded_hobber_makes_about_55_gears_of_modest_module_in_an_hour() {
    let answer = cycle(&request(GEAR, None), &CycleView::default()).unwrap();
    let rate = tables(&answer)["cycles"][0]["good_rate_pieces_per_h"].as_f64().unwrap();
    assert!((40.0..=75.0).contains(&rate), "{rate} gears an hour");
}
