//! Milling cuts as a whole.

use super::workshop::{assert_near, only_cut};
use wearland::cycle::CutEstimate;

/// A cut with a tool of its own on a mill that never holds it back.
fn mill(cut: &str, tool: &str) -> CutEstimate {
    only_cut(&format!(
        r#"[[part.piece.operation.cut]]
id = "cut"
tool = "cutter"
{cut}
[machine.machine]
like = "vertical-mill"
spindle_speed = "30000 rpm"
coolant = "soluble-flood"
availability = "90 %"
[tool.cutter]
like = "mill-10-carbide"
{tool}
"#
    ))
}

const SIXTEEN: &str = "diameter = \"16 mm\"\nteeth = 4";
const SIXTEEN_AT: &str = "speed = \"120 m/min\"\nfeed = \"0.05 mm/tooth\"";

#[test]
fn a_slot_milled_with_a_saw_takes_the_time_of_the_textbook() {
    // Sharma, example 4.17: 0.965 min.
    let cut = mill(
        "speed = \"50 m/min\"\nfeed = \"0.25 mm/tooth\"\nmill = { shape = \"side\", length = \"200 mm\", width = \"5 mm\", depth = \"25 mm\" }",
        "diameter = \"150 mm\"\nteeth = 10",
    );
    assert_near(cut.cut_time.to_min(), 0.965, 0.001);
}

#[test]
fn slab_milling_removes_what_the_textbook_says_in_its_time() {
    // Kalpakjian, example 24.1: 37.5 s with the approach sqrt(d D), 37.425 s with the exact one; 150 cm3/min.
    let cut = mill(
        "speed = \"15.70796327 m/min\"\nfeed = \"0.5 mm/tooth\"\nmill = { shape = \"side\", length = \"300 mm\", width = \"100 mm\", depth = \"3 mm\" }",
        "diameter = \"50 mm\"\nteeth = 10",
    );
    assert_near(cut.cut_time.to_s(), 37.425, 1e-4);
    assert_near(cut.removal_rate.unwrap().to_cm3_per_min(), 150.0, 1e-6);
    assert_near(cut.removed.unwrap().to_cm3(), 90.0, 1e-9);
}

#[test]
fn a_face_milled_clean_takes_the_time_of_the_textbook() {
    // Kalpakjian, example 24.2: 65 s, 108 cm3/min.
    let cut = mill(
        "speed = \"47.1238898 m/min\"\nfeed = \"0.6 mm/tooth\"\nmill = { shape = \"face\", length = \"500 mm\", width = \"60 mm\", depth = \"3 mm\", clean_up = \"full\" }",
        "diameter = \"150 mm\"\nteeth = 10",
    );
    assert_near(cut.cut_time.to_s(), 65.0, 1e-6);
    assert_near(cut.removal_rate.unwrap().to_cm3_per_min(), 108.0, 1e-6);
}

#[test]
fn an_offset_face_mill_has_the_power_of_its_own_engagement() {
    let face = |offset: &str| {
        mill(
            &format!(
                "speed = \"200 m/min\"\nfeed = \"0.2 mm/tooth\"\nmill = {{ shape = \"face\", length = \"302 mm\", width = \"60 mm\", depth = \"2 mm\", offset = \"{offset}\" }}"
            ),
            "diameter = \"100 mm\"\nteeth = 7",
        )
    };
    assert_near(face("0 mm").cut_time.to_s(), 21.0038, 1e-5);
    assert_near(face("10 mm").cut_time.to_s(), 21.6770, 1e-5);
    // h_m of 73.740 deg centred and of 76.708 deg offset by 10 mm, at a_e 60 mm: the thinner chip takes more power.
    let ratio = face("10 mm").power.unwrap() / face("0 mm").power.unwrap();
    let angles = ((-0.4_f64).acos() - 0.8_f64.acos()) / (2.0 * 0.6_f64.asin());
    assert!(angles > 1.0);
    assert_near(ratio, angles.powf(0.22), 1e-6);
}

#[test]
fn a_slot_is_run_through_by_half_the_cutter_at_each_end() {
    let cut = mill(
        "speed = \"120 m/min\"\nfeed = \"0.08 mm/tooth\"\nmill = { shape = \"slot\", length = \"152 mm\", width = \"16 mm\", depth = \"4 mm\" }",
        SIXTEEN,
    );
    assert_near(cut.cut_time.to_s(), 13.1947, 1e-5);
}

