//! Holes, broaching, sawing, conveyors.

use serde_json::Value;
use wearland::commands::{CycleView, Request, Speeds, cycle};
use wearland::input::Origin;
use wearland::report::write_json;

const HEAD: &str = r#"
[scenario]
title = "holes"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 1
[shift.early]
from = "06:00"
to = "14:00"
[machine.mill]
like = "drill-tap-centre"
availability = "90 %"
coolant = "soluble-flood"
rapid = "10 m/min"
spindle_speed = "1000 rpm"
[machine.broach]
title = "broach"
kind = "broach"
availability = "90 %"
coolant = "neat-oil"
[machine.saw]
title = "saw"
kind = "saw"
availability = "90 %"
coolant = "soluble-flood"
[machine.line]
title = "coat line"
kind = "station"
availability = "90 %"
[tool.edge]
title = "HSS edge"
kind = "drill"
substrate = "HSS"
edges = 1
diameter = "10 mm"
point_angle = "180 deg"
[tool.edge.life.P]
speed = "25 m/min"
life = "90 min"
coolant = "soluble-flood"
n = 0.125
speeds = "1 .. 100 m/min"
"#;

/// One cut on a machine, with a tool of a kind.
fn scenario(machine: &str, tool: &str, cut: &str) -> String {
    format!(
        "{HEAD}[tool.own]\nlike = \"edge\"\n{tool}\n[part.piece]\nmaterial = \"11SMn30\"\n[part.piece.blank]\n\
         [[part.piece.operation]]\nid = 10\nmachines = [\"{machine}\"]\n[[part.piece.operation.cut]]\nid = \"one\"\n\
         tool = \"own\"\nrapid = \"0 mm\"\n{cut}\n"
    )
}

/// Tables and warnings.
fn worked(text: String) -> Result<(Value, String), String> {
    let origin = Origin::Text { name: "holes.toml".to_owned(), bytes: text.into_bytes() };
    let answer = cycle(
        &Request { origin, overlays: Vec::new(), coolant: None, speeds: Speeds::AsWritten },
        &CycleView { item: None, workings: true },
    )
    .map_err(|failure| format!("{failure:?}"))?;
    let json: Value = serde_json::from_str(&write_json(&answer.document, &answer.units)).unwrap();
    Ok((json["tables"].clone(), format!("{:?}", answer.warnings)))
}

fn tables(text: String) -> Result<Value, String> {
    worked(text).map(|(tables, _)| tables)
}

fn element(tables: &Value, name: &str) -> f64 {
    let rows = tables["elements"].as_array().unwrap();
    rows.iter().find(|row| row["element"] == name).map_or(0.0, |row| row["time_s"].as_f64().unwrap())
}

/// Seconds in cut and at rapid.
fn times(machine: &str, tool: &str, cut: &str) -> (f64, f64) {
    let tables = tables(scenario(machine, tool, cut)).unwrap();
    (element(&tables, "in cut"), element(&tables, "rapid moves"))
}

fn close(got: f64, expected: f64) {
    assert!((got / expected - 1.0).abs() < 1e-4, "{got} instead of {expected}");
}

const DRILLED: &str = "speed = \"25 m/min\"\nfeed = \"0.2 mm/rev\"\n";

#[test]
fn pecks_take_the_time_of_the_worked_example() {
    let drill = |rest: &str| times("mill", "", &format!("{DRILLED}drill = {{ depth = \"50 mm\"{rest} }}"));
    let (plain, out) = drill("");
    close(plain, 19.6035);
    close(out, 0.312);
    let (feed, rapid) =
        drill(", peck = \"10 mm\", retract = \"full\", lift = \"0.5 mm\", clearance = \"2 mm\"");
    close(feed, 20.3575);
    close(feed + rapid, 21.9535);
    let (feed, rapid) = drill(", peck = \"10 mm\", retract = \"chip\"");
    close(feed + rapid - plain - out, 0.766);
    // One peck is one feed.
    assert_eq!(drill(", peck = \"50 mm\""), (plain, out));
}

