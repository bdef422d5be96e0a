//! Change points of whole operations against plain arithmetic: what each rule asks for and what it costs.

use super::shop::{Edge, Shop, Weibull, element, run};
use crate::families::workshop::assert_near;
use wearland::cycle::{Making, OperationEstimate, Rule, Stock};

const PRICED: Shop<'_> = Shop {
    top: "",
    operation: "",
    cut: "",
    more_cuts: "",
    machine: "rate = \"60 EUR/h\"",
    tool: "price = \"9 EUR\"",
    life: "variation = 0.3\nfamily = \"weibull\"",
    end: "",
};

/// What the operation's edge is, from what the scenario says: 1.5 min a change, three of them for a failure, 9 EUR for two
/// edges, stock of 12 EUR lost with a piece, whose minutes on the machine are in the time of the edge.
fn edge(of: &OperationEstimate) -> Edge {
    let run = run(of);
    let wear = of.cuts[0].0.cut_time.to_min() / 15.0;
    Edge { wear, run, planned: 1.5, failure: 4.5, edge: 4.5, scrap: 12.0, per_min: 1.0 }
}

fn asked(of: &OperationEstimate, rule: Rule) -> Option<u32> {
    of.tools[0].point.rules.iter().find(|(own, _)| *own == rule).map(|(_, pieces)| *pieces)
}

#[test]
fn the_economic_point_is_the_least_of_all_counts() {
    for variation in [0.15, 0.3, 0.6] {
        let life = format!("variation = {variation}\nfamily = \"weibull\"");
        let of = Shop { life: &life, ..PRICED }.estimate();
        let (edge, spread) = (edge(&of), Weibull::of_variation(variation));
        assert_near(of.tools[0].share, edge.wear, 1e-9);
        let best = edge.best(&spread, |(cost, _)| cost);
        let used = &of.tools[0];
        assert_eq!((used.pieces, used.point.rule), (best, Rule::LeastCost), "{variation}");
        let cost = edge.of_good_piece(&spread, best).0;
        assert_near(used.point.outcome.cost_per_good.amount(), cost, 1e-9);
    }
}

#[test]
fn what_a_failure_costs_moves_the_point() {
    let spread = Weibull::of_variation(0.3);
    let rule = "price = \"9 EUR\"\nreplacement = { stop = \"20 min\", scrap = 3, damage = \"150 EUR\" }";
    let of = Shop { tool: rule, ..PRICED }.estimate();
    let plain = edge(&of);
    let dear = Edge { failure: 20.0, scrap: 3.0 * plain.scrap + 2.0 * plain.run + 150.0, ..plain };
    let (cheap, best) = (plain.best(&spread, |(cost, _)| cost), dear.best(&spread, |(cost, _)| cost));
    assert_eq!(of.tools[0].pieces, best);
    assert!(best < cheap, "{best} pieces where a failure is dear, {cheap} where it is not");
    // The shop's own rule stands below that of the tool, entry by entry.
    let top = "[replacement]\nstop = \"20 min\"\nscrap = 3\ndamage = \"150 EUR\"\n";
    assert_eq!(Shop { top, ..PRICED }.estimate().tools[0].pieces, best);
    let own = "price = \"9 EUR\"\nreplacement = { stop = \"4.5 min\", scrap = 1, damage = \"0 EUR\" }";
    assert_eq!(Shop { top, tool: own, ..PRICED }.estimate().tools[0].pieces, cheap);
}

#[test]
fn without_prices_most_pieces_an_hour_rule() {
    let spread = Weibull::of_variation(0.3);
    for (machine, tool) in [("", "price = \"9 EUR\""), ("rate = \"60 EUR/h\"", ""), ("", "")] {
        let of = Shop { machine, tool, ..PRICED }.estimate();
        let best = edge(&of).best(&spread, |(_, minutes)| minutes);
        let used = &of.tools[0];
        assert_eq!((used.pieces, used.point.rule), (best, Rule::MostAnHour), "`{machine}` `{tool}`");
    }
}

