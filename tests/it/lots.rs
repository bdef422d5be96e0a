//! Lots with setups: against every way to set up tiny shops, and against published lot sizing.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use wearland::schedule::{
    Activity, CarryOver, Demand, Lag, LotEffort, LotLimits, LotPlan, Model, Problem, Reserve, Resource,
    ResourceKind, Slot, Step, lot_plan, solve,
};

const SHIFT: i64 = 8 * 3600;

fn slots(count: usize) -> Vec<Slot> {
    (0..i64::try_from(count).unwrap()).map(|at| Slot { start: at * SHIFT, end: (at + 1) * SHIFT }).collect()
}

fn planned(problem: &Problem, carry_over: CarryOver) -> LotPlan {
    let limits = LotLimits {
        effort: LotEffort::Thorough,
        carry_over,
        rounds: 10,
        gap: 1e-7,
        lateness_price: Some(0.0),
        ..LotLimits::default()
    };
    let flows = problem.steps.iter().map(|step| step.good).collect();
    lot_plan(problem, &flows, &Reserve::none(problem), &limits).unwrap()
}

/// One or two parts of one or two steps on one machine, or on two that are alike.
fn tiny(seed: u64) -> Problem {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let machines: usize = random.random_range(1..=2);
    let count: usize = if machines == 1 { 3 } else { 2 };
    let mut problem = Problem { slots: slots(count), ..Problem::default() };
    let costs: Vec<f64> = (0..count).map(|_| random.random_range(0.5..2.0)).collect();
    for machine in 0..machines {
        problem.resources.push(Resource {
            name: format!("M{machine}"),
            kind: ResourceKind::Machine,
            minutes: vec![480.0; count],
            cost: costs.clone(),
            windows: problem.slots.iter().map(|slot| vec![(slot.start, slot.end)]).collect(),
            set_up: None,
        });
    }
    // Two steps of one part, or a step of each of two.
    let routed = random.random_bool(0.5);
    for step in 0..2 {
        problem.steps.push(Step {
            name: format!("step {step}"),
            good: 1.0,
            inputs: if routed && step == 1 { vec![(0, 1.0)] } else { Vec::new() },
            lag: Lag::NextSlot,
            holding: random.random_range(0.0..0.3),
            ..Step::default()
        });
        let (run, setup) = (random.random_range(2.0..8.0), random.random_range(20.0..120.0));
        for machine in 0..machines {
            problem.activities.push(Activity {
                step,
                machine: Some(machine),
                uses: vec![(machine, run)],
                run,
                load: 1,
                setup,
                setup_within: setup,
                ..Activity::default()
            });
        }
        if routed && step == 0 {
            continue;
        }
        for order in 0..random.random_range(1..=2) {
            let due = random.random_range(1..count);
            problem.demands.push(Demand {
                name: format!("order {order} of {step}"),
                step,
                quantity: f64::from(random.random_range(10..70)),
                due: problem.slots[due].end,
                late_price: random.random_range(0.1..2.0),
                ..Demand::default()
            });
        }
    }
    problem
}

/// What one machine does in one slot: activities it is set up for, and those it may run.
#[derive(Debug, Clone, Default)]
struct Turn {
    made: Vec<usize>,
    runs: Vec<usize>,
}

/// Every way to set a machine up over the slots.
fn histories(activities: &[usize], slots: usize, carry_over: CarryOver) -> Vec<Vec<Turn>> {
    let mut open: Vec<(Vec<Turn>, Option<usize>)> = vec![(Vec::new(), None)];
    for _ in 0..slots {
        let mut next = Vec::new();
        for (turns, state) in open {
            for mask in 0..1_u32 << activities.len() {
                let chosen = |at: &usize| mask & (1 << at) != 0;
                let made: Vec<usize> =
                    (0..activities.len()).filter(chosen).map(|at| activities[at]).collect();
                let mut runs = made.clone();
                runs.extend(state);
                let turn = Turn { made: made.clone(), runs };
                // Which of them comes last matters only where a setup outlives its slot.
                let ends: Vec<Option<usize>> = match carry_over {
                    CarryOver::Lost => vec![None],
                    CarryOver::Linked if made.is_empty() => vec![state],
                    CarryOver::Linked => made.into_iter().map(Some).collect(),
                };
                for end in ends {
                    next.push(([turns.clone(), vec![turn.clone()]].concat(), end));
                }
            }
        }
        open = next;
    }
    open.into_iter().map(|(turns, _)| turns).collect()
}