#[test]
fn a_thin_chip_lets_the_feed_rise() {
    let shoulder = |more: &str| {
        mill(
            &format!(
                "{SIXTEEN_AT}\nmill = {{ shape = \"shoulder\", length = \"100 mm\", width = \"1.6 mm\", depth = \"4 mm\"{more} }}"
            ),
            SIXTEEN,
        )
    };
    let (given, raised) = (shoulder(""), shoulder(", thin_chip = \"raise feed\""));
    // a_e / D of a tenth: the published factor is 1.66, the geometry says 1.6667.
    assert_near(given.cut_time / raised.cut_time, 5.0 / 3.0, 1e-9);
    assert_near(raised.feed.unwrap().advance().to_mm(), 0.05 * 5.0 / 3.0, 1e-9);
}

#[test]
fn a_pocket_is_cleared_level_by_level() {
    let pocket = |way: &str| {
        mill(
            &format!(
                "{SIXTEEN_AT}\ndepth = \"5 mm\"\npocket = {{ length = \"100 mm\", width = \"60 mm\", depth = \"10 mm\", step_over = \"8 mm\"{way} }}"
            ),
            SIXTEEN,
        )
    };
    // v_f 477.465 mm/min; per level 634 mm cleared, 256 mm of wall, and 5 mm down at 0.3 v_f.
    let plunged = pocket(", entry = \"plunge\"");
    assert_near(plunged.cut_time.to_s(), 227.870, 1e-5);
    assert_near(plunged.removed.unwrap().to_cm3(), 59.4506, 1e-5);
    assert_eq!(plunged.passes, 2);
    assert_near(pocket("").cut_time.to_s(), 247.692, 1e-5);
    assert_near(pocket(", entry = \"helix\", ramp_angle = \"2 deg\"").cut_time.to_s(), 269.795, 1e-5);
}

#[test]
fn keyways_are_plunged_and_milled_along() {
    let keyway = |ends: &str| {
        mill(
            &format!(
                "speed = \"100 m/min\"\nfeed = \"0.03 mm/tooth\"\ndepth = \"2 mm\"\nkeyway = {{ length = \"40 mm\", depth = \"4 mm\", count = 2, ends = \"{ends}\" }}"
            ),
            "diameter = \"8 mm\"\nteeth = 2",
        )
    };
    assert_near(keyway("closed").cut_time.to_s(), 38.87197, 1e-6);
    assert_near(keyway("closed").removed.unwrap().to_cm3(), 2.450124, 1e-6);
    assert_near(keyway("open").cut_time.to_s(), 40.21239, 1e-6);
}

#[test]
fn a_thread_is_milled_in_a_turn_and_two_arcs() {
    let thread = |more: &str| {
        mill(
            &format!(
                "speed = \"150 m/min\"\nfeed = \"0.05 mm/tooth\"\nthread_mill = {{ diameter = \"20 mm\", pitch = \"2.5 mm\", length = \"20 mm\", internal = true{more} }}"
            ),
            "kind = \"thread mill\"\ndiameter = \"14 mm\"\nteeth = 3\nuseful_length = \"25 mm\"",
        )
    };
    assert_near(thread("").feed_rate.to_mm_per_min(), 153.47084, 1e-6);
    assert_near(thread(", holes = 2").cut_time.to_s(), 22.236978, 1e-6);
    assert_near(thread(", holes = 2, passes = 2").cut_time.to_s(), 2.0 * 22.236978, 1e-6);
}

#[test]
fn an_unbalance_is_milled_away_along_an_arc() {
    let cut = mill(
        &format!(
            "{SIXTEEN_AT}\nbalance = {{ unbalance = \"200 g mm\", radius = \"30 mm\", deepest = \"4 mm\" }}"
        ),
        "diameter = \"10 mm\"\nteeth = 4",
    );
    // 4 mm down at 0.3 of 763.944 mm/min, 26.1651 deg along a radius of 30 mm: 1.047 s and 1.076 s.
    assert_near(cut.cut_time.to_s(), 2.123197, 1e-5);
    // What is milled away weighs more than at one point, 200 / 30 g, for its ends lie off the line.
    let mass = cut.removed.unwrap().to_cm3() * 7.85;
    assert!(200.0 / 30.0 < mass && mass < 1.05 * 200.0 / 30.0, "{mass} g");
}
