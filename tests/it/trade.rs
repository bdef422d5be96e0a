//! Facts of the trade as sanity ranges: common practice, no source. Test parts of the kind meant, with inputs chosen for
//! the part and not for the answer.

use serde_json::Value;
use wearland::commands::{CycleView, Request, Speeds, capacity, cycle};
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
        overlays: Vec::new(),
        coolant: coolant.map(str::to_owned),
        speeds: Speeds::AsWritten,
    }
}

fn tables(answer: &wearland::commands::Answer) -> Value {
    let json: Value = serde_json::from_str(&write_json(&answer.document, &answer.units)).unwrap();
    json["tables"].clone()
}

/// A small drive shaft of free-cutting steel, 12 mm by 72 mm, on a sliding-head lathe with two channels. Speeds of the tools
/// of high-speed steel are those of the handbook table for this steel: 46 m/min turning, 37 m/min drilling.
const SHAFT: &str = r#"
[machine.lathe]
like = "bar-lathe-20"
availability = "88 %"
coolant = "soluble-flood"
[part.small-shaft]
material = "11SMn30"
length = "72 mm"
[part.small-shaft.bar]
section = "round"
size = "14 mm"
length = "3 m"
remnant = "220 mm"
cutoff = "3 mm"
facing = "0.4 mm"
[[part.small-shaft.operation]]
id = 10
machines = ["lathe"]
load = { time = "0 s", by = "bar" }
transfer = "3 s"
[[part.small-shaft.operation.cut]]
id = "face"
tool = "turn-55-04"
speed = "180 m/min"
feed = "0.1 mm/rev"
position = "T1"
face = { from = "14 mm", to = "0 mm", depth = "0.4 mm" }
[[part.small-shaft.operation.cut]]
id = "rough"
tool = "turn-80-04"
speed = "180 m/min"
feed = "0.15 mm/rev"
depth = "1 mm"
position = "T2"
turn = { from = "14 mm", to = "10.4 mm", length = "50 mm" }
[[part.small-shaft.operation.cut]]
id = "finish"
tool = "turn-55-04"
speed = "200 m/min"
feed = "0.06 mm/rev"
position = "T1"
turn = { from = "10.4 mm", to = "10 mm", length = "50 mm" }
[[part.small-shaft.operation.cut]]
id = "seat"
tool = "turn-35-04"
speed = "200 m/min"
feed = "0.05 mm/rev"
depth = "0.8 mm"
position = "T3"
turn = { from = "10 mm", to = "8 mm", length = "22 mm" }
[[part.small-shaft.operation.cut]]
id = "undercut"
tool = "form-12-hss"
speed = "46 m/min"
feed = "0.02 mm/rev"
position = "T4"
form = { from = "10 mm", to = "7.4 mm", width = "10 mm", dwell = 3 }
[[part.small-shaft.operation.cut]]
id = "thread"
tool = "thread-external"
speed = "80 m/min"
position = "T5"
thread = { diameter = "8 mm", pitch = "1.25 mm", length = "14 mm" }
[[part.small-shaft.operation.cut]]
id = "part-off"
tool = "part-3"
speed = "90 m/min"
feed = "0.05 mm/rev"
position = "T6"
part = { from = "14 mm", to = "0 mm" }
[[part.small-shaft.operation.cut]]
id = "centre"
tool = "drill-centre-hss"
speed = "37 m/min"
feed = "0.03 mm/rev"
channel = 2
position = "T7"
drill = { depth = "5 mm" }
[[part.small-shaft.operation.cut]]
id = "hole"
tool = "drill-hss-5"
speed = "37 m/min"
feed = "0.06 mm/rev"
channel = 2
position = "T8"
drill = { depth = "20 mm" }
[tool.drill-hss-5]
like = "drill-8-hss"
diameter = "5 mm"
[tool.drill-hss-5.life.P]
feed = "0.09 mm/rev"
"#;

#[test]
fn a_many_tool_bar_lathe_makes_about_1500_small_shafts_in_three_shifts() {
    let answer = capacity(&request(SHAFT, None)).unwrap();
    let sets = tables(&answer)["capacity"][0]["output_sets_per_day"].as_f64().unwrap();
    // The order of 1500: within a factor of two.
    assert!((750.0..=3000.0).contains(&sets), "{sets} shafts in three shifts");
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
            row["per_edge_pieces"].as_f64().unwrap() * cycle / 60.0
        };
        // Clock minutes from edge to edge of the tools of high-speed steel.
        ["undercut", "centre", "hole"].map(of)
    };
    let (wet, dry) = (clock(None), clock(Some("dry")));
    // An edge that lasts a shift of about 450 min wet: what is left of it dry.
    for (wet, dry) in wet.into_iter().zip(dry) {
        let left = 450.0 * dry / wet;
        assert!((1.0..60.0).contains(&left), "an edge of a shift lasts {left:.0} min dry");
    }
    assert!(wet.iter().all(|minutes| *minutes > 225.0), "an edge of {wet:.0?} min wet does not last a shift");
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
