//! Rows that every plan in whole numbers keeps and the linear program does not.
//!
//! For a step, a run J of the orders that it feeds, in order of due dates, and a slot l: what of J is shipped by l was started
//! early enough before it. With D the starts that J needs, less what lies there at the start, U the starts for what is not
//! shipped by l, x and n the pieces and the machines set up of each activity that makes the step in each slot u early enough:
//!
//! `sum of x in the cells not chosen + sum of M n in the cells chosen + U >= D`
//!
//! as no machine set up makes more than M, the most of the cells chosen. With `k = ceil(D / M)` and `r = D - M (k - 1)`,
//! the numbers n being whole, rounding gives
//!
//! `sum of x in the cells not chosen + r * sum of n in the cells chosen + U >= r k`,
//!
//! which for `D <= M` is the (l,S) inequality of lot sizing on echelon stock, with late orders. A cell is chosen if that makes
//! the left side smaller.

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
}

/// Orders that each step feeds, the earliest first.
pub(super) struct Echelons {
    needs: Vec<Vec<Need>>,
    /// Starts of each step that lie further on at the start, in stock of this step and all behind it.
    opening: Vec<f64>,
    makers: Vec<Vec<usize>>,
}

/// Longest run of orders taken together.
const RUN: usize = 6;
/// Part of the right side by which a row must be broken to be added.
const BROKEN: f64 = 0.01;

impl Echelons {
    pub(super) fn new(problem: &Problem, terms: &Terms<'_>) -> Self {
        let steps = problem.steps.len();
        let mut needs: Vec<Vec<Need>> = vec![Vec::new(); steps];
        let mut opening = vec![0.0; steps];
        let mut order: Vec<usize> = (0..problem.demands.len()).collect();
        order.sort_by_key(|demand| (problem.demands[*demand].due, *demand));
        for demand in order.into_iter().filter(|demand| problem.demands[*demand].market.is_none()) {
            for need in reach(problem, terms, demand) {
                needs[need.0].push(Need { demand, factor: need.1, lead: need.2 });
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
                    let cuts = (0..problem.slots.len())
                        .filter_map(|slot| self.cut(problem, setups, (step, run, slot), values));
                    let worst = cuts.max_by(|one, other| one.0.total_cmp(&other.0));
                    rows.extend(worst.map(|(_, row)| row));
                }
            }
        }
        rows
    }

    /// The row of a step, a run of orders and a slot, if values break it, and by which part of its right side.
    fn cut(
        &self,
        problem: &Problem,
        setups: &SetupModel,
        (step, run, slot): (usize, &[Need], usize),
        values: &[f64],
    ) -> Option<(f64, Row)> {
        let wanted: f64 = run.iter().map(|need| need.factor * problem.demands[need.demand].quantity).sum();
        let wanted = wanted - self.opening[step];
        let lead = run.iter().map(|need| need.lead).min()?;
        if wanted <= 1e-6 || slot < lead {
            return None;
        }
        let cells = || {
            let makers = self.makers[step].iter();
            makers.flat_map(|maker| setups.cells[*maker][..=slot - lead].iter())
        };
        let most = cells().map(most_of).fold(0.0, f64::max);
        let lots = (wanted / most - 1e-9).ceil().max(1.0);
        let rest = wanted - most * (lots - 1.0);
        let mut left = 0.0;
        let mut terms = Vec::new();
        for cell in cells() {
            let machines = values[cell.made] + cell.carried.map_or(0.0, |(carried, _)| values[carried]);
            if rest * machines < values[cell.started] {
                left += rest * machines;
                terms.push((cell.made, rest));
                terms.extend(cell.carried.map(|(carried, _)| (carried, rest)));
            } else {
                left += values[cell.started];
                terms.push((cell.started, 1.0));
            }
        }
        // What is not shipped by then: all, less what is shipped.
        let mut right = rest * lots;
        for need in run {
            right -= need.factor * problem.demands[need.demand].quantity;
            for column in &setups.shipped[need.demand][..=slot] {
                left -= need.factor * values[*column];
                terms.push((*column, -need.factor));
            }
        }
        let broken = (right - left) / (rest * lots).max(1.0);
        (broken > BROKEN).then(|| {
            let name = format!("lots[{step},{},{},{slot}]", run[0].demand, run.len());
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
