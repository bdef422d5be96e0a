//! Rows that every plan in whole numbers keeps and the linear program does not.
//!
//! For a step and a run J of the orders that it feeds, in order of due dates, let each order have a slot of its own, some slots
//! after its due date. What is shipped of the orders by their slots was started early enough before. With D the starts that J
//! needs, less what lies there at the start; U the starts for what is not shipped by then; x and n the pieces and the machines
//! set up of each activity that makes the step in each slot u; and c the least of what one machine makes in the slot and what
//! the orders whose slots u can still reach need:
//!
//! `sum of x in the cells not chosen + sum of c n in the cells chosen + U >= D`.
//!
//! With M the largest of the c, `k = ceil(D / M)` and `r = D - M (k - 1)`, rounding gives, the numbers n being whole,
//!
//! `sum of x in the cells not chosen + sum of min(r, c) n in the cells chosen + U >= r k`,
//!
//! which for `D <= M` is the (l,S) inequality of lot sizing, on echelon stock and with late orders. A cell is chosen if that
//! makes the left side smaller. Pieces are traced from the order back, so that this holds for routes and assemblies alike.

use super::super::problem::{Lag, Problem};
use super::super::program::Row;
use super::setup_model::{Cell, SetupModel, Terms};

/// What an order asks of a step.
#[derive(Debug, Clone, Copy)]
struct Need {
    demand: usize,
    /// Starts for a piece shipped.
    factor: f64,
    /// Slots from the start to the shipment, at least.
    lead: usize,
    /// Slot in which the order is due.
    due: usize,
}

/// Orders that each step feeds, the earliest first.
pub(super) struct Echelons {
    needs: Vec<Vec<Need>>,
    /// Starts of each step that lie further on at the start, in stock of this step and all behind it.
    opening: Vec<f64>,
    makers: Vec<Vec<usize>>,
}

/// Longest run of orders taken together.
const RUN: usize = 12;
/// Slots after its due date by which the slot of an order lies, at most.
const DELAY: usize = 6;
/// Part of the right side by which a row must be broken to be added.
const BROKEN: f64 = 1e-3;

impl Echelons {
    pub(super) fn new(problem: &Problem, terms: &Terms<'_>) -> Self {
        let steps = problem.steps.len();
        let mut needs: Vec<Vec<Need>> = vec![Vec::new(); steps];
        let mut opening = vec![0.0; steps];
        let mut order: Vec<usize> = (0..problem.demands.len()).collect();
        order.sort_by_key(|demand| (problem.demands[*demand].due, *demand));
        for demand in order {
            let in_time = problem.slots.iter().filter(|slot| slot.end <= problem.demands[demand].due);
            let due = in_time.count().saturating_sub(1);
            for (step, factor, lead) in reach(problem, terms, demand) {
                needs[step].push(Need { demand, factor, lead, due });
            }
        }
        for (step, opening) in opening.iter_mut().enumerate() {
            *opening = ahead(problem, terms, step);
        }
        let makers = (0..steps).map(|step| problem.makers(step).collect()).collect();
        Self { needs, opening, makers }
    }

    /// The rows that values break most: at most one for each step and run of orders.
    pub(super) fn broken(&self, problem: &Problem, setups: &SetupModel, values: &[f64]) -> Vec<Row> {
        let mut rows = Vec::new();
        for step in 0..self.needs.len() {
            if self.makers[step].iter().any(|maker| setups.cells[*maker].is_empty()) {
                continue;
            }
            for from in 0..self.needs[step].len() {
                for to in from + 1..=self.needs[step].len().min(from + RUN) {
                    let run = &self.needs[step][from..to];
                    let cuts =
                        (0..=DELAY).filter_map(|delay| self.cut(problem, setups, (step, run, delay), values));
                    let worst = cuts.max_by(|one, other| one.0.total_cmp(&other.0));
                    rows.extend(worst.map(|(_, row)| row));
                }
            }
        }
        rows
    }

