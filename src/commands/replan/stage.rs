//! Scenario and problem from which a plan is made: as written, or from a moment on.

use super::last::LastPlan;
use super::status::{apply, disagreements, outages};
use crate::commands::failure::Failure;
use crate::commands::study::Study;
use crate::diag::{Code, Diagnostic, Diagnostics};
use crate::input::{SavedReport, Status, read_status, saved_report};
use crate::schedule::{
    BuiltProblem, EdgeStock, FloorState, Scenario, build_problem, calendar_from, first_slot, kept_until,
    problem_from,
};
use std::path::PathBuf;

/// What a plan is made from.
pub(in crate::commands) struct Stage {
    /// The scenario; from a moment on without slots that have passed and what was shipped.
    pub(in crate::commands) scenario: Scenario,
    /// Its problem.
    pub(in crate::commands) built: BuiltProblem,
    /// The same as written, from the start of the plan.
    pub(in crate::commands) whole: BuiltProblem,
    /// The floor, if the plan is made from a moment on.
    pub(in crate::commands) state: Option<FloorState>,
    /// The last plan, if there is one.
    pub(in crate::commands) last: Option<LastPlan>,
}

impl Stage {
    /// Reads status and last plan and applies them.
    pub(in crate::commands) fn new(
        study: &mut Study,
        status: Option<&PathBuf>,
        last: Option<&PathBuf>,
    ) -> Result<Self, Failure> {
        let scenario = study.worked.scenario.clone();
        let mut whole = build_problem(&scenario, &study.worked.estimates);
        let mut found = Diagnostics::default();
        let status = match status {
            Some(path) => read_status(path, &scenario, &mut study.sources, &mut found)?,
            None => None,
        };
        if let Some(status) = &status {
            give_stocks(status, &mut whole, &scenario);
        }
        let report: Option<SavedReport> = match last {
            Some(path) => saved_report(path, &mut study.sources, &mut found)?,
            None => None,
        };
        let last = match report.map(|report| LastPlan::read(&report, &scenario, &whole)).transpose() {
            Ok(last) => last,
            Err(fault) => {
                found.push(fault.diagnostic());
                None
            }
        };
        let mut stage = Self { scenario, built: whole.clone(), whole, state: None, last };
        if let Some(status) = status.filter(|_| !found.has_errors()) {
            stage.move_to(&status, &mut found);
        }
        if found.has_errors() {
            return Err(Failure::Input(Box::new((found, std::mem::take(&mut study.sources)))));
        }
        study.warnings.extend(found.into_vec());
        Ok(stage)
    }

    /// Lets the plan begin at the moment of a status.
    fn move_to(&mut self, status: &Status, found: &mut Diagnostics) {
        let now = status.now.value;
        let earliest = self.last.as_ref().map_or(0, |last| last.from);
        if first_slot(&self.whole.problem, now).is_none() || now < earliest {
            let calendar = &self.scenario.calendar;
            let last = self.whole.problem.slots.last().map_or(0, |slot| slot.end);
            let (from, to) = (calendar.stamp(earliest), calendar.stamp(last));
            found.push(
                Diagnostic::new(Code::Calendar, format!("{} lies outside the plan", calendar.stamp(now)))
                    .at(status.now.span, format!("expected a time from {from} to {to}")),
            );
            return;
        }
        let problem = &self.whole.problem;
        let mut state = match &self.last {
            Some(last) => kept_until(problem, &last.past, now),
            None => FloorState { now, ..FloorState::at_start(problem) },
        };
        apply(status, &mut state, (&self.scenario, &self.whole), found);
        disagreements(&state, &self.whole, Some(status), found);
        let outages = outages(status, &self.scenario);
        self.built.problem = problem_from(problem, &state, &outages);
        self.scenario.calendar = calendar_from(&self.scenario.calendar, now);
        self.take_off_shipped(&state);
        self.state = Some(state);
    }

    /// Orders shipped in full are left out, others lose what was shipped.
    fn take_off_shipped(&mut self, state: &FloorState) {
        let open = |order: usize| {
            state.shipped[order] == 0 || state.shipped[order] < self.scenario.orders[order].quantity
        };
        let kept: Vec<usize> = (0..self.scenario.orders.len()).filter(|order| open(*order)).collect();
        let demands = &self.built.problem.demands;
        self.built.problem.demands = kept.iter().map(|order| demands[*order].clone()).collect();
        let orders = &self.scenario.orders;
        self.scenario.orders = kept
            .iter()
            .map(|order| {
                let mut left = orders[*order].clone();
                left.quantity = left.quantity.saturating_sub(state.shipped[*order]);
                left
            })
            .collect();
    }
}

/// Edges counted in the crib limit a plan also where the scenario has as many as are needed.
fn give_stocks(status: &Status, built: &mut BuiltProblem, scenario: &Scenario) {
    for (tool, edges) in &status.on_hand {
        let of_tool: Vec<usize> =
            (0..built.problem.points.len()).filter(|point| built.tool_of[*point].1 == tool.value).collect();
        if of_tool.is_empty() || of_tool.iter().any(|point| built.problem.points[*point].stock.is_some()) {
            continue;
        }
        let mut arrivals = vec![0; built.problem.slots.len()];
        arrivals[0] = *edges;
        let name = scenario.shop.tools[tool.value].key.clone();
        built.problem.edge_stocks.push(EdgeStock { name, arrivals });
        built.stock_of.push(tool.value);
        for point in of_tool {
            built.problem.points[point].stock = Some(built.problem.edge_stocks.len() - 1);
        }
    }
}
