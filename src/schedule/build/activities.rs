//! Operations on machines and outside as activities.

use super::super::problem::{Activity, Wear};
use super::super::scenario::Scenario;
use super::built::BuiltProblem;
use crate::cycle::{Operation, OperationEstimate, StationWork};
use crate::plant::{Machine, SkillId};
use crate::quantity::{Duration, Money};

impl BuiltProblem {
    /// An operation on a machine.
    pub(super) fn add_activity(&mut self, scenario: &Scenario, estimate: &OperationEstimate) {
        let operation = &scenario.shop.items[estimate.item].operations[estimate.operation];
        let machine = &scenario.shop.machines[estimate.machine];
        let uses = self.uses(scenario, estimate, (operation, machine));
        let wear = estimate
            .tools
            .iter()
            .map(|tool| Wear {
                point: self.point(scenario, estimate.machine, tool),
                share: 1.0 / (f64::from(tool.pieces) * f64::from(tool.sisters)),
            })
            .collect();
        let setter = machine.setter.filter(|_| operation.setup.to_min() > 0.0);
        let family = operation.lots.family;
        self.problem.activities.push(Activity {
            step: self.step(estimate.item, estimate.operation).unwrap_or(0),
            machine: Some(estimate.machine),
            uses,
            run: (estimate.cycle - estimate.tool_change_share).to_min(),
            load: load(operation),
            cost: estimate.tooling_cost().unwrap_or(Money::ZERO).amount(),
            setup: operation.setup.to_min(),
            setter: setter.map(|skill| self.crew(scenario, skill)),
            family: family.map(|family| family.id),
            setup_within: family.map_or(operation.setup, |family| family.setup).to_min(),
            least_lot: operation.lots.least,
            away: 0,
            wear,
        });
    }

    /// Minutes of a piece on the machine, of who attends it, and of the station where it is gauged.
    fn uses(
        &self,
        scenario: &Scenario,
        estimate: &OperationEstimate,
        of: (&Operation, &Machine),
    ) -> Vec<(usize, f64)> {
        let (operation, machine) = of;
        let mut uses = vec![(estimate.machine, estimate.cycle.to_min())];
        let mut ask = |resource: usize, time: Duration| {
            if time > Duration::ZERO {
                uses.push((resource, time.to_min()));
            }
        };
        if let Some(attendance) = operation.attendance.or(machine.attendance) {
            ask(self.crew(scenario, attendance.skill), estimate.attended);
        }
        if let Some(gauge) = operation.gauge
            && let Some(station) = gauge.at
        {
            ask(station, gauge.time / f64::from(gauge.every.max(1)));
        }
        uses
    }

    /// Operations done outside, each firm an activity: after all those on machines.
    pub(super) fn add_outside(&mut self, scenario: &Scenario) {
        for (step, (item, operation)) in self.step_of.iter().copied().enumerate() {
            for outside in &scenario.shop.items[item].operations[operation].lots.outside {
                let firm = scenario.shop.machines.len() + scenario.calendar.skills.len() + outside.firm;
                self.problem.activities.push(Activity {
                    step,
                    machine: Some(firm),
                    uses: vec![(firm, 1.0)],
                    load: 1,
                    cost: outside.price.amount(),
                    away: seconds(scenario.shop.firms[outside.firm].away),
                    ..Activity::default()
                });
            }
        }
    }

    /// What machines stand set up for at the start.
    pub(super) fn set_up_machines(&mut self, scenario: &Scenario) {
        for set_up in &scenario.set_ups {
            let step = self.step(set_up.item, set_up.operation);
            let activity =
                self.problem.activities.iter().position(|activity| {
                    activity.machine == Some(set_up.machine) && Some(activity.step) == step
                });
            self.problem.resources[set_up.machine].set_up = activity;
        }
    }

    /// Place of a skill among the resources.
    fn crew(&self, scenario: &Scenario, skill: SkillId) -> usize {
        scenario.shop.machines.len() + skill.0
    }
}

/// Whole seconds of a time on the way, rounded.
pub(super) fn seconds(time: Duration) -> i64 {
    #[expect(clippy::cast_possible_truncation, reason = "times on the way are read as less than a year")]
    let seconds = time.to_s().round() as i64;
    seconds
}

/// Pieces in one load: a washer's basket, a fixture.
fn load(operation: &Operation) -> u32 {
    match operation.station {
        Some(StationWork::Batch { pieces, .. }) => pieces,
        _ => operation.pieces,
    }
}
