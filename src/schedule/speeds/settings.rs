//! Settings of operations on machines, and what minutes and edges are worth to each in a priced program.

use super::super::build::{BuiltProblem, build_problem};
use super::super::lp::{PlanModel, Ready, Reserve};
use super::super::planner::first_reserve;
use super::super::program::{Model, Priced, SolveError, solve, solve_priced};
use super::super::scenario::Scenario;
use crate::cycle::OperationEstimate;
use crate::quantity::{Money, MoneyRate};

/// The program of a plan in which each operation may mix its settings on each machine.
pub(super) struct SettingsProgram {
    pub(super) built: BuiltProblem,
    pub(super) model: PlanModel,
}

/// The program solved: least lateness, then least money, with prices.
pub(super) struct Solved {
    pub(super) lateness: f64,
    pub(super) priced: Priced,
}

/// What an hour of the machine and of who attends is worth to a setting, and each edge beyond its price.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Worth {
    pub(super) minute: MoneyRate,
    pub(super) person: MoneyRate,
    pub(super) edges: Vec<Money>,
}

impl SettingsProgram {
    pub(super) fn new(scenario: &Scenario, estimates: &[OperationEstimate]) -> Self {
        let built = build_problem(scenario, estimates);
        let problem = &built.problem;
        let flows = problem.steps.iter().map(|step| step.good).collect();
        let reserve: Reserve = first_reserve(problem);
        let model = PlanModel::build(problem, &flows, &reserve, Ready::AtEnd);
        Self { built, model }
    }

    /// The money program with lateness at most so much.
    fn money(&self, lateness: f64) -> Model {
        self.model.money_model(lateness)
    }

    pub(super) fn least_lateness(&self) -> Result<f64, SolveError> {
        Ok(solve(&self.model.lateness_model())?.cost.max(0.0))
    }

    /// Least money at no more than so much lateness.
    pub(super) fn least_money(&self, lateness: f64) -> Result<f64, SolveError> {
        Ok(solve(&self.money(lateness))?.cost)
    }

    pub(super) fn solved(&self, lateness: f64) -> Result<Solved, SolveError> {
        Ok(Solved { lateness, priced: solve_priced(&self.money(lateness))? })
    }

    /// Pieces of an estimate in the answer, by slot.
    pub(super) fn pieces<'a>(
        &'a self,
        solved: &'a Solved,
        estimate: usize,
    ) -> impl Iterator<Item = f64> + 'a {
        self.model.started[estimate].iter().map(|place| solved.priced.values[*place].max(0.0))
    }

    /// What minutes and edges are worth to an estimate in a slot.
    pub(super) fn worth(&self, scenario: &Scenario, solved: &Solved, at: (usize, usize)) -> Worth {
        let (estimate, slot) = at;
        let problem = &self.built.problem;
        let activity = &problem.activities[estimate];
        let price = |row: Option<usize>| row.map_or(0.0, |row| -solved.priced.row_prices[row]).max(0.0);
        let mut minute = 0.0;
        let mut person = 0.0;
        for (resource, _) in &activity.uses {
            let of_slot =
                price(self.model.minutes_rows[*resource][slot]) + problem.resources[*resource].cost[slot];
            if activity.machine == Some(*resource) {
                minute += of_slot;
            } else {
                person += of_slot;
            }
        }
        let mut edges = vec![Money::ZERO; scenario.shop.tools.len()];
        for (point, tool) in problem.points.iter().zip(&self.built.tool_of) {
            if let Some(stock) = point.stock {
                let later = self.model.edge_rows[stock].iter().skip(slot).map(|row| price(*row));
                edges[tool.1] = Money::of(later.sum());
            }
        }
        Worth { minute: MoneyRate::per_h(60.0 * minute), person: MoneyRate::per_h(60.0 * person), edges }
    }

    /// The least that a piece of each estimate would bring at the prices of a program without some of them: below zero it would
    /// make the plan cheaper. The rows are the same.
    pub(super) fn reduced_costs(&self, prices: &[f64], lateness: f64) -> Vec<f64> {
        let money = self.money(lateness);
        let mut paid = vec![0.0; money.columns.len()];
        for (row, price) in money.rows.iter().zip(prices) {
            for (column, factor) in &row.terms {
                paid[*column] += factor * price;
            }
        }
        let least = |places: &Vec<usize>| {
            let open = places.iter().filter(|place| money.columns[**place].upper > 0.0);
            open.map(|place| money.columns[*place].cost - paid[*place]).fold(f64::INFINITY, f64::min)
        };
        self.model.started.iter().map(least).collect()
    }
}
