//! What would bring late orders in time: single things that do alone, the least sets that do together, dates that can be kept.
//!
//! A program with a column for each thing proposes; every proposal is then planned like any problem, and only what that plan
//! shows is told.

use super::super::plan::Plan;
use super::super::planner::{PlanError, Planned, Search, plan as make_plan};
use super::super::problem::Problem;
use super::base::all_weighed;
use super::candidates::{candidates, grouped};
use super::elastic::{Elastic, MARGINS};
use super::late::LateOrder;
use super::relaxation::{Relaxation, in_time, moved};
use super::shortfall::most_in_time;
use super::waits::Wait;
use std::sync::atomic::{AtomicBool, Ordering};

/// A proposal and the plan it leads to.
#[derive(Debug, Clone, PartialEq)]
pub struct WayOut {
    /// The orders it is for.
    pub demands: Vec<usize>,
    /// What is asked for.
    pub relaxations: Vec<Relaxation>,
    /// The plan with it.
    pub tried: Tried,
    /// How it stands.
    pub standing: Suffices,
}

/// What a plan with something granted comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// Orders late.
    pub late: usize,
    /// Lateness, weighted piece-hours.
    pub lateness: f64,
    /// Money more than without.
    pub money: f64,
    /// When the order is complete; of several, the last of them.
    pub finish: Option<i64>,
}

/// Whether a proposal does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Suffices {
    /// It does alone.
    Alone,
    /// All of it is needed: without any one part, the plan was late again.
    Together,
    /// For a part of the order.
    InPart,
    /// It helps and is not enough.
    NotEnough,
}

/// Orders looked at one by one, single things asked of the program and planned for each, and rounds for each plan.
const ORDERS: usize = 3;
const LOOKED_AT: usize = 12;
const SINGLES: usize = 3;
const ROUNDS: usize = 3;

/// Ways out for late orders, each tried: single ones first, the cheapest first. What ends the search for plans ends this one.
///
/// # Errors
/// [`PlanError`] of the plans made and programs solved.
pub fn ways_out(
    problem: &Problem,
    planned: &Planned,
    late: &[LateOrder],
    stop: Option<&AtomicBool>,
) -> Result<Vec<WayOut>, PlanError> {
    let problem = &all_weighed(problem);
    let desk = Desk { problem, planned, stop };
    let mut ways = Vec::new();
    let mut orders: Vec<&LateOrder> = late.iter().collect();
    orders.sort_by(|one, other| {
        let lateness = |of: &LateOrder| planned.plan.piece_hours_late(problem, of.demand);
        lateness(other).total_cmp(&lateness(one)).then(one.demand.cmp(&other.demand))
    });
    for order in orders.iter().copied().take(ORDERS) {
        if desk.is_stopped() {
            return Ok(ways);
        }
        let mut own = desk.by_granting(&[order])?;
        own.extend(desk.date(order.demand)?);
        own.extend(desk.part(order.demand)?);
        own.sort_by_key(rank);
        ways.extend(own);
    }
    if orders.len() > 1 && !desk.is_stopped() {
        let mut all = desk.by_granting(&orders)?;
        all.sort_by_key(rank);
        ways.extend(all);
    }
    Ok(ways)
}

/// Machines and crews that late orders are short of; where no hours are short, those that their chains lead to.
fn places(late: &[&LateOrder]) -> Vec<usize> {
    let mut places = Vec::new();
    for order in late {
        let alone = order.short.alone.iter().filter(|short| short.hours.is_some());
        let short: Vec<usize> =
            alone.map(|short| short.resource).chain(order.short.made_up_of.iter().copied()).collect();
        if short.is_empty() {
            places.extend(order.links.iter().filter_map(|link| match link.waited_for {
                Wait::People(crew) => Some(crew),
                Wait::MachineBusy | Wait::MachineClosed => link.machine,
                _ => None,
            }));
        }
        places.extend(short);
    }
    places.sort_unstable();
    places.dedup();
    places
}

fn rank(way: &WayOut) -> (usize, i64) {
    let standing = match way.standing {
        Suffices::Alone if matches!(way.relaxations[..], [Relaxation::Date { .. }]) => 2,
        Suffices::Alone => 0,
        Suffices::Together => 1,
        Suffices::InPart => 3,
        Suffices::NotEnough => 4,
    };
    #[expect(clippy::cast_possible_truncation, reason = "money of a plan is far below 2^53")]
    let money = (way.tried.money * 100.0).round() as i64;
    (standing, money)
}

