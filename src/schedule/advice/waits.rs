//! What a lot waited for while its machine stood idle.

use super::super::plan::Lot;
use super::super::problem::Problem;
use super::chain::{SHORT, Walk};

/// What is waited for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wait {
    /// The machine works.
    MachineBusy,
    /// The machine is closed.
    MachineClosed,
    /// Pieces of an earlier step.
    Pieces,
    /// People of a crew.
    People(usize),
    /// Edges of a stock.
    Edges(usize),
    /// Pieces that lie until the next shift begins.
    NextShift,
    /// Pieces that are on their way in boxes.
    Box,
    /// Nothing that this walk knows: machine, pieces, people and edges were there, and the plan put the work later.
    Nothing,
    /// The plan ends before all pieces are made.
    PlanEnd,
}

/// What a lot waited for, if not for pieces, since its machine fell idle.
pub(super) fn waited_for(walk: &Walk<'_>, lot: &Lot, idle_from: i64) -> Wait {
    let problem = walk.problem;
    let activity = &problem.activities[lot.activity];
    let Some(machine) = activity.machine else { return Wait::Nothing };
    if open_seconds(problem, machine, idle_from, lot.start) <= SHORT {
        return Wait::MachineClosed;
    }
    // The last slot in which it might have been done.
    let open = |slot: &usize| {
        let of = problem.slots[*slot];
        open_seconds(problem, machine, of.start.max(idle_from), of.end.min(lot.start)) > SHORT
    };
    let Some(slot) = (0..=lot.slot).rev().find(open) else { return Wait::MachineClosed };
    let crews = activity.uses.iter().map(|(resource, _)| *resource).chain(activity.setter);
    for crew in crews {
        if walk.crew_is_full(crew, slot) {
            return Wait::People(crew);
        }
    }
    let stocks = activity.wear.iter().filter_map(|wear| problem.points[wear.point].stock);
    for stock in stocks {
        let arrived = |by: usize| -> u32 { problem.edge_stocks[stock].arrivals[..=by].iter().sum() };
        if arrived(lot.slot) > arrived(slot) && edges_used(walk, stock, slot) >= arrived(slot) {
            return Wait::Edges(stock);
        }
    }
    Wait::Nothing
}

/// Edges of a stock put in by the end of a slot.
fn edges_used(walk: &Walk<'_>, stock: usize, slot: usize) -> u32 {
    let changes = walk.plan.changes.iter().filter(|change| walk.plan.lots[change.lot].slot <= slot);
    let points = changes.map(|change| &walk.problem.points[change.point]);
    points.filter(|point| point.stock == Some(stock)).map(|point| point.edges).sum()
}

/// Seconds between two times in which a machine works.
pub(super) fn open_seconds(problem: &Problem, machine: usize, from: i64, to: i64) -> i64 {
    let of = &problem.resources[machine];
    let slots = of.windows.iter().zip(&of.minutes).filter(|(_, minutes)| **minutes > 0.0);
    let windows = slots.flat_map(|(windows, _)| windows);
    windows.map(|(start, end)| ((*end).min(to) - (*start).max(from)).max(0)).sum()
}
