//! Tools in their places on a machine: the edges an operation wears, each with its change point.

use super::point::{CHANGE_POINT, ChangePoint, Correction, PIECES_TO_AGE, Rule};
use super::together::together;
use crate::cycle::cut::CutEstimate;
use crate::cycle::item::{Cut, EdgeChanges, Operation, Shop};
use crate::plant::Machine;
use crate::quantity::{Duration, Money, MoneyRate, NoWorkings, Record, Term, Workings};
use crate::tooling::replacement::{PieceChange, PieceOutcome};
use crate::tooling::scatter::{LifeSpread, Scatter};
use crate::tooling::{
    ChangeBy, ChangePolicy, Group, LifeFamily, ReferenceLife, Sourced, Standing, Tool, edge_cost,
    pieces_per_edge,
};

/// A tool on a machine and what one piece takes of its edge.
#[derive(Debug, Clone, PartialEq)]
pub struct ToolUse {
    /// The tool.
    pub tool: usize,
    /// Where it sits.
    pub position: String,
    /// Share of the average life that a piece takes.
    pub share: f64,
    /// Pieces after which the edge comes out.
    pub pieces: u32,
    /// Edges alike that are taken one after the other before the machine stops.
    pub sisters: u32,
    /// Time the machine stands for a planned change of one edge, with the stop itself.
    pub change: Duration,
    /// Cost of an edge; `None` where the tool has no price.
    pub edge_cost: Option<Money>,
    /// Why then.
    pub point: ChangePoint,
}

/// Where edges are worn.
pub(in crate::cycle) struct Bench<'a> {
    pub(in crate::cycle) shop: &'a Shop,
    pub(in crate::cycle) operation: &'a Operation,
    pub(in crate::cycle) machine: &'a Machine,
    /// Group of the work material.
    pub(in crate::cycle) group: Option<Group>,
    /// Time from piece to piece without tool changes.
    pub(in crate::cycle) run: Duration,
    /// What a piece is worth when it comes to the operation.
    pub(in crate::cycle) worth: Money,
}

/// An edge place with the cuts made there.
struct Edge<'a> {
    cut: &'a Cut,
    share: f64,
    cuts: Vec<usize>,
}

/// Cuts that share tool and place share the edge.
pub(in crate::cycle) fn tool_uses(
    at: &Bench<'_>,
    cuts: &[(CutEstimate, Workings)],
    record: &mut impl Record,
) -> Vec<ToolUse> {
    let mut edges: Vec<Edge<'_>> = Vec::new();
    for (index, (cut, (estimate, _))) in at.operation.cuts.iter().zip(cuts).enumerate() {
        let known =
            edges.iter_mut().find(|known| known.cut.tool == cut.tool && known.cut.position == cut.position);
        match known {
            Some(known) => {
                known.share += estimate.edge.share;
                known.cuts.push(index);
            }
            None => edges.push(Edge { cut, share: estimate.edge.share, cuts: vec![index] }),
        }
    }
    let mut uses: Vec<ToolUse> = edges.iter().map(|edge| tool_use(at, edge, cuts, record)).collect();
    if at.operation.edge_changes == EdgeChanges::Together {
        together(at, &mut uses, record);
        for (edge, used) in edges.iter().zip(&mut uses) {
            used.point.corrections = corrections(edge, cuts, used.pieces);
        }
    }
    uses
}

/// The use of a known edge, were a piece to take another share of its life.
pub(in crate::cycle) fn use_at_share(
    at: &Bench<'_>,
    cuts: &[(CutEstimate, Workings)],
    known: &ToolUse,
    share: f64,
) -> Option<ToolUse> {
    let own = |cut: &&Cut| cut.tool == known.tool && cut.position == known.position;
    let places = at.operation.cuts.iter().enumerate().filter(|(_, cut)| own(cut)).map(|(index, _)| index);
    let cut = at.operation.cuts.iter().find(own)?;
    Some(tool_use(at, &Edge { cut, share, cuts: places.collect() }, cuts, &mut NoWorkings))
}

