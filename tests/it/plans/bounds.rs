//! One machine, one step, one order: bounds that can be reckoned by hand.

use wearland::schedule::{
    Activity, Demand, Lag, Problem, Resource, ResourceKind, Search, Slot, Step, Wear, WearPoint, plan,
};

/// What a piece takes: minutes, share of an edge; and minutes to change the edge.
#[derive(Debug, Clone, Copy)]
struct Work {
    run: f64,
    share: f64,
    change: f64,
}

/// Pieces on one machine that is open 480 min in each slot, all due at the end of the last one.
fn one_machine(slots: i64, quantity: f64, work: Work) -> Problem {
    let slots: Vec<Slot> = (0..slots).map(|at| Slot { start: at * 28_800, end: (at + 1) * 28_800 }).collect();
    let due = slots.last().map_or(0, |slot| slot.end);
    let each = |value: f64| vec![value; slots.len()];
    let machine = Resource {
        name: "M".into(),
        kind: ResourceKind::Machine,
        minutes: each(480.0),
        cost: each(1.0),
        windows: slots.iter().map(|slot| vec![(slot.start, slot.end)]).collect(),
        ..Resource::default()
    };
    let step = Step {
        name: "turned".into(),
        good: 1.0,
        inputs: Vec::new(),
        lag: Lag::NextSlot,
        opening: 0.0,
        closing: 0.0,
        holding: 0.0,
    };
    let activity = Activity {
        step: 0,
        machine: Some(0),
        uses: vec![(0, work.run + work.share * work.change)],
        run: work.run,
        load: 1,
        cost: 0.0,
        setup: 0.0,
        setter: None,
        wear: vec![Wear { point: 0, share: work.share }],
        ..Activity::default()
    };
    let order = Demand {
        name: "order".into(),
        step: 0,
        quantity,
        due,
        weight: 1.0,
        market: None,
        ..Demand::default()
    };
    Problem {
        slots,
        resources: vec![machine],
        steps: vec![step],
        points: vec![WearPoint {
            resource: 0,
            name: "edge".into(),
            change: work.change,
            stop: 0.0,
            early: 2.0,
            ..WearPoint::default()
        }],
        activities: vec![activity],
        demands: vec![order],
        ..Problem::default()
    }
}

/// 48 pieces fit a slot, the others wait a day: the bound is exact, and a plan meets it.
#[test]
fn the_bound_of_one_machine_is_what_does_not_fit() {
    let work = Work { run: 10.0, share: 0.0, change: 0.0 };
    for (slots, fit) in [(1, 48.0), (2, 96.0), (3, 144.0)] {
        for quantity in [fit - 8.0, fit, fit + 12.0, fit + 100.0] {
            let planned = plan(&one_machine(slots, quantity, work), &Search::default()).unwrap();
            let bound = 24.0 * (quantity - fit).max(0.0);
            approx::assert_abs_diff_eq!(planned.lateness_bound, bound, epsilon = 1e-6);
            // A full shift of whole pieces loses none of them.
            approx::assert_abs_diff_eq!(planned.lateness, bound, epsilon = 1e-6);
            if quantity < fit {
                approx::assert_abs_diff_eq!(planned.lateness, 0.0);
                approx::assert_relative_eq!(planned.cost, 10.0 * quantity, max_relative = 1e-9);
            }
        }
    }
}

/// Eight pieces of an hour fill the slot and just wear out the new edge: no change is needed, and the bound must know.
#[test]
fn the_bound_asks_for_no_change_that_no_plan_needs() {
    let work = Work { run: 60.0, share: 0.125, change: 40.0 };
    let planned = plan(&one_machine(1, 20.0, work), &Search::default()).unwrap();
    assert!(
        planned.lateness >= planned.lateness_bound - 1e-6,
        "{} {}",
        planned.lateness,
        planned.lateness_bound
    );
}
