//! Edges that come out while the machine stands anyway, and edges that have no part in common stops.

use super::shop::Shop;
use wearland::cycle::Rule;
use wearland::schedule::{Search, Standing, build_problem, plan, verify};

/// An edge is worth less than a stop: any worn one comes out if that spares a stop.
const CHEAP: Shop<'_> = Shop {
    top: "breaks = [\"08:00-08:15\", \"10:00-10:15\", \"12:00-12:30\"]\n",
    operation: "",
    cut: "",
    more_cuts: "",
    machine: "rate = \"60 EUR/h\"\nstop = \"60 s\"",
    tool: "price = \"0.40 EUR\"",
    life: "variation = 0.1",
    end: "[[order]]\nid = \"1\"\nitem = \"shaft\"\nquantity = 900\ndue = \"2027-03-05 14:00\"\n",
};

#[test]
fn no_new_edge_is_thrown_away_and_each_early_change_spares_a_stop() {
    let of = CHEAP.estimate();
    let scenario = CHEAP.scenario();
    let built = build_problem(&scenario, std::slice::from_ref(&of));
    assert!(built.problem.points[0].early < 0.0, "{}", built.problem.points[0].early);
    let planned = plan(&built.problem, &Search::default()).unwrap();
    assert_eq!(verify(&built.problem, &planned.plan), []);
    let life = of.tools[0].pieces;
    let changes = &planned.plan.changes;
    assert!(changes.len() > 10, "{}", changes.len());
    assert!(changes.iter().all(|change| change.worn > 0.0));
    let stopped = changes.iter().filter(|change| change.standing == Standing::Stopped).count();
    let made: u32 = planned.plan.lots.iter().map(|lot| lot.pieces).sum();
    let at_least = (made - 1) / life;
    // Without the early ones the machine stops for every edge.
    assert!(stopped < usize::try_from(at_least).unwrap(), "{stopped} stops, {at_least} edges at least");
    // An edge that is not used up comes out where the machine stands.
    let mut last = 1;
    for change in changes {
        let pieces = change.before_piece - last;
        last = change.before_piece;
        assert!(pieces == life || change.standing == Standing::Anyway, "{pieces} of {life}");
    }
}

#[test]
fn sisters_keep_their_own_change_point_among_common_stops() {
    let operation = "edge_changes = \"together\"\n";
    let more_cuts = r#"
[[part.shaft.operation.cut]]
id = "more"
tool = "own"
position = "T2"
speed = "200 m/min"
feed = "0.2 mm/rev"
depth = "1 mm"
turn = { from = "60 mm", to = "58 mm", length = "100 mm" }
"#;
    let shop = Shop { operation, more_cuts, tool: "price = \"9 EUR\"", ..CHEAP };
    let both = shop.estimate();
    assert!(both.tools.iter().all(|used| used.point.rule == Rule::CommonStop));
    let sisters = Shop { cut: "sisters = 3", ..shop }.estimate();
    assert_eq!(sisters.tools[0].point.rule, Rule::LeastCost);
    assert!(sisters.tool_change_share.to_s() > 0.0);
    let own = |used: &wearland::cycle::ToolUse| used.change.to_s() / f64::from(used.pieces);
    let shares: f64 = sisters.tools.iter().map(own).sum();
    // A single edge at common stops shares its stop with nobody.
    assert!((sisters.tool_change_share.to_s() - shares).abs() < 1e-9);
}