    /// The row of a step, a run of orders and slots after their due dates, if values break it, and by which part.
    fn cut(
        &self,
        problem: &Problem,
        setups: &SetupModel,
        (step, run, delay): (usize, &[Need], usize),
        values: &[f64],
    ) -> Option<(f64, Row)> {
        let starts = |need: &Need| need.factor * problem.demands[need.demand].quantity;
        let last = |need: &Need| (need.due + delay).min(problem.slots.len() - 1);
        let wanted = run.iter().map(starts).sum::<f64>() - self.opening[step];
        if wanted <= 1e-6 {
            return None;
        }
        // Starts that a slot can still make for the orders.
        let reach: Vec<f64> = (0..problem.slots.len())
            .map(|slot| run.iter().filter(|need| slot + need.lead <= last(need)).map(starts).sum())
            .collect();
        let cells = || {
            let makers = self.makers[step].iter();
            let cells = makers.flat_map(|maker| setups.cells[*maker].iter().zip(&reach));
            cells.filter(|(_, reach)| **reach > 0.0).map(|(cell, reach)| (cell, most_of(cell).min(*reach)))
        };
        let most = cells().map(|(_, most)| most).fold(0.0, f64::max);
        if most <= 1e-6 {
            return None;
        }
        let lots = (wanted / most - 1e-9).ceil().max(1.0);
        let rest = wanted - most * (lots - 1.0);
        let mut left = 0.0;
        let mut terms = Vec::new();
        for (cell, most) in cells() {
            let machines = values[cell.made] + cell.carried.map_or(0.0, |(carried, _)| values[carried]);
            let each = rest.min(most);
            if each * machines < values[cell.started] {
                left += each * machines;
                terms.push((cell.made, each));
                terms.extend(cell.carried.map(|(carried, _)| (carried, each)));
            } else {
                left += values[cell.started];
                terms.push((cell.started, 1.0));
            }
        }
        // What is not shipped by then: all, less what is shipped.
        let mut right = rest * lots;
        for need in run {
            right -= starts(need);
            for column in &setups.shipped[need.demand][..=last(need)] {
                left -= need.factor * values[*column];
                terms.push((*column, -need.factor));
            }
        }
        let broken = (right - left) / (rest * lots).max(1.0);
        (broken > BROKEN).then(|| {
            let name = format!("lots[{step},{},{},{delay}]", run[0].demand, run.len());
            (broken, Row { name, lower: right, upper: f64::INFINITY, terms })
        })
    }
}

/// Most pieces that a machine set up for a cell makes.
fn most_of(cell: &Cell) -> f64 {
    cell.carried.map_or(cell.most_made, |_| cell.most_carried.max(cell.most_made))
}

/// Steps that an order draws on: starts for a piece shipped, and slots between at least.
fn reach(problem: &Problem, terms: &Terms<'_>, demand: usize) -> Vec<(usize, f64, usize)> {
    let last = problem.demands[demand].step;
    let mut factor = vec![0.0; last + 1];
    let mut lead = vec![usize::MAX; last + 1];
    (factor[last], lead[last]) = (1.0, 0);
    let mut found = Vec::new();
    for step in (0..=last).rev().filter(|step| *step <= last) {
        if factor[step] <= 0.0 {
            continue;
        }
        let starts = factor[step] / terms.flows[step].max(1e-9);
        found.push((step, starts, lead[step]));
        for (input, pieces) in &problem.steps[step].inputs {
            factor[*input] += starts * pieces;
            let more = usize::from(problem.steps[*input].lag == Lag::NextSlot);
            lead[*input] = lead[*input].min(lead[step] + more);
        }
    }
    found
}

/// Starts of a step that the stock of it and of all behind it stands for.
fn ahead(problem: &Problem, terms: &Terms<'_>, step: usize) -> f64 {
    // Pieces of the step in one piece of each step behind it.
    let mut inside = vec![0.0; problem.steps.len()];
    inside[step] = 1.0 / terms.flows[step].max(1e-9);
    let mut all = 0.0;
    for later in step..problem.steps.len() {
        if later > step {
            let of = &problem.steps[later];
            let pieces: f64 = of.inputs.iter().map(|(input, pieces)| inside[*input] * pieces).sum();
            inside[later] = pieces / terms.flows[later].max(1e-9);
        }
        all += inside[later] * problem.steps[later].opening;
    }
    all
}
