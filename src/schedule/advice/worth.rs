//! What one more of a scarce thing would save, and one less cost: the program around the plan, solved again each time.
//!
//! Prices of the program say only which things to look at. What is shown is the difference of two answers, lateness first and
//! then money, on either side: where the program is degenerate the two sides differ, and both are shown.

use super::super::lp::PlanModel;
use super::super::plan::Plan;
use super::super::problem::{Problem, ResourceKind};
use super::super::program::{SolveError, solve, solve_priced};
use super::base::{Base, IN_TIME, Value, model};
use std::collections::BTreeSet;

/// A thing of which more might help.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scarce {
    /// An hour of a machine in which it can run, or one more person of a crew for a shift; on one day or in the whole plan.
    Resource {
        /// The resource.
        resource: usize,
        /// Day of the plan; `None`: put where it does most good.
        day: Option<i64>,
    },
    /// An edge of a stock, there from the start.
    Edge(usize),
    /// A day of grace for an order.
    Grace(usize),
}

/// Lateness and money saved, or lost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// Weighted piece-hours.
    pub lateness: f64,
    /// Money, at the lateness of each side.
    pub money: f64,
}

/// What a scarce thing is worth.
#[derive(Debug, Clone, PartialEq)]
pub struct Worth {
    /// The thing.
    pub of: Scarce,
    /// Saved by one more.
    pub more: Difference,
    /// Lost by one less; `None` where there is none to lose.
    pub less: Option<Difference>,
    /// As many more as each save as much as the first: found by solving at two, four and eight; `None` where nobody looked, on
    /// the days of a resource.
    pub holds: Option<u32>,
}

/// Machines, crews and edges looked at, orders, and machines and crews looked at day by day.
const MOST: usize = 6;
const ORDERS: usize = 4;
const BY_DAY: usize = 1;

/// What things are worth that hold this plan back, the dearest first.
///
/// # Errors
/// [`SolveError`] of the programs solved.
pub fn worths(problem: &Problem, plan: &Plan) -> Result<Vec<Worth>, SolveError> {
    let base = Base::of(problem, plan)?;
    let prices = prices(&base)?;
    let mut things = scarce(problem, &base, &prices);
    things.sort_by(|one, other| other.1.total_cmp(&one.1));
    things.truncate(MOST);
    let mut found = Vec::new();
    for (of, _) in things {
        found.extend(worth(problem, &base, of)?);
    }
    for demand in orders(problem, plan) {
        found.extend(worth(problem, &base, Scarce::Grace(demand))?);
    }
    found.sort_by(|one, other| size(other).total_cmp(&size(one)));
    let mut all = Vec::new();
    let mut by_day = 0;
    for one in found {
        let of = one.of;
        all.push(one);
        if let Scarce::Resource { resource, day: None } = of
            && by_day < BY_DAY
        {
            by_day += 1;
            all.extend(days_of(problem, &base, resource, &prices)?);
        }
    }
    Ok(all)
}

/// Orders for which a day of grace is reckoned: the latest first, then those due first.
fn orders(problem: &Problem, plan: &Plan) -> Vec<usize> {
    let demands = &problem.demands;
    let mut orders: Vec<usize> =
        (0..demands.len()).filter(|demand| demands[*demand].market.is_none()).collect();
    orders.sort_by(|one, other| {
        let late = |demand: usize| plan.piece_hours_late(problem, demand);
        late(*other).total_cmp(&late(*one)).then(demands[*one].due.cmp(&demands[*other].due))
    });
    orders.truncate(ORDERS);
    orders
}

/// Lateness counts before any money.
fn size(worth: &Worth) -> f64 {
    worth.more.lateness * 1e9 + worth.more.money
}

/// Price of each row; where the prices cannot be proven, 1 for each row that is full.
fn prices(base: &Base) -> Result<Vec<f64>, SolveError> {
    let model =
        if base.value.lateness > 0.0 { base.model.lateness_model() } else { base.model.money_model(0.0) };
    match solve_priced(&model) {
        Ok(priced) => Ok(priced.row_prices.iter().map(|price| price.abs()).collect()),
        Err(SolveError::Fault(_)) => {
            let answer = solve(&model)?;
            let full = |row: &super::super::program::Row| {
                let slack = row.upper - row.sum(&answer.values);
                if slack <= 1e-6 * row.upper.abs().max(1.0) { 1.0 } else { 0.0 }
            };
            Ok(model.rows.iter().map(full).collect())
        }
        Err(other) => Err(other),
    }
}

/// Things whose rows have a price, with it.
fn scarce(problem: &Problem, base: &Base, prices: &[f64]) -> Vec<(Scarce, f64)> {
    let mut things = Vec::new();
    for (resource, of) in problem.resources.iter().enumerate() {
        if of.kind == ResourceKind::Outside {
            continue;
        }
        let rows = base.rows_of(resource);
        let price = rows.iter().map(|(slot, row)| prices[*row] * unit(problem, resource, *slot));
        things.push((Scarce::Resource { resource, day: None }, price.fold(0.0, f64::max)));
    }
    for (id, rows) in base.model.edge_rows.iter().enumerate() {
        things.push((Scarce::Edge(id), rows.iter().flatten().map(|row| prices[*row]).sum()));
    }
    things.retain(|(_, price)| *price > 1e-7);
    things
}