/// The cheapest of all ways to set the machines up, each with its own linear program.
fn cheapest(problem: &Problem, carry_over: CarryOver) -> f64 {
    let of = |machine: usize| -> Vec<usize> {
        (0..problem.activities.len()).filter(|id| problem.activities[*id].machine == Some(machine)).collect()
    };
    let first = histories(&of(0), problem.slots.len(), carry_over);
    let second = if problem.resources.len() > 1 {
        histories(&of(1), problem.slots.len(), carry_over)
    } else {
        vec![vec![Turn::default(); problem.slots.len()]]
    };
    let mut best = f64::INFINITY;
    for (at, one) in first.iter().enumerate() {
        // Machines that are alike may change places.
        let from = if problem.resources.len() > 1 { at } else { 0 };
        for other in &second[from..] {
            let setups = setup_cost(problem, one) + setup_cost(problem, other);
            if setups < best {
                best = best.min(setups + least_running(problem, &[one, other]));
            }
        }
    }
    best
}

fn setup_cost(problem: &Problem, turns: &[Turn]) -> f64 {
    let of = |(slot, turn): (usize, &Turn)| -> f64 {
        let made = turn.made.iter().map(|id| &problem.activities[*id]);
        made.map(|activity| activity.setup * problem.resources[0].cost[slot]).sum()
    };
    turns.iter().enumerate().map(of).sum()
}

fn least_running(problem: &Problem, machines: &[&Vec<Turn>]) -> f64 {
    let mut model = Model::default();
    let slots = problem.slots.len();
    let mut stock: Vec<Vec<Vec<(usize, f64)>>> = vec![vec![Vec::new(); slots]; problem.steps.len()];
    for turns in machines {
        for (slot, turn) in turns.iter().enumerate() {
            let mut minutes = Vec::new();
            for id in &turn.runs {
                let activity = &problem.activities[*id];
                let cost = activity.run * problem.resources[0].cost[slot];
                let pieces = model.column(String::new(), f64::INFINITY, cost);
                minutes.push((pieces, activity.run));
                stock[activity.step][slot].push((pieces, 1.0));
                for (input, each) in &problem.steps[activity.step].inputs {
                    if slot == 0 {
                        model.columns[pieces].upper = 0.0;
                    } else {
                        stock[*input][slot - 1].push((pieces, -each));
                    }
                }
            }
            let setting: f64 = turn.made.iter().map(|id| problem.activities[*id].setup).sum();
            model.at_most(String::new(), minutes, 480.0 - setting);
        }
    }
    for demand in &problem.demands {
        let mut all = Vec::new();
        let hours = |seconds: i64| f64::from(i32::try_from(seconds).unwrap()) / 3600.0;
        for (slot, lying) in stock[demand.step].iter_mut().enumerate() {
            let late = hours(problem.slots[slot].end - demand.due).max(0.0);
            let shipped = model.column(String::new(), demand.quantity, late * demand.late_price);
            lying.push((shipped, -1.0));
            all.push((shipped, 1.0));
        }
        let late = hours(problem.slots[slots - 1].end - demand.due) + 24.0;
        all.push((model.column(String::new(), demand.quantity, late * demand.late_price), 1.0));
        model.equal(String::new(), all, demand.quantity);
    }
    for (step, of_step) in stock.into_iter().enumerate() {
        let mut before = None;
        for mut terms in of_step {
            let lying = model.column(String::new(), f64::INFINITY, problem.steps[step].holding);
            terms.push((lying, -1.0));
            terms.extend(before.map(|before| (before, 1.0)));
            model.equal(String::new(), terms, 0.0);
            before = Some(lying);
        }
    }
    solve(&model).map_or(f64::INFINITY, |answer| answer.cost)
}

