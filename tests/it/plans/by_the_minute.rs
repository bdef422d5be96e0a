//! A small plan laid by hand to the second, and each of its rules broken once.

use wearland::schedule::{
    Activity, Change, Demand, EdgeStock, Lag, Lot, Plan, Problem, Resource, ResourceKind, Running, Shipment,
    Slot, Standing, Step, Wear, WearPoint, audit, verify,
};

const LATHE: usize = 0;
const MILL: usize = 1;
const SETTER: usize = 2;
const FIRM: usize = 3;

/// Breaks a rule, in the plan or by asking more.
type Spoil = fn(&mut Problem, &mut Plan);

/// Two shifts; the mill and the setter have a break in each.
fn resources() -> Vec<Resource> {
    let through = vec![vec![(0, 28_800)], vec![(28_800, 57_600)]];
    let breaks = vec![vec![(0, 14_400), (16_200, 28_800)], vec![(28_800, 43_200), (45_000, 57_600)]];
    let resource = |name: &str, kind, minutes, cost, windows: &Vec<Vec<(i64, i64)>>| Resource {
        name: name.into(),
        kind,
        minutes: vec![minutes; 2],
        cost: vec![cost; 2],
        windows: windows.clone(),
        set_up: None,
    };
    vec![
        resource("lathe", ResourceKind::Machine, 480.0, 1.0, &through),
        resource("mill", ResourceKind::Machine, 450.0, 2.0, &breaks),
        resource("setter", ResourceKind::Crew, 450.0, 0.0, &breaks),
        resource("firm", ResourceKind::Outside, 100.0, 0.0, &through),
    ]
}

fn activities() -> Vec<Activity> {
    let on = |step, machine, run: f64, setup, setter| Activity {
        step,
        machine: Some(machine),
        uses: vec![(machine, run)],
        run,
        load: 1,
        setup,
        setter,
        ..Activity::default()
    };
    let wear = vec![Wear { point: 0, share: 0.05 }];
    vec![
        Activity { wear, ..on(0, LATHE, 2.0, 20.0, Some(SETTER)) },
        on(1, MILL, 3.0, 30.0, Some(SETTER)),
        Activity { away: 7200, cost: 1.5, uses: Vec::new(), ..on(2, FIRM, 0.0, 0.0, None) },
        on(3, LATHE, 1.0, 10.0, None),
    ]
}

/// Shafts are turned, moved on in boxes of ten, milled and hardened outside; sleeves are turned on the same lathe.
fn problem() -> Problem {
    let step = |name: &str, good, inputs: Vec<(usize, f64)>, lag, holding| Step {
        name: name.into(),
        good,
        inputs,
        lag,
        holding,
        ..Step::default()
    };
    let demand = |name: &str, step, quantity, due| Demand {
        name: name.into(),
        step,
        quantity,
        due,
        weight: 2.0,
        late_price: 0.5,
        market: None,
    };
    let boxes = Lag::Boxes { pieces: 10, seconds: 600 };
    Problem {
        slots: vec![Slot { start: 0, end: 28_800 }, Slot { start: 28_800, end: 57_600 }],
        resources: resources(),
        steps: vec![
            step("turned", 0.9, Vec::new(), boxes, 0.0),
            step("milled", 1.0, vec![(0, 1.0)], Lag::NextSlot, 0.1),
            step("hardened", 1.0, vec![(1, 1.0)], Lag::NextSlot, 0.0),
            step("sleeve", 1.0, Vec::new(), Lag::NextSlot, 0.0),
        ],
        points: vec![WearPoint {
            resource: LATHE,
            name: "insert".into(),
            change: 5.0,
            stop: 2.0,
            early: 2.0,
            worn: 0.0,
            edges: 1,
            stock: Some(0),
        }],
        activities: activities(),
        demands: vec![demand("shafts", 2, 40.0, 32_400), demand("sleeves", 3, 10.0, 3600)],
        edge_stocks: vec![EdgeStock { name: "inserts".into(), arrivals: vec![1, 0] }],
        running: vec![Running { activity: 3, pieces: 10 }],
    }
}

/// The mill takes the first box just when it comes, as it is set up by then; one setter sets up both machines in turn.
fn sound() -> Plan {
    let lot = |activity, slot, (start, end), setup, (first_piece, pieces, good)| Lot {
        activity,
        slot,
        start,
        end,
        setup,
        first_piece,
        pieces,
        good,
    };
    Plan {
        lots: vec![
            lot(3, 0, (0, 600), 0.0, (1, 10, 10)),
            lot(0, 0, (600, 6900), 20.0, (1, 40, 36)),
            lot(1, 0, (1800, 10_080), 30.0, (1, 36, 36)),
            lot(2, 1, (28_800, 36_000), 0.0, (1, 30, 30)),
            lot(3, 1, (28_800, 29_700), 10.0, (11, 5, 5)),
        ],
        changes: vec![Change {
            point: 0,
            lot: 1,
            at: 4200,
            before_piece: 21,
            worn: 1.0,
            standing: Standing::Stopped,
        }],
        shipments: vec![
            Shipment { demand: 1, slot: 0, at: 600, pieces: 10 },
            Shipment { demand: 0, slot: 1, at: 36_000, pieces: 30 },
        ],
        stock: vec![vec![0, 0], vec![36, 6], vec![0, 0], vec![0, 5]],
    }
}

