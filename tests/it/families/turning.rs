//! Turning, rolling and single-point threads.

use wearland::cycle::{CutEstimate, Setting, estimate_cut};
use wearland::input::{Origin, load};
use wearland::quantity::NoWorkings;

const HEAD: &str = r#"
[scenario]
title = "turning"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 1
[shift.early]
from = "06:00"
to = "14:00"
[machine.lathe]
like = "chucking-lathe"
spindle_speed = "4000 rpm"
availability = "90 %"
coolant = "dry"
[tool.wheel]
title = "knurling wheel"
kind = "knurl"
substrate = "HSS"
edges = 1
width = "10 mm"
[tool.wheel.life.P]
speed = "30 m/min"
life = "600 min"
coolant = "dry"
n = 0.3
speeds = "10 .. 60 m/min"
[tool.roller]
like = "wheel"
kind = "burnishing roller"
[part.shaft]
material = "11SMn30"
length = "100 mm"
blank = { mass = "1 kg" }
[[part.shaft.operation]]
id = 10
machines = ["lathe"]
"#;

/// Cuts worked out; each is given by its keys, without its name.
fn cuts(bodies: &[&str]) -> Vec<CutEstimate> {
    let mut text = HEAD.to_owned();
    for (index, body) in bodies.iter().enumerate() {
        text.push_str(&format!("[[part.shaft.operation.cut]]\nid = \"cut-{index}\"\n{body}\n"));
    }
    let loaded = load(&Origin::Text { name: "turning.toml".to_owned(), bytes: text.into_bytes() }).unwrap();
    assert!(loaded.scenario.is_some(), "{:?}", loaded.diagnostics);
    let scenario = loaded.scenario.unwrap();
    let shop = &scenario.shop;
    let (item, machine) = (&shop.items[0], &shop.machines[0]);
    let operation = &item.operations[0];
    let worked = |cut| estimate_cut(&Setting { shop, item, operation, machine, cut }, &mut NoWorkings);
    operation.cuts.iter().map(|cut| worked(cut).unwrap()).collect()
}

fn one(body: &str) -> CutEstimate {
    cuts(&[body]).remove(0)
}

fn insert(speed: &str, feed: &str, rest: &str) -> String {
    format!("tool = \"turn-80-08\"\nspeed = \"{speed}\"\nfeed = \"{feed}\"\n{rest}")
}

#[track_caller]
fn near(value: f64, expected: f64, tolerance: f64) {
    approx::assert_relative_eq!(value, expected, max_relative = tolerance);
}

/// Sharma, A Textbook of Production Engineering, example 4.11: 0.22 min.
#[test]
fn a_shaft_of_two_diameters_takes_the_printed_time() {
    let pass = |from, to, length| {
        let work = format!(
            "turn = {{ from = \"{from} mm\", to = \"{to} mm\", length = \"{length} mm\", approach = \"0 mm\" }}"
        );
        insert("100 m/min", "0.75 mm/rev", &work)
    };
    let both = cuts(&[&pass(50, 38, 76), &pass(38, 25, 38)]);
    near(both.iter().map(|cut| cut.cut_time.to_min()).sum(), 0.22, 0.002);
    // 38^2 pi / 4 from 50^2 over 76 mm, and so on.
    near(both[0].removed.unwrap().to_cm3(), std::f64::consts::PI / 4.0 * 1056.0 * 0.076, 1e-9);
}

#[test]
fn a_finishing_pass_follows_the_roughing_passes_at_its_own_feed() {
    let finish = "finish = { depth = \"0.4 mm\", feed = \"0.1 mm/rev\" }";
    let work = format!(
        "depth = \"3 mm\"\nturn = {{ from = \"100 mm\", to = \"80 mm\", length = \"150 mm\", approach = \"3 mm\", {finish} }}"
    );
    let cut = one(&insert("200 m/min", "0.3 mm/rev", &work));
    // Four of 2.4 mm on 100, 95.2, 90.4 and 85.6 mm, then 0.4 mm on 80.8 mm.
    near(cut.cut_time.to_min(), 2.973_706 + 1.941_881, 1e-6);
    assert_eq!(cut.passes, 5);
    near(cut.depth.unwrap().to_mm(), 2.4, 1e-12);
    // The finishing feed leaves the surface: 0.1^2 / (8 * 0.8).
    near(cut.roughness.unwrap().to_um(), 1.5631, 1e-3);
}