#[test]
fn a_survival_asked_for_is_the_age_of_the_weibull_law() {
    let spread = Weibull::of_variation(0.3);
    for (share, percent) in [(0.95, "95 %"), (0.99, "99 %"), (0.5, "50 %")] {
        let tool = format!("price = \"9 EUR\"\nreplacement = {{ survival = \"{percent}\" }}");
        let of = Shop { tool: &tool, ..PRICED }.estimate();
        let edge = edge(&of);
        let pieces = (spread.age_at(share) / edge.wear).floor();
        let economic = edge.best(&spread, |(cost, _)| cost);
        assert_near(f64::from(asked(&of, Rule::Survival).unwrap()), pieces, 1e-12);
        let used = &of.tools[0];
        assert_near(f64::from(used.pieces), pieces.min(f64::from(economic)), 1e-12);
        assert_eq!(used.point.rule == Rule::Survival, pieces < f64::from(economic), "{percent}");
        let last = spread.survival(f64::from(used.pieces) * edge.wear);
        assert_near(used.point.outcome.survival, last, 1e-9);
    }
}

#[test]
fn the_shop_may_say_how_many_at_most_or_watch_the_edge() {
    let tool = "price = \"9 EUR\"\nreplacement = { most = 3 }";
    let of = Shop { tool, ..PRICED }.estimate();
    assert_eq!((of.tools[0].pieces, of.tools[0].point.rule), (3, Rule::MostPieces));
    // One that is never reached changes nothing.
    let tool = "price = \"9 EUR\"\nreplacement = { most = 5000 }";
    let far = Shop { tool, ..PRICED }.estimate();
    assert_eq!(
        (far.tools[0].pieces, far.cycle),
        (PRICED.estimate().tools[0].pieces, PRICED.estimate().cycle)
    );
    let tool = "price = \"9 EUR\"\nreplacement = { by = \"average life\" }";
    let of = Shop { tool, ..PRICED }.estimate();
    let edge = edge(&of);
    let used = &of.tools[0];
    assert_near(f64::from(used.pieces), (1.0 / edge.wear).floor(), 1e-12);
    assert_eq!((used.point.rule, used.point.failed()), (Rule::AverageLife, 0.0));
    assert_near(of.cycle.to_min(), edge.run + 1.5 / f64::from(used.pieces), 1e-9);
    assert_near(of.tooling_cost().unwrap().amount(), 4.5 / f64::from(used.pieces), 1e-12);
}

#[test]
fn edges_that_fail_early_take_their_time_of_the_cycle() {
    let spread = Weibull::of_variation(0.3);
    let of = PRICED.estimate();
    let edge = edge(&of);
    let pieces = of.tools[0].pieces;
    let good: f64 = (1..=pieces).map(|piece| spread.survival(f64::from(piece) * edge.wear)).sum();
    let failed = 1.0 - spread.survival(f64::from(pieces) * edge.wear);
    let made = good + failed;
    let planned = 1.5 / f64::from(pieces);
    let early = (failed * 4.5 + (1.0 - failed) * 1.5) / made - planned;
    assert!(early > 0.0);
    assert_near(element(&of, "edges that fail early"), early, 1e-8);
    assert_near(element(&of, "tool changes"), planned, 1e-9);
    assert_near(of.cycle.to_min(), edge.run + planned + early, 1e-9);
    assert_near(of.tooling_cost().unwrap().amount(), 4.5 / made, 1e-9);
}

#[test]
fn the_piece_lost_is_worth_its_stock() {
    let scenario = PRICED.scenario();
    let Making::Part { stock: Stock::Each { price, .. }, .. } = &scenario.shop.items[0].making else {
        panic!("no blank")
    };
    assert_near(price.unwrap().amount(), 12.0, 1e-12);
    let of = PRICED.estimate();
    assert_near(of.worth.amount(), 12.0, 1e-12);
    assert_near(of.tools[0].point.change.scrap.amount(), 12.0, 1e-9);
}
