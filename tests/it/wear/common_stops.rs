//! Sister tools and edges changed at one stop: pieces, time of the cycle, and the plan that comes of it.

use super::shop::{Shop, Weibull, element, run};
use crate::families::workshop::assert_near;
use wearland::cycle::{OperationEstimate, Rule};
use wearland::schedule::{
    BuiltProblem, Change, Plan, Scenario, Search, Standing, build_problem, plan, verify,
};

/// The lathe stands 90 s for an edge; 60 s of it are the stop.
const MACHINE: &str = "rate = \"60 EUR/h\"\nstop = \"60 s\"";

const SECOND: &str = r#"
[[part.shaft.operation.cut]]
id = "rough"
tool = "turn-80-08"
speed = "250 m/min"
feed = "0.3 mm/rev"
depth = "2 mm"
turn = { from = "58 mm", to = "54 mm", length = "160 mm" }
"#;

const END: &str = r#"
[tool.turn-80-08]
price = "16 EUR"
[[order]]
id = "1"
item = "shaft"
quantity = 900
due = "2027-03-05 14:00"
"#;

/// Pieces of its order.
const PIECES: u32 = 900;

fn shop(edge_changes: &'static str) -> Shop<'static> {
    Shop {
        operation: edge_changes,
        more_cuts: SECOND,
        machine: MACHINE,
        tool: "price = \"9 EUR\"",
        life: "variation = 0.3",
        end: END,
        ..Shop::default()
    }
}

/// Without a rate of the machine no edge is worth less than a stop, so that each comes out where it is due.
fn unpriced(shop: Shop<'static>) -> Shop<'static> {
    Shop { machine: "stop = \"60 s\"", ..shop }
}

fn planned(scenario: &Scenario, of: &OperationEstimate) -> (BuiltProblem, Plan) {
    let built = build_problem(scenario, std::slice::from_ref(of));
    let planned = plan(&built.problem, &Search::default()).unwrap();
    let violations = verify(&built.problem, &planned.plan);
    assert!(violations.is_empty(), "{violations:?}");
    (built, planned.plan)
}

/// Pieces before each change of an edge place, in order.
fn changed_after(built: &BuiltProblem, plan: &Plan, tool: &str) -> Vec<u32> {
    let point = built.problem.points.iter().position(|point| point.name == tool).unwrap();
    plan.changes.iter().filter(|change| change.point == point).map(|change| change.before_piece - 1).collect()
}

/// Each lot lasts as long as its pieces run and the machine stands: minutes of changes by the pieces made before them.
fn lasts(of: &OperationEstimate, plan: &Plan, standing: impl Fn(u32) -> f64) {
    assert!(plan.lots.len() > 1);
    for lot in &plan.lots {
        let stands: f64 =
            (lot.first_piece..lot.first_piece + lot.pieces).map(|piece| standing(piece - 1)).sum();
        let early = element(of, "edges that fail early");
        let minutes = f64::from(lot.pieces) * (run(of) + early) + stands;
        // Availability of 90 %, and a second for the rounding of both ends.
        #[expect(clippy::cast_precision_loss, reason = "a shift has few seconds")]
        let clock = (lot.end - lot.start) as f64 / 60.0 * 0.9;
        assert!((clock - minutes).abs() < 0.04, "{clock} min on the clock for {minutes}");
    }
}

#[test]
fn sisters_share_the_stop() {
    let cut = "sisters = 3";
    let alone = unpriced(Shop { more_cuts: "", ..shop("") });
    let shop = Shop { cut, ..alone };
    let (of, single) = (shop.estimate(), alone.estimate());
    let used = &of.tools[0];
    assert_eq!((used.sisters, single.tools[0].sisters), (3, 1));
    assert_near(used.change.to_s(), 30.0 + 60.0 / 3.0, 1e-12);
    assert_near(single.tools[0].change.to_s(), 90.0, 1e-12);
    assert_near(element(&of, "tool changes"), 50.0 / 60.0 / f64::from(used.pieces), 1e-9);
    let (built, plan) = planned(&shop.scenario(), &of);
    let round = 3 * used.pieces;
    let changes = changed_after(&built, &plan, "own");
    let expected: Vec<u32> =
        (1..PIECES).map(|count| count * round).take_while(|pieces| *pieces < PIECES).collect();
    assert_eq!(changes, expected);
    // Three edges and one stop, in minutes.
    let stands = |made: u32| if made > 0 && made.is_multiple_of(round) { 1.5 + 1.0 } else { 0.0 };
    lasts(&of, &plan, stands);
}

/// Failures to expect of an edge renewed at once, within so many pieces.
fn failures(life: &Weibull, wear: f64, pieces: u32) -> f64 {
    let reach = |piece: usize| life.survival(f64::from(u32::try_from(piece).unwrap()) * wear);
    let mut expected = vec![0.0];
    for count in 1..=pieces as usize {
        let of = |first: usize| (reach(first - 1) - reach(first)) * (1.0 + expected[count - first]);
        expected.push((1..=count).map(of).sum());
    }
    expected[pieces as usize]
}

#[test]
fn common_stops_are_the_cheapest_of_all_that_can_be() {
    let of = shop("edge_changes = \"together\"").estimate();
    let life = Weibull::of_variation(0.3);
    // Minutes cost a euro each; a failure stands three changes and loses the piece.
    let lost = 3.0 * 1.5 + 12.0 + run(&of);
    let cost = |used: usize, pieces: u32| {
        let edge = [4.5, 4.0][used];
        let failed = failures(&life, of.tools[used].share, pieces);
        (0.5 + edge + failed * (lost + edge)) / f64::from(pieces)
    };
    let table: [Vec<f64>; 2] = [0, 1]
        .map(|used| (0..=120).map(|pieces| if pieces > 0 { cost(used, pieces) } else { 0.0 }).collect());
    let mut least = (f64::INFINITY, [0, 0]);
    for every in 1..=60_usize {
        for one in 1..=120 / every {
            for other in 1..=120 / every {
                let pieces = [one * every, other * every];
                let stops = 1.0 / f64::from(u32::try_from(every).unwrap());
                let whole = stops + table[0][pieces[0]] + table[1][pieces[1]];
                if whole < least.0 {
                    least = (whole, pieces);
                }
            }
        }
    }
    let found: Vec<usize> = of.tools.iter().map(|used| used.pieces as usize).collect();
    assert_eq!(found, least.1);
    assert!(of.tools.iter().all(|used| used.point.rule == Rule::CommonStop));
}

/// Minutes that the machine stands for planned changes, piece by piece until all edges come out at once.
fn standing(pieces: &[u32], made: u32) -> f64 {
    let due = pieces.iter().filter(|pieces| made > 0 && made.is_multiple_of(**pieces)).count();
    if due == 0 { 0.0 } else { 1.0 + 0.5 * f64::from(u32::try_from(due).unwrap()) }
}

#[test]
fn the_cycle_carries_each_stop_once() {
    let (each, together) = (shop("").estimate(), shop("edge_changes = \"together\"").estimate());
    let pieces: Vec<u32> = together.tools.iter().map(|used| used.pieces).collect();
    let round = pieces[0] * pieces[1];
    let all: f64 = (1..=round).map(|made| standing(&pieces, made)).sum();
    assert_near(together.tool_change_share.to_min(), all / f64::from(round), 1e-9);
    let apart: f64 = each.tools.iter().map(|used| 1.5 / f64::from(used.pieces)).sum();
    assert_near(each.tool_change_share.to_min(), apart, 1e-9);
    assert!(together.tool_change_share < each.tool_change_share);
}

#[test]
fn the_plan_changes_edges_at_common_pieces() {
    let shop = unpriced(shop("edge_changes = \"together\""));
    let of = shop.estimate();
    let (built, plan) = planned(&shop.scenario(), &of);
    let pieces: Vec<u32> = of.tools.iter().map(|used| used.pieces).collect();
    for (tool, every) in ["own", "turn-80-08"].into_iter().zip(&pieces) {
        let expected: Vec<u32> =
            (1..PIECES).map(|count| count * every).take_while(|made| *made < PIECES).collect();
        assert_eq!(changed_after(&built, &plan, tool), expected, "{tool}");
    }
    lasts(&of, &plan, |made| standing(&pieces, made));
}

#[test]
fn an_edge_that_is_nearly_worn_comes_out_while_the_machine_stands() {
    let shop = shop("edge_changes = \"together\"");
    let of = shop.estimate();
    let (built, plan) = planned(&shop.scenario(), &of);
    for (used, edge) in of.tools.iter().zip([4.5, 4.0]) {
        let name = &shop.scenario().shop.tools[used.tool].key;
        let point = built.problem.points.iter().position(|point| point.name == *name);
        let changes: Vec<&Change> =
            plan.changes.iter().filter(|change| Some(change.point) == point).collect();
        assert!(changes.len() > 3, "{changes:?}");
        let mut last = 0;
        for change in changes {
            let made = change.before_piece - 1 - last;
            last = change.before_piece - 1;
            let left = 1.0 - f64::from(made) / f64::from(used.pieces);
            assert!(left > -1e-9, "{made} pieces of {}", used.pieces);
            // An edge and half a minute are thrown away in part, a stop of a minute is saved: a euro a minute.
            let saved = change.standing == Standing::Anyway;
            assert!(left < 1e-9 || (saved && left * (edge + 0.5) <= 1.0 + 1e-9), "{left} of {}", used.pieces);
        }
    }
}

#[test]
fn a_rule_of_the_shop_holds_for_common_stops() {
    let tool = "price = \"9 EUR\"\nreplacement = { most = 5 }";
    let of = Shop { tool, ..shop("edge_changes = \"together\"") }.estimate();
    assert!(of.tools[0].pieces <= 5, "{}", of.tools[0].pieces);
    let base = of.tools.iter().map(|used| used.pieces).min().unwrap();
    assert!(of.tools.iter().all(|used| used.pieces.is_multiple_of(base)), "{base}");
}