#[test]
fn a_taper_takes_its_path_at_constant_cutting_speed() {
    let taper = |more: &str, tail: &str| {
        let work = format!(
            "turn = {{ from = \"60.2 mm\", to = \"40 mm\", end = \"60 mm\", length = \"100 mm\", approach = \"0 mm\"{tail} }}"
        );
        one(&insert("180 m/min", "0.25 mm/rev", &format!("{more}{work}")))
    };
    // A level pass down to 60 mm at 951.76 rpm, then the cone: 0.350807 min, with the limit 0.361332 min.
    let level = 100.0 / (0.25 * 951.760);
    near(taper("", "").cut_time.to_min(), level + 0.350_807, 5e-6);
    near(taper("fastest = \"1200 rpm\"\n", "").cut_time.to_min(), level + 0.361_332, 5e-6);
    let finish = ", finish = { depth = \"0.1 mm\", feed = \"0.125 mm/rev\" }";
    // With 0.1 mm left the level pass cuts no metal: the cone is roughed once and finished at half the feed, the last
    // 0.1 mm of it out over the shoulder that is left.
    let cut = taper("", finish);
    assert_eq!(cut.passes, 2);
    let raised = std::f64::consts::PI * 100.498_756 * 50.2 / (180_000.0 * 0.25);
    let shoulder = std::f64::consts::PI * 0.1 * 60.1 / (180_000.0 * 0.125);
    near(cut.cut_time.to_min(), raised + 2.0 * 0.350_807 + shoulder, 5e-6);
    // Cylinder less cone: pi / 4 * 60.2^2 * 100 - 198 967.5 mm3.
    near(cut.removed.unwrap().to_cm3(), std::f64::consts::PI / 4.0 * 60.2 * 60.2 * 0.1 - 198.967_535, 1e-6);
}

#[test]
fn a_taper_bored_is_a_taper_turned_upside_down() {
    let work = "bore = { from = \"39.8 mm\", to = \"60 mm\", end = \"40 mm\", length = \"100 mm\", approach = \"0 mm\" }";
    let cut = one(&insert("180 m/min", "0.25 mm/rev", work));
    // The level pass is held on 40 mm, which it leaves.
    near(cut.cut_time.to_min(), 100.0 / (0.25 * 1432.394) + 0.350_807, 5e-6);
    let bored = 198.967_535 - std::f64::consts::PI / 4.0 * 39.8 * 39.8 * 0.1;
    near(cut.removed.unwrap().to_cm3(), bored, 1e-6);
}

#[test]
fn an_outline_is_roughed_in_levels_and_finished_along_its_contour() {
    let steps = "steps = [ { diameter = \"19 mm\", length = \"30 mm\" }, { diameter = \"29 mm\", length = \"10 mm\" } ]";
    let finish = "finish = { depth = \"0.5 mm\", feed = \"0.1 mm/rev\" }";
    let work =
        format!("depth = \"2.5 mm\"\nrapid = \"0 mm\"\nprofile = {{ from = \"40 mm\", {steps}, {finish} }}");
    let cut = one(&insert("100 m/min", "0.2 mm/rev", &work));
    // pi / (v f) * (40 * 42 + 35 * 42 + 30 * 32 + 25 * 32), then the contour with its two faces at half the feed.
    let rough = std::f64::consts::PI * 4910.0 / (100_000.0 * 0.2);
    let contour = std::f64::consts::PI * (608.0 + 120.0 + 290.0 + 189.75) / (100_000.0 * 0.1);
    near(cut.cut_time.to_min(), rough + contour, 1e-9);
    assert_eq!(cut.passes, 5);
    near(cut.removed.unwrap().to_cm3(), std::f64::consts::PI / 4.0 * 44.760, 1e-9);
    // Back behind each roughing pass at 24 m/min.
    near(cut.rapid_time.to_min(), (42.0 + 42.0 + 32.0 + 32.0) / 24_000.0, 1e-9);
}

