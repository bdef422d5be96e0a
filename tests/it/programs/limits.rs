//! Searches for whole numbers that are cut short, started from an answer, or repeated.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use std::sync::atomic::AtomicBool;
use wearland::schedule::{Limits, Model, ModelFault, SolveError, WholeStatus, solve_whole};

/// Many unlike pieces into a few sacks: no search ends soon.
fn sacks() -> Model {
    let mut random = ChaCha8Rng::seed_from_u64(7);
    let mut model = Model::default();
    let places: Vec<usize> = (0..40)
        .map(|at| model.whole_column(format!("take[{at}]"), 1.0, -f64::from(random.random_range(50..150))))
        .collect();
    for sack in 0..5 {
        let terms = places.iter().map(|at| (*at, f64::from(random.random_range(20..80)))).collect();
        model.at_most(format!("sack {sack}"), terms, 800.0);
    }
    model
}

#[test]
fn a_limit_of_nodes_leaves_a_bound() {
    let limits = Limits { nodes: Some(20), ..Limits::default() };
    let whole = solve_whole(&sacks(), None, &limits).unwrap();
    assert!(whole.bound <= whole.cost, "{whole:?}");
    assert!(matches!(whole.status, WholeStatus::StoppedEarly | WholeStatus::NoneFound), "{whole:?}");
    assert_eq!(whole, solve_whole(&sacks(), None, &limits).unwrap(), "another run, another answer");
}

#[test]
fn a_gap_is_kept() {
    let whole = solve_whole(&sacks(), None, &Limits { gap: 0.05, ..Limits::default() }).unwrap();
    assert!(whole.cost - whole.bound <= 0.05 * whole.cost.abs(), "{whole:?}");
    assert!(matches!(whole.status, WholeStatus::GapReached | WholeStatus::Proven), "{whole:?}");
}

#[test]
fn a_stop_ends_the_search_and_keeps_the_start() {
    let model = sacks();
    let stop = AtomicBool::new(true);
    let limits = Limits { stop: Some(&stop), ..Limits::default() };
    let start = vec![0.0; model.columns.len()];
    let whole = solve_whole(&model, Some(&start), &limits).unwrap();
    assert!(whole.cost <= 0.0 && whole.values.len() == model.columns.len(), "{whole:?}");
    assert_ne!(whole.status, WholeStatus::NoneFound);
}

#[test]
fn no_time_at_all_finds_nothing_or_keeps_the_start() {
    let model = sacks();
    let limits = Limits { seconds: Some(0.0), ..Limits::default() };
    let whole = solve_whole(&model, None, &limits).unwrap();
    let none = whole.values.is_empty() && whole.cost == f64::INFINITY;
    assert_eq!(none, whole.status == WholeStatus::NoneFound, "{whole:?}");
    let start = vec![0.0; model.columns.len()];
    assert_ne!(solve_whole(&model, Some(&start), &limits).unwrap().status, WholeStatus::NoneFound);
}

#[test]
fn an_answer_is_never_dearer_than_its_start() {
    let model = sacks();
    let best = solve_whole(&model, None, &Limits { gap: 0.02, ..Limits::default() }).unwrap();
    let limits = Limits { nodes: Some(1), ..Limits::default() };
    let again = solve_whole(&model, Some(&best.values), &limits).unwrap();
    assert!(again.cost <= best.cost, "{} from {}", again.cost, best.cost);
}

#[test]
fn a_start_that_breaks_the_model_is_refused() {
    let model = sacks();
    let full = vec![1.0; model.columns.len()];
    let refused = solve_whole(&model, Some(&full), &Limits::default());
    assert!(matches!(refused, Err(SolveError::Fault(ModelFault::Missed { .. }))), "{refused:?}");
    let short = solve_whole(&model, Some(&[]), &Limits::default());
    assert!(matches!(short, Err(SolveError::Fault(ModelFault::Length { .. }))), "{short:?}");
}
