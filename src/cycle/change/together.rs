//! Edges of one machine changed at common stops.

use super::point::Rule;
use super::usage::{Bench, ToolUse};
use crate::quantity::{Duration, Formula, Money, MoneyRate, Record, Term};
use crate::tooling::replacement::{
    GroupedTool, Grouping, at_common_stops, at_given_stops, failures_between, greatest_divisor, stops_made,
};

/// Pieces from one common stop to the next.
pub(super) const COMMON_STOP: Formula = Formula {
    figure: "pieces to the common stop",
    text: "N_i = m_i * N, N and m_i of least cost with the stop shared",
    source: "derived",
};

/// Edges of one machine at common stops; those that cost less by themselves stay so.
#[derive(Debug, Clone, PartialEq)]
pub struct CommonStops {
    /// Pieces from stop to stop.
    pub every: u32,
    /// Pieces after which each edge comes out at a stop; `None` for one that stays by itself.
    pub pieces: Vec<Option<u32>>,
    /// Stops for planned changes in a thousand pieces.
    pub stops_per_thousand: f64,
    /// Time the machine stands for changes and failures, for each piece.
    pub time_per_piece: Duration,
    /// Cost of edges, changes and failures, for each piece; `None` where a price or the rate of the machine is missing.
    pub cost_per_piece: Option<Money>,
}

/// Which stops edges are brought to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stops {
    /// Stops made for them, at the distance that costs least.
    Made,
    /// Stops that are there anyway, so many pieces apart: breaks, starts of shifts.
    Given(u32),
}

/// What decides between stops.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Weighed {
    Cost,
    Time,
}

/// Mean lives beyond which a block is none: the edge is left in until it fails.
const NEVER: f64 = 3.9;

/// Brings edges to common stops where that is possible; a stop takes `stop`. Without prices time alone is weighed.
#[must_use]
pub fn common_stops(uses: &[ToolUse], stop: Duration, stops: Stops) -> Option<CommonStops> {
    let uses: Vec<ToolUse> = uses.iter().map(ToolUse::alone).collect();
    let priced = uses.iter().all(ToolUse::is_priced);
    let rate =
        uses.first().map(|used| used.point.change.rate).filter(|_| priced).unwrap_or(MoneyRate::per_h(1.0));
    let weighed = if priced { Weighed::Cost } else { Weighed::Time };
    let mut joined: Vec<usize> = (0..uses.len()).filter(|at| can_join(&uses[*at], stop)).collect();
    loop {
        let tools: Vec<GroupedTool> = joined.iter().map(|at| grouped(&uses[*at], stop, weighed)).collect();
        let grouping = match stops {
            Stops::Made => at_common_stops(&tools, stop, rate)?,
            Stops::Given(every) => at_given_stops(&tools, every, rate)?,
        };
        let pieces = |at: usize| grouping.every.saturating_mul(grouping.multiples[at]);
        // Left in until it fails, or dearer at its stop, though that costs it nothing, than by itself with a stop of its own.
        let stays = |at: usize| {
            let used = &uses[joined[at]];
            let own = match weighed {
                Weighed::Cost => used.wearing_cost(rate),
                Weighed::Time => rate.over(used.standing_time()),
            };
            let here = block_cost(&tools[at], pieces(at), rate);
            f64::from(pieces(at)) > NEVER * used.point.average || own < here
        };
        let staying: Vec<usize> = (0..joined.len()).filter(|at| stays(*at)).map(|at| joined[at]).collect();
        if staying.is_empty() {
            return Some(with_those_apart(&uses, &joined, &grouping, priced.then_some(rate)));
        }
        joined.retain(|at| !staying.contains(at));
    }
}

/// Cost of an edge changed every so many pieces at stops that cost it nothing, for each piece.
fn block_cost(tool: &GroupedTool, pieces: u32, rate: MoneyRate) -> Money {
    let failures = failures_between(tool.spread, tool.wear, pieces);
    let failure = rate.over(tool.failure) + tool.scrap + tool.edge;
    (rate.over(tool.own) + tool.edge + failure * failures) / f64::from(pieces)
}