#[test]
fn an_undercut_between_bigger_steps_is_a_pass_of_its_own() {
    let step = |diameter, length| format!("{{ diameter = \"{diameter} mm\", length = \"{length} mm\" }}");
    let work = format!(
        "depth = \"5 mm\"\nprofile = {{ from = \"40 mm\", steps = [ {}, {}, {} ], approach = \"1 mm\" }}",
        step(30, 20),
        step(20, 10),
        step(30, 10)
    );
    let cut = one(&insert("100 m/min", "0.2 mm/rev", &work));
    // 41 mm on 40 mm, then 5 mm down and 10 mm along on 30 mm.
    let paths = 40.0 * 41.0 + 30.0 * 15.0;
    near(cut.cut_time.to_min(), std::f64::consts::PI * paths / (100_000.0 * 0.2), 1e-9);
    assert_eq!(cut.passes, 2);
}

#[test]
fn a_face_is_finished_and_the_feed_is_cut_where_a_bar_parts() {
    let work = "depth = \"1 mm\"\nface = { from = \"100 mm\", to = \"40 mm\", depth = \"2.2 mm\", finish = { depth = \"0.2 mm\", feed = \"0.1 mm/rev\" } }";
    let cut = one(&insert("200 m/min", "0.2 mm/rev", &format!("fastest = \"3000 rpm\"\n{work}")));
    // 0.164934 min for each of two faces, twice that at half the feed.
    near(cut.cut_time.to_min(), 4.0 * 0.164_934, 5e-6);
    assert_eq!(cut.passes, 3);
    // A finishing pass that takes all there is runs at its own speed and feed.
    let all = "face = { from = \"100 mm\", to = \"40 mm\", depth = \"0.2 mm\", finish = { depth = \"0.5 mm\", feed = \"0.1 mm/rev\", speed = \"100 m/min\" } }";
    let cut = one(&insert("200 m/min", "0.2 mm/rev", all));
    near(cut.cut_time.to_min(), std::f64::consts::PI * (2500.0 - 400.0) / (100_000.0 * 0.1), 1e-9);
    near(cut.spindle_speed.unwrap().to_rpm(), 318.310, 1e-6);
    near(cut.feed_rate.to_mm_per_min(), 31.831, 1e-6);
    assert_eq!(cut.passes, 1);
    let part = |slow: &str| {
        let keys = "tool = \"part-3\"\nspeed = \"120 m/min\"\nfeed = \"0.1 mm/rev\"";
        one(&format!("{keys}\npart = {{ from = \"42 mm\", to = \"0 mm\"{slow} }}")).cut_time.to_min()
    };
    near(part(""), 0.121_422, 5e-6);
    near(part(", slow_below = \"2 mm\", slow_to = \"25 %\""), 0.128_922, 5e-6);
}

#[test]
fn a_form_tool_dwells_and_cuts_over_its_whole_contact() {
    let keys = "tool = \"form-12-hss\"\nspeed = \"150 m/min\"\nfeed = \"0.08 mm/rev\"";
    let form = |width| {
        one(&format!(
            "{keys}\nform = {{ from = \"61 mm\", to = \"50 mm\", width = \"{width} mm\", dwell = 2 }}"
        ))
    };
    near(form(8).cut_time.to_s(), 4.920_56, 2e-5);
    near(form(8).force.unwrap().to_n(), 2.0 * form(4).force.unwrap().to_n(), 1e-9);
    near(form(8).removed.unwrap().to_cm3(), std::f64::consts::PI / 4.0 * (3721.0 - 2500.0) * 0.008, 1e-9);
}

