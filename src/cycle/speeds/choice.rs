//! The speeds of one operation on one machine, ready to be priced at any worth of minutes and edges.

use super::super::change::{Bench, ToolUse};
use super::super::estimate::{OperationEstimate, estimate_operation, estimate_operation_as};
use super::super::item::{EdgeChanges, Making, Operation, Shop};
use super::super::setting::{CutError, Setting};
use super::balance::Lanes;
use super::change::{SpeedChange, SpeedRule};
use super::curve::Curve;
use super::edge::EdgeScale;
use super::span::Trial;
use super::worths::{MinuteWorth, Weights, Worths};
use crate::plant::Machine;
use crate::quantity::{CuttingSpeed, Money};

/// An operation with the speeds that a worth asks for.
#[derive(Debug, Clone, PartialEq)]
pub struct PricedOperation {
    /// The operation, as on the route but for its cutting speeds.
    pub operation: Operation,
    /// It worked out.
    pub estimate: OperationEstimate,
    /// Cost of the edges that a piece wears, with what is lost where one fails and what edges are worth beyond their price.
    pub edge_cost: Money,
    /// Speeds that are not as written.
    pub changed: Vec<SpeedChange>,
}

/// What the cuts of one operation take over their speeds; worked out once, priced often.
#[derive(Debug, Clone)]
pub struct SpeedChoice<'a> {
    shop: &'a Shop,
    place: (usize, usize, usize),
    worth: Money,
    written: OperationEstimate,
    curves: Vec<Option<Curve>>,
}

/// Worths of a life, times the one worked out, that are tried where edges share their stops.
const ABOUT: [f64; 4] = [0.5, 0.7, 1.4, 2.0];

/// Rounds in which the pieces of an edge and its speeds are brought together.
const ROUNDS: usize = 2;

/// What the cuts run at: worth of the life of each cut's edge in minutes, share of the worth of a minute of each cut.
struct Plan {
    lives: Vec<f64>,
    shares: Vec<f64>,
    whole: Vec<bool>,
}

impl<'a> SpeedChoice<'a> {
    /// Works out an operation of a route on a machine: `place` and `worth` as for [`estimate_operation`].
    ///
    /// # Errors
    /// As there.
    pub fn new(
        shop: &'a Shop,
        place: (usize, usize, usize),
        worth: Money,
    ) -> Result<Self, (usize, CutError)> {
        let written = estimate_operation(shop, place, worth)?;
        let item = &shop.items[place.0];
        let operation = &item.operations[place.1];
        let machine = &shop.machines[place.2];
        let curve = |cut| Curve::new(&Trial::new(Setting { shop, item, operation, machine, cut })?);
        let curves = operation.cuts.iter().map(curve).collect();
        Ok(Self { shop, place, worth, written, curves })
    }

    /// The operation as written, worked out.
    #[must_use]
    pub const fn written(&self) -> &OperationEstimate {
        &self.written
    }

    /// The operation with the speeds at which minutes and edges together cost least; never dearer than as written.
    ///
    /// # Errors
    /// As for [`estimate_operation`].
    pub fn priced(&self, worths: &Worths<'_>) -> Result<PricedOperation, (usize, CutError)> {
        let weights = Weights::new(worths, self.operation(), self.machine());
        let curves = self.free(worths);
        let mut best =
            (weights.of(worths, &self.written), self.operation().clone(), self.written.clone(), None);
        let mut near = self.written.clone();
        for _ in 0..ROUNDS {
            let plan = self.smooth(&curves, (worths, weights), &near);
            near = self.weighed(&curves, plan, (worths, weights), &mut best)?;
        }
        if self.operation().edge_changes == EdgeChanges::Together {
            for factor in ABOUT {
                let mut plan = self.smooth(&curves, (worths, weights), &near);
                plan.lives.iter_mut().for_each(|life| *life *= factor);
                self.weighed(&curves, plan, (worths, weights), &mut best)?;
            }
        }
        let plan = self.edge_by_edge(&curves, (worths, weights), &near);
        self.weighed(&curves, plan, (worths, weights), &mut best)?;
        let (_, operation, estimate, plan) = best;
        let changed = self.changed(&curves, &operation, plan.as_ref());
        Ok(PricedOperation { edge_cost: worths.edge_cost(&estimate), operation, estimate, changed })
    }

