//! Why an order is late: each resource in turn made plentiful, and what that does to the order.

use super::lp::{PlanModel, Ready, Reserve};
use super::problem::{Problem, ResourceKind};
use super::program::{SolveError, solve};

/// What a resource has to do with a late demand.
#[derive(Debug, Clone, PartialEq)]
pub struct Cause {
    /// The demand.
    pub demand: usize,
    /// The resource whose plenty helps most; `None`: no single resource does, or nothing helps.
    pub resource: Option<usize>,
    /// Share of the lateness that goes if that resource is plentiful.
    pub relief: f64,
    /// Lateness left if every machine and crew were plentiful, weighted piece-hours: above zero, the route itself is too long.
    pub left_with_all: f64,
    /// Lateness in the program as it stands, weighted piece-hours; zero if only setups and whole pieces make it late.
    pub lateness: f64,
}

/// Finds the cause for each demand named.
///
/// # Errors
/// [`SolveError`] of the programs solved.
pub fn causes(problem: &Problem, late: &[usize]) -> Result<Vec<Cause>, SolveError> {
    if late.is_empty() {
        return Ok(Vec::new());
    }
    let base = lateness(problem)?;
    let mut everything = problem.clone();
    for resource in 0..problem.resources.len() {
        make_plentiful(&mut everything, resource);
    }
    let all = lateness(&everything)?;
    let mut causes: Vec<Cause> = late
        .iter()
        .map(|demand| Cause {
            demand: *demand,
            resource: None,
            relief: 0.0,
            left_with_all: all[*demand],
            lateness: base[*demand],
        })
        .collect();
    for resource in 0..problem.resources.len() {
        let mut plentiful = problem.clone();
        make_plentiful(&mut plentiful, resource);
        let eased = lateness(&plentiful)?;
        for cause in &mut causes {
            let relief = 1.0 - eased[cause.demand] / cause.lateness;
            if cause.lateness > 1e-6 && relief > cause.relief + 1e-3 && relief > 0.02 {
                cause.relief = relief;
                cause.resource = Some(resource);
            }
        }
    }
    Ok(causes)
}

/// Plentiful: ten times what it has, open in every slot.
fn make_plentiful(problem: &mut Problem, resource: usize) {
    let lengths: Vec<i64> = problem.slots.iter().map(|slot| slot.end - slot.start).collect();
    let of = &mut problem.resources[resource];
    let floor = if of.kind == ResourceKind::Machine { 10.0 } else { 100.0 };
    for (minutes, length) in of.minutes.iter_mut().zip(lengths) {
        #[expect(clippy::cast_precision_loss, reason = "a slot has far fewer than 2^52 seconds")]
        let open = length as f64 / 60.0 * floor;
        *minutes = minutes.max(open);
    }
}

/// Least lateness, by demand.
fn lateness(problem: &Problem) -> Result<Vec<f64>, SolveError> {
    let flows: Vec<f64> = problem.steps.iter().map(|step| step.good).collect();
    let model = PlanModel::build(problem, &flows, &Reserve::none(problem), Ready::AtEnd);
    let answer = solve(&model.lateness_model())?;
    Ok(model
        .shipped
        .iter()
        .zip(&model.owed)
        .map(|(shipped, owed)| {
            shipped.iter().chain([owed]).map(|place| answer.values[*place] * model.lateness[*place]).sum()
        })
        .collect())
}