fn tool_use(
    at: &Bench<'_>,
    edge: &Edge<'_>,
    cuts: &[(CutEstimate, Workings)],
    record: &mut impl Record,
) -> ToolUse {
    let tool = &at.shop.tools[edge.cut.tool];
    let policy = tool.policy.over(at.shop.policy);
    let sisters = edge.cuts.iter().map(|cut| at.operation.cuts[*cut].sisters).max().unwrap_or(1);
    let change = tool.change.unwrap_or(at.machine.edge_change);
    // The stop itself is shared by the sisters that are changed at it.
    let shared = at.machine.stop.smaller(change) * (1.0 - 1.0 / f64::from(sisters));
    let price = edge_cost(tool.price, tool.regrind, tool.edges.value);
    let (variation, family) = scatter(at, tool);
    let rate = at.machine.rate.unwrap_or(MoneyRate::ZERO);
    let pieces = f64::from(policy.scrap.unwrap_or(1));
    // The machine time of the piece in which the edge fails is in the time of the edge already.
    let lost = at.worth * pieces + rate.over(at.run) * (pieces - 1.0).max(0.0);
    let costs = PieceChange {
        spread: LifeSpread::new(Scatter { family, variation: variation.value }),
        wear: edge.share,
        cycle: at.run,
        planned: change - shared,
        failure: policy.failure_stop(change),
        edge: price.unwrap_or(Money::ZERO),
        scrap: lost + policy.damage.unwrap_or(Money::ZERO),
        rate,
    };
    let priced = price.is_some() && rate > MoneyRate::ZERO;
    let rules = rules(&costs, (policy, priced, wheel(at, tool)), (edge, cuts), record);
    let (rule, pieces) =
        rules.iter().copied().min_by_key(|(_, pieces)| *pieces).unwrap_or((Rule::AverageLife, 1));
    let pieces = pieces.max(1);
    record.step(&CHANGE_POINT, Term::Plain(f64::from(pieces)), || {
        rules.iter().map(|(rule, pieces)| (rule.name(), Term::Plain(f64::from(*pieces)))).collect()
    });
    let point = ChangePoint {
        average: 1.0 / edge.share,
        variation,
        family,
        outcome: if rule == Rule::AverageLife { watched(&costs, pieces) } else { costs.outcome(pieces) },
        renewals: None,
        corrections: corrections(edge, cuts, pieces),
        rule,
        rules,
        change: costs,
    };
    ToolUse {
        tool: edge.cut.tool,
        position: edge.cut.position.clone(),
        share: edge.share,
        pieces,
        sisters,
        change: costs.planned,
        edge_cost: price,
        point,
    }
}

/// Share of edges that fail first, beyond which an edge is said to be left in: the count then hardly matters.
const MOST_LEFT_IN: f64 = 0.95;

/// What comes of edges that somebody watches and takes out when they are worn: none fails.
fn watched(change: &PieceChange, pieces: u32) -> PieceOutcome {
    let made = f64::from(pieces);
    let time = change.cycle * made + change.planned;
    PieceOutcome {
        pieces,
        to_failure: false,
        survival: 1.0,
        good: made,
        failed: 0.0,
        time,
        good_per_hour: made / time.to_h(),
        cost_per_good: (change.edge + change.rate.over(time)) / made,
        scrap_share: 0.0,
    }
}

impl ToolUse {
    /// The same edge changed by itself, not at a common stop.
    #[must_use]
    pub fn alone(&self) -> Self {
        let mut alone = self.clone();
        alone.point.rules.retain(|(rule, _)| *rule != Rule::CommonStop);
        let own = alone.point.rules.iter().copied().min_by_key(|(_, pieces)| *pieces);
        if let (Rule::CommonStop, Some((rule, pieces))) = (self.point.rule, own) {
            alone.pieces = pieces.max(1);
            alone.point.rule = rule;
            alone.point.renewals = None;
            let change = &self.point.change;
            alone.point.outcome = if rule == Rule::AverageLife {
                watched(change, alone.pieces)
            } else {
                change.outcome(alone.pieces)
            };
        }
        alone
    }

    /// Whether edge and machine have a price, so that cost can rule.
    #[must_use]
    pub fn is_priced(&self) -> bool {
        self.edge_cost.is_some() && self.point.change.rate > MoneyRate::ZERO
    }

    /// Stops for planned changes, for each piece.
    #[must_use]
    pub fn planned_stops(&self) -> f64 {
        (1.0 - self.point.failed()) / self.point.made()
    }

    /// Time the machine stands for changes and failures, for each piece.
    #[must_use]
    pub fn standing_time(&self) -> Duration {
        let (change, failed) = (&self.point.change, self.point.failed());
        (change.failure * failed + change.planned * (1.0 - failed)) / self.point.made()
    }

