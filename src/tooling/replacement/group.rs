//! Tools of one machine changed at common stops: a stop every so many pieces, each tool at every first, second, .. of them.

use super::super::scatter::LifeSpread;
use super::count::{index, whole};
use super::renewal::renewals_by_piece;
use crate::quantity::{Duration, Formula, Money, MoneyRate};

/// Formula of the cost of [`at_common_stops`].
pub const COMMON_STOPS: Formula = Formula {
    figure: "cost of tool changes for each piece",
    text: "c = c_s u / N + sum over tools of (c_p + c_f * M(m * N)) / (m * N)",
    source: "derived",
};

/// One of the tools of a machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroupedTool {
    /// How its life scatters.
    pub spread: LifeSpread,
    /// Share of its mean life that one piece takes.
    pub wear: f64,
    /// Time of its planned change, the stop itself not counted.
    pub own: Duration,
    /// Time the machine stands when it fails.
    pub failure: Duration,
    /// Cost of an edge.
    pub edge: Money,
    /// Cost of the piece that is scrapped when it fails.
    pub scrap: Money,
    /// Pieces between planned changes at most: by drift of size, finish or survival.
    pub most: u32,
}

/// Changes at common stops, or at stops that are there anyway.
#[derive(Debug, Clone, PartialEq)]
pub struct Grouping {
    /// Pieces from stop to stop.
    pub every: u32,
    /// Each tool is changed at every such stop.
    pub multiples: Vec<u32>,
    /// Stops for tool changes in a thousand pieces, failures not counted.
    pub stops_per_thousand: f64,
    /// Time of stops, changes and failures for each piece.
    pub time_per_piece: Duration,
    /// Cost of stops, changes and failures for each piece.
    pub cost_per_piece: Money,
}

/// The interval between common stops, and the multiple of it for each tool, that cost least together.
///
/// c = c_s u / N + sum over tools of (c_p + c_f M(m N)) / (m N): a stop is charged where a tool is changed, u being the share of
/// such stops, [`stops_made`]. For a given N each tool takes the multiple of least cost of its own changes, so that all are
/// tried. N is tried one by one up to 500, above in steps of 1/500 of itself; of more than a thousand multiples those about the
/// tool's own best interval. Blocks: a tool that failed is changed at its next stop all the same. Of equals the smallest
/// interval.
/// `None` without tools.
#[must_use]
pub fn at_common_stops(tools: &[GroupedTool], stop: Duration, rate: MoneyRate) -> Option<Grouping> {
    let burdens = at_stops(tools, rate);
    let widest = burdens.iter().map(|burden| burden.longest).min()?;
    let stand = rate.over(stop).amount();
    let mut best: Option<(f64, u32)> = None;
    let mut every = 1;
    while every <= widest {
        let standing = stand / f64::from(every);
        let chosen: Vec<(u32, f64)> = burdens.iter().map(|burden| burden.best_multiple(every)).collect();
        let multiples: Vec<u32> = chosen.iter().map(|(multiple, _)| *multiple).collect();
        let cost = standing * stops_made(&multiples) + chosen.iter().map(|(_, cost)| cost).sum::<f64>();
        if best.is_none_or(|(least, _)| cost < least) {
            best = Some((cost, every));
        }
        every += (every / 500).max(1);
    }
    best.map(|(_, every)| grouping(&burdens, every, stop, rate))
}

/// Changes at stops that are there anyway, breaks and shift starts, so many pieces apart: the stop costs nothing.
///
/// `None` if a tool may not run from one stop to the next, and without tools.
#[must_use]
pub fn at_given_stops(tools: &[GroupedTool], every: u32, rate: MoneyRate) -> Option<Grouping> {
    let burdens = at_stops(tools, rate);
    let able = burdens.iter().all(|burden| every <= burden.most);
    (able && every > 0 && !burdens.is_empty()).then(|| grouping(&burdens, every, Duration::ZERO, rate))
}

/// Share of the common stops at which a tool is changed: all if one tool is changed at each, else those of a round of stops that
/// fall on a multiple of some tool; a long round is counted in part.
#[must_use]
pub fn stops_made(multiples: &[u32]) -> f64 {
    if multiples.contains(&1) || multiples.is_empty() {
        return 1.0;
    }
    let round = multiples.iter().fold(1_u32, |round, multiple| {
        (round / greatest_divisor(round, *multiple)).saturating_mul(*multiple).min(LONGEST_ROUND)
    });
    let made = (1..=round).filter(|stop| multiples.iter().any(|multiple| stop % multiple == 0)).count();
    f64::from(u32::try_from(made).unwrap_or(round)) / f64::from(round)
}

/// Longest round of common stops that is counted through.
const LONGEST_ROUND: u32 = 5040;

/// Greatest common divisor; of 0 and a number that number.
#[must_use]
pub fn greatest_divisor(one: u32, other: u32) -> u32 {
    if other == 0 { one } else { greatest_divisor(other, one % other) }
}

