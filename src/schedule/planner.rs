//! From problem to verified plan: linear program and sequencer in turn.
//!
//! Each round spreads the setups over the lots the last round made, solves the program - lateness first, then money -
//! lays the answer out in whole pieces, and keeps the best plan laid out. If the floor could not keep what the program
//! promised, the next round holds more minutes back.

use super::floor::{LaidOut, Program, lay_out};
use super::lots::{Effort as LotEffort, LotLimits, LotPlan, lot_plan, lots_again, setup_bound};
use super::lp::{PlanModel, Ready, Reserve};
use super::plan::Plan;
use super::problem::{Lag, Problem, ResourceKind, hours};
use super::program::{Solution, SolveError, solve};
use super::rollback::whole_piece_flows;
use super::verify::{Violation, claimed, verify};
use std::sync::atomic::{AtomicBool, Ordering};
use thiserror::Error;

/// A plan and how near it is to the best there can be.
#[derive(Debug, Clone, PartialEq)]
pub struct Planned {
    /// The plan, verified.
    pub plan: Plan,
    /// Its lateness, weighted piece-hours.
    pub lateness: f64,
    /// Its money.
    pub cost: f64,
    /// No plan of this problem is less late: the program without setups and whole pieces.
    pub lateness_bound: f64,
    /// No plan that is no later than this one costs less.
    pub cost_bound: f64,
    /// Rounds made.
    pub rounds: usize,
    /// Plans laid out that the verifier refused and that were dropped: a fault of this program.
    pub refused: usize,
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PlanError {
    /// The program has no answer.
    #[error(transparent)]
    Solve(#[from] SolveError),
    /// The plan laid out breaks its own rules: a fault of this program.
    #[error("the plan breaks {} of its own rules; the first: {}", .0.len(), .0.first().map_or("", |one| one.0.as_str()))]
    Refused(Vec<Violation>),
}

/// How long to look for better plans, and whom to tell.
#[derive(Clone, Copy)]
pub struct Search<'a> {
    /// Most rounds of program and sequencer.
    pub rounds: usize,
    /// Distance from the bound at which the search ends, as a share of the bound.
    pub gap: f64,
    /// Set from elsewhere, it ends the search: the best plan so far is given back.
    pub stop: Option<&'a AtomicBool>,
    /// Told after each round.
    pub told: Option<&'a dyn Fn(&Progress)>,
}

/// How far a search has come.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Progress {
    /// Rounds made.
    pub round: usize,
    /// Lateness of the best plan so far, weighted piece-hours.
    pub lateness: f64,
    /// Its money.
    pub cost: f64,
}

impl Default for Search<'_> {
    fn default() -> Self {
        Self { rounds: 20, gap: 1e-4, stop: None, told: None }
    }
}

impl Search<'_> {
    fn is_stopped(&self) -> bool {
        self.stop.is_some_and(|stop| stop.load(Ordering::Relaxed))
    }
}

/// Rounds without a better plan after which a plan as little late as can be is taken, and one that is later.
const PATIENCE: usize = 0;
const PATIENCE_LATE: usize = 8;

/// Rounds in which the same setups are laid out again with more held back.
const AGAIN: usize = 4;

/// Plans a problem.
///
/// # Errors
/// [`PlanError`].
pub fn plan(problem: &Problem, search: &Search<'_>) -> Result<Planned, PlanError> {
    let truth: Vec<f64> = problem.steps.iter().map(|step| step.good).collect();
    let bound = PlanModel::build(problem, &truth, &Reserve::none(problem), Ready::AtStart);
    let lateness_bound = solve(&bound.lateness_model())?.cost.max(0.0);
    let flows = whole_piece_flows(problem);
    let mut reserve = first_reserve(problem);
    let mut found = Found { best: None, at: 0, lateness_bound, refused: Vec::new() };
    let mut last: Option<LotPlan> = None;
    let mut again = 0;
    let mut settled = false;
    for round in 1..=search.rounds.max(1) {
        if found.best.is_some() && search.is_stopped() {
            break;
        }
        let limits = LotLimits { effort: LotEffort::Plain, stop: search.stop, ..LotLimits::default() };
        // The same setups under what was held back, as long as they can keep what they promised; else other lots.
        let kept = match &last {
            Some(last) if again < AGAIN => {
                let lots = lots_again(problem, &flows, &reserve, last, &limits)?;
                Some(lots).filter(|lots| lots.lateness <= last.lateness + 1e-3)
            }
            _ => None,
        };
        again = if kept.is_some() { again + 1 } else { 0 };
        let lots = match kept {
            Some(lots) => lots,
            None => lot_plan(problem, &flows, &reserve, &limits)?,
        };
        let program = Program { started: lots.started.clone(), shipped: lots.shipped.clone() };
        let laid = lay_out(problem, &program);
        if laid.plan.lateness(problem) > lots.lateness + 1e-3 {
            hold_back_more(problem, &laid, &mut reserve);
        } else {
            // The floor keeps what is promised: other lots may be better, once.
            settled = again == 0;
            again = AGAIN;
        }
        last = Some(lots);
        let go_on = found.take(problem, laid.plan, round);
        if let (Some(told), Some(best)) = (search.told, &found.best) {
            told(&Progress { round, lateness: best.lateness, cost: best.cost });
        }
        if settled || !go_on {
            break;
        }
    }
    let mut best = found.result()?;
    best.cost_bound = match cheapest(&bound, best.lateness)? {
        Some(answer) => answer.cost,
        None => solve(&bound.model)?.cost,
    };
    if let Ok(with_setups) = setup_bound(problem, best.lateness) {
        best.cost_bound = best.cost_bound.max(with_setups);
    }
    Ok(best)
}

