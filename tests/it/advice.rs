//! Advice on hand-made plans whose answers can be reckoned on paper.

use approx::assert_abs_diff_eq;
use wearland::schedule::{
    Activity, Demand, Difference, Lag, Opened, Plan, Planned, Problem, Relaxation, Resource, ResourceKind,
    Scarce, Search, Slot, Step, Suffices, Wait, Worth, chain, late_orders, plan, shortfalls, ways_out,
    worths,
};

const DAY: i64 = 86_400;
const SHIFT: i64 = 8 * 3600;

/// Machines in a row, each with the minutes of a piece; one shift of eight hours a day from midnight.
fn row_of_machines(days: i64, minutes: &[f64]) -> Problem {
    let slots: Vec<Slot> = (0..days).map(|day| Slot { start: day * DAY, end: day * DAY + SHIFT }).collect();
    let mut problem = Problem { slots: slots.clone(), ..Problem::default() };
    for (at, run) in minutes.iter().enumerate() {
        problem.resources.push(Resource {
            name: format!("M{at}"),
            kind: ResourceKind::Machine,
            minutes: vec![480.0; slots.len()],
            cost: vec![1.0; slots.len()],
            windows: slots.iter().map(|slot| vec![(slot.start, slot.end)]).collect(),
            ..Resource::default()
        });
        problem.steps.push(Step {
            name: format!("part {at}0"),
            good: 1.0,
            inputs: at.checked_sub(1).map(|before| (before, 1.0)).into_iter().collect(),
            lag: Lag::NextSlot,
            ..Step::default()
        });
        problem.activities.push(Activity {
            step: at,
            machine: Some(at),
            uses: vec![(at, *run)],
            run: *run,
            load: 1,
            ..Activity::default()
        });
    }
    problem
}

fn order(problem: &mut Problem, name: &str, quantity: f64, due_day: i64) {
    let step = problem.steps.len() - 1;
    let due = due_day * DAY + SHIFT;
    problem.demands.push(Demand { name: name.into(), step, quantity, due, weight: 1.0, ..Demand::default() });
}

fn close(problem: &mut Problem, machine: usize, day: usize) {
    problem.resources[machine].minutes[day] = 0.0;
}

fn planned(problem: &Problem) -> Planned {
    plan(problem, &Search::default()).unwrap()
}

fn of(worths: &[Worth], of: Scarce) -> &Worth {
    worths.iter().find(|worth| worth.of == of).unwrap()
}

/// Two products, four resources: only B binds, at two a minute on both sides, until Q's market is full ten hours on.
#[test]
fn a_bottleneck_minute_is_worth_its_known_price() {
    let slots = vec![Slot { start: 0, end: 40 * 3600 }];
    let resource = |name: &str| Resource {
        name: name.into(),
        minutes: vec![2400.0],
        cost: vec![0.0],
        windows: vec![vec![(0, 40 * 3600)]],
        ..Resource::default()
    };
    let step = |name: &str| Step { name: name.into(), good: 1.0, lag: Lag::SameSlot, ..Step::default() };
    let work = |step: usize, uses: [f64; 4]| Activity {
        step,
        uses: uses.into_iter().enumerate().collect(),
        load: 1,
        ..Activity::default()
    };
    let market = |step: usize, quantity: f64, price: f64| Demand {
        name: format!("market {step}"),
        step,
        quantity,
        due: 40 * 3600,
        weight: 1.0,
        market: Some(price),
        ..Demand::default()
    };
    let problem = Problem {
        slots,
        resources: ["A", "B", "C", "D"].map(resource).into(),
        steps: vec![step("P"), step("Q")],
        activities: vec![work(0, [15.0; 4]), work(1, [10.0, 30.0, 5.0, 5.0])],
        demands: vec![market(0, 100.0, 45.0), market(1, 50.0, 60.0)],
        ..Problem::default()
    };
    let found = worths(&problem, &Plan { stock: vec![vec![0]; 2], ..Plan::default() }).unwrap();
    let hour = of(&found, Scarce::Resource { resource: 1, day: None });
    assert_eq!(found.len(), 1, "{found:?}");
    assert_abs_diff_eq!(hour.more.money, 120.0, epsilon = 1e-4);
    assert_abs_diff_eq!(hour.less.unwrap().money, 120.0, epsilon = 1e-4);
    assert_abs_diff_eq!(hour.more.lateness, 0.0);
    assert_eq!(hour.holds, Some(8));
}

/// Twelve pieces of an hour, eight of them in time: an hour on the first day saves a day of one piece, up to four times.
#[test]
fn an_hour_on_the_day_that_is_short_saves_a_day_of_a_piece() {
    let mut problem = row_of_machines(2, &[60.0]);
    order(&mut problem, "late", 12.0, 0);
    let found = worths(&problem, &planned(&problem).plan).unwrap();
    let hour = of(&found, Scarce::Resource { resource: 0, day: None });
    assert_abs_diff_eq!(hour.more.lateness, 24.0, epsilon = 1e-3);
    assert_eq!(hour.holds, Some(4));
    // The second day has hours to spare: the hour that hurts least costs nothing. The two sides differ.
    assert_abs_diff_eq!(hour.less.unwrap().lateness, 0.0, epsilon = 1e-3);
    let first_day = of(&found, Scarce::Resource { resource: 0, day: Some(0) });
    assert_abs_diff_eq!(first_day.less.unwrap().lateness, 24.0, epsilon = 1e-3);
    assert!(found.iter().all(|worth| worth.of != Scarce::Resource { resource: 0, day: Some(1) }));
    // A day of grace takes all lateness away; a day less makes each piece a day later.
    let grace = of(&found, Scarce::Grace(0));
    let near = |of: Difference, lateness: f64| assert_abs_diff_eq!(of.lateness, lateness, epsilon = 1e-3);
    near(grace.more, 96.0);
    near(grace.less.unwrap(), 288.0);
    assert_eq!(grace.holds, Some(1));
}

