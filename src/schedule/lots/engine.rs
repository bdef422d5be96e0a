//! Lots with setups, and how near they are to the best there can be.

use super::super::lp::{Flows, PlanModel, Ready, Reserve};
use super::super::problem::Problem;
use super::super::program::{Limits, Solution, SolveError, solve};
use super::limits::{Effort, LotLimits, LotPlan, LotStatus};
use super::pools::Pooled;
use super::search::{Answer, Search};
use super::setup_model::{CarryOver, Terms};
use super::shrink::Shrunk;
use super::spread::Setups;
use std::sync::atomic::Ordering;

/// Shares of the time by the end of which each part of the search gives way to the next: setups spread over lots, rows for the
/// bound, parts of the plan; what is left goes to whole numbers for the bound.
const SHARES: [f64; 3] = [0.25, 0.4, 0.75];

/// Plans lots and setups of the whole problem: what a slot makes of each activity, on which machines, with which setups.
///
/// The bound holds for every answer of the program with setups as whole numbers under the same flows, reserve and carrying
/// over, machines of a pool named or not. [`setup_bound`] gives one for laid-out plans.
///
/// # Errors
/// [`SolveError`] of a linear program; the search in whole numbers gives none.
pub fn lot_plan(
    problem: &Problem,
    flows: &Flows,
    reserve: &Reserve,
    limits: &LotLimits<'_>,
) -> Result<LotPlan, SolveError> {
    let price = limits.lateness_price.unwrap_or_else(|| lateness_price(problem));
    let terms =
        Terms { flows, reserve, ready: Ready::AtEnd, carry_over: limits.carry_over, lateness_price: price };
    let search = Search::new(problem, terms, limits);
    let scaled = search.scaled(limits.rounds, SHARES[0])?;
    let mut best = scaled.best.ok_or(SolveError::Infeasible)?;
    if limits.effort == Effort::Plain {
        return Ok(finished(&search, &best, (f64::NEG_INFINITY, scaled.rounds, 0)));
    }
    let mut bounded = search.bounded(&best, SHARES[1])?;
    let mut parts = 0;
    if limits.effort == Effort::Thorough && is_open(&best, bounded.bound, limits.gap) {
        let polished = search.polished(best, (bounded.bound, limits.parts), SHARES[2]);
        (best, parts) = (polished.best, polished.parts);
        if polished.proven {
            bounded.bound = bounded.bound.max(best.cost - limits.gap.max(1e-6) * best.cost.abs());
        } else if let Some(seconds) = search.left(1.0)
            && is_open(&best, bounded.bound, limits.gap)
        {
            let whole = Limits { gap: limits.gap, seconds: Some(seconds), nodes: None, stop: limits.stop };
            if let Ok(Some(answer)) = search.searched(&mut bounded, &best, &whole)
                && answer.cost < best.cost
            {
                best = answer;
            }
        }
    }
    Ok(finished(&search, &best, (bounded.bound, scaled.rounds, parts)))
}

/// The same lots' setups, and how much is best made after each under another reserve: one linear program.
///
/// # Errors
/// [`SolveError`].
pub fn lots_again(
    problem: &Problem,
    flows: &Flows,
    reserve: &Reserve,
    last: &LotPlan,
    limits: &LotLimits<'_>,
) -> Result<LotPlan, SolveError> {
    let price = limits.lateness_price.unwrap_or_else(|| lateness_price(problem));
    let terms =
        Terms { flows, reserve, ready: Ready::AtEnd, carry_over: limits.carry_over, lateness_price: price };
    let search = Search::new(problem, terms, limits);
    let setups = Setups { made: last.made.clone(), carried: last.carried.clone(), kept: last.kept.clone() };
    let answer = search.with_setups(&setups)?;
    Ok(finished(&search, &answer, (f64::NEG_INFINITY, 1, 0)))
}

