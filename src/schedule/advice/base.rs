//! The linear program around a found plan: its setups spread over its lots, everything else free.

use super::super::lp::{Flows, PlanModel, Ready, Reserve};
use super::super::plan::Plan;
use super::super::problem::{Lag, Problem};
use super::super::program::{SolveError, solve};

/// Least lateness, and the least money at it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Value {
    /// Weighted piece-hours.
    pub(super) lateness: f64,
    /// Money.
    pub(super) money: f64,
}

/// A program and what it comes to.
pub(super) struct Base {
    pub(super) reserve: Reserve,
    pub(super) model: PlanModel,
    pub(super) value: Value,
}

impl Base {
    /// The program around a plan.
    pub(super) fn of(problem: &Problem, plan: &Plan) -> Result<Self, SolveError> {
        let reserve = reserve_around(problem, plan);
        let model = model(problem, &reserve);
        let lateness = least_lateness(&model)?;
        let value = value(&model, lateness)?;
        Ok(Self { reserve, model, value })
    }

    /// Rows of a resource that limit it: slot and row.
    pub(super) fn rows_of(&self, resource: usize) -> Vec<(usize, usize)> {
        rows_of(&self.model, resource)
    }

    /// What a changed program comes to; solving starts from the lateness of this one.
    pub(super) fn value_of(&self, model: &PlanModel) -> Result<Value, SolveError> {
        let hoped = if self.value.lateness > 0.0 { least_lateness(model)? } else { 0.0 };
        value(model, hoped)
    }
}

/// The program of a problem with so much held back.
pub(super) fn model(problem: &Problem, reserve: &Reserve) -> PlanModel {
    let flows: Flows = problem.steps.iter().map(|step| step.good).collect();
    PlanModel::build(problem, &flows, reserve, Ready::AtEnd)
}

/// Rows of a resource that limit it: slot and row.
pub(super) fn rows_of(model: &PlanModel, resource: usize) -> Vec<(usize, usize)> {
    let rows = model.minutes_rows[resource].iter().enumerate();
    rows.filter_map(|(slot, row)| row.map(|row| (slot, row))).collect()
}

/// Lateness in piece-hours below which a plan counts as in time.
pub(super) const IN_TIME: f64 = 1e-4;

/// Least lateness; nought where rounding alone is left.
pub(super) fn least_lateness(model: &PlanModel) -> Result<f64, SolveError> {
    let lateness = solve(&model.lateness_model())?.cost;
    Ok(if lateness < IN_TIME { 0.0 } else { lateness })
}

/// Least money at a lateness hoped for, or at the least there can be.
fn value(model: &PlanModel, hoped: f64) -> Result<Value, SolveError> {
    match solve(&model.money_model(hoped)) {
        Ok(answer) => return Ok(Value { lateness: hoped, money: answer.cost }),
        Err(SolveError::Infeasible) => {}
        Err(other) => return Err(other),
    }
    let lateness = least_lateness(model)?;
    // Where numbers are far apart, the solver takes the lateness it found for out of reach: it is given a little more.
    for slack in [0.0, 1e-6, 1e-4] {
        match solve(&model.money_model(lateness * (1.0 + slack))) {
            Ok(answer) => return Ok(Value { lateness, money: answer.cost }),
            Err(SolveError::Infeasible) => {}
            Err(other) => return Err(other),
        }
    }
    Err(SolveError::Infeasible)
}

/// Setup minutes for each piece as the plan's lots have them; where it has no lot, those of a full slot. In the same slot, as
/// large a share of the pieces moves on as the plan shows.
pub(super) fn reserve_around(problem: &Problem, plan: &Plan) -> Reserve {
    let mut reserve = Reserve::none(problem);
    for (at, activity) in problem.activities.iter().enumerate() {
        let Some(machine) = activity.machine else { continue };
        for slot in 0..problem.slots.len() {
            let lots = plan.lots.iter().filter(|lot| lot.activity == at && lot.slot == slot);
            let (pieces, setup) = lots.fold((0, 0.0), |sum, lot| (sum.0 + lot.pieces, sum.1 + lot.setup));
            let open = problem.resources[machine].minutes[slot];
            reserve.setup[at][slot] = if pieces > 0 {
                setup / f64::from(pieces)
            } else if open > 0.0 {
                (activity.setup * activity.run / open).min(activity.setup)
            } else {
                0.0
            };
        }
    }
    for (id, step) in problem.steps.iter().enumerate() {
        if matches!(step.lag, Lag::Boxes { .. }) {
            reserve.share[id] = share_moved_on(problem, plan, id);
        }
    }
    reserve
}

/// Largest share of the good pieces of a slot that the next operation used in the same slot.
fn share_moved_on(problem: &Problem, plan: &Plan, step: usize) -> f64 {
    let users: Vec<(usize, f64)> = problem.users(step).collect();
    let mut share: f64 = 0.0;
    for slot in 0..problem.slots.len() {
        let of = |wanted: usize| {
            plan.lots
                .iter()
                .filter(move |lot| lot.slot == slot && problem.activities[lot.activity].step == wanted)
        };
        let made: f64 = of(step).map(|lot| f64::from(lot.good)).sum();
        let used: f64 = users
            .iter()
            .map(|(user, pieces)| of(*user).map(|lot| pieces * f64::from(lot.pieces)).sum::<f64>())
            .sum();
        let lay = match slot.checked_sub(1) {
            Some(before) => f64::from(plan.stock[step][before]),
            None => problem.steps[step].opening.floor(),
        };
        if made > 0.0 {
            share = share.max((used - lay) / made);
        }
    }
    share.clamp(0.0, 1.0)
}

/// The problem with a weight for each order: what makes one late that has a price is asked in hours too.
pub(super) fn all_weighed(problem: &Problem) -> Problem {
    let mut weighed = problem.clone();
    for demand in weighed.demands.iter_mut().filter(|demand| demand.late_price > 0.0) {
        demand.weight = demand.weight.max(1.0);
    }
    weighed
}

/// Whole pieces, rounded down.
pub(super) fn whole(pieces: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the range of u32"
    )]
    let whole = pieces.floor().clamp(0.0, f64::from(u32::MAX)) as u32;
    whole
}