struct Desk<'a> {
    problem: &'a Problem,
    planned: &'a Planned,
    stop: Option<&'a AtomicBool>,
}

impl Desk<'_> {
    fn plan(&self) -> &Plan {
        &self.planned.plan
    }

    fn is_stopped(&self) -> bool {
        self.stop.is_some_and(|stop| stop.load(Ordering::Relaxed))
    }

    /// The least set of things, and single ones that do alone.
    fn by_granting(&self, late: &[&LateOrder]) -> Result<Vec<WayOut>, PlanError> {
        let demands: Vec<usize> = late.iter().map(|order| order.demand).collect();
        let by = demands.iter().map(|demand| self.problem.demands[*demand].due).max().unwrap_or(0);
        let all = candidates(self.problem, self.plan(), &places(late), by);
        let mut ways: Vec<WayOut> = Vec::new();
        if all.is_empty() {
            return Ok(ways);
        }
        for margin in MARGINS {
            let elastic = Elastic::of(self.problem, self.plan(), &demands, &all, margin)?;
            let Some(set) = elastic.least_set()? else { break };
            let set: Vec<Relaxation> = set.into_iter().map(|id| all[id].clone()).collect();
            if set.is_empty() {
                continue;
            }
            let way = self.needed_together(&demands, grouped(set))?;
            let enough = way.standing != Suffices::NotEnough;
            ways.push(way);
            if enough {
                // A date already kept by one time alone may be kept by others.
                let singles = self.singles(&demands, &all, &elastic)?;
                let known = |way: &WayOut| ways.iter().any(|known| known.relaxations == way.relaxations);
                let others: Vec<WayOut> = singles.into_iter().filter(|way| !known(way)).collect();
                ways.extend(others);
                break;
            }
        }
        // What is not enough is told only where nothing is, and only if it helps.
        if ways.iter().any(|way| way.standing != Suffices::NotEnough) {
            ways.retain(|way| way.standing != Suffices::NotEnough);
        } else {
            ways.retain(|way| way.tried.lateness < self.plan().lateness(self.problem) - 1e-6);
            ways.sort_by(|one, other| one.tried.lateness.total_cmp(&other.tried.lateness));
            ways.truncate(1);
        }
        Ok(ways)
    }

    /// Things that do alone, the shorter and then the earlier first.
    fn singles(
        &self,
        demands: &[usize],
        all: &[Relaxation],
        elastic: &Elastic,
    ) -> Result<Vec<WayOut>, PlanError> {
        let mut order: Vec<usize> = (0..all.len()).collect();
        order.sort_by(|one, other| all[*one].hours().total_cmp(&all[*other].hours()).then(one.cmp(other)));
        let mut ways = Vec::new();
        let mut tried = 0;
        for id in order.into_iter().take(LOOKED_AT) {
            if tried >= SINGLES || self.is_stopped() {
                break;
            }
            if elastic.least(|other| other == id)?.is_some() {
                tried += 1;
                ways.extend(self.alone(demands, &all[id])?);
            }
        }
        Ok(ways)
    }

    fn alone(&self, demands: &[usize], relaxation: &Relaxation) -> Result<Option<WayOut>, PlanError> {
        let relaxations = vec![relaxation.clone()];
        let (tried, enough) = self.trial(demands, &relaxations)?;
        let way = WayOut { demands: demands.to_vec(), relaxations, tried, standing: Suffices::Alone };
        Ok(enough.then_some(way))
    }

    /// A set, tried, and again without each of its parts: what can be left out is.
    fn needed_together(&self, demands: &[usize], mut set: Vec<Relaxation>) -> Result<WayOut, PlanError> {
        let (mut tried, enough) = self.trial(demands, &set)?;
        if enough {
            let mut at = 0;
            while at < set.len() && set.len() > 1 {
                let mut without = set.clone();
                without.remove(at);
                let (less, still) = self.trial(demands, &without)?;
                if still {
                    (set, tried) = (without, less);
                } else {
                    at += 1;
                }
            }
        }
        let standing = match (enough, set.len()) {
            (false, _) => Suffices::NotEnough,
            (true, 1) => Suffices::Alone,
            (true, _) => Suffices::Together,
        };
        Ok(WayOut { demands: demands.to_vec(), relaxations: set, tried, standing })
    }

    /// Plans with things granted: what comes of it, and whether the orders are in time and no other is late that was not.
    fn trial(&self, demands: &[usize], set: &[Relaxation]) -> Result<(Tried, bool), PlanError> {
        let mut granted = self.problem.clone();
        for relaxation in set {
            relaxation.grant(&mut granted);
        }
        let planned = make_plan(&granted, &Search { rounds: ROUNDS, stop: self.stop, ..Search::default() })?;
        let count = self.problem.demands.len();
        let is_late = |demand: usize| planned.plan.piece_hours_late(&granted, demand) > 1e-9;
        let was_late = |demand: usize| self.plan().piece_hours_late(self.problem, demand) > 1e-9;
        let enough =
            (0..count).all(|demand| !is_late(demand) || (was_late(demand) && !demands.contains(&demand)));
        let money = planned.cost - moved(self.plan(), self.problem, &granted).cost(&granted);
        let (problem, plan) = joined(self.problem, granted, planned.plan);
        let late = (0..count).filter(|demand| plan.piece_hours_late(&problem, *demand) > 1e-9).count();
        let finishes: Option<Vec<i64>> =
            demands.iter().map(|demand| plan.finish(&problem, *demand)).collect();
        let finish = finishes.and_then(|all| all.into_iter().max());
        let tried = Tried { late, lateness: plan.lateness(&problem), money, finish };
        Ok((tried, enough))
    }

    /// The earliest date that can be promised for an order: ends of slots, and when this plan has it done, halved.
    fn date(&self, demand: usize) -> Result<Option<WayOut>, PlanError> {
        let due = self.problem.demands[demand].due;
        let Some(finish) = self.plan().finish(self.problem, demand) else { return Ok(None) };
        let mut dates: Vec<i64> = self.problem.slots.iter().map(|slot| slot.end).collect();
        dates.retain(|date| *date > due && *date < finish);
        // This plan keeps the date on which it has the order done.
        let kept = |date: i64, tried: Tried| WayOut {
            demands: vec![demand],
            relaxations: vec![Relaxation::Date { demand, due: date }],
            tried,
            standing: Suffices::Alone,
        };
        let (mut low, mut high) = (0, dates.len());
        let mut best = kept(finish, self.as_planned(demand, finish));
        // A later date never makes it harder.
        while low < high && !self.is_stopped() {
            let middle = usize::midpoint(low, high);
            let asked = Relaxation::Date { demand, due: dates[middle] };
            if let Some(way) = self.alone(&[demand], &asked)? {
                // The plan may be done earlier than the date asked for.
                let done = way.tried.finish.filter(|done| *done > due).unwrap_or(dates[middle]);
                best = kept(done, way.tried);
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        Ok(Some(best))
    }

    /// What this plan comes to with another date for an order.
    fn as_planned(&self, demand: usize, due: i64) -> Tried {
        let mut asked = self.problem.clone();
        asked.demands[demand].due = due;
        let late = |demand: &usize| self.plan().piece_hours_late(&asked, *demand) > 1e-9;
        Tried {
            late: (0..asked.demands.len()).filter(late).count(),
            lateness: self.plan().lateness(&asked),
            money: 0.0,
            finish: self.plan().finish(self.problem, demand),
        }
    }

    /// Pieces of an order that can leave by its date, if the others follow: as many as the program says, or as the plan has.
    fn part(&self, demand: usize) -> Result<Option<WayOut>, PlanError> {
        let planned = in_time(self.problem, self.plan(), demand);
        let most = most_in_time(self.problem, self.plan(), demand)?;
        let part = |pieces: u32, tried: Tried| WayOut {
            demands: vec![demand],
            relaxations: vec![Relaxation::Part { demand, pieces }],
            tried,
            standing: Suffices::InPart,
        };
        if most > planned && !self.is_stopped() {
            let (tried, enough) = self.trial(&[demand], &[Relaxation::Part { demand, pieces: most }])?;
            if enough {
                return Ok(Some(part(most, tried)));
            }
        }
        let as_it_is = self.as_planned(demand, self.problem.demands[demand].due);
        Ok((planned > 0).then(|| part(planned, as_it_is)))
    }
}

/// An order of which a part was asked for apart, whole again: it is as late as its last pieces are.
fn joined(asked: &Problem, granted: Problem, mut plan: Plan) -> (Problem, Plan) {
    let count = asked.demands.len();
    if granted.demands.len() == count {
        return (granted, plan);
    }
    for shipment in plan.shipments.iter_mut().filter(|shipment| shipment.demand >= count) {
        let name = &granted.demands[shipment.demand].name;
        if let Some(of) = asked.demands.iter().position(|demand| demand.name == *name) {
            shipment.demand = of;
        }
    }
    (Problem { demands: asked.demands.clone(), ..granted }, plan)
}
