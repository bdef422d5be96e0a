//! Grinding cuts as a whole.

use super::workshop::{assert_near, operation};
use wearland::cycle::OperationEstimate;

/// A cut of a wheel 400 mm in diameter and 50 mm wide that is dressed after 3000 mm3 for each millimetre.
fn grind(work: &str) -> OperationEstimate {
    operation(&format!(
        r#"[[part.piece.operation.cut]]
id = "grind"
tool = "wheel"
speed = "30 m/s"
{work}
[machine.machine]
title = "cylindrical grinder"
kind = "grinder"
spindle_speed = "1800 rpm"
power = "7.5 kW"
efficiency = 0.8
torque = "60 N m"
rapid = "10 m/min"
feed_limit = "10 m/min"
edge_change = "30 min"
coolant = "soluble-flood"
availability = "90 %"
caution = "Never above the speed marked on the wheel."
[tool.wheel]
title = "corundum wheel"
kind = "grinding wheel"
substrate = "abrasive"
edges = {{ value = 200, source = "common-practice", standing = "common practice" }}
diameter = "400 mm"
width = "50 mm"
change = "2 min"
[tool.wheel.life.P]
speed = "30 m/s"
life = "3000 mm3/mm"
coolant = "soluble-flood"
speeds = "20 m/s .. 40 m/s"
"#
    ))
}

#[test]
fn strokes_along_a_cylinder_take_the_time_of_the_textbook() {
    // Sharma, example 4.20: 0.64 min.
    let work = r#"grind = { method = "traverse", from = "38 mm", to = "37.5 mm", length = "200 mm", work_speed = "15 m/min",
        stages = [{ stock = "0.25 mm", infeed_per_pass = "0.025 mm", traverse = "25 mm/rev" }] }"#;
    let (cut, _) = &grind(work).cuts[0];
    assert_near(cut.cut_time.to_min(), 0.64, 0.006);
    assert_near(cut.cut_time.to_min(), 0.636696, 2e-6);
    assert_eq!(cut.passes, 10);
    assert_near(cut.removal_rate.unwrap().to_cm3_per_min(), 9.375, 1e-9);
}

#[test]
fn spark_out_strokes_are_run_but_wear_nothing() {
    let work = r#"grind = { method = "traverse", from = "60 mm", to = "59.6 mm", length = "250 mm", work_speed = "20 m/min",
        stages = [{ stock = "0.2 mm", infeed_per_pass = "0.02 mm", traverse = "25 mm/rev" }], spark_out_passes = 2,
        overrun = "16.666667 mm" }"#;
    let (cut, _) = &grind(work).cuts[0];
    assert_near(cut.cut_time.to_s(), 76.906, 1e-5);
    // pi * 59.8 * 0.2 * 250 / 50 of 3000 mm3/mm.
    assert_near(cut.edge.share, 187.867 / 3000.0, 1e-5);
    assert_eq!(cut.edge.pieces, 15);
}

#[test]
fn a_plunge_runs_through_its_stages_and_the_wheel_is_dressed_by_volume() {
    let work = r#"grind = { method = "plunge", from = "60 mm", to = "59.6 mm", width = "40 mm", work_speed = "20 m/min",
        stages = [{ stock = "0.15 mm", infeed = "1.2 mm/min" }, { stock = "0.04 mm", infeed = "0.4 mm/min" },
        { stock = "0.01 mm", infeed = "0.1 mm/min" }], spark_out = "6 s" }"#;
    let estimate = grind(work);
    let (cut, _) = &estimate.cuts[0];
    assert_near(cut.cut_time.to_s(), 25.5, 1e-9);
    // V'w = pi * 59.8 * 0.2 = 37.573 mm3/mm.
    assert_near(cut.removed.unwrap().to_cm3(), 37.5734 * 40.0 / 1000.0, 1e-5);
    assert_eq!(cut.edge.pieces, 79);
    // Dressing stands in for the change: 2 min after each 79 pieces.
    assert_near(estimate.tool_change_share.to_s(), 120.0 / 79.0, 1e-9);
    // Q'w 3.76991 mm3/(s mm) over 40 mm.
    assert_near(cut.removal_rate.unwrap().to_cm3_per_min(), 3.76991 * 40.0 * 0.06, 1e-5);
}

#[test]
fn a_bore_is_ground_from_small_to_large() {
    let work = r#"grind = { method = "plunge", from = "59.6 mm", to = "60 mm", width = "120 mm", work_speed = "20 m/min",
        stages = [{ stock = "0.2 mm", infeed = "1.2 mm/min" }] }"#;
    let (cut, _) = &grind(work).cuts[0];
    // Three plunges of a wheel of 50 mm.
    assert_eq!(cut.passes, 3);
    assert_near(cut.cut_time.to_s(), 30.0, 1e-9);
}

#[test]
fn pins_pass_between_the_wheels_end_to_end() {
    let work = r#"centreless = { diameter = "20 mm", length = "50 mm", stock = "0.02 mm", regulating_diameter = "300 mm",
        regulating_speed = "30 rpm", regulating_angle = "3 deg", passes = 2 }"#;
    let (cut, _) = &grind(work).cuts[0];
    // v_fa = pi * 300 * 30 * sin(3 deg) = 1479.76 mm/min.
    assert_near(cut.feed_rate.to_mm_per_min(), 1479.76, 1e-5);
    assert_near(cut.cut_time.to_s(), 2.0 * 50.0 / 1479.76 * 60.0, 1e-5);
    assert_near(cut.removed.unwrap().to_cm3(), std::f64::consts::PI * 19.98 * 0.02 * 50.0 / 1000.0, 1e-9);
}
