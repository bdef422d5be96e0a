//! Hours short: the least to add to one machine or crew alone that brings an order in time, as the program around the plan has it.

use super::super::lp::PlanModel;
use super::super::plan::Plan;
use super::super::problem::{Problem, ResourceKind};
use super::super::program::{SolveError, solve};
use super::base::whole;
use super::base::{Base, IN_TIME, all_weighed, rows_of};

/// What a late order is short of at one resource.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shortfall {
    /// The machine or crew.
    pub resource: usize,
    /// Hours to add in the shifts in which it works; `None`: no hours of it alone would do.
    pub hours: Option<f64>,
}

/// What a late order is short of.
#[derive(Debug, Clone, PartialEq)]
pub struct Shortfalls {
    /// At each resource that its route uses, fewest hours first; resources that alone cannot help stand last.
    pub alone: Vec<Shortfall>,
    /// Hours to add at all of them together; `None`: the route itself takes too long.
    pub together: Option<f64>,
    /// Those of which the least hours together are made up.
    pub made_up_of: Vec<usize>,
}

/// Hours below which nothing is short: the minutes alone would do.
const NONE_SHORT: f64 = 0.05;

/// Hours short at the resources that the route of an order uses.
///
/// # Errors
/// [`SolveError`] of the programs solved.
pub fn shortfalls(problem: &Problem, plan: &Plan, demand: usize) -> Result<Shortfalls, SolveError> {
    let problem = &all_weighed(problem);
    let mut model = Base::of(problem, plan)?.model;
    hold_in_time(&mut model, problem, plan, &[demand])?;
    let route = on_route(problem, demand);
    let used = least_hours(problem, &model, &route)?;
    let together = used.as_ref().map(|used| used.iter().sum::<f64>());
    let mut made_up_of = Vec::new();
    let mut alone = Vec::new();
    // Where all together do not help, none does alone; where no hours are short, none is asked.
    if together.is_some_and(|hours: f64| hours > NONE_SHORT) {
        let used = used.iter().flatten().zip(&route).filter(|(hours, _)| **hours > NONE_SHORT);
        made_up_of.extend(used.map(|(_, resource)| *resource));
        for resource in route {
            let hours = least_hours(problem, &model, &[resource])?.map(|hours| hours.iter().sum::<f64>());
            alone.push(Shortfall { resource, hours });
        }
    }
    alone.sort_by(|one, other| {
        let rank = |of: &Shortfall| of.hours.unwrap_or(f64::INFINITY);
        rank(one).total_cmp(&rank(other))
    });
    Ok(Shortfalls { alone, together, made_up_of })
}

/// Most pieces of an order that leave by its date as the program has it, nothing else later than in the plan.
pub(super) fn most_in_time(problem: &Problem, plan: &Plan, demand: usize) -> Result<u32, SolveError> {
    let base = Base::of(problem, plan)?;
    let mut model = base.model.clone();
    hold_in_time(&mut model, problem, plan, &[demand])?;
    let late = base.model.shipped[demand].iter().chain([&base.model.owed[demand]]);
    for place in late.filter(|place| base.model.lateness[**place] > 0.0) {
        model.model.columns[*place].upper = base.model.model.columns[*place].upper;
        model.model.columns[*place].cost = 1.0;
    }
    match solve(&model.model) {
        Ok(answer) => Ok(whole(problem.demands[demand].quantity - answer.cost + 1e-6)),
        Err(SolveError::Infeasible) => Ok(0),
        Err(other) => Err(other),
    }
}

/// Machines and crews that the route of an order uses.
pub(super) fn on_route(problem: &Problem, demand: usize) -> Vec<usize> {
    let needed = super::pegging::needed(problem, demand);
    let mut used = vec![false; problem.resources.len()];
    for activity in problem.activities.iter().filter(|activity| needed[activity.step] > 0.0) {
        let all = activity.uses.iter().map(|(resource, _)| *resource);
        for resource in all.chain(activity.machine).chain(activity.setter) {
            used[resource] = problem.resources[resource].kind != ResourceKind::Outside;
        }
    }
    (0..used.len()).filter(|resource| used[*resource]).collect()
}

/// Nothing of these orders may ship late, and nothing of the others later than in the plan, as the program counts it.
pub(super) fn hold_in_time(
    model: &mut PlanModel,
    problem: &Problem,
    plan: &Plan,
    demands: &[usize],
) -> Result<(), SolveError> {
    let answer = solve(&model.lateness_model())?;
    let of = |demand: usize| -> f64 {
        let places = model.shipped[demand].iter().chain([&model.owed[demand]]);
        places.map(|place| answer.values[*place] * model.lateness[*place]).sum()
    };
    let others = || (0..problem.demands.len()).filter(|demand| !demands.contains(demand));
    let own: f64 = demands.iter().map(|demand| of(*demand)).sum();
    let planned: f64 = demands.iter().map(|demand| plan.lateness_of(problem, *demand)).sum();
    let allowed = (answer.cost - own).max(plan.lateness(problem) - planned) + IN_TIME;
    let held: Vec<usize> = demands
        .iter()
        .flat_map(|demand| model.shipped[*demand].iter().chain([&model.owed[*demand]]))
        .copied()
        .filter(|place| model.lateness[*place] > 0.0)
        .collect();
    let mut late: Vec<(usize, f64)> = others()
        .flat_map(|demand| model.shipped[demand].iter().chain([&model.owed[demand]]))
        .map(|place| (*place, model.lateness[*place]))
        .collect();
    // Stock missing at the end, and work that was to go on, count as late too.
    let shipping: Vec<usize> = model.shipped.iter().flatten().chain(&model.owed).copied().collect();
    let missing =
        model.lateness.iter().enumerate().filter(|(place, late)| **late > 0.0 && !shipping.contains(place));
    late.extend(missing.map(|(place, late)| (place, *late)));
    late.retain(|(_, late)| *late > 0.0);
    for place in held {
        model.model.columns[place].upper = 0.0;
    }
    if !late.is_empty() {
        model.model.at_most("lateness of the others".into(), late, allowed);
    }
    for column in &mut model.model.columns {
        column.cost = 0.0;
    }
    Ok(())
}

/// Least hours added to some resources in the slots in which they work, by resource.
fn least_hours(
    problem: &Problem,
    model: &PlanModel,
    resources: &[usize],
) -> Result<Option<Vec<f64>>, SolveError> {
    let mut model = model.clone();
    let mut added = vec![Vec::new(); resources.len()];
    for (resource, added) in resources.iter().zip(&mut added) {
        for (slot, row) in rows_of(&model, *resource) {
            if problem.resources[*resource].minutes[slot] > 0.0 {
                let place = model.model.column(format!("added[{resource},{slot}]"), f64::INFINITY, 1.0);
                model.model.rows[row].terms.push((place, -60.0));
                added.push(place);
            }
        }
    }
    match solve(&model.model) {
        Ok(answer) => {
            let hours =
                |places: &Vec<usize>| places.iter().map(|place| answer.values[*place].max(0.0)).sum::<f64>();
            Ok(Some(added.iter().map(hours).collect()))
        }
        Err(SolveError::Infeasible) => Ok(None),
        Err(other) => Err(other),
    }
}