#[test]
fn a_deep_hole_is_drilled_slower_where_that_is_asked() {
    let (time, _) =
        times("mill", "", &format!("{DRILLED}drill = {{ depth = \"40 mm\", deep_hole = \"reduced\" }}"));
    // 4 D: 20 m/min and 0.18 mm/rev; 42 mm at 636.62 rpm.
    close(time, 42.0 / (0.18 * 636.620) * 60.0);
    let deep = format!("{DRILLED}drill = {{ depth = \"70 mm\", deep_hole = \"reduced\" }}");
    let (tables, warnings) = worked(scenario("mill", "", &deep)).unwrap();
    close(element(&tables, "in cut"), 72.0 / (0.16 * 477.465) * 60.0);
    assert!(warnings.contains("deep holes end at 6 diameters"), "{warnings}");
    let cuts = &tables["cuts"][0];
    close(cuts["cutting_speed_m_per_min"].as_f64().unwrap(), 15.0);
    close(cuts["feed_per_rev_mm_per_rev"].as_f64().unwrap(), 0.16);
}

#[test]
fn reaming_sinking_and_tapping_take_the_times_worked_by_hand() {
    let reamer = "kind = \"reamer\"\ndiameter = \"12 mm\"";
    let ream = "ream = { depth = \"30 mm\", through = \"6 mm\" }";
    close(times("mill", reamer, &format!("speed = \"12 m/min\"\nfeed = \"0.4 mm/rev\"\n{ream}")).0, 17.907);
    let bore = "kind = \"counterbore\"\ndiameter = \"20 mm\"";
    let sunk = "counterbore = { depth = \"9 mm\", approach = \"1 mm\", dwell = 2 }";
    close(times("mill", bore, &format!("speed = \"20 m/min\"\nfeed = \"0.15 mm/rev\"\n{sunk}")).0, 12.943);
    // 2.7 mm and 2 mm approach at 530.516 rpm.
    let sink = "kind = \"countersink\"\ndiameter = \"25 mm\"\npoint_angle = \"90 deg\"";
    let sunk = "countersink = { diameter = \"12 mm\", hole = \"6.6 mm\", holes = 2 }";
    let time = times("mill", sink, &format!("speed = \"20 m/min\"\nfeed = \"0.1 mm/rev\"\n{sunk}")).0;
    close(time, 2.0 * 4.7 / 53.0516 * 60.0);
    // 5 mm and 2 mm approach at 795.775 rpm.
    let spot = "kind = \"spot drill\"\ndiameter = \"16 mm\"\npoint_angle = \"90 deg\"";
    let time =
        times("mill", spot, "speed = \"25 m/min\"\nfeed = \"0.1 mm/rev\"\nspot = { diameter = \"10 mm\" }").0;
    close(time, 7.0 / 79.5775 * 60.0);
    let centre = "kind = \"centre drill\"";
    let cut = "speed = \"25 m/min\"\nfeed = \"0.1 mm/rev\"\ncentre = { depth = \"6 mm\", dwell = 1 }";
    close(times("mill", centre, cut).0, (8.0 / 79.5775 + 1.0 / 795.775) * 60.0);
    for kind in ["tap", "forming tap"] {
        let tap = "tap = { depth = \"20 mm\", pitch = \"1.5 mm\", approach = \"3 mm\", faster_back = 2.0 }";
        let (tool, cut) = (format!("kind = \"{kind}\""), format!("speed = \"10 m/min\"\n{tap}"));
        close(times("mill", &tool, &cut).0, 4.3354);
    }
    // Back no faster than the spindle turns: 1000 rpm.
    let tap = "tap = { depth = \"20 mm\", pitch = \"1.5 mm\", approach = \"3 mm\", faster_back = 9.0 }";
    let time = times("mill", "kind = \"tap\"", &format!("speed = \"10 m/min\"\n{tap}")).0;
    close(time, 2.8903 + 23.0 / 1500.0 * 60.0);
}

#[test]
fn the_thrust_of_a_drill_is_in_the_workings() {
    let cut = format!("{DRILLED}drill = {{ depth = \"50 mm\" }}");
    let tables = tables(scenario("mill", "", &cut)).unwrap();
    assert!(tables["workings"].to_string().contains("feed force"), "{}", tables["workings"]);
}

