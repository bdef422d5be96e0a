//! A line that runs through: what the floor makes against what the steady state says.

use wearland::schedule::{Activity, Demand, Lag, Problem, Resource, Search, Slot, Step, capacity, plan};

const SLOTS: usize = 12;

/// Two machines in a row, each piece turned and then hobbed; far more is wanted than can be made.
fn line(lag: Lag, minutes: [f64; 2]) -> Problem {
    let slots: Vec<Slot> = (0..12).map(|at| Slot { start: at * 28_800, end: (at + 1) * 28_800 }).collect();
    let machine = |name: &str| Resource {
        name: name.into(),
        minutes: vec![480.0; SLOTS],
        cost: vec![1.0; SLOTS],
        windows: slots.iter().map(|slot| vec![(slot.start, slot.end)]).collect(),
        ..Resource::default()
    };
    let step = |name: &str, inputs: Vec<(usize, f64)>| Step {
        name: name.into(),
        good: 1.0,
        inputs,
        lag,
        ..Step::default()
    };
    let activity = |at: usize| Activity {
        step: at,
        machine: Some(at),
        uses: vec![(at, minutes[at])],
        run: minutes[at],
        load: 1,
        ..Activity::default()
    };
    let due = slots.last().map_or(0, |slot| slot.end);
    Problem {
        resources: vec![machine("lathe"), machine("hobber")],
        steps: vec![step("turned", Vec::new()), step("hobbed", vec![(0, 1.0)])],
        activities: vec![activity(0), activity(1)],
        demands: vec![Demand {
            name: "all".into(),
            step: 1,
            quantity: 20_000.0,
            due,
            weight: 1.0,
            ..Demand::default()
        }],
        slots,
        ..Problem::default()
    }
}

/// Pieces made, and pieces of the steady state over the same time.
fn made(problem: &Problem) -> (f64, f64) {
    let planned = plan(problem, &Search::default()).unwrap();
    assert_eq!(planned.refused, 0);
    (f64::from(planned.plan.shipped(0)), capacity(problem, &[(1, 1.0)]).unwrap().units)
}

#[test]
fn what_is_made_is_the_steady_state_less_the_first_shift_and_parts_of_pieces() {
    for minutes in [[1.7, 2.3], [2.3, 1.7], [2.0, 2.0], [7.0, 11.0]] {
        let (made, steady) = made(&line(Lag::NextSlot, minutes));
        // The hobber waits a shift for its first pieces.
        let most = steady * 11.0 / 12.0;
        // In each shift less than a piece of either machine is lost.
        assert!(made <= most + 1e-6 && made > most - 12.0, "{minutes:?}: {made} of {most}");
    }
}

#[test]
fn boxes_cost_the_first_box_alone() {
    for minutes in [[1.7, 2.3], [2.0, 2.0], [7.0, 11.0]] {
        let boxes = Lag::Boxes { pieces: 10, seconds: 600 };
        let (made, steady) = made(&line(boxes, minutes));
        let (first, _) = self::made(&line(Lag::NextSlot, minutes));
        assert!(made <= steady + 1e-6);
        assert!(made > first, "{minutes:?}: {made} in boxes, {first} by the shift");
        // The first box is on its way once; in each shift less than a piece of either machine is lost.
        let lost = (10.0 * minutes[0] + 10.0) / minutes[1] + 24.0;
        assert!(made > steady - lost, "{minutes:?}: {made} of {steady}");
    }
}
