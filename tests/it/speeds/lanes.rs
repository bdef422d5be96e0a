//! Two channels beside each other: only what sets the cycle is worth a minute.

use super::shop::{HEAD, LATHE, TOOL, read};
use wearland::cycle::{SpeedRule, Worths, priced_operation};
use wearland::quantity::{Money, MoneyRate};

/// Two cuts, each with its own edge; lengths in mm, channel of the second.
fn two(lengths: (u32, u32), channel: u32, operation: &str) -> String {
    let cut = |id: &str, length: u32, channel: u32| {
        format!(
            r#"
[[part.shaft.operation.cut]]
id = "{id}"
tool = "own"
position = "{id}"
channel = {channel}
speed = "40 m/min"
feed = "0.25 mm/rev"
rapid = "0 mm"
turn = {{ from = "100 mm", to = "99 mm", length = "{length} mm", approach = "0 mm" }}
"#
        )
    };
    format!(
        "{HEAD}{operation}{}{}{LATHE}index = \"0.001 s\"\n{TOOL}",
        cut("one", lengths.0, 1),
        cut("two", lengths.1, channel)
    )
}

fn speeds(text: &str, rate: f64) -> (Vec<f64>, Vec<SpeedRule>, Vec<f64>) {
    let scenario = read(text);
    let worths = Worths::of_minute(MoneyRate::per_h(rate));
    let priced = priced_operation(&scenario.shop, (0, 0, 0), Money::ZERO, &worths).unwrap();
    (
        priced.operation.cuts.iter().map(|cut| cut.speed.to_m_per_min()).collect(),
        priced.changed.iter().map(|change| change.rule).collect(),
        priced.estimate.cuts.iter().map(|(cut, _)| cut.cut_time.to_min()).collect(),
    )
}

#[test]
fn edges_in_one_channel_each_have_their_own_best() {
    let (both, ..) = speeds(&two((10, 5), 1, ""), 30.0);
    // Change 1.5 min and an edge of 3 at 0.5 a minute: T = 7 * 7.5.
    let closed = 70.0 / 52.5_f64.powf(0.125);
    assert!(both.iter().all(|speed| (speed / closed - 1.0).abs() < 2e-3), "{both:?} {closed}");
}

#[test]
fn a_channel_with_slack_is_slowed_until_the_channels_balance() {
    // A tenth of the way longer: the short channel alone would end sooner.
    let (speeds_, rules, times) = speeds(&two((50, 45), 2, ""), 30.0);
    assert!((times[0] / times[1] - 1.0).abs() < 0.02, "{times:?}");
    assert!(rules.contains(&SpeedRule::OtherChannel), "{rules:?}");
    assert!(speeds_[1] < speeds_[0]);
    // By hand: both channels end together at t, so v2 = 0.9 v1, and L = sum of what each minute saved costs in edges:
    // with e = L t_c + c, one such share each: 0.5 t = 7 e (t/T1 + t/T2).
    let e = 0.5 * 1.5 + 3.0;
    let shares = |v: f64| 7.0 * e * ((v / 70.0_f64).powi(8) + (0.9 * v / 70.0).powi(8));
    let (mut low, mut high) = (10.0, 70.0);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if shares(middle) < 0.5 { low = middle } else { high = middle }
    }
    assert!((speeds_[0] / low - 1.0).abs() < 0.01, "{speeds_:?} {low}");
}

#[test]
fn a_far_shorter_channel_goes_as_slow_as_it_may() {
    let (speeds, _, times) = speeds(&two((100, 10), 2, ""), 30.0);
    assert!((speeds[1] - times[1].recip() * 10.0 * 0.1 * std::f64::consts::PI / 0.25).abs() < 0.1);
    assert!(times[1] <= times[0] * 1.001 && speeds[1] < 0.2 * speeds[0], "{speeds:?} {times:?}");
}

#[test]
fn loading_while_cutting_makes_quicker_cuts_worth_nothing() {
    let load = "load = { time = \"20 min\", by = \"robot\", while = \"cutting\" }\n";
    let (hidden, ..) = speeds(&two((100, 50), 1, load), 30.0);
    let (bare, ..) = speeds(&two((100, 50), 1, ""), 30.0);
    assert!(hidden.iter().zip(&bare).all(|(hidden, bare)| hidden < &(bare * 0.7)), "{hidden:?} {bare:?}");
}
