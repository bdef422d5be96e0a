//! Speeds that stay: as the engineer keeps them, without a price, without a life that hangs on them.

use super::shop::{HEAD, LATHE, TOOL, read};
use wearland::cycle::{SpeedRule, Worths, priced_operation};
use wearland::quantity::{CuttingSpeed, Money, MoneyRate};

fn shop(cut: &str, tool: &str) -> String {
    let cut = format!(
        r#"
[[part.shaft.operation.cut]]
id = "turn"
tool = "own"
speed = "20 m/min"
feed = "0.25 mm/rev"
turn = {{ from = "100 mm", to = "99 mm", length = "100 mm" }}
{cut}
"#
    );
    format!("{HEAD}{cut}{LATHE}{}", tool)
}

fn speed_of(text: &str, worths: &Worths<'_>) -> (CuttingSpeed, Option<SpeedRule>) {
    let scenario = read(text);
    let priced = priced_operation(&scenario.shop, (0, 0, 0), Money::ZERO, worths).unwrap();
    (priced.operation.cuts[0].speed, priced.changed.first().map(|change| change.rule))
}

#[test]
fn a_kept_speed_stays() {
    let rate = Worths::of_minute(MoneyRate::per_h(30.0));
    assert!(speed_of(&shop("", TOOL), &rate).0 > CuttingSpeed::m_per_min(35.0));
    assert!(speed_of(&shop("keep_speed = false", TOOL), &rate).0 > CuttingSpeed::m_per_min(35.0));
    for worths in [rate, Worths::TIME_ALONE] {
        let kept = speed_of(&shop("keep_speed = true", TOOL), &worths);
        assert_eq!(kept, (CuttingSpeed::m_per_min(20.0), None));
    }
}

#[test]
fn without_a_price_time_alone_moves_a_speed() {
    let unpriced = TOOL.replace("price = \"3 EUR\"\n", "");
    let rate = Worths::of_minute(MoneyRate::per_h(30.0));
    assert_eq!(speed_of(&shop("", &unpriced), &rate), (CuttingSpeed::m_per_min(20.0), None));
    assert!(speed_of(&shop("", &unpriced), &Worths::TIME_ALONE).0 > CuttingSpeed::m_per_min(40.0));
}

#[test]
fn a_speed_ends_where_the_law_or_a_limit_ends() {
    let narrow = TOOL.replace("5 .. 70", "10 .. 35");
    let found = speed_of(&shop("", &narrow), &Worths::TIME_ALONE);
    assert!((found.0.to_m_per_min() - 35.0).abs() < 1e-9);
    assert_eq!(found.1, Some(SpeedRule::TrustedSpeeds));
    // 31.4 m/min on a diameter of 100 mm.
    let slow = shop("fastest = \"100 rpm\"", TOOL);
    let found = speed_of(&slow, &Worths::TIME_ALONE);
    assert!((found.0.to_m_per_min() - 31.416).abs() < 0.01, "{found:?}");
    assert_eq!(found.1, Some(SpeedRule::Spindle));
    // 2100 N/mm2 or so of 0.25 by 0.5 mm2 at 30 m/min takes some 0.13 kW.
    let weak = shop("", TOOL).replace("900 kW", "0.15 kW");
    let found = speed_of(&weak, &Worths::TIME_ALONE);
    assert_eq!(found.1, Some(SpeedRule::Limit("power")));
}

#[test]
fn an_edge_worth_more_than_its_price_is_spared() {
    let scenario = read(&shop("", TOOL));
    let rate = MoneyRate::per_h(60.0);
    let speed = |edges: &[Money]| {
        let worths = Worths { edges, ..Worths::of_minute(rate) };
        priced_operation(&scenario.shop, (0, 0, 0), Money::ZERO, &worths).unwrap().operation.cuts[0].speed
    };
    let (plain, spared) = (speed(&[]), speed(&[Money::of(9.0)]));
    // T = 7 (2 - 0.5 + 12) against 7 (1.5 + 3): lives as 13.5 to 4.5, speeds as their eighth roots; an edge makes whole pieces.
    assert!((plain / spared - 3.0_f64.powf(0.125)).abs() < 0.01, "{plain:?} {spared:?}");
}
