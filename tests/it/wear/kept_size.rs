//! What of the drawing an edge keeps: size by drift and offset, finish by the growing land, a land of its own.

use super::shop::Shop;
use crate::families::workshop::assert_near;
use wearland::cycle::{Drift, OperationEstimate, Rule};

/// Points of the built-in wear curve: share of the life, share of the land.
const CURVE: [(f64, f64); 4] = [(0.0, 0.0), (0.2, 0.28), (0.9, 0.88), (1.0, 1.0)];
/// IT7 from 50 to 80 mm by ISO 286, mm.
const IT7: f64 = 0.030;
const LAND: f64 = 0.3;

/// Share of the life at which the land has come to a share of its end.
fn age(land: f64) -> f64 {
    let pair = CURVE.windows(2).find(|pair| land <= pair[1].1).unwrap_or(&CURVE[2..]);
    pair[0].0 + (land - pair[0].1) * (pair[1].0 - pair[0].0) / (pair[1].1 - pair[0].1)
}

/// Age at which the diameter has drifted by so much, clearance in degrees.
fn age_of_drift(drift: f64, clearance: f64) -> f64 {
    age(drift / (2.0 * clearance.to_radians().tan()) / LAND)
}

fn drift(of: &OperationEstimate) -> &Drift {
    of.cuts[0].0.kept.drift.as_ref().unwrap()
}

fn pieces(age: f64, of: &OperationEstimate) -> f64 {
    (age / of.tools[0].share).floor()
}

fn asked(of: &OperationEstimate, rule: Rule) -> Option<f64> {
    of.tools[0].point.rules.iter().find(|(own, _)| *own == rule).map(|(_, pieces)| f64::from(*pieces))
}

const ONE: Shop<'_> = Shop {
    top: "",
    operation: "",
    cut: "tolerance = \"IT7\"\noffset = { share = \"50 %\", most = 1 }",
    more_cuts: "",
    machine: "",
    tool: "replacement = { by = \"average life\" }",
    life: "",
    end: "",
};

#[test]
fn one_correction_is_made_and_the_second_ends_the_edge() {
    let of = ONE.estimate();
    // C as the second letter: 7 deg.
    assert_near(drift(&of).clearance.to_deg(), 7.0, 1e-12);
    assert_near(drift(&of).tolerance.to_mm(), IT7, 1e-12);
    assert_near(drift(&of).whole.to_mm(), 2.0 * LAND * 7_f64.to_radians().tan(), 1e-9);
    let (first, second) = (age_of_drift(0.5 * IT7, 7.0), age_of_drift(IT7, 7.0));
    assert_near(drift(&of).due[0], first, 1e-9);
    assert_near(drift(&of).limit.unwrap(), second, 1e-9);
    let used = &of.tools[0];
    assert_near(f64::from(used.pieces), pieces(second, &of), 1e-12);
    assert_eq!(used.point.rule, Rule::SizeDrift);
    let [correction] = &used.point.corrections[..] else { panic!("{:?}", used.point.corrections) };
    assert_near(correction.amount.to_mm(), 0.5 * IT7, 1e-12);
    let after: Vec<f64> = correction.after.iter().map(|after| f64::from(*after)).collect();
    assert_eq!(after, [pieces(first, &of)]);
    // From the new edge to the correction, and from there to the change: two gaugings in the shorter of both.
    let closest = after[0].min(f64::from(used.pieces));
    assert_near(f64::from(correction.gauge_every), (closest / 2.0).floor(), 1e-12);
}

#[test]
fn where_nobody_gauges_nothing_is_corrected() {
    let of = Shop { cut: "tolerance = \"IT7\"", ..ONE }.estimate();
    let limit = age_of_drift(0.5 * IT7, 7.0);
    assert!(drift(&of).due.is_empty());
    assert_near(drift(&of).limit.unwrap(), limit, 1e-9);
    assert_near(asked(&of, Rule::SizeDrift).unwrap(), pieces(limit, &of), 1e-12);
    assert!(of.tools[0].point.corrections[0].after.is_empty());
}