#[test]
fn broach_and_saw_run_without_a_spindle() {
    let broach = "kind = \"broach\"\nwidth = \"20 mm\"";
    let cut = "speed = \"11 m/min\"\nbroach = { stroke = \"0.7 m\", back = \"24 m/min\" }";
    close(times("broach", broach, cut).0, 0.092803 * 60.0);
    let cut = "speed = \"11 m/min\"\nfeed = \"0.05 mm/tooth\"\n\
               broach = { stroke = \"0.7 m\", back = \"24 m/min\", width = \"8 mm\", length = \"40 mm\", pitch = \"10 mm\" }";
    let loads = tables(scenario("broach", broach, cut)).unwrap()["loads"][0].clone();
    let force = loads["cutting_force_n"].as_f64().unwrap();
    // Four teeth, 0.4 mm2 each, at between 1500 and 6000 N/mm2.
    assert!((2400.0..9600.0).contains(&force), "{force} N");
    let band = "kind = \"saw band\"\nwidth = \"1.3 mm\"";
    let cut = "speed = \"60 m/min\"\nsaw = { section = \"round\", size = \"100 mm\", rate = \"21 in2/min\" }";
    close(times("saw", band, cut).0, 0.57970 * 60.0);
}

#[test]
fn a_conveyor_gives_its_rate_and_its_time_through() {
    let line = |work: &str| {
        let part =
            "[part.piece]\nmaterial = \"11SMn30\"\n[part.piece.blank]\n[[part.piece.operation]]\nid = 10\n";
        tables(format!("{HEAD}{part}machines = [\"line\"]\n{work}\n"))
    };
    let figures = |work: &str| {
        let tables = line(work).unwrap();
        let row = tables["stations"][0].clone();
        let of = |key: &str| row[key].as_f64().unwrap();
        close(element(&tables, "station time"), of("interval_s"));
        (of("interval_s"), of("through_min"), of("inside_pieces"))
    };
    let conveyor =
        "conveyor = { length = \"12 m\", speed = \"1.5 m/min\", spacing = \"0.4 m\", abreast = 2 }";
    let (interval, through, inside) = figures(conveyor);
    close(interval, 8.0);
    close(through, 8.0);
    close(inside, 60.0);
    assert_eq!(figures("batch = { time = \"10 min\", pieces = 40 }"), (15.0, 10.0, 40.0));
    assert_eq!(figures("slots = { time = \"10 min\", slots = 20 }"), (30.0, 10.0, 20.0));
    assert_eq!(figures("fixed = { time = \"30 s\" }"), (30.0, 0.5, 1.0));
    assert_eq!(figures("sample = { time = \"3 min\", every = 20 }"), (9.0, 3.0, 1.0));
    let wide = "conveyor = { length = \"1 m\", speed = \"1.5 m/min\", spacing = \"1.2 m\" }";
    assert!(line(wide).unwrap_err().contains("Geometry"));
}

#[test]
fn contradictions_in_a_hole_are_found() {
    let fault = |tool: &str, cut: &str| tables(scenario("mill", tool, cut)).unwrap_err();
    for (drill, expected) in [
        ("depth = \"50 mm\", peck = \"1 mm\", lift = \"1 mm\"", "goes back further"),
        ("depth = \"50 mm\", retract = \"chip\"", "no `peck` is given"),
        ("depth = \"50 mm\", peck = \"0.01 mm\"", "passes"),
        ("depth = \"50 mm\", peck = \"0 mm\"", "peck"),
    ] {
        let fault = fault("", &format!("{DRILLED}drill = {{ {drill} }}"));
        assert!(fault.contains(expected), "{drill}: {fault}");
    }
    let sink = "kind = \"countersink\"\ndiameter = \"25 mm\"\npoint_angle = \"90 deg\"";
    let sunk = |work: &str| fault(sink, &format!("{DRILLED}countersink = {{ {work} }}"));
    assert!(sunk("diameter = \"12 mm\", hole = \"12 mm\"").contains("nothing to cut"));
    assert!(sunk("diameter = \"26 mm\"").contains("less than the one it is to make"));
    let band = "kind = \"saw band\"";
    let cut = "speed = \"60 m/min\"\nsaw = { rate = \"21 in2/min\" }";
    assert!(tables(scenario("saw", band, cut)).unwrap_err().contains("bar to saw"));
}