/// The cheapest plan without setups: the linear program of the pools, lateness at its price alone.
///
/// # Errors
/// [`SolveError`].
pub fn plan_without_setups(problem: &Problem, flows: &Flows) -> Result<Solution, SolveError> {
    let together = Pooled::together(problem);
    let reserve = Reserve::none(&together.problem);
    let plan = PlanModel::build(&together.problem, flows, &reserve, Ready::AtEnd);
    let shrunk = Shrunk::of(&plan.model)?;
    let values = shrunk.expanded(&solve(&shrunk.model)?.values);
    Ok(Solution { cost: plan.model.cost(&values), values })
}

/// What no laid-out plan costs less than, its lots linked over slots: money alone, lateness at most as given.
///
/// # Errors
/// [`SolveError`]; [`SolveError::Infeasible`] where no plan is so little late.
pub fn setup_bound(problem: &Problem, lateness: f64) -> Result<f64, SolveError> {
    let flows: Flows = problem.steps.iter().map(|step| step.good).collect();
    let reserve = Reserve::none(problem);
    let limits = LotLimits::default();
    let terms = Terms {
        flows: &flows,
        reserve: &reserve,
        ready: Ready::AtStart,
        carry_over: CarryOver::Linked,
        lateness_price: 0.0,
    };
    let search = Search::new(problem, terms, &limits);
    Ok(search.bounded_within(Some(lateness), (f64::INFINITY, 1.0))?.bound)
}

fn is_open(best: &Answer, bound: f64, gap: f64) -> bool {
    best.cost - bound > gap * best.cost.abs()
}

/// Money for a unit of lateness that no saving of setups or pieces outweighs.
fn lateness_price(problem: &Problem) -> f64 {
    let rate = |resource: usize| problem.resources[resource].cost.iter().copied().fold(0.0, f64::max);
    let of = |(activity, machine): (&super::super::problem::Activity, usize)| {
        let running: f64 = activity.uses.iter().map(|(resource, minutes)| minutes * rate(*resource)).sum();
        activity.setup * rate(machine) + running + activity.cost
    };
    let machined = problem.activities.iter().filter_map(|activity| Some((activity, activity.machine?)));
    10.0 * machined.map(of).fold(1.0, f64::max)
}

fn finished(search: &Search<'_>, best: &Answer, (bound, rounds, parts): (f64, usize, usize)) -> LotPlan {
    let exact = &search.exact;
    let values = |places: &[Vec<usize>]| -> Vec<Vec<f64>> {
        places.iter().map(|slots| slots.iter().map(|place| best.values[*place]).collect()).collect()
    };
    let slots = search.given.slots.len();
    let setups = |column: &dyn Fn(&super::setup_model::Cell) -> Option<usize>| -> Vec<Vec<bool>> {
        let chosen = |cells: &Vec<super::setup_model::Cell>| {
            if cells.is_empty() {
                return vec![false; slots];
            }
            cells.iter().map(|cell| column(cell).is_some_and(|at| best.values[at] > 0.5)).collect()
        };
        exact.cells.iter().map(chosen).collect()
    };
    let (money, lateness) = exact.money_and_lateness(&best.values, search.terms.lateness_price);
    let bound = bound.min(best.cost);
    let gap = if best.cost.abs() > 1e-9 { (best.cost - bound) / best.cost.abs() } else { 0.0 };
    let stopped = search.limits.stop.is_some_and(|stop| stop.load(Ordering::Relaxed));
    let status = if gap <= search.limits.gap {
        LotStatus::GapReached
    } else if stopped {
        LotStatus::Stopped
    } else {
        LotStatus::LimitReached
    };
    LotPlan {
        started: values(&exact.started),
        shipped: values(&exact.shipped),
        made: setups(&|cell| Some(cell.made)),
        carried: setups(&|cell| cell.carried.map(|(carried, _)| carried)),
        kept: setups(&|cell| cell.carried.map(|(_, kept)| kept)),
        money,
        lateness,
        cost: best.cost,
        bound,
        gap,
        rounds,
        parts,
        status,
    }
}