/// The first machine takes four times as long: the order waits for it, and nothing but hours of it helps.
#[test]
fn the_chain_ends_at_the_machine_that_holds_the_order_back() {
    let mut problem = row_of_machines(3, &[120.0, 30.0]);
    order(&mut problem, "late", 8.0, 1);
    let planned = planned(&problem);
    assert!(planned.lateness > 0.0);
    let links = chain(&problem, &planned.plan, 0);
    let waits: Vec<(Option<usize>, Wait)> =
        links.iter().map(|link| (link.machine, link.waited_for)).collect();
    assert_eq!(
        waits[..4],
        [
            (Some(1), Wait::MachineBusy),
            (Some(1), Wait::NextShift),
            (Some(1), Wait::Pieces),
            (Some(0), Wait::MachineBusy),
        ]
    );
    assert_abs_diff_eq!(links[3].hours, 16.0, epsilon = 0.01);
    assert_eq!(links[3].from, 0);
    assert_eq!(links[3].behind.len(), 1);
    assert_eq!(links[3].behind[0].0, Some(0));
    let short = shortfalls(&problem, &planned.plan, 0).unwrap();
    assert_eq!(short.alone[0].resource, 0);
    assert_abs_diff_eq!(short.alone[0].hours.unwrap(), 8.0, epsilon = 1e-3);
    assert_eq!(short.alone[1].hours, None);
}

/// The other order has the machine first, and the chain says how long.
#[test]
fn a_busy_machine_names_the_orders_before() {
    let mut problem = row_of_machines(3, &[60.0]);
    order(&mut problem, "first", 8.0, 0);
    order(&mut problem, "second", 8.0, 0);
    problem.demands[0].weight = 3.0;
    let planned = planned(&problem);
    let late = late_orders(&problem, &planned.plan).unwrap();
    assert_eq!(late.len(), 1);
    let busy = &late[0].links[0];
    assert_eq!(busy.waited_for, Wait::MachineBusy);
    let hours = |order: usize| busy.behind.iter().find(|(of, _)| *of == Some(order)).map(|(_, hours)| *hours);
    assert_abs_diff_eq!(hours(0).unwrap(), 8.0, epsilon = 0.01);
    assert_abs_diff_eq!(hours(1).unwrap(), 8.0, epsilon = 0.01);
}

/// A closed day in between: calling it off does alone, and so does overtime the evening before; the date that is kept
/// otherwise is the end of the third day, and half of the pieces are in time as it is.
#[test]
fn single_things_that_do_are_all_told() {
    let mut problem = row_of_machines(3, &[60.0]);
    close(&mut problem, 0, 1);
    order(&mut problem, "late", 16.0, 1);
    let planned = planned(&problem);
    let ways = ways_out(&problem, &planned, &late_orders(&problem, &planned.plan).unwrap(), None).unwrap();
    let alone = |wanted: Opened| {
        ways.iter().any(|way| {
            way.standing == Suffices::Alone
                && way.tried.late == 0
                && matches!(&way.relaxations[..], [Relaxation::Open { machine: 0, kind, .. }] if *kind == wanted)
        })
    };
    assert!(alone(Opened::StopCalledOff), "{ways:?}");
    assert!(alone(Opened::Overtime), "{ways:?}");
    let date = Relaxation::Date { demand: 0, due: 2 * DAY + SHIFT };
    assert!(
        ways.iter().any(|way| way.relaxations == [date.clone()] && way.standing == Suffices::Alone),
        "{ways:?}"
    );
    let part = Relaxation::Part { demand: 0, pieces: 8 };
    assert!(
        ways.iter().any(|way| way.relaxations == [part.clone()] && way.standing == Suffices::InPart),
        "{ways:?}"
    );
}

/// Two machines, both full: overtime on one of them alone leaves the pieces before the other.
#[test]
fn two_things_needed_together_are_told_as_such() {
    let mut problem = row_of_machines(3, &[60.0, 60.0]);
    order(&mut problem, "late", 16.0, 1);
    let planned = planned(&problem);
    let ways = ways_out(&problem, &planned, &late_orders(&problem, &planned.plan).unwrap(), None).unwrap();
    let granted = |way: &&wearland::schedule::WayOut| {
        way.relaxations.iter().any(|one| matches!(one, Relaxation::Open { .. }))
    };
    let found: Vec<_> = ways.iter().filter(granted).collect();
    assert_eq!(found.len(), 1, "{ways:?}");
    assert_eq!(found[0].standing, Suffices::Together);
    assert_eq!((found[0].tried.late, found[0].tried.finish), (0, Some(DAY + SHIFT)));
    let machines: Vec<usize> = found[0]
        .relaxations
        .iter()
        .filter_map(|one| match one {
            Relaxation::Open { machine, kind: Opened::Overtime, .. } => Some(*machine),
            _ => None,
        })
        .collect();
    assert_eq!(machines, [0, 1]);
}

/// Nothing is late and nothing costs more one day than the next: no advice is given.
#[test]
fn a_plan_with_room_asks_for_nothing() {
    let mut problem = row_of_machines(2, &[60.0]);
    order(&mut problem, "early", 4.0, 1);
    let planned = planned(&problem);
    assert!(late_orders(&problem, &planned.plan).unwrap().is_empty());
    assert!(ways_out(&problem, &planned, &[], None).unwrap().is_empty());
    let found = worths(&problem, &planned.plan).unwrap();
    assert!(found.iter().all(|worth| !matches!(worth.of, Scarce::Resource { .. })), "{found:?}");
}