#[test]
fn a_sound_plan_is_accepted() {
    assert_eq!(verify(&problem(), &sound()), []);
    // Each of these leaves the plan right.
    let kept: [(&str, Spoil); 4] = [
        ("piece by piece", |problem, _| problem.steps[0].lag = Lag::SameSlot),
        ("two setters", |problem, plan| {
            problem.resources[SETTER].minutes[0] = 900.0;
            set_up_together(problem, plan);
        }),
        ("a change where the machine stands after its setup", |problem, plan| {
            problem.points[0].worn = 1.0;
            problem.edge_stocks[0].arrivals[0] = 2;
            let early = Change { at: 1800, before_piece: 1, standing: Standing::Anyway, ..plan.changes[0] };
            plan.changes.insert(0, early);
            plan.changes[1].at += 180;
            plan.lots[1].end += 180;
            problem.steps[0].lag = Lag::Boxes { pieces: 10, seconds: 420 };
        }),
        ("six shafts leave before they are hardened", |problem, plan| ship_milled(problem, plan, 6)),
    ];
    for (name, keep) in kept {
        let (mut problem, mut plan) = (problem(), sound());
        keep(&mut problem, &mut plan);
        assert_eq!(verify(&problem, &plan), [], "{name}");
    }
}

/// The mill a minute sooner, while the lathe is still set up; boxes are quick enough for it.
fn set_up_together(problem: &mut Problem, plan: &mut Plan) {
    plan.lots[2].start -= 60;
    plan.lots[2].end -= 60;
    problem.steps[0].lag = Lag::Boxes { pieces: 10, seconds: 500 };
}

/// Milled shafts to an order of their own as soon as they are done, told in the stock.
fn ship_milled(problem: &mut Problem, plan: &mut Plan, pieces: u32) {
    problem.demands.push(Demand { name: "soft".into(), step: 1, quantity: 9.0, ..Demand::default() });
    plan.shipments.push(Shipment { demand: 2, slot: 0, at: 10_080, pieces });
    plan.stock[1] = vec![36 - pieces, 6_u32.saturating_sub(pieces)];
}

/// Every fault found holds one of the words, and each of the words is found.
fn held(list: &[(&[&str], Spoil)]) {
    for (words, spoil) in list {
        let (mut problem, mut plan) = (problem(), sound());
        spoil(&mut problem, &mut plan);
        let found = verify(&problem, &plan);
        for word in *words {
            assert!(found.iter().any(|fault| fault.0.contains(word)), "`{word}` is not in {found:?}");
        }
        for fault in &found {
            assert!(words.iter().any(|word| fault.0.contains(word)), "{words:?} and {fault:?}");
        }
    }
}

#[test]
fn lots_keep_to_the_clock_and_to_their_setups() {
    held(&[
        (&["two lots on lathe overlap"], |_, plan| {
            (plan.lots[1].start, plan.lots[1].end, plan.changes[0].at) = (540, 6840, 4140);
        }),
        (&["does not last as long as its work"], |_, plan| plan.lots[2].end += 60),
        (&["lies outside its shift 1"], |_, plan| {
            (plan.lots[4].start, plan.lots[4].end) = (28_740, 29_640);
        }),
        (&["begins or ends while it is closed"], |problem, plan| {
            problem.resources[MILL].windows[0] = vec![(0, 1000), (2800, 28_800)];
            plan.lots[2].end += 1000;
        }),
        (&["a setup is missing on mill at 1800 s"], |problem, _| problem.activities[1].setup = 40.0),
        (&["a setup is too long on mill"], |problem, _| problem.resources[MILL].set_up = Some(1)),
        (&["a setup is too long on lathe at 600 s"], |problem, _| {
            (problem.activities[0].family, problem.activities[3].family) = (Some(1), Some(1));
            problem.activities[0].setup_within = 5.0;
            problem.activities[3].setup_within = 10.0;
        }),
        (&["a setup is missing on lathe at 0 s"], |problem, _| problem.running.clear()),
    ]);
}

#[test]
fn work_that_goes_on_comes_first() {
    held(&[(
        &["lathe turns to sleeve at 0 s while 10 pieces of turned", "a setup is missing on lathe at 0 s"],
        |problem, _| problem.running[0].activity = 0,
    )]);
}

#[test]
fn setters_are_one_at_a_time_and_have_breaks() {
    held(&[
        (&["setter makes 2 setups at once"], set_up_together),
        (&["setter sets up lathe in a break", "setter sets up mill in a break"], |problem, _| {
            problem.resources[SETTER].windows[0] = vec![(0, 900), (2700, 28_800)];
        }),
        (&["setter is asked for 50.00 min in shift 0"], |problem, _| {
            problem.resources[SETTER].minutes[0] = 49.0;
        }),
    ]);
}