    /// Cost of edges, changes and failures at a rate of the machine, for each piece.
    #[must_use]
    pub fn wearing_cost(&self, rate: MoneyRate) -> Money {
        let change = &self.point.change;
        rate.over(self.standing_time())
            + (change.edge + change.scrap * self.point.failed()) / self.point.made()
    }
}

/// Whether its life is a dressing interval, which is kept and not waited for.
fn wheel(at: &Bench<'_>, tool: &Tool) -> bool {
    let law = at.group.and_then(|group| tool.life_in(group));
    law.is_some_and(|law| matches!(law.life.value, ReferenceLife::Volume(_)))
}

/// Scatter of the life: as the law says, else as usual for the kind of tool and edge.
fn scatter(at: &Bench<'_>, tool: &Tool) -> (Sourced<f64>, LifeFamily) {
    let law = at.group.and_then(|group| tool.life_in(group));
    let band = at.shop.scatter.iter().find(|band| band.holds_for(tool.kind, tool.substrate));
    let variation = law
        .and_then(|law| law.variation.clone())
        .or_else(|| band.map(|band| band.variation.clone()))
        .unwrap_or_else(|| Sourced {
            value: Scatter::USUAL.variation,
            source: "wager-barash-1971".to_owned(),
            at: Some("abstract: about 0.3".to_owned()),
            standing: Standing::Read,
        });
    let family =
        law.and_then(|law| law.family).or(band.map(|band| band.family)).unwrap_or(Scatter::USUAL.family);
    (variation, family)
}

/// What each rule asks for.
fn rules(
    change: &PieceChange,
    policy: (ChangePolicy, bool, bool),
    edge: (&Edge<'_>, &[(CutEstimate, Workings)]),
    record: &mut impl Record,
) -> Vec<(Rule, u32)> {
    let (policy, priced, wheel) = policy;
    let (edge, cuts) = edge;
    let mut to_age = |age: f64| {
        let pieces = pieces_per_edge(edge.share / age);
        record.step(&PIECES_TO_AGE, Term::Plain(f64::from(pieces)), || {
            vec![("u", Term::Plain(age)), ("w", Term::Plain(edge.share))]
        });
        pieces
    };
    let by = if wheel { ChangeBy::AverageLife } else { policy.by.unwrap_or(ChangeBy::LeastCost) };
    let mut rules = vec![match by {
        ChangeBy::AverageLife => (Rule::AverageLife, to_age(1.0)),
        ChangeBy::LeastCost => {
            let best = if priced { change.cheapest() } else { change.quickest() };
            let rule = if best.to_failure || best.failed > MOST_LEFT_IN {
                Rule::ToFailure
            } else if priced {
                Rule::LeastCost
            } else {
                Rule::MostAnHour
            };
            (rule, best.pieces)
        }
    }];
    if let Some(survival) = policy.survival {
        rules.push((Rule::Survival, to_age(change.spread.age_at(survival.value()))));
    }
    let kept = || edge.cuts.iter().map(|cut| &cuts[*cut].0.kept);
    let sizes = kept().filter_map(|kept| kept.drift.as_ref()?.limit);
    if let Some(age) = sizes.min_by(f64::total_cmp) {
        rules.push((Rule::SizeDrift, to_age(age)));
    }
    if let Some(age) = kept().filter_map(|kept| kept.finish).min_by(f64::total_cmp) {
        rules.push((Rule::Finish, to_age(age)));
    }
    if let Some(most) = policy.most {
        rules.push((Rule::MostPieces, most));
    }
    rules
}

/// Offset corrections of the cuts of an edge up to its change.
fn corrections(edge: &Edge<'_>, cuts: &[(CutEstimate, Workings)], pieces: u32) -> Vec<Correction> {
    let mut all = Vec::new();
    for cut in &edge.cuts {
        let Some(drift) = &cuts[*cut].0.kept.drift else { continue };
        let after: Vec<u32> = drift
            .due
            .iter()
            .map(|age| pieces_per_edge(edge.share / age).max(1))
            .filter(|after| *after < pieces)
            .collect();
        let mut before = 0;
        let mut closest = pieces;
        for after in &after {
            closest = closest.min(after - before);
            before = *after;
        }
        all.push(Correction { cut: *cut, amount: drift.step, after, gauge_every: (closest / 2).max(1) });
    }
    all
}
