//! All rules in turn.

use super::super::plan::Plan;
use super::super::problem::Problem;
use super::sheet::Sheet;
use super::{edges, goods, people, pieces, places, queue, standing, stock, turns, wear};

/// A rule the plan breaks, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Violation(pub String);

/// Lists all rules that the plan breaks; empty means accepted.
#[must_use]
pub fn verify(problem: &Problem, plan: &Plan) -> Vec<Violation> {
    let mut found = Vec::new();
    // Every place named must exist, before anything is looked up by it.
    places::check(problem, plan, &mut found);
    if found.is_empty() {
        let sheet = Sheet::read(problem, plan);
        turns::check(&sheet, &mut found);
        people::check(&sheet, &mut found);
        standing::check(&sheet, &mut found);
        pieces::check(&sheet, &mut found);
        goods::check(&sheet, &mut found);
        stock::check(&sheet, &mut found);
        wear::check(&sheet, &mut found);
        edges::check(&sheet, &mut found);
        queue::check(&sheet, &mut found);
    }
    found
}