#[test]
fn pieces_are_used_when_their_box_has_come() {
    held(&[
        (
            &["more pieces of turned are used than lie there: milled on mill starts piece 1 at 3600 s"],
            |problem, _| {
                problem.steps[0].lag = Lag::Boxes { pieces: 10, seconds: 660 };
            },
        ),
        (&["more pieces of turned are used"], |problem, _| {
            problem.steps[0].lag = Lag::Boxes { pieces: 20, seconds: 600 };
        }),
        (&["more pieces of turned are used", "turned counts"], |problem, _| {
            problem.steps[0].lag = Lag::NextSlot;
            problem.steps[0].good = 0.95;
        }),
        (&["more pieces of milled are shipped to soft", "the stock of milled"], |problem, plan| {
            ship_milled(problem, plan, 7);
            plan.shipments[2].slot = 1;
            plan.shipments[2].at = 57_600;
        }),
        (
            &["more pieces of milled are used than lie there: hardened on firm", "the stock of milled"],
            |problem, plan| {
                ship_milled(problem, plan, 7);
            },
        ),
        (&["turned counts 37 good pieces", "the stock of turned"], |_, plan| plan.lots[1].good = 37),
        (
            &["turned counts 35 good pieces", "the stock of turned", "more pieces of turned are used"],
            |_, plan| {
                plan.lots[1].good = 35;
            },
        ),
        (&["not numbered on"], |_, plan| plan.lots[4].first_piece = 12),
        (&["the stock of milled after shift 1"], |_, plan| plan.stock[1][1] = 7),
    ]);
}

#[test]
fn shipments_leave_when_they_are_done() {
    held(&[
        (&["more pieces of hardened are shipped to shafts at 35990 s"], |_, plan| {
            plan.shipments[1].at = 35_990;
        }),
        (&["10 pieces are shipped to sleeves, which wants 9"], |problem, _| {
            problem.demands[1].quantity = 9.0
        }),
        (&["lies outside its shift 1", "the stock of sleeve"], |_, plan| plan.shipments[0].slot = 1),
        (&["more pieces of sleeve are shipped"], |_, plan| plan.shipments[0].at = 500),
    ]);
}

#[test]
fn firms_take_what_they_can_and_send_it_back_in_time() {
    held(&[
        (&["is back at 36000 s, not at 35000 s"], |_, plan| plan.lots[3].end = 35_000),
        (&["is back at 43200 s, not at 36000 s"], |problem, _| problem.activities[2].away = 14_400),
        (&["firm is asked for 30.00 pieces in shift 1"], |problem, _| {
            problem.resources[FIRM].minutes[1] = 29.0;
        }),
        (&["has a setup or a tool change"], |_, plan| plan.lots[3].setup = 1.0),
        (&["more pieces of milled are used", "outside its shift 1"], |_, plan| {
            (plan.lots[3].start, plan.lots[3].end) = (28_790, 35_990);
        }),
    ]);
}

#[test]
fn edges_are_changed_at_their_piece_and_are_at_hand() {
    held(&[
        (&["1 edges of inserts are taken by shift 0, 0 have come in"], |problem, _| {
            problem.edge_stocks[0].arrivals = vec![0, 5];
        }),
        (
            &["insert on lathe cuts beyond its life before piece 21", "tells 1.0000 of a life"],
            |problem, _| {
                problem.points[0].worn = 0.1;
            },
        ),
        (&["tells 0.9000 of a life, it made 1.0000"], |_, plan| plan.changes[0].worn = 0.9),
        (&["insert is changed at 4210 s, but piece 21 comes at 4200 s"], |_, plan| plan.changes[0].at += 10),
        (&["insert is changed without a stop at 4200 s while lathe runs"], |_, plan| {
            plan.changes[0].standing = Standing::Anyway;
            plan.lots[1].end -= 120;
        }),
        (&["before piece 100 lies outside its lot"], |_, plan| plan.changes[0].before_piece = 100),
        (&["a machine that does not carry it"], |problem, _| problem.points[0].resource = MILL),
    ]);
}

/// Thirty shafts an hour late, ten a day after the horizon: 30 + 10 * (7 + 24) hours.
#[test]
fn lateness_and_money_add_up_by_hand() {
    let (lateness, money) = audit(&problem(), &sound());
    approx::assert_relative_eq!(lateness, 2.0 * 340.0, max_relative = 1e-12);
    let (lathe, mill, firm) = (80.0 + 20.0 + 15.0 + 10.0, 2.0 * (108.0 + 30.0), 30.0 * 1.5);
    let (holding, late) = (0.1 * 42.0, 0.5 * 340.0);
    approx::assert_relative_eq!(money, lathe + mill + firm + holding + late, max_relative = 1e-12);
    approx::assert_relative_eq!(lateness, sound().lateness(&problem()), max_relative = 1e-12);
    approx::assert_relative_eq!(money, sound().cost(&problem()), max_relative = 1e-12);
}