#[test]
fn lots_of_tiny_shops_come_near_the_cheapest_of_all_setups() {
    for carry_over in [CarryOver::Lost, CarryOver::Linked] {
        let (mut ours, mut cheapest_of_all, mut setups) = (0.0, 0.0, 0);
        for seed in 0..64 {
            let problem = tiny(seed);
            let plan = planned(&problem, carry_over);
            let best = cheapest(&problem, carry_over);
            let slack = 1e-5 * best.max(1.0);
            assert!(plan.bound <= best + slack, "seed {seed} {carry_over:?}: bound {} of {best}", plan.bound);
            assert!(plan.cost >= best - slack, "seed {seed} {carry_over:?}: {} below {best}", plan.cost);
            ours += plan.cost;
            cheapest_of_all += best;
            setups += plan.made.iter().flatten().filter(|made| **made).count();
        }
        assert!(ours <= 1.02 * cheapest_of_all, "{carry_over:?}: {ours} of {cheapest_of_all}");
        assert!(setups > 100, "{setups} setups");
    }
}

/// One item made on one machine without limit: each period's demand is shipped in the period, or not at all.
fn single_item(demand: &[f64], setup: &[f64], holding: f64, opening: f64) -> Problem {
    let mut problem = Problem { slots: slots(demand.len()), ..Problem::default() };
    problem.resources.push(Resource {
        name: "machine".into(),
        kind: ResourceKind::Machine,
        minutes: vec![480.0; demand.len()],
        cost: setup.to_vec(),
        windows: problem.slots.iter().map(|slot| vec![(slot.start, slot.end)]).collect(),
        set_up: None,
    });
    problem.steps.push(Step { name: "item".into(), good: 1.0, opening, holding, ..Step::default() });
    problem.activities.push(Activity {
        step: 0,
        machine: Some(0),
        load: 1,
        setup: 1.0,
        setup_within: 1.0,
        ..Activity::default()
    });
    for (slot, quantity) in problem.slots.iter().zip(demand) {
        problem.demands.push(Demand {
            name: format!("demand {}", slot.end),
            step: 0,
            quantity: *quantity,
            due: slot.end,
            market: Some(UNMET),
            ..Demand::default()
        });
    }
    problem
}

/// What a piece not shipped loses: more than any plan spends on it.
const UNMET: f64 = 200.0;

#[test]
fn published_lot_sizes_are_found_and_proven() {
    // Wagner and Whitin, Management Science 5 (1958); Hopp and Spearman, Factory Physics, ch. 2; Pochet and Wolsey, Production
    // Planning by Mixed Integer Programming (2006), ch. 1, without the unit cost; Winston, Operations Research, an exercise.
    let twelve = [69.0, 29.0, 36.0, 61.0, 61.0, 26.0, 34.0, 67.0, 45.0, 67.0, 79.0, 56.0];
    let costs = [85.0, 102.0, 102.0, 101.0, 98.0, 114.0, 105.0, 86.0, 119.0, 110.0, 98.0, 114.0];
    let ten = [20.0, 50.0, 10.0, 50.0, 50.0, 10.0, 20.0, 40.0, 20.0, 30.0];
    let bikes = [400.0, 400.0, 800.0, 800.0, 1200.0, 1200.0, 1200.0, 1200.0];
    let cases = [
        ("twelve months", single_item(&twelve, &costs, 1.0, 0.0), 864.0),
        ("ten weeks", single_item(&ten, &[100.0; 10], 1.0, 0.0), 580.0),
        ("bicycles", single_item(&bikes, &[5000.0; 8], 5.0, 200.0), 36_000.0),
        ("four months", single_item(&[1.0, 1.0, 2.0, 2.0], &[4.0; 4], 2.0, 1.0), 12.0),
    ];
    for (name, problem, optimum) in cases {
        let plan = planned(&problem, CarryOver::Lost);
        // The rows alone, without any search in whole numbers.
        let quick = LotLimits {
            effort: LotEffort::Thorough,
            carry_over: CarryOver::Lost,
            gap: 1e-7,
            rounds: 10,
            parts: 0,
            lateness_price: Some(0.0),
            ..LotLimits::default()
        };
        let quick = lot_plan(&problem, &vec![1.0], &Reserve::none(&problem), &quick).unwrap();
        let all: f64 = problem.demands.iter().map(|demand| demand.quantity * UNMET).sum();
        let (cost, bound) = (plan.cost + all, plan.bound + all);
        approx::assert_relative_eq!(cost, optimum, max_relative = 1e-3);
        assert!(bound <= optimum + 1e-6, "{name}: bound {bound} of {cost}");
        let bound = quick.bound + all;
        assert!(bound <= optimum + 1e-6, "{name}: bound {bound} of {optimum}");
    }
}
