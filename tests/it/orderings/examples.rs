//! Published flow shops, job shops and machines side by side.

use wearland::schedule::{Aim, Effort, order};

use super::checker::{fault, real};
use super::layout::{Example, aim, examples};

/// Moves for examples that are met, or proved, with few.
const MOVES: u64 = 3000;

/// Examples that need more, or are not met to the unit: moves, and the value that must be reached.
const HARD: [(&str, u64, i64); 11] = [
    ("fj-mk02", 40_000, 26),
    ("fj-mk05", 30_000, 176),
    ("fj-mk06", 30_000, 59),
    ("fj-mk10", 30_000, 202),
    ("fj-r-la01", 30_000, 576),
    ("fj-r-la05", 30_000, 460),
    ("fj-v-la01", 30_000, 573),
    ("js-ft10", 30_000, 960),
    ("js-la02", 20_000, 655),
    ("js-la04", 30_000, 590),
    ("js-la16", 30_000, 960),
];

#[test]
fn published_orders_are_met() {
    let examples = examples();
    let mut faults = Vec::new();
    for (name, example) in &examples {
        let (moves, most) = HARD
            .iter()
            .find(|(hard, _, _)| hard == name)
            .map_or((MOVES, example.upper()), |(_, moves, most)| (*moves, *most));
        assert!(real(most) <= real(example.upper()) * 1.05, "{name}: {most} is not within 5 %");
        faults.extend(example.faults().into_iter().map(|fault| format!("{name}: {fault}")));
        faults.extend(
            missed(example, (&example.aim, moves), (example.lower(), most)).map(|it| format!("{name}: {it}")),
        );
        for variant in &example.variant {
            let range = (variant.optimum, variant.optimum);
            faults.extend(missed(example, (&variant.aim, MOVES), range).map(|it| format!("{name}: {it}")));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(examples.len() >= 40, "only {} examples", examples.len());
}

/// What is wrong with the order found, and how far it is from the least and the most it may be.
fn missed(example: &Example, (name, moves): (&str, u64), (least, most): (i64, i64)) -> Option<String> {
    let set = example.set();
    let aim = match aim(name) {
        Ok(aim) => aim,
        Err(fault) => return Some(fault),
    };
    let ordered = match order(&set, aim, Effort::moves(moves)) {
        Ok(ordered) => ordered,
        Err(error) => return Some(error.to_string()),
    };
    fault(&set, aim, &ordered).or_else(|| {
        let kept =
            real(least) <= ordered.value && ordered.value <= real(most) && ordered.bound <= real(least);
        (!kept).then(|| {
            format!(
                "{name} {} with a bound of {} after {} moves, not {least} to {most}",
                ordered.value, ordered.bound, ordered.moves
            )
        })
    })
}

/// The bound meets the best value where machines or chains alone decide.
#[test]
fn bounds_close_examples() {
    for (name, example) in examples() {
        let closed =
            ["js-la01", "js-la02", "js-la10", "fj-mk02", "fj-mk03", "fj-mk09", "fj-r-la01", "fs-johnson7"];
        if closed.contains(&name.as_str()) {
            let ordered = order(&example.set(), Aim::LastEnd, Effort::moves(0)).unwrap();
            assert!((ordered.bound - real(example.lower())).abs() < 1e-9, "{name}: bound {}", ordered.bound);
        }
    }
}

#[test]
fn a_wrong_order_is_found_out() {
    let examples = examples();
    let (_, example) = examples.iter().find(|(name, _)| name == "pa-setups-6x2").unwrap();
    let set = example.set();
    let good = order(&set, Aim::LastEnd, Effort::moves(100)).unwrap();
    assert_eq!(fault(&set, Aim::LastEnd, &good), None);
    let mut early = good.clone();
    let second = early.order[0][1];
    early.start[second] -= 1;
    assert!(fault(&set, Aim::LastEnd, &early).is_some());
    let mut better = good.clone();
    better.value -= 1.0;
    assert!(fault(&set, Aim::LastEnd, &better).is_some());
    let mut twice = good.clone();
    twice.order[0].push(second);
    assert!(fault(&set, Aim::LastEnd, &twice).is_some());
    let mut linked = set.clone();
    linked.links.push(wearland::schedule::Link::after(second, good.order[0][0]));
    assert!(fault(&linked, Aim::LastEnd, &good).is_some());
}

/// The same question gives the same order; another seed may give another.
#[test]
fn the_order_depends_on_nothing_else() {
    let examples = examples();
    let (_, example) = examples.iter().find(|(name, _)| name == "js-la16").unwrap();
    let set = example.set();
    let effort = Effort { moves: 300, seed: 7 };
    let first = order(&set, Aim::LastEnd, effort).unwrap();
    assert_eq!(first, order(&set, Aim::LastEnd, effort).unwrap());
    let longer = order(&set, Aim::LastEnd, Effort { moves: 900, seed: 7 }).unwrap();
    assert!(longer.value <= first.value);
}
