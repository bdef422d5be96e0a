//! From problem to verified plan: linear program and sequencer in turn.
//!
//! Each round spreads the setups over the lots the last round made, solves the program - lateness first, then money -
//! lays the answer out in whole pieces, and keeps the best plan laid out. If the floor could not keep what the program
//! promised, the next round holds more minutes back.

use super::floor::{LaidOut, Program, lay_out};
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
        Self { rounds: 10, gap: 1e-4, stop: None, told: None }
    }
}

impl Search<'_> {
    fn is_stopped(&self) -> bool {
        self.stop.is_some_and(|stop| stop.load(Ordering::Relaxed))
    }
}

/// Rounds without a better plan after which no more are made.
const PATIENCE: usize = 3;

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
    let mut best: Option<(usize, Planned)> = None;
    for round in 1..=search.rounds.max(1) {
        if best.is_some() && search.is_stopped() {
            break;
        }
        // While the floor cannot keep what the cheapest program says, every other round does all work as early as can be.
        let late = best.as_ref().is_some_and(|(_, best)| !is_timely(best));
        let aim = if late && round % 2 == 0 { Aim::Earliest } else { Aim::Cheapest };
        let (program, promised) = solve_both(problem, &flows, &reserve, (lateness_bound, aim))?;
        let laid = lay_out(problem, &program);
        let plan = &laid.plan;
        let (lateness, cost) = (plan.lateness(problem), plan.cost(problem));
        spread_setups(problem, plan, &mut reserve);
        if lateness > promised + 1e-3 {
            hold_back_more(problem, &laid, &mut reserve);
        }
        let better = best.as_ref().is_none_or(|(_, best)| {
            let tie = 1e-6 * best.lateness.max(1.0);
            lateness < best.lateness - tie || (lateness < best.lateness + tie && cost < best.cost)
        });
        if better {
            best = Some((
                round,
                Planned { plan: laid.plan, lateness, cost, lateness_bound, cost_bound: 0.0, rounds: round },
            ));
        } else if let Some((found, best)) = &mut best {
            best.rounds = round;
            // As long as the plan is later than it might be, rounds go on.
            if is_timely(best) && round >= *found + PATIENCE {
                break;
            }
        }
        if let (Some(told), Some((_, best))) = (search.told, &best) {
            told(&Progress { round, lateness: best.lateness, cost: best.cost });
        }
    }
    let (_, mut best) = best.ok_or(SolveError::Infeasible)?;
    best.cost_bound = match cheapest(&bound, best.lateness)? {
        Some(answer) => answer.cost,
        None => solve(&bound.model)?.cost,
    };
    let mut violations = verify(problem, &best.plan);
    if violations.is_empty() {
        violations = claimed(problem, &best.plan, best.lateness, best.cost);
    }
    if violations.is_empty() { Ok(best) } else { Err(PlanError::Refused(violations)) }
}

/// What a program aims at once lateness is least.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Aim {
    /// Least money.
    Cheapest,
    /// All work as early as can be, which leaves the floor time to catch up.
    Earliest,
}

/// Whether a plan is as little late as the bound allows.
fn is_timely(plan: &Planned) -> bool {
    plan.lateness <= plan.lateness_bound + 1e-6 * plan.lateness_bound.max(1.0)
}

/// Least lateness, then least money; what the program says and how late it is. Where the lateness hoped for can be kept, one
/// program does.
fn solve_both(
    problem: &Problem,
    flows: &[f64],
    reserve: &Reserve,
    hoped: (f64, Aim),
) -> Result<(Program, f64), SolveError> {
    let model = PlanModel::build(problem, &flows.to_vec(), reserve, Ready::AtEnd);
    let (hoped, aim) = hoped;
    let (lateness, mut money) = match solve(&model.money_model(hoped)) {
        Ok(money) => (hoped, money),
        Err(SolveError::Infeasible) => {
            let least = solve(&model.lateness_model())?;
            let lateness = least.cost.max(0.0);
            (lateness, cheapest(&model, lateness)?.unwrap_or(least))
        }
        Err(other) => return Err(other),
    };
    if aim == Aim::Earliest
        && let Ok(early) = solve(&model.earliest_model(problem, lateness))
    {
        money = early;
    }
    let values = |places: &[Vec<usize>]| {
        places.iter().map(|slots| slots.iter().map(|place| money.values[*place]).collect()).collect()
    };
    Ok((Program { started: values(&model.started), shipped: values(&model.shipped) }, lateness))
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

/// Setup minutes for each piece, by the lots just laid: a lot that needed none carries none.
fn spread_setups(problem: &Problem, plan: &Plan, reserve: &mut Reserve) {
    for lot in &plan.lots {
        reserve.setup[lot.activity][lot.slot] = lot.setup / f64::from(lot.pieces.max(1));
    }
    for (at, activity) in problem.activities.iter().enumerate() {
        for slot in 0..problem.slots.len() {
            let used = plan.lots.iter().any(|lot| lot.activity == at && lot.slot == slot);
            if !used {
                // Cells left alone grow cheaper again, so that the next round may try them.
                reserve.setup[at][slot] = (reserve.setup[at][slot] * 0.7).min(activity.setup);
            }
        }
    }
}

/// Where the floor fell behind, what it missed is held back the next time, and pieces for which a machine waited count on less of
/// their own shift. Where it fell behind nowhere in particular, a little is held back everywhere.
fn hold_back_more(problem: &Problem, laid: &LaidOut, reserve: &mut Reserve) {
    let somewhere = laid.short.iter().flatten().any(|short| *short > 0.0);
    for (id, resource) in problem.resources.iter().enumerate() {
        if resource.kind != ResourceKind::Machine {
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
                (true, _) => (0.5 * short).clamp(slowest, 0.05 * open + slowest),
                (false, _) if somewhere => 0.0,
                (false, true) => 0.01 * open,
                (false, false) => slowest,
            };
            *kept = (*kept + more).min(0.15 * open);
        }
    }
    for (share, starved) in reserve.share.iter_mut().zip(&laid.starved) {
        if *starved {
            *share *= 0.8;
        }
    }
}
