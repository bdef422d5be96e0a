//! What would bring late orders in time: single things that do alone, the least sets that do together, dates that can be kept.
//!
//! A program with a column for each thing proposes; every proposal is then planned like any problem, and only what that plan
//! shows is told.

use super::super::plan::Plan;
use super::super::planner::{PlanError, Planned, Search, plan as make_plan};
use super::super::problem::Problem;
use super::base::all_weighed;
use super::candidates::{candidates, through_the_plan};
use super::elastic::{Elastic, MARGINS};
use super::relaxation::{Relaxation, in_time, moved};
use super::shortfall::most_in_time;

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
const LOOKED_AT: usize = 20;
const SINGLES: usize = 5;
const ROUNDS: usize = 6;

/// Ways out for late orders, each tried: single ones first, the cheapest first.
///
/// # Errors
/// [`PlanError`] of the plans made and programs solved.
pub fn ways_out(problem: &Problem, planned: &Planned, late: &[usize]) -> Result<Vec<WayOut>, PlanError> {
    let problem = &all_weighed(problem);
    let desk = Desk { problem, planned };
    let mut ways = Vec::new();
    let mut orders = late.to_vec();
    orders.sort_by(|one, other| {
        let lateness = |demand: usize| planned.plan.piece_hours_late(problem, demand);
        lateness(*other).total_cmp(&lateness(*one)).then(one.cmp(other))
    });
    for demand in orders.iter().take(ORDERS) {
        let mut own = desk.by_granting(&[*demand])?;
        own.extend(desk.date(*demand)?);
        own.extend(desk.part(*demand)?);
        own.sort_by_key(rank);
        ways.extend(own);
    }
    if orders.len() > 1 {
        orders.sort_unstable();
        let mut all = desk.by_granting(&orders)?;
        all.sort_by_key(rank);
        ways.extend(all);
    }
    Ok(ways)
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
}

impl Desk<'_> {
    fn plan(&self) -> &Plan {
        &self.planned.plan
    }

    /// Single things and the least set of them.
    fn by_granting(&self, demands: &[usize]) -> Result<Vec<WayOut>, PlanError> {
        let all = candidates(self.problem, self.plan(), demands);
        let mut ways: Vec<WayOut> = Vec::new();
        for margin in MARGINS {
            let elastic = Elastic::of(self.problem, self.plan(), demands, &all, margin)?;
            let Some(used) = elastic.least(|_| true)? else { break };
            let Some(set) = elastic.least_set()? else { break };
            if ways.is_empty() {
                ways = self.singles(demands, &all, &elastic, &used)?;
            }
            let set: Vec<Relaxation> = set.into_iter().map(|id| all[id].clone()).collect();
            if set.is_empty() {
                continue;
            }
            let way = self.needed_together(demands, set)?;
            let enough = way.standing != Suffices::NotEnough;
            let known = ways.iter().any(|known| known.relaxations == way.relaxations);
            if !known && (enough || way.tried.lateness < self.plan().lateness(self.problem) - 1e-6) {
                ways.push(way);
            }
            if enough {
                break;
            }
        }
        let enough = ways.iter().any(|way| way.standing != Suffices::NotEnough);
        // What is not enough is told only where nothing is.
        if enough {
            ways.retain(|way| way.standing != Suffices::NotEnough);
        } else {
            ways.sort_by(|one, other| one.tried.lateness.total_cmp(&other.tried.lateness));
            ways.truncate(1);
        }
        Ok(ways)
    }

    /// Things that do alone, most used by the program first; and the same time of every day where one time does not do.
    fn singles(
        &self,
        demands: &[usize],
        all: &[Relaxation],
        elastic: &Elastic,
        used: &[f64],
    ) -> Result<Vec<WayOut>, PlanError> {
        let resources: Vec<Option<usize>> =
            (0..all.len()).filter(|id| used[*id] > 1e-6).map(|id| all[id].resource()).collect();
        // What the program takes most of goes first, then the same machines and crews at other times, the shorter first.
        let mut order: Vec<usize> = (0..all.len()).collect();
        order.sort_by(|one, other| {
            let elsewhere = |id: usize| !resources.contains(&all[id].resource());
            used[*other]
                .total_cmp(&used[*one])
                .then(elsewhere(*one).cmp(&elsewhere(*other)))
                .then(all[*one].hours().total_cmp(&all[*other].hours()))
                .then(one.cmp(other))
        });
        order.truncate(LOOKED_AT);
        let mut ways = Vec::new();
        let mut joined: Vec<Relaxation> = Vec::new();
        let mut tried = 0;
        for id in order {
            if tried >= SINGLES {
                break;
            }
            if elastic.least(|other| other == id)?.is_some() {
                tried += 1;
                ways.extend(self.alone(demands, &all[id])?);
            } else if used[id] > 1e-6
                && let Some(every) = through_the_plan(all, &all[id])
                && !joined.contains(&every)
            {
                tried += 1;
                ways.extend(self.alone(demands, &every)?);
                joined.push(every);
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
        let planned = make_plan(&granted, &Search { rounds: ROUNDS, ..Search::default() })?;
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

    /// The earliest date that can be promised for an order: ends of slots, tried from the earliest that the program allows.
    fn date(&self, demand: usize) -> Result<Option<WayOut>, PlanError> {
        let due = self.problem.demands[demand].due;
        let Some(finish) = self.plan().finish(self.problem, demand) else { return Ok(None) };
        let mut dates: Vec<i64> = self.problem.slots.iter().map(|slot| slot.end).collect();
        dates.retain(|date| *date > due && *date < finish);
        dates.push(finish);
        let (mut low, mut best) = (0, None);
        let mut high = dates.len() - 1;
        // A later date never makes it harder, so halves do.
        while low <= high {
            let middle = usize::midpoint(low, high);
            let relaxation = Relaxation::Date { demand, due: dates[middle] };
            if let Some(way) = self.alone(&[demand], &relaxation)? {
                // The plan may be done earlier than the date asked for.
                let done = way.tried.finish.filter(|done| *done > due).unwrap_or(dates[middle]);
                let relaxations = vec![Relaxation::Date { demand, due: done }];
                best = Some(WayOut { relaxations, ..way });
                let Some(before) = middle.checked_sub(1) else { break };
                high = before;
            } else {
                low = middle + 1;
            }
        }
        Ok(best)
    }

    /// Pieces of an order that can leave by its date, if the others follow: as many as the program says, or as the plan has.
    fn part(&self, demand: usize) -> Result<Option<WayOut>, PlanError> {
        let planned = in_time(self.problem, self.plan(), demand);
        let most = most_in_time(self.problem, self.plan(), demand)?;
        for pieces in [most, planned] {
            if pieces == 0 || pieces < planned {
                continue;
            }
            let relaxations = vec![Relaxation::Part { demand, pieces }];
            let (tried, enough) = self.trial(&[demand], &relaxations)?;
            if enough {
                let demands = vec![demand];
                return Ok(Some(WayOut { demands, relaxations, tried, standing: Suffices::InPart }));
            }
        }
        Ok(None)
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
