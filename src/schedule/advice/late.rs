//! LateOrder orders of a plan, with their chains and what they are short of.

use super::super::plan::Plan;
use super::super::problem::Problem;
use super::super::program::SolveError;
use super::chain::{ChainLink, chain};
use super::shortfall::{Shortfalls, shortfalls};

/// A late order.
#[derive(Debug, Clone, PartialEq)]
pub struct LateOrder {
    /// The order.
    pub demand: usize,
    /// From its shipment back, wait by wait.
    pub links: Vec<ChainLink>,
    /// Hours short.
    pub short: Shortfalls,
}

/// Orders that a plan ships late or not at all.
///
/// # Errors
/// [`SolveError`] of the programs solved.
pub fn late_orders(problem: &Problem, plan: &Plan) -> Result<Vec<LateOrder>, SolveError> {
    (0..problem.demands.len())
        .filter(|demand| plan.piece_hours_late(problem, *demand) > 1e-9)
        .map(|demand| {
            let (links, short) = (chain(problem, plan, demand), shortfalls(problem, plan, demand)?);
            Ok(LateOrder { demand, links, short })
        })
        .collect()
}
