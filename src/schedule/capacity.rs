//! Steady state: how many matched sets the plant makes when everything flows, and what holds it back.

use super::problem::{Problem, ResourceKind};
use super::program::Model;
use super::program::{SolveError, solve};

/// The steady state of a horizon.
#[derive(Debug, Clone, PartialEq)]
pub struct Capacity {
    /// Units of the mix made over the horizon.
    pub units: f64,
    /// Pieces started over the horizon, by activity.
    pub started: Vec<f64>,
    /// Minutes used over the horizon, by resource.
    pub used: Vec<f64>,
    /// Minutes open over the horizon, by resource.
    pub open: Vec<f64>,
    /// Units of the mix gained over the horizon by one more hour of a resource in it, by resource; `None` where it is not
    /// used up.
    pub one_more_hour: Vec<Option<f64>>,
}

/// Slots that are alike: same minutes of every resource.
struct Class {
    slot: usize,
    count: f64,
}

/// Largest output of a mix, pieces by final step in one unit; then, at that output, least money.
///
/// # Errors
/// [`SolveError`] of the programs solved.
pub fn capacity(problem: &Problem, mix: &[(usize, f64)]) -> Result<Capacity, SolveError> {
    let classes = classes(problem);
    // Nothing asked for, nothing made.
    let (units, started) = if mix.is_empty() {
        (0.0, vec![0.0; problem.activities.len()])
    } else {
        largest(problem, mix, &classes)?
    };
    let used: Vec<f64> = (0..problem.resources.len())
        .map(|resource| {
            problem
                .activities
                .iter()
                .zip(&started)
                .map(|(activity, pieces)| minutes_of(activity, resource) * pieces)
                .sum()
        })
        .collect();
    let open: Vec<f64> = problem.resources.iter().map(|resource| resource.minutes.iter().sum()).collect();
    let mut one_more_hour = vec![None; problem.resources.len()];
    for resource in 0..problem.resources.len() {
        // A resource may be short in some shifts only, so each one with some load is tried.
        // Of a firm outside the minutes are pieces: it has no hours.
        let outside = problem.resources[resource].kind == ResourceKind::Outside;
        if !outside && used[resource] > 0.4 * open[resource] && units > 0.0 {
            one_more_hour[resource] =
                hour_gain(problem, mix, resource, units)?.filter(|gain| *gain > 1e-6 * units);
        }
    }
    Ok(Capacity { units, started, used, open, one_more_hour })
}

/// Largest output of a mix alone.
///
/// # Errors
/// [`SolveError`] of the program solved.
pub fn output(problem: &Problem, mix: &[(usize, f64)]) -> Result<f64, SolveError> {
    if mix.is_empty() { Ok(0.0) } else { largest(problem, mix, &classes(problem)).map(|(units, _)| units) }
}

/// Units gained by sixty minutes more, spread over the slots in which the resource is open.
fn hour_gain(
    problem: &Problem,
    mix: &[(usize, f64)],
    resource: usize,
    units: f64,
) -> Result<Option<f64>, SolveError> {
    let total: f64 = problem.resources[resource].minutes.iter().sum();
    if total <= 0.0 || !total.is_finite() {
        return Ok(None);
    }
    let mut more = problem.clone();
    for minutes in &mut more.resources[resource].minutes {
        *minutes *= (total + 60.0) / total;
    }
    let (gained, _) = largest(&more, mix, &classes(&more))?;
    Ok(Some(gained - units))
}

fn classes(problem: &Problem) -> Vec<Class> {
    let mut classes: Vec<Class> = Vec::new();
    for slot in 0..problem.slots.len() {
        #[expect(
            clippy::float_cmp,
            reason = "slots are alike only if their minutes come from the same numbers"
        )]
        let alike = classes.iter_mut().find(|class| {
            problem.resources.iter().all(|resource| {
                resource.minutes[slot] == resource.minutes[class.slot]
                    && resource.cost[slot] == resource.cost[class.slot]
            })
        });
        match alike {
            Some(class) => class.count += 1.0,
            None => classes.push(Class { slot, count: 1.0 }),
        }
    }
    classes
}

fn largest(
    problem: &Problem,
    mix: &[(usize, f64)],
    classes: &[Class],
) -> Result<(f64, Vec<f64>), SolveError> {
    let mut model = Model::default();
    let units = model.column("units".into(), f64::INFINITY, -1.0);
    let columns: Vec<Vec<usize>> = problem
        .activities
        .iter()
        .enumerate()
        .map(|(at, activity)| {
            classes
                .iter()
                .map(|class| {
                    let open = activity.uses.iter().all(|(resource, minutes)| {
                        *minutes <= 0.0 || problem.resources[*resource].minutes[class.slot] > 0.0
                    });
                    let upper = if open { f64::INFINITY } else { 0.0 };
                    model.column(format!("start[{at},{}]", class.slot), upper, 0.0)
                })
                .collect()
        })
        .collect();
    for (id, resource) in problem.resources.iter().enumerate() {
        for (at, class) in classes.iter().enumerate() {
            let terms: Vec<_> = problem
                .activities
                .iter()
                .zip(&columns)
                .map(|(activity, places)| (places[at], minutes_of(activity, id)))
                .filter(|(_, minutes)| *minutes > 0.0)
                .collect();
            if !terms.is_empty() && resource.minutes[class.slot].is_finite() {
                let name = format!("minutes[{},{}]", resource.name, class.slot);
                model.at_most(name, terms, resource.minutes[class.slot] * class.count);
            }
        }
    }
    for (id, step) in problem.steps.iter().enumerate() {
        let mut terms: Vec<(usize, f64)> = Vec::new();
        for maker in problem.makers(id) {
            terms.extend(columns[maker].iter().map(|place| (*place, -step.good)));
        }
        for (user, pieces) in problem.users(id) {
            for maker in problem.makers(user) {
                terms.extend(columns[maker].iter().map(|place| (*place, pieces)));
            }
        }
        let asked: f64 = mix.iter().filter(|(of, _)| *of == id).map(|(_, pieces)| pieces).sum();
        if asked > 0.0 {
            terms.push((units, asked));
        }
        model.at_most(format!("flow[{}]", step.name), terms, 0.0);
    }
    let most = -solve(&model)?.cost;
    let cheapest = at_least_money(problem, model, &columns, (units, most), classes);
    let answer = solve(&cheapest)?;
    let started =
        columns.iter().map(|places| places.iter().map(|place| answer.values[*place]).sum()).collect();
    Ok((most, started))
}

/// The same rows, the output held, the money as cost.
fn at_least_money(
    problem: &Problem,
    mut model: Model,
    columns: &[Vec<usize>],
    output: (usize, f64),
    classes: &[Class],
) -> Model {
    let (units, most) = output;
    model.columns[units].cost = 0.0;
    // Further than the solver's own slack, or it finds no answer.
    model.columns[units].lower = most * (1.0 - 1e-7);
    for (activity, places) in problem.activities.iter().zip(columns) {
        for (class, place) in classes.iter().zip(places) {
            let minutes: f64 = activity
                .uses
                .iter()
                .map(|(resource, minutes)| minutes * problem.resources[*resource].cost[class.slot])
                .sum();
            // A hair of cost for each piece keeps pieces that nobody needs out of the answer.
            model.columns[*place].cost = activity.cost + minutes + 1e-6;
        }
    }
    model
}

fn minutes_of(activity: &super::problem::Activity, resource: usize) -> f64 {
    activity.uses.iter().filter(|(of, _)| *of == resource).map(|(_, minutes)| minutes).sum()
}
