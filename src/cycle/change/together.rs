//! Edges of one machine changed at common stops.

use super::point::Rule;
use super::usage::{Bench, ToolUse};
use crate::quantity::{Duration, Formula, MoneyRate, Record, Term};
use crate::tooling::replacement::{GroupedTool, at_common_stops};

/// Pieces from one common stop to the next.
pub(super) const COMMON_STOP: Formula = Formula {
    figure: "pieces to the common stop",
    text: "N_i = m_i * N, N and m_i of least cost with the stop shared",
    source: "barlow-proschan",
};

/// An edge as one of several that are changed together: its own time without the stop.
#[must_use]
pub fn grouped(used: &ToolUse, stop: Duration) -> GroupedTool {
    let change = &used.point.change;
    let economic = [Rule::LeastCost, Rule::MostAnHour, Rule::ToFailure, Rule::CommonStop];
    let kept = used.point.rules.iter().filter(|(rule, _)| !economic.contains(rule));
    GroupedTool {
        spread: change.spread,
        wear: change.wear,
        own: (change.planned - stop).larger(Duration::ZERO),
        failure: change.failure,
        edge: change.edge,
        scrap: change.scrap,
        most: kept.map(|(_, pieces)| *pieces).min().unwrap_or(u32::MAX).max(1),
    }
}

/// Stops for each piece that edges share with others: those of all edges less those that the machine makes.
pub(in crate::cycle) fn shared_stops(uses: &[ToolUse]) -> f64 {
    let pieces: Vec<u32> = uses.iter().map(|used| used.pieces.max(1)).collect();
    let base = pieces.iter().copied().fold(0, greatest_divisor).max(1);
    let multiples: Vec<u32> = pieces.iter().map(|pieces| pieces / base).collect();
    let round = multiples.iter().try_fold(1_u32, |round, multiple| {
        (round / greatest_divisor(round, *multiple))
            .checked_mul(*multiple)
            .filter(|round| *round <= LONGEST_ROUND)
    });
    let alone: f64 = multiples.iter().map(|multiple| 1.0 / f64::from(*multiple)).sum();
    let Some(round) = round else { return 0.0 };
    let made = (1..=round).filter(|stop| multiples.iter().any(|multiple| stop % multiple == 0)).count();
    let made = f64::from(u32::try_from(made).unwrap_or(round)) / f64::from(round);
    (alone - made) / f64::from(base)
}

/// Longest round of common stops that is counted through.
const LONGEST_ROUND: u32 = 100_000;

fn greatest_divisor(one: u32, other: u32) -> u32 {
    if other == 0 { one } else { greatest_divisor(other, one % other) }
}

/// Brings the edges of an operation to common stops: each comes out at a multiple of the pieces between two stops.
pub(super) fn together(at: &Bench<'_>, uses: &mut [ToolUse], record: &mut impl Record) {
    // Without prices time alone is weighed.
    let rate = at.machine.rate.unwrap_or(MoneyRate::per_h(1.0));
    let tools: Vec<GroupedTool> = uses.iter().map(|used| grouped(used, at.machine.stop)).collect();
    let Some(stops) = at_common_stops(&tools, at.machine.stop, rate) else { return };
    for (used, multiple) in uses.iter_mut().zip(&stops.multiples) {
        let pieces = stops.every.saturating_mul(*multiple).max(1);
        record.step(&COMMON_STOP, Term::Plain(f64::from(pieces)), || {
            vec![("N", Term::Plain(f64::from(stops.every))), ("m_i", Term::Plain(f64::from(*multiple)))]
        });
        used.pieces = pieces;
        used.point.rules.push((Rule::CommonStop, pieces));
        used.point.rule = Rule::CommonStop;
        used.point.outcome = used.point.change.outcome(pieces);
    }
}
