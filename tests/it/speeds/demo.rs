//! All operations of the built-in demo on all their machines.

use wearland::cycle::{
    MinuteWorth, OperationEstimate, SpeedChoice, Worths, added_worth, lower_hull, speed_frontier, stock_worth,
};
use wearland::input::{Origin, load};
use wearland::quantity::MoneyRate;
use wearland::schedule::Scenario;

/// Every operation with cuts, on every machine that may do it.
fn each(scenario: &Scenario, mut look: impl FnMut(&SpeedChoice<'_>, MoneyRate)) -> usize {
    let shop = &scenario.shop;
    let mut seen = 0;
    for (item_id, item) in shop.items.iter().enumerate() {
        let mut worth = stock_worth(shop, item);
        for (operation_id, operation) in item.operations.iter().enumerate() {
            let choices: Vec<SpeedChoice<'_>> = operation
                .machines
                .iter()
                .map(|machine| SpeedChoice::new(shop, (item_id, operation_id, *machine), worth).unwrap())
                .collect();
            for (choice, machine) in choices.iter().zip(&operation.machines) {
                if !operation.cuts.is_empty() {
                    look(choice, shop.machines[*machine].rate.unwrap_or(MoneyRate::per_h(60.0)));
                    seen += 1;
                }
            }
            let written: Vec<OperationEstimate> =
                choices.iter().map(|choice| choice.written().clone()).collect();
            worth += added_worth(shop, &written);
        }
    }
    seen
}

fn demo() -> Scenario {
    load(&Origin::Demo).unwrap().scenario.unwrap()
}

#[test]
fn never_dearer_than_as_written_and_no_slower_for_a_dearer_minute() {
    let scenario = demo();
    let mut faster = 0;
    let seen = each(&scenario, |choice, rate| {
        let written = choice.written();
        let mut before: Option<OperationEstimate> = None;
        for factor in [0.25, 1.0, 1.5, 10.0] {
            let minute = MoneyRate::per_h(rate.to_per_h() * factor);
            let worths = Worths::of_minute(minute);
            let priced = choice.priced(&worths).unwrap();
            let cost = |of: &OperationEstimate| worths.cost_of_piece(of).unwrap().amount();
            assert!(cost(&priced.estimate) <= cost(written), "{} {factor}", written.operation);
            if let Some(before) = &before {
                assert!(
                    priced.estimate.cycle <= before.cycle * (1.0 + 1e-6),
                    "item {} operation {} machine {}: {} s, and {} s at {factor}",
                    written.item,
                    written.operation,
                    written.machine,
                    before.cycle.to_s(),
                    priced.estimate.cycle.to_s()
                );
            }
            before = Some(priced.estimate);
        }
        let quickest = choice.priced(&Worths::TIME_ALONE).unwrap();
        assert!(quickest.estimate.cycle <= before.unwrap().cycle * (1.0 + 1e-6));
        assert!(quickest.estimate.cycle <= written.cycle);
        faster += usize::from(quickest.estimate.cycle < written.cycle * 0.999);
    });
    assert!(seen > 10 && faster * 2 > seen, "{faster} of {seen}");
}

#[test]
fn limits_that_were_kept_stay_kept_and_feeds_stay_as_given() {
    let scenario = demo();
    each(&scenario, |choice, _| {
        let quickest = choice.priced(&Worths::TIME_ALONE).unwrap();
        let operation = &scenario.shop.items[choice.written().item].operations[choice.written().operation];
        let cuts = operation.cuts.iter().zip(&quickest.operation.cuts);
        let estimates = choice.written().cuts.iter().zip(&quickest.estimate.cuts);
        for ((given, run), ((before, _), (after, _))) in cuts.zip(estimates) {
            assert_eq!((given.feed, given.depth, &given.work), (run.feed, run.depth, &run.work));
            for limit in after.limits.iter().filter(|limit| limit.broken()) {
                let known = before.limits.iter().find(|known| known.limit == limit.limit);
                assert!(known.is_some_and(|known| known.broken()), "{}: {}", given.id, limit.limit);
            }
        }
        for change in &quickest.changed {
            assert_eq!(quickest.operation.cuts[change.cut].speed, change.to);
            assert_eq!(operation.cuts[change.cut].speed, change.from);
        }
    });
}

#[test]
fn the_frontier_falls_in_time_and_rises_in_cost() {
    let scenario = demo();
    let mut points = 0;
    let seen = each(&scenario, |choice, rate| {
        let worths = Worths { minute: MinuteWorth::Priced(rate), ..Worths::TIME_ALONE };
        let frontier = speed_frontier(choice, &worths, 4, 16.0).unwrap();
        for pair in frontier.windows(2) {
            assert!(pair[1].estimate.cycle < pair[0].estimate.cycle && pair[1].edge_cost > pair[0].edge_cost);
        }
        let plain: Vec<(f64, f64)> =
            frontier.iter().map(|of| (of.estimate.cycle.to_min(), of.edge_cost.amount())).collect();
        let hull = lower_hull(&plain);
        assert_eq!((hull.first(), hull.last()), (Some(&0), Some(&(plain.len() - 1))));
        points += frontier.len();
    });
    assert!(points > 2 * seen, "{points} points in {seen}");
}

#[test]
fn the_hull_leaves_out_what_a_mixture_does_better() {
    let points = [(5.0, 1.0), (10.0, 0.0), (4.0, 10.0), (7.0, 0.9), (5.0, 3.0), (12.0, 0.5)];
    assert_eq!(lower_hull(&points), vec![1, 0, 2]);
    assert_eq!(lower_hull(&[]), Vec::<usize>::new());
    assert_eq!(lower_hull(&[(1.0, 1.0)]), vec![0]);
}