#[test]
fn where_the_piece_is_gauged_the_size_sets_no_limit() {
    let gauge = "gauge = { time = \"10 s\", every = 5, while = \"cutting\" }";
    let of = Shop { operation: gauge, cut: "tolerance = \"IT7\"\noffset = { share = \"20 %\" }", ..ONE }
        .estimate();
    assert_eq!((drift(&of).limit, asked(&of, Rule::SizeDrift)), (None, None));
    assert_eq!(of.tools[0].point.rule, Rule::AverageLife);
    let steps = (2.0 * LAND * 7_f64.to_radians().tan() / (0.2 * IT7)).floor();
    let due: Vec<f64> = (1..).map(f64::from).take_while(|step| *step <= steps).collect();
    assert_eq!(drift(&of).due.len(), due.len());
    for (got, step) in drift(&of).due.iter().zip(due) {
        assert_near(*got, age_of_drift(step * 0.2 * IT7, 7.0), 1e-9);
    }
    let after: Vec<u32> = of.tools[0].point.corrections[0].after.clone();
    let expected: Vec<f64> = drift(&of).due.iter().map(|age| pieces(*age, &of)).collect();
    let expected: Vec<f64> =
        expected.into_iter().filter(|after| *after < f64::from(of.tools[0].pieces)).collect();
    assert_eq!(after.iter().map(|after| f64::from(*after)).collect::<Vec<_>>(), expected);
    assert!(after.len() > 5, "{after:?}");
}

#[test]
fn an_insert_without_clearance_has_that_of_its_holder() {
    let text = ONE.text().replace("DCMT11T304", "DNMG150404");
    assert!(text.contains("DNMG"));
    let loaded = wearland::input::load(&wearland::input::Origin::Text {
        name: "wear.toml".to_owned(),
        bytes: text.into_bytes(),
    });
    let shop = loaded.unwrap().scenario.unwrap().shop;
    let of = wearland::cycle::estimate_operation(&shop, (0, 0, 0), wearland::quantity::Money::ZERO).unwrap();
    assert_near(drift(&of).limit.unwrap(), age_of_drift(IT7, 6.0), 1e-9);
    // A clearance of the tool's own stands above its designation.
    let own = "clearance = \"11 deg\"\nreplacement = { by = \"average life\" }";
    let of = Shop { tool: own, ..ONE }.estimate();
    assert_near(drift(&of).limit.unwrap(), age_of_drift(IT7, 11.0), 1e-9);
}

#[test]
fn the_finish_is_lost_before_the_edge_is_worn() {
    let cut = "roughness = \"4.5 um\"";
    let tool = "replacement = { by = \"average life\" }\nworn_finish = 2.5";
    let of = Shop { cut, tool, ..ONE }.estimate();
    // Feed 0.2 mm/rev, corner 0.4 mm.
    let fresh = 1000.0 * 0.2 * 0.2 / (18.0 * 3_f64.sqrt() * 0.4);
    let lost = age((4.5 / fresh - 1.0) / (2.5 - 1.0));
    assert!(0.05 < lost && lost < 0.9, "{lost}");
    assert_near(of.cuts[0].0.kept.finish.unwrap(), lost, 1e-9);
    assert_near(f64::from(of.tools[0].pieces), pieces(lost, &of), 1e-12);
    assert_eq!(of.tools[0].point.rule, Rule::Finish);
    // An edge that stays smooth enough to its end, and a tool of which nothing is known, have no such rule.
    let smooth = Shop { cut, tool: "replacement = { by = \"average life\" }\nworn_finish = 1.3", ..ONE };
    assert_eq!(asked(&smooth.estimate(), Rule::Finish), None);
    assert_eq!(asked(&Shop { cut, ..ONE }.estimate(), Rule::Finish), None);
}

#[test]
fn a_smaller_land_ends_the_edge_sooner_and_its_size_as_soon() {
    let whole = ONE.estimate();
    let cut = "tolerance = \"IT7\"\noffset = { share = \"50 %\", most = 1 }\nwear = \"0.2 mm\"";
    let early = Shop { cut, ..ONE }.estimate();
    let end = age(0.2 / LAND);
    assert_near(whole.tools[0].share / early.tools[0].share, end, 1e-9);
    assert_near(drift(&early).whole.to_mm(), 2.0 * 0.2 * 7_f64.to_radians().tan(), 1e-9);
    assert_near(drift(&early).limit.unwrap(), age_of_drift(IT7, 7.0) / end, 1e-9);
    // The size is lost at the same piece, whatever land the edge would be left to.
    assert_eq!(
        (early.tools[0].pieces, whole.tools[0].pieces),
        (whole.tools[0].pieces, early.tools[0].pieces)
    );
    let bare = Shop { cut: "wear = \"0.2 mm\"", ..ONE }.estimate();
    assert_near(f64::from(bare.tools[0].pieces), pieces(1.0, &bare), 1e-12);
    assert!(f64::from(bare.tools[0].pieces) < pieces(1.0, &whole));
}