/// Sharma, example 4.21: 2.05 min; and 1/2-13 worked by hand: 3.097087 s.
#[test]
fn threads_take_the_printed_time_and_the_passes_the_last_one_allows() {
    let thread = |speed: &str, work: &str| {
        one(&format!("tool = \"thread-external\"\nspeed = \"{speed}\"\nthread = {{ {work} }}"))
    };
    let sharma = "diameter = \"44 mm\", pitch = \"5 mm\", length = \"89 mm\", passes = 5, run_in = \"0 mm\", run_out = \"0 mm\"";
    near(thread("6 m/min", sharma).cut_time.to_min(), 2.05, 0.001);
    let inch = "diameter = \"0.5 in\", pitch = \"13 tpi\", length = \"1 in\", passes = 7, run_in = \"0.2 in\", run_out = \"0.1 in\"";
    near(thread("300 ft/min", inch).cut_time.to_s(), 3.097_087, 1e-6);
    let metric = "diameter = \"10 mm\", pitch = \"1.5 mm\", length = \"20 mm\"";
    let cut = thread("120 m/min", &format!("{metric}, passes = 6"));
    // First of six: 0.9202 * sqrt(0.3 / 5).
    near(cut.depth.unwrap().to_mm(), 0.2254, 1e-3);
    near(cut.removed.unwrap().to_cm3(), 0.277_960, 2e-6);
    // 0.9202 * (1 - sqrt(9 / 10)) = 0.0472 is too thin, 0.9202 * (1 - sqrt(8 / 9)) = 0.0526 is not.
    let held = thread("120 m/min", &format!("{metric}, passes = 30, last_pass = \"0.05 mm\""));
    assert_eq!(held.passes, 10);
}

#[test]
fn a_knurl_plunges_where_its_wheel_is_wide_enough_and_rollers_repeat_their_passes() {
    let knurl = |length| {
        let keys = "tool = \"wheel\"\nspeed = \"30 m/min\"\nfeed = \"0.2 mm/rev\"";
        one(&format!("{keys}\nknurl = {{ diameter = \"20 mm\", length = \"{length} mm\" }}"))
    };
    let turns = 30_000.0 / (std::f64::consts::PI * 20.0);
    near(knurl(10).cut_time.to_min(), 20.0 / turns, 1e-9);
    near(knurl(30).cut_time.to_min(), 32.0 / (0.2 * turns), 1e-9);
    assert!(knurl(30).power.is_none() && knurl(30).removed.is_none());
    let keys = "tool = \"roller\"\nspeed = \"60 m/min\"\nfeed = \"0.3 mm/rev\"";
    let work = "burnish = { diameter = \"20 mm\", length = \"58 mm\", internal = true, passes = 2 }";
    near(one(&format!("{keys}\n{work}")).cut_time.to_min(), 2.0 * 60.0 / (0.3 * 2.0 * turns), 1e-9);
}

#[test]
fn a_finishing_pass_wears_and_loads_as_a_cut_of_its_own() {
    let head = "tool = \"turn-80-08\"\nspeed = \"180 m/min\"";
    let both = cuts(&[
        &format!(
            "{head}\nfeed = \"0.3 mm/rev\"\ndepth = \"2 mm\"\n\
             turn = {{ from = \"40 mm\", to = \"35.4 mm\", length = \"80 mm\", finish = {{ depth = \"0.3 mm\", feed = \"0.1 mm/rev\" }} }}"
        ),
        &format!(
            "{head}\nfeed = \"0.3 mm/rev\"\nturn = {{ from = \"40 mm\", to = \"36 mm\", length = \"80 mm\" }}"
        ),
        &format!(
            "{head}\nfeed = \"0.1 mm/rev\"\nturn = {{ from = \"36 mm\", to = \"35.4 mm\", length = \"80 mm\" }}"
        ),
    ]);
    let apart = both[1].edge.share + both[2].edge.share;
    assert!((both[0].edge.share / apart - 1.0).abs() < 1e-9, "{} against {apart}", both[0].edge.share);
    // A finishing pass that is the heavier one sets the power.
    let heavy = cuts(&[
        &format!(
            "{head}\nfeed = \"0.1 mm/rev\"\ndepth = \"0.5 mm\"\n\
             turn = {{ from = \"40 mm\", to = \"35 mm\", length = \"80 mm\", finish = {{ depth = \"2 mm\", feed = \"0.5 mm/rev\" }} }}"
        ),
        &format!(
            "{head}\nfeed = \"0.5 mm/rev\"\nturn = {{ from = \"39 mm\", to = \"35 mm\", length = \"80 mm\" }}"
        ),
    ]);
    let (with, alone) = (heavy[0].power.unwrap().to_kw(), heavy[1].power.unwrap().to_kw());
    assert!((with / alone - 1.0).abs() < 1e-9, "{with} against {alone}");
}