/// Expected failures between two planned changes so many pieces apart, a piece taking the share `wear` of a mean life; each
/// failed edge is replaced at once.
#[must_use]
pub fn failures_between(spread: LifeSpread, wear: f64, pieces: u32) -> f64 {
    let within = GroupedTool {
        spread,
        wear,
        own: Duration::ZERO,
        failure: Duration::ZERO,
        edge: Money::ZERO,
        scrap: Money::ZERO,
        most: pieces.max(1),
    };
    Burden::new(&within, MoneyRate::ZERO).failed(pieces)
}

fn at_stops(tools: &[GroupedTool], rate: MoneyRate) -> Vec<Burden> {
    tools.iter().map(|tool| Burden::new(tool, rate)).collect()
}

fn grouping(burdens: &[Burden], every: u32, stop: Duration, rate: MoneyRate) -> Grouping {
    let best: Vec<(u32, f64)> = burdens.iter().map(|burden| burden.best_multiple(every)).collect();
    let multiples: Vec<u32> = best.iter().map(|(multiple, _)| *multiple).collect();
    let stops = stops_made(&multiples) / f64::from(every);
    let seconds: f64 =
        burdens.iter().zip(&multiples).map(|(burden, multiple)| burden.seconds(multiple * every)).sum();
    Grouping {
        every,
        multiples,
        stops_per_thousand: 1000.0 * stops,
        time_per_piece: stop * stops + Duration::s(seconds),
        cost_per_piece: rate.over(stop) * stops + Money::of(best.iter().map(|(_, cost)| cost).sum()),
    }
}

/// Mean lives beyond which no interval is tried.
const LONGEST: f64 = 4.0;
/// Multiples up to which all are tried.
const MOST_MULTIPLES: u32 = 1000;
/// Lots in a mean life, at least, for which failures are counted piece by piece.
const LOTS: f64 = 500.0;

/// What the changes of one tool take, by the pieces between them.
struct Burden {
    planned: (f64, f64),
    failure: (f64, f64),
    most: u32,
    longest: u32,
    lot: u32,
    /// Its best interval by itself, to a lot.
    own: u32,
    /// Expected failures after 0, 1, .. lots.
    failures: Vec<f64>,
}

impl Burden {
    fn new(tool: &GroupedTool, rate: MoneyRate) -> Self {
        let wear = tool.wear.max(1e-9);
        let most = tool.most.max(1);
        let longest = most.min(whole(LONGEST / wear));
        // Fine wear is counted in lots of pieces: 500 lots in a mean life or more.
        let lot = whole((1.0 / (LOTS * wear)).floor());
        let lots = longest.div_ceil(lot);
        let mut burden = Self {
            planned: (tool.own.to_s(), (rate.over(tool.own) + tool.edge).amount()),
            failure: (tool.failure.to_s(), (rate.over(tool.failure) + tool.scrap + tool.edge).amount()),
            most,
            longest,
            lot,
            own: lot,
            failures: renewals_by_piece(&tool.spread, wear * f64::from(lot), lots),
        };
        let mut least = f64::INFINITY;
        for lots in 1..=lots {
            let cost = burden.cost(lots.saturating_mul(lot));
            if cost < least {
                (least, burden.own) = (cost, lots.saturating_mul(lot));
            }
        }
        burden
    }

    /// Failures in so many pieces, straight between lots; past the last lot as many more as in the mean before it.
    fn failed(&self, pieces: u32) -> f64 {
        let at = (pieces / self.lot) as usize;
        let last = self.failures.len() - 1;
        if at >= last {
            return self.failures[last] * f64::from(pieces) / (index(last) * f64::from(self.lot));
        }
        let way = f64::from(pieces % self.lot) / f64::from(self.lot);
        self.failures[at] + way * (self.failures[at + 1] - self.failures[at])
    }

    fn seconds(&self, pieces: u32) -> f64 {
        (self.planned.0 + self.failure.0 * self.failed(pieces)) / f64::from(pieces)
    }

    fn cost(&self, pieces: u32) -> f64 {
        (self.planned.1 + self.failure.1 * self.failed(pieces)) / f64::from(pieces)
    }

    /// The multiple of an interval that costs least, and its cost for each piece; of equals the smallest. Of many multiples those
    /// about the tool's own best interval are tried.
    fn best_multiple(&self, every: u32) -> (u32, f64) {
        let mut best = (1, self.cost(every));
        let last = self.longest / every;
        let near = self.own / every;
        let tried = if last <= MOST_MULTIPLES {
            2..=last
        } else {
            near.saturating_sub(MOST_MULTIPLES / 2).max(2)..=near.saturating_add(MOST_MULTIPLES / 2).min(last)
        };
        for multiple in tried {
            let cost = self.cost(multiple * every);
            if cost < best.1 {
                best = (multiple, cost);
            }
        }
        best
    }
}