    fn operation(&self) -> &'a Operation {
        &self.shop.items[self.place.0].operations[self.place.1]
    }

    fn machine(&self) -> &'a Machine {
        &self.shop.machines[self.place.2]
    }

    /// Cuts whose speed may be chosen: where money counts, those of tools that have a price.
    fn free(&self, worths: &Worths<'_>) -> Vec<Option<Curve>> {
        let priced = |tool: usize| {
            worths.minute == MinuteWorth::TimeAlone
                || self.written.tools.iter().any(|used| used.tool == tool && used.edge_cost.is_some())
        };
        let cuts = self.operation().cuts.iter().zip(&self.curves);
        cuts.map(|(cut, curve)| curve.clone().filter(|_| priced(cut.tool))).collect()
    }

    /// Speeds as if pieces could be parted: a life is worth its change and its edge over the minutes that a piece takes of it.
    fn smooth(&self, curves: &[Option<Curve>], by: (&Worths<'_>, Weights), near: &OperationEstimate) -> Plan {
        let (worths, weights) = by;
        let of_life = |used: &ToolUse| {
            weights.of_edge(worths, used) / (used.point.made() * used.share) / weights.run.max(1e-12)
        };
        let lives: Vec<f64> = self
            .operation()
            .cuts
            .iter()
            .map(|cut| {
                let own = |used: &&ToolUse| used.tool == cut.tool && used.position == cut.position;
                near.tools.iter().find(own).map_or(0.0, of_life)
            })
            .collect();
        let lanes = Lanes::new(self.operation(), self.machine(), (&self.written, curves));
        let shares = lanes.shares(curves, &lives);
        Plan { whole: vec![false; lives.len()], lives, shares }
    }

    /// Each edge brought to its own best.
    fn edge_by_edge(
        &self,
        curves: &[Option<Curve>],
        by: (&Worths<'_>, Weights),
        near: &OperationEstimate,
    ) -> Plan {
        let (worths, weights) = by;
        let mut plan = self.smooth(curves, by, near);
        let group = match &self.shop.items[self.place.0].making {
            Making::Part { material, .. } => Some(self.shop.materials[*material].group),
            Making::Product { .. } => None,
        };
        let changes = near.elements.iter().filter(|element| element.name != "tool changes");
        let run = changes.filter(|element| element.name != "edges that fail early");
        let bench = Bench {
            shop: self.shop,
            operation: self.operation(),
            machine: self.machine(),
            group,
            run: run.map(|element| element.time).sum(),
            worth: self.worth,
        };
        for used in &self.written.tools {
            let scale = EdgeScale {
                bench: &bench,
                written: &self.written,
                used,
                curves,
                shares: &plan.shares,
                worths,
                weights,
            };
            let own = |index: &usize| {
                let cut = &self.operation().cuts[*index];
                cut.tool == used.tool && cut.position == used.position
            };
            let cuts: Vec<usize> = (0..self.operation().cuts.len()).filter(own).collect();
            let Some(found) = scale.best(plan.lives[cuts[0]]) else { continue };
            for cut in cuts {
                plan.lives[cut] = found.life;
                plan.whole[cut] = found.whole;
            }
        }
        plan
    }

    /// Works out a plan, and keeps it if it weighs less than the best so far and breaks no limit.
    fn weighed(
        &self,
        curves: &[Option<Curve>],
        plan: Plan,
        by: (&Worths<'_>, Weights),
        best: &mut (f64, Operation, OperationEstimate, Option<Plan>),
    ) -> Result<OperationEstimate, (usize, CutError)> {
        let mut operation = self.operation().clone();
        for (index, curve) in curves.iter().enumerate() {
            let Some(curve) = curve else { continue };
            let speed = curve.at(plan.lives[index] / plan.shares[index]).speed;
            operation.cuts[index].speed = CuttingSpeed::m_per_min(speed);
        }
        let estimate = estimate_operation_as(self.shop, self.place, &operation, self.worth)?;
        let weight = by.1.of(by.0, &estimate);
        if weight < best.0 * (1.0 - 1e-12) && self.keeps_limits(&estimate) {
            *best = (weight, operation, estimate.clone(), Some(plan));
        }
        Ok(estimate)
    }

    /// No limit is broken that the operation as written keeps, and every edge that lasted a piece does.
    fn keeps_limits(&self, estimate: &OperationEstimate) -> bool {
        let cuts = self.written.cuts.iter().zip(&estimate.cuts);
        let limits =
            cuts.clone().all(|((before, _), (after, _))| {
                after.limits.iter().filter(|limit| limit.passed()).all(|limit| {
                    before.limits.iter().any(|known| known.limit == limit.limit && known.passed())
                })
            });
        let lasts = |share: f64| share <= 1.0 + 1e-9;
        let tools = self.written.tools.iter().zip(&estimate.tools);
        limits && tools.into_iter().all(|(before, after)| lasts(after.share) || !lasts(before.share))
    }

    fn changed(&self, curves: &[Option<Curve>], chosen: &Operation, plan: Option<&Plan>) -> Vec<SpeedChange> {
        let Some(plan) = plan else { return Vec::new() };
        let mut changed = Vec::new();
        for (index, (curve, (before, after))) in
            curves.iter().zip(self.operation().cuts.iter().zip(&chosen.cuts)).enumerate()
        {
            let Some(curve) = curve else { continue };
            if (after.speed / before.speed - 1.0).abs() < 1e-6 {
                continue;
            }
            let speed = after.speed.to_m_per_min();
            let rule = if curve.is_fastest(speed) {
                curve.span.fast.1
            } else if curve.is_slowest(speed) {
                curve.span.slow.1
            } else if plan.shares[index] < 0.999 {
                SpeedRule::OtherChannel
            } else if plan.whole[index] {
                SpeedRule::WholePieces
            } else {
                SpeedRule::Economy
            };
            changed.push(SpeedChange { cut: index, from: before.speed, to: after.speed, rule });
        }
        changed
    }
}

/// The operation with the cutting speeds at which minutes and edges together cost least: [`SpeedChoice`] priced once.
///
/// # Errors
/// As for [`estimate_operation`].
pub fn priced_operation(
    shop: &Shop,
    place: (usize, usize, usize),
    worth: Money,
    worths: &Worths<'_>,
) -> Result<PricedOperation, (usize, CutError)> {
    SpeedChoice::new(shop, place, worth)?.priced(worths)
}
