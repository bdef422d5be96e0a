//! Plans spoilt in one place each: the verifier finds every one.

use rand::rngs::ChaCha8Rng;
use rand::seq::IndexedRandom;
use rand::{RngExt, SeedableRng};

use wearland::schedule::{Plan, Problem, verify};

use super::random::planned;

/// Spoils a plan; `None` where it has nothing of the kind to spoil.
type Corruption = fn(&Problem, &mut Plan, &mut ChaCha8Rng) -> Option<()>;

const CORRUPTIONS: [(&str, Corruption); 9] = [
    ("a piece more in a lot", one_piece_more),
    ("a good piece more in a lot", one_good_piece_more),
    ("an end beyond the slot", end_beyond_slot),
    ("a tool change left out", change_left_out),
    ("a piece more shipped", one_more_shipped),
    ("a piece less in stock", one_less_in_stock),
    ("a lot a slot earlier, its clock kept", slot_earlier),
    ("a lot a slot earlier, its clock moved", shift_earlier),
    ("a setup left out", setup_left_out),
];

#[test]
fn every_corruption_is_found() {
    let mut tried = [0; CORRUPTIONS.len()];
    let mut missed = Vec::new();
    for (seed, problem, planned) in planned() {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        for ((name, spoil), tried) in CORRUPTIONS.iter().zip(&mut tried) {
            for _ in 0..5 {
                let mut plan = planned.plan.clone();
                if spoil(&problem, &mut plan, &mut random).is_none() {
                    break;
                }
                *tried += 1;
                if verify(&problem, &plan).is_empty() {
                    missed.push(format!("seed {seed}: {name}"));
                }
            }
        }
    }
    assert!(missed.is_empty(), "{} of {tried:?} missed\n{}", missed.len(), missed.join("\n"));
    assert!(tried.iter().all(|tried| *tried >= 50), "{tried:?}");
}

fn any_lot(plan: &Plan, random: &mut ChaCha8Rng) -> Option<usize> {
    (!plan.lots.is_empty()).then(|| random.random_range(0..plan.lots.len()))
}

/// In a lot of full loads: a piece more in a load that has room for it would be a rightful plan.
fn one_piece_more(problem: &Problem, plan: &mut Plan, random: &mut ChaCha8Rng) -> Option<()> {
    let full = |lot: &usize| {
        let lot = &plan.lots[*lot];
        lot.pieces.is_multiple_of(problem.activities[lot.activity].load)
    };
    let full: Vec<usize> = (0..plan.lots.len()).filter(full).collect();
    let lot = *full.choose(random)?;
    plan.lots[lot].pieces += 1;
    Some(())
}

fn one_good_piece_more(_: &Problem, plan: &mut Plan, random: &mut ChaCha8Rng) -> Option<()> {
    let lot = any_lot(plan, random)?;
    plan.lots[lot].good += 1;
    Some(())
}

fn end_beyond_slot(problem: &Problem, plan: &mut Plan, random: &mut ChaCha8Rng) -> Option<()> {
    let lot = any_lot(plan, random)?;
    plan.lots[lot].end = problem.slots[plan.lots[lot].slot].end + 1;
    Some(())
}

fn change_left_out(_: &Problem, plan: &mut Plan, random: &mut ChaCha8Rng) -> Option<()> {
    let at = (!plan.changes.is_empty()).then(|| random.random_range(0..plan.changes.len()))?;
    plan.changes.remove(at);
    Some(())
}

fn one_more_shipped(_: &Problem, plan: &mut Plan, random: &mut ChaCha8Rng) -> Option<()> {
    let at = (!plan.shipments.is_empty()).then(|| random.random_range(0..plan.shipments.len()))?;
    plan.shipments[at].pieces += 1;
    Some(())
}

fn one_less_in_stock(problem: &Problem, plan: &mut Plan, random: &mut ChaCha8Rng) -> Option<()> {
    let lying: Vec<(usize, usize)> = (0..problem.steps.len())
        .flat_map(|step| (0..problem.slots.len()).map(move |slot| (step, slot)))
        .filter(|(step, slot)| plan.stock[*step][*slot] > 0)
        .collect();
    let (step, slot) = *lying.choose(random)?;
    plan.stock[step][slot] -= 1;
    Some(())
}

fn later_lot(plan: &Plan, random: &mut ChaCha8Rng) -> Option<usize> {
    let later: Vec<usize> = (0..plan.lots.len()).filter(|lot| plan.lots[*lot].slot > 0).collect();
    later.choose(random).copied()
}

fn slot_earlier(_: &Problem, plan: &mut Plan, random: &mut ChaCha8Rng) -> Option<()> {
    let lot = later_lot(plan, random)?;
    plan.lots[lot].slot -= 1;
    Some(())
}

fn shift_earlier(problem: &Problem, plan: &mut Plan, random: &mut ChaCha8Rng) -> Option<()> {
    let lot = later_lot(plan, random)?;
    let lot = &mut plan.lots[lot];
    let by = problem.slots[lot.slot].start - problem.slots[lot.slot - 1].start;
    (lot.slot, lot.start, lot.end) = (lot.slot - 1, lot.start - by, lot.end - by);
    Some(())
}

fn setup_left_out(_: &Problem, plan: &mut Plan, random: &mut ChaCha8Rng) -> Option<()> {
    let set: Vec<usize> = (0..plan.lots.len()).filter(|lot| plan.lots[*lot].setup > 0.0).collect();
    let lot = *set.choose(random)?;
    plan.lots[lot].setup = 0.0;
    Some(())
}