/// Edges that fail at random, one at a place, whose change takes the stop of the machine; a wheel's interval is its own.
fn can_join(used: &ToolUse, stop: Duration) -> bool {
    used.sisters == 1 && used.point.rule != Rule::AverageLife && stop <= used.change
}

fn with_those_apart(
    uses: &[ToolUse],
    joined: &[usize],
    grouping: &Grouping,
    rate: Option<MoneyRate>,
) -> CommonStops {
    let mut pieces = vec![None; uses.len()];
    for (at, multiple) in joined.iter().zip(&grouping.multiples) {
        pieces[*at] = Some(grouping.every.saturating_mul(*multiple).max(1));
    }
    let apart = || uses.iter().zip(&pieces).filter(|(_, pieces)| pieces.is_none()).map(|(used, _)| used);
    CommonStops {
        every: grouping.every,
        stops_per_thousand: grouping.stops_per_thousand
            + 1000.0 * apart().map(ToolUse::planned_stops).sum::<f64>(),
        time_per_piece: grouping.time_per_piece + apart().map(ToolUse::standing_time).sum::<Duration>(),
        cost_per_piece: rate
            .map(|rate| grouping.cost_per_piece + apart().map(|used| used.wearing_cost(rate)).sum::<Money>()),
        pieces,
    }
}

/// An edge as one of several that are changed together: its own time without the stop, its money only if cost is weighed.
fn grouped(used: &ToolUse, stop: Duration, weighed: Weighed) -> GroupedTool {
    let change = &used.point.change;
    let economic = [Rule::LeastCost, Rule::MostAnHour, Rule::ToFailure, Rule::CommonStop];
    let kept = used.point.rules.iter().filter(|(rule, _)| !economic.contains(rule));
    let money = |money: Money| if weighed == Weighed::Cost { money } else { Money::ZERO };
    GroupedTool {
        spread: change.spread,
        wear: change.wear,
        own: (change.planned - stop).larger(Duration::ZERO),
        failure: change.failure,
        edge: money(change.edge),
        scrap: money(change.scrap),
        most: kept.map(|(_, pieces)| *pieces).min().unwrap_or(u32::MAX).max(1),
    }
}

/// Brings the edges of an operation to common stops: each comes out at a multiple of the pieces between two stops.
pub(super) fn together(at: &Bench<'_>, uses: &mut [ToolUse], record: &mut impl Record) {
    let Some(stops) = common_stops(uses, at.machine.stop, Stops::Made) else { return };
    for (used, pieces) in uses.iter_mut().zip(&stops.pieces) {
        let Some(pieces) = *pieces else { continue };
        record.step(&COMMON_STOP, Term::Plain(f64::from(pieces)), || {
            let multiple = f64::from(pieces) / f64::from(stops.every);
            vec![("N", Term::Plain(f64::from(stops.every))), ("m_i", Term::Plain(multiple))]
        });
        let failures = failures_between(used.point.change.spread, used.point.change.wear, pieces);
        used.pieces = pieces;
        used.point.rules.push((Rule::CommonStop, pieces));
        used.point.rule = Rule::CommonStop;
        used.point.outcome = used.point.change.outcome(pieces);
        used.point.renewals = Some(failures);
    }
}

/// Stops for each piece that edges share with others: those of all edges less those that the machine makes.
pub(in crate::cycle) fn shared_stops(uses: &[ToolUse]) -> f64 {
    let at_stops = uses.iter().filter(|used| used.point.rule == Rule::CommonStop);
    let pieces: Vec<u32> = at_stops.map(|used| used.pieces.max(1)).collect();
    let base = pieces.iter().copied().fold(0, greatest_divisor).max(1);
    let multiples: Vec<u32> = pieces.iter().map(|pieces| pieces / base).collect();
    let alone: f64 = multiples.iter().map(|multiple| 1.0 / f64::from(*multiple)).sum();
    let made = stops_made(&multiples);
    if pieces.is_empty() { 0.0 } else { (alone - made) / f64::from(base) }
}
