//! One edge: the worth of its life at which a piece costs least, with whole pieces, scatter and the rules of its change.

use super::super::change::{Bench, Rule, ToolUse, counted_age, use_at_share};
use super::super::estimate::OperationEstimate;
use super::curve::{Curve, Point};
use super::worths::{Weights, Worths};

/// What an edge is weighed by.
pub(super) struct EdgeScale<'a> {
    pub(super) bench: &'a Bench<'a>,
    pub(super) written: &'a OperationEstimate,
    pub(super) used: &'a ToolUse,
    pub(super) curves: &'a [Option<Curve>],
    /// Share of the worth of a minute, by cut.
    pub(super) shares: &'a [f64],
    pub(super) worths: &'a Worths<'a>,
    pub(super) weights: Weights,
}

/// What was found: the worth of a life in minutes, and whether it was brought to whole pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Found {
    pub(super) life: f64,
    pub(super) whole: bool,
}

/// Worths of a life that are tried from end to end.
const TRIED: u32 = 9;
/// Steps of the golden section between the neighbours of the best.
const GOLDEN: usize = 10;
/// Halvings to whole pieces.
const HALVINGS: usize = 45;
/// Distance in share from whole pieces that rounding may leave.
const SLACK: f64 = 1e-10;

impl EdgeScale<'_> {
    /// The best worth of a life, `start` among those tried; `None` where no cut of the edge is free.
    pub(super) fn best(&self, start: f64) -> Option<Found> {
        let (long, short) = self.ends()?;
        let mut tried: Vec<f64> = (0..=TRIED)
            .map(|step| long * (short / long).powf(f64::from(step) / f64::from(TRIED)))
            .chain([start.min(long).max(short)])
            .collect();
        tried.sort_by(|one, other| other.total_cmp(one));
        let weighed: Vec<f64> = tried.iter().map(|life| self.weight(*life)).collect();
        let best = (0..tried.len()).min_by(|one, other| weighed[*one].total_cmp(&weighed[*other]))?;
        let around = (tried[best.saturating_sub(1)], tried[(best + 1).min(tried.len() - 1)]);
        let whole = self.use_at(self.share(tried[best])).and_then(|used| self.age_of(&used));
        let refined = match whole {
            Some(age) => self.tooth(age, around),
            None => self.golden(around.0, around.1),
        };
        let better = refined.filter(|life| self.weight(*life) < weighed[best] * (1.0 - 1e-12));
        Some(Found { life: better.unwrap_or(tried[best]), whole: better.is_some() && whole.is_some() })
    }

    /// Worths of a life between which the speeds of the edge change, the larger first.
    fn ends(&self) -> Option<(f64, f64)> {
        let ends = self.free().map(|(cut, curve)| {
            let (long, short) = curve.ends();
            (long * self.shares[cut], short * self.shares[cut])
        });
        ends.reduce(|one, other| (one.0.max(other.0), one.1.min(other.1)))
    }

    fn free(&self) -> impl Iterator<Item = (usize, &Curve)> {
        let operation = self.bench.operation;
        let own = move |cut: usize| {
            let cut = &operation.cuts[cut];
            cut.tool == self.used.tool && cut.position == self.used.position
        };
        let curves = self.curves.iter().enumerate().filter(move |(cut, _)| own(*cut));
        curves.filter_map(|(cut, curve)| Some((cut, curve.as_ref()?)))
    }

    fn points(&self, life: f64) -> impl Iterator<Item = (usize, Point)> {
        self.free().map(move |(cut, curve)| (cut, curve.at(life / self.shares[cut])))
    }

    /// Share of a life that a piece takes.
    fn share(&self, life: f64) -> f64 {
        let as_written: f64 = self.free().map(|(cut, _)| self.written.cuts[cut].0.edge.share).sum();
        let fixed = (self.used.share - as_written).max(0.0);
        fixed + self.points(life).map(|(_, point)| point.wear).sum::<f64>()
    }

    /// What a piece costs by this edge: its time in cut, its changes, its money.
    fn weight(&self, life: f64) -> f64 {
        let share = self.share(life);
        // An edge that does not last a piece, where the written one does.
        if share > self.used.share.max(1.0) * (1.0 + 1e-9) {
            return f64::INFINITY;
        }
        let Some(used) = self.use_at(share) else { return f64::INFINITY };
        let time: f64 = self.points(life).map(|(cut, point)| point.time * self.shares[cut]).sum();
        self.weights.run * time + self.weights.of_edge(self.worths, &used) / used.point.made()
    }

    fn use_at(&self, share: f64) -> Option<ToolUse> {
        use_at_share(self.bench, &self.written.cuts, self.used, share)
    }

    /// The least between two worths, by golden section.
    fn golden(&self, low: f64, high: f64) -> Option<f64> {
        let ratio = f64::midpoint(5.0_f64.sqrt(), -1.0);
        let (mut from, mut to) = (low.ln(), high.ln());
        let mut inner = [to - (to - from) * ratio, from + (to - from) * ratio];
        let mut weights = inner.map(|at| self.weight(at.exp()));
        for _ in 0..GOLDEN {
            if weights[0] < weights[1] {
                to = inner[1];
                inner = [to - (to - from) * ratio, inner[0]];
                weights = [self.weight(inner[0].exp()), weights[0]];
            } else {
                from = inner[0];
                inner = [inner[1], from + (to - from) * ratio];
                weights = [weights[1], self.weight(inner[1].exp())];
            }
        }
        let best = if weights[0] < weights[1] { inner[0] } else { inner[1] };
        best.is_finite().then(|| best.exp())
    }

    /// The best worth between two at which the edge makes exactly whole pieces of an age: cost over speed is a saw-tooth, and at the
    /// teeth it falls and rises but once.
    fn tooth(&self, age: f64, between: (f64, f64)) -> Option<f64> {
        let pieces = |life: f64| age / self.share(life);
        let (mut fewest, mut most) = (pieces(between.1).floor().max(1.0), pieces(between.0).ceil());
        let of = |pieces: f64| self.life_at(age / pieces);
        let weight = |pieces: f64| of(pieces).map_or(f64::INFINITY, |life| self.weight(life));
        // A tooth at either end may lie beyond the slowest or fastest speed.
        if of(fewest).is_none() {
            fewest += 1.0;
        }
        if of(most).is_none() {
            most -= 1.0;
        }
        while most - fewest > 2.0 {
            let third = ((most - fewest) / 3.0).floor().max(1.0);
            if weight(fewest + third) < weight(most - third) { most -= third } else { fewest += third }
        }
        let near = [fewest, fewest + 1.0, fewest + 2.0];
        near.into_iter().min_by(|one, other| weight(*one).total_cmp(&weight(*other))).and_then(of)
    }

    /// Age up to which the rule in force counts pieces; `None` for rules that weigh cost.
    fn age_of(&self, used: &ToolUse) -> Option<f64> {
        if matches!(used.point.rule, Rule::LeastCost | Rule::MostAnHour | Rule::ToFailure | Rule::CommonStop)
        {
            return None;
        }
        counted_age(self.bench, &self.written.cuts, used)
    }

    /// The worth of a life at which a piece takes a share, the next smaller one where rounding asks for it.
    fn life_at(&self, share: f64) -> Option<f64> {
        let (long, short) = self.ends()?;
        let wanted = share * (1.0 - SLACK);
        if self.share(long) > wanted || self.share(short) < wanted {
            return None;
        }
        let (mut low, mut high) = (short.ln(), long.ln());
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if self.share(middle.exp()) <= wanted { high = middle } else { low = middle }
        }
        Some(high.exp())
    }
}