/// Days on which an hour is worth something else than in the whole plan.
fn days_of(
    problem: &Problem,
    base: &Base,
    resource: usize,
    prices: &[f64],
) -> Result<Vec<Worth>, SolveError> {
    let rows = base.rows_of(resource);
    let of_day = |day: i64| {
        let rows = rows.iter().filter(|(slot, _)| day_of(problem, *slot) == day);
        rows.map(|(slot, row)| prices[*row] * unit(problem, resource, *slot)).fold(0.0, f64::max)
    };
    let days: BTreeSet<i64> = rows.iter().map(|(slot, _)| day_of(problem, *slot)).collect();
    let most = days.iter().map(|day| of_day(*day)).fold(0.0, f64::max);
    if days.iter().all(|day| of_day(*day) > 0.999 * most) {
        return Ok(Vec::new());
    }
    let mut found = Vec::new();
    for day in days.into_iter().filter(|day| of_day(*day) > 1e-7) {
        found.extend(worth(problem, base, Scarce::Resource { resource, day: Some(day) })?);
    }
    Ok(found)
}

/// Day of the plan on which a slot begins.
pub(super) fn day_of(problem: &Problem, slot: usize) -> i64 {
    problem.slots[slot].start.div_euclid(86_400)
}

/// Minutes of one unit: an hour of a machine, a person for the shift.
fn unit(problem: &Problem, resource: usize, slot: usize) -> f64 {
    let of = &problem.resources[resource];
    if of.kind != ResourceKind::Crew {
        return 60.0;
    }
    let seconds: i64 = of.windows.get(slot).into_iter().flatten().map(|(from, to)| to - from).sum();
    #[expect(clippy::cast_precision_loss, reason = "a slot has far fewer than 2^52 seconds")]
    let minutes = seconds as f64 / 60.0;
    minutes
}

/// What a thing is worth; `None` where one more saves nothing and one less costs nothing.
fn worth(problem: &Problem, base: &Base, of: Scarce) -> Result<Option<Worth>, SolveError> {
    let Some(one) = with(problem, base, of, 1.0) else { return Ok(None) };
    let more = saved(base.value, base.value_of(&one)?);
    let less = match with(problem, base, of, -1.0).map(|model| base.value_of(&model)) {
        Some(Ok(value)) => Some(saved(value, base.value)),
        None | Some(Err(SolveError::Infeasible)) => None,
        Some(Err(other)) => return Err(other),
    };
    let least = IN_TIME.max(1e-6 * base.value.lateness);
    let least_money = 1e-6 * base.value.money.abs().max(1.0);
    let counts = |of: &Difference| of.lateness.abs() > least || of.money.abs() > least_money;
    if !counts(&more) && !less.as_ref().is_some_and(counts) {
        return Ok(None);
    }
    if matches!(of, Scarce::Resource { day: Some(_), .. }) {
        return Ok(Some(Worth { of, more, less, holds: None }));
    }
    let mut holds = u32::from(counts(&more));
    for units in [2, 4, 8] {
        if holds == 0 || holds * 2 != units {
            break;
        }
        let Some(model) = with(problem, base, of, f64::from(units)) else { break };
        let all = saved(base.value, base.value_of(&model)?);
        let (got, first) =
            if more.lateness > least { (all.lateness, more.lateness) } else { (all.money, more.money) };
        if got >= 0.99 * f64::from(units) * first {
            holds = units;
        }
    }
    Ok(Some(Worth { of, more, less, holds: Some(holds) }))
}

fn saved(before: Value, after: Value) -> Difference {
    Difference { lateness: before.lateness - after.lateness, money: before.money - after.money }
}

/// The program with so many more of a thing, or so many less.
fn with(problem: &Problem, base: &Base, of: Scarce, units: f64) -> Option<PlanModel> {
    match of {
        Scarce::Resource { resource, day } => {
            let rows = base.rows_of(resource);
            let rows: Vec<(usize, f64)> = rows
                .into_iter()
                .filter(|(slot, _)| day.is_none_or(|day| day_of(problem, *slot) == day))
                .filter(|(slot, _)| problem.resources[resource].minutes[*slot] > 0.0)
                .map(|(slot, row)| (row, unit(problem, resource, slot)))
                .filter(|(_, unit)| *unit > 0.0)
                .collect();
            (!rows.is_empty()).then(|| spread(&base.model, &rows, units))
        }
        Scarce::Edge(stock) => {
            let mut changed = problem.clone();
            let arrivals = &mut changed.edge_stocks[stock].arrivals;
            let edges = super::base::whole(units.abs());
            if units > 0.0 {
                *arrivals.first_mut()? += edges;
            } else {
                let first = arrivals.iter_mut().find(|edges| **edges > 0)?;
                *first = first.checked_sub(edges)?;
            }
            Some(model(&changed, &base.reserve))
        }
        Scarce::Grace(demand) => {
            let mut changed = problem.clone();
            #[expect(clippy::cast_possible_truncation, reason = "a few days")]
            let days = units.round() as i64;
            changed.demands[demand].due += days * 86_400;
            Some(model(&changed, &base.reserve))
        }
    }
}

/// So many units more, put into the rows where they do most good, or less, taken where they do least harm.
fn spread(base: &PlanModel, rows: &[(usize, f64)], units: f64) -> PlanModel {
    let mut changed = base.clone();
    let mut all = Vec::new();
    for (row, minutes) in rows {
        let name = format!("{}[{}]", if units > 0.0 { "more" } else { "less" }, base.model.rows[*row].name);
        let there = (base.model.rows[*row].upper / minutes).max(0.0);
        let upper = if units > 0.0 { units } else { there.min(-units) };
        let place = changed.model.column(name, upper, 0.0);
        changed.lateness.push(0.0);
        changed.model.rows[*row].terms.push((place, -minutes * units.signum()));
        all.push((place, 1.0));
    }
    if units > 0.0 {
        changed.model.at_most("more".into(), all, units);
    } else {
        changed.model.equal("less".into(), all, -units);
    }
    changed
}