/// The best plan so far.
struct Found {
    best: Option<Planned>,
    /// Round in which it was found.
    at: usize,
    lateness_bound: f64,
    /// Faults of the plans that the verifier refused.
    refused: Vec<Vec<Violation>>,
}

impl Found {
    /// Keeps a plan if it is better and the verifier has nothing against it; whether another round may bring more.
    fn take(&mut self, problem: &Problem, plan: Plan, round: usize) -> bool {
        let (lateness, cost) = (plan.lateness(problem), plan.cost(problem));
        let better = self.best.as_ref().is_none_or(|best| {
            let tie = 1e-6 * best.lateness.max(1.0);
            lateness < best.lateness - tie || (lateness < best.lateness + tie && cost < best.cost - 1e-6)
        });
        let violations = if better { checked(problem, &plan, (lateness, cost)) } else { Vec::new() };
        let sound = violations.is_empty();
        if !sound {
            self.refused.push(violations);
        }
        let refused = self.refused.len();
        if better && sound {
            self.at = round;
            let (lateness_bound, cost_bound) = (self.lateness_bound, 0.0);
            self.best =
                Some(Planned { plan, lateness, cost, lateness_bound, cost_bound, rounds: round, refused });
        }
        let Some(best) = &mut self.best else { return true };
        (best.rounds, best.refused) = (round, refused);
        // As long as the plan is later than it might be, rounds go on.
        let patience = if is_timely(best) { PATIENCE } else { PATIENCE_LATE };
        round < self.at + patience
    }

    fn result(self) -> Result<Planned, PlanError> {
        let first = self.refused.into_iter().next();
        self.best.ok_or_else(|| first.map_or(PlanError::Solve(SolveError::Infeasible), PlanError::Refused))
    }
}

/// What the verifier has against a plan and what is claimed of it.
fn checked(problem: &Problem, plan: &Plan, claims: (f64, f64)) -> Vec<Violation> {
    let mut violations = verify(problem, plan);
    violations.extend(claimed(problem, plan, claims.0, claims.1));
    violations
}

/// Whether a plan is as little late as the bound allows.
fn is_timely(plan: &Planned) -> bool {
    plan.lateness <= plan.lateness_bound + 1e-6 * plan.lateness_bound.max(1.0)
}

/// The cheapest answer no later than so much. Where the numbers are so far apart that the solver takes the lateness it found
/// for out of reach, it is given a little more.
fn cheapest(model: &PlanModel, lateness: f64) -> Result<Option<Solution>, SolveError> {
    for slack in [0.0, 1e-6, 1e-4, 1e-2] {
        match solve(&model.money_model(lateness * (1.0 + slack))) {
            Ok(money) => return Ok(Some(money)),
            Err(SolveError::Infeasible) => {}
            Err(other) => return Err(other),
        }
    }
    Ok(None)
}

/// No minutes held back yet, and setups spread over a full slot.
pub(super) fn first_reserve(problem: &Problem) -> Reserve {
    let mut reserve = Reserve::none(problem);
    reserve.share = (0..problem.steps.len()).map(|step| first_share(problem, step)).collect();
    for (at, activity) in problem.activities.iter().enumerate() {
        let Some(machine) = activity.machine else { continue };
        for (slot, share) in reserve.setup[at].iter_mut().enumerate() {
            let open = problem.resources[machine].minutes[slot];
            *share = if open > 0.0 { activity.setup * activity.run / open } else { 0.0 };
        }
    }
    reserve
}

/// Share of a slot's pieces that the next operation can use in the same slot if both run through it: all but those of the first box
/// and its way.
fn first_share(problem: &Problem, step: usize) -> f64 {
    let Lag::Boxes { pieces, seconds } = problem.steps[step].lag else { return 1.0 };
    let box_minutes = problem
        .makers(step)
        .map(|maker| problem.activities[maker].running(pieces))
        .fold(f64::INFINITY, f64::min);
    let longest = problem.slots.iter().map(|slot| slot.end - slot.start).max().unwrap_or(0);
    let lost = hours(seconds) * 60.0 + if box_minutes.is_finite() { box_minutes } else { 0.0 };
    (1.0 - lost / (hours(longest) * 60.0).max(1.0)).clamp(0.0, 1.0) * 0.9
}

/// Where the floor fell behind, what it missed is held back the next time, and pieces for which a machine waited count on less of
/// their own shift. Where it fell behind nowhere in particular, a little is held back everywhere.
fn hold_back_more(problem: &Problem, laid: &LaidOut, reserve: &mut Reserve) {
    let somewhere = laid.short.iter().flatten().any(|short| *short > 0.0);
    for (id, resource) in problem.resources.iter().enumerate() {
        if resource.kind == ResourceKind::Outside {
            continue;
        }
        let of_machine = problem.activities.iter().filter(|activity| activity.machine == Some(id));
        let slowest = of_machine.map(|activity| activity.run).fold(0.0, f64::max);
        for (slot, kept) in reserve.minutes[id].iter_mut().enumerate() {
            let open = resource.minutes[slot];
            if !open.is_finite() || open <= 0.0 {
                continue;
            }
            let short = laid.short[id][slot];
            let more = match (short > 0.0, *kept > 0.0) {
                (true, _) => short.max(slowest),
                (false, _) if somewhere || resource.kind == ResourceKind::Crew => 0.0,
                (false, true) => 0.01 * open,
                (false, false) => slowest,
            };
            *kept = (*kept + more).min(if short > 0.0 { 0.5 } else { 0.15 } * open);
        }
    }
    for (share, starved) in reserve.share.iter_mut().zip(&laid.starved) {
        if *starved {
            *share *= 0.8;
        }
    }
}
