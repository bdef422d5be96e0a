//! A cut brought within its limits: what is slowed, from what to what, and which limit asked for it.

use super::cut::{CutEstimate, estimate_cut};
use super::deep_hole::eased;
use super::item::{Cut, Repair};
use super::limits::{LimitCheck, POWER, Remedy};
use super::setting::{CutError, Setting};
use crate::quantity::{NoWorkings, Record, Term};

/// What was lowered to keep a limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slowed {
    /// The limit that asked for it.
    pub limit: &'static str,
    /// What was lowered: `feed`.
    pub figure: &'static str,
    /// As given.
    pub from: Term,
    /// As run.
    pub to: Term,
}

impl Slowed {
    /// Share of the given figure that is left.
    #[must_use]
    pub fn share(&self) -> f64 {
        self.to.base() / self.from.base()
    }
}

/// Most rounds of lowering: each round keeps one more limit.
const MOST_ROUNDS: usize = 24;

/// Least share of the given speed or feed to which a cut is slowed; a cut that needs less is another cut.
const LEAST_SHARE: f64 = 0.02;

/// Halvings of the share when a limit is searched.
const HALVINGS: usize = 50;

/// Works out a cut; where its limits are broken and it may be slowed, it runs at the limit and says so.
///
/// # Errors
/// [`CutError`] says what the cut, its tool or its machine lacks.
pub fn estimate_within_limits(at: &Setting<'_>, record: &mut impl Record) -> Result<CutEstimate, CutError> {
    if let Some((cut, caution)) = eased(at, record) {
        let mut estimate = estimate_within_limits(&Setting { cut: &cut, ..*at }, record)?;
        estimate.cautions.extend(caution);
        return Ok(estimate);
    }
    if at.cut.repair != Some(Repair::SlowDown) {
        return estimate_cut(at, record);
    }
    within_limits(at, record).map(|(_, estimate)| estimate)
}

/// The cut as it is run within its limits, and its estimate.
pub(super) fn within_limits(
    at: &Setting<'_>,
    record: &mut impl Record,
) -> Result<(Cut, CutEstimate), CutError> {
    let mut cut = at.cut.clone();
    let mut slowed: Vec<Slowed> = Vec::new();
    for _ in 0..MOST_ROUNDS {
        let estimate = estimate_cut(&Setting { cut: &cut, ..*at }, &mut NoWorkings)?;
        let curable = |limit: &&LimitCheck| limit.broken() && !matches!(limit.remedy, Remedy::Other(_));
        // Power comes last: with the torque kept, a lower speed alone brings it down.
        let first = |limit: &LimitCheck| limit.limit != POWER;
        let worst = estimate
            .limits
            .iter()
            .filter(curable)
            .max_by(|a, b| first(a).cmp(&first(b)).then(a.used().total_cmp(&b.used())));
        let Some(worst) = worst else { break };
        let Some(slower) = slower(at, &cut, &estimate, worst)? else { break };
        note(&mut slowed, worst, (&estimate, &cut), &slower);
        cut = slower;
    }
    cut = loosened(at, cut, &mut slowed)?;
    let mut estimate = estimate_cut(&Setting { cut: &cut, ..*at }, record)?;
    estimate.slowed = slowed;
    Ok((cut, estimate))
}

/// The cut slowed to one limit; `None` if no slowing would do.
fn slower(
    at: &Setting<'_>,
    cut: &Cut,
    estimate: &CutEstimate,
    limit: &LimitCheck,
) -> Result<Option<Cut>, CutError> {
    match limit.remedy {
        Remedy::SpindleSpeed => {
            let Some(top) = estimate.top_speed else { return Ok(None) };
            searched(at, limit.limit, |share| {
                let mut slower = cut.clone();
                slower.fastest = Some(top * share);
                slower
            })
        }
        Remedy::CuttingSpeed => searched(at, limit.limit, |share| {
            let mut slower = cut.clone();
            slower.speed = slower.speed * share;
            slower
        }),
        Remedy::Feed => searched(at, limit.limit, |share| {
            let mut slower = cut.clone();
            slower.feed = slower.feed.map(|feed| feed.times(share));
            slower
        }),
        Remedy::Other(_) => Ok(None),
    }
}

/// The largest share at which the limit is kept.
fn searched(at: &Setting<'_>, limit: &str, with: impl Fn(f64) -> Cut) -> Result<Option<Cut>, CutError> {
    let kept = |share: f64| -> Result<bool, CutError> {
        let cut = with(share);
        let estimate = estimate_cut(&Setting { cut: &cut, ..*at }, &mut NoWorkings)?;
        Ok(!estimate.limits.iter().any(|check| check.limit == limit && check.used() > 1.0))
    };
    if !kept(LEAST_SHARE)? {
        return Ok(None);
    }
    let (mut low, mut high) = (LEAST_SHARE, 1.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if kept(middle)? {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(Some(with(low)))
}

/// What was lowered for one limit may have become less needful by what was lowered for another: each is raised again as
/// far as all limits allow.
fn loosened(at: &Setting<'_>, mut cut: Cut, slowed: &mut Vec<Slowed>) -> Result<Cut, CutError> {
    if slowed.len() < 2 {
        return Ok(cut);
    }
    let kept = |cut: &Cut| -> Result<bool, CutError> {
        let estimate = estimate_cut(&Setting { cut, ..*at }, &mut NoWorkings)?;
        let broken = |limit: &LimitCheck| limit.used() > 1.0 && !matches!(limit.remedy, Remedy::Other(_));
        Ok(!estimate.limits.iter().any(broken))
    };
    if !kept(&cut)? {
        return Ok(cut);
    }
    for figure in [SPINDLE_SPEED, CUTTING_SPEED, FEED] {
        let Some(given) = slowed.iter().find(|known| known.figure == figure).map(|known| known.from) else {
            continue;
        };
        let now = figure_of(&cut, figure).map_or(given.base(), Term::base);
        let (mut low, mut high) = (1.0, given.base() / now);
        if kept(&raised(at, &cut, (figure, high)))? {
            low = high;
        }
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if kept(&raised(at, &cut, (figure, middle)))? {
                low = middle;
            } else {
                high = middle;
            }
        }
        let whole = (low * now / given.base() - 1.0).abs() < 1e-12;
        cut = raised(at, &cut, (figure, low));
        let to = figure_of(&cut, figure).unwrap_or(given);
        slowed.retain(|known| known.figure != figure || !whole);
        if let Some(last) = slowed.iter_mut().rev().find(|known| known.figure == figure) {
            last.to = to;
        }
    }
    Ok(cut)
}

/// Figures that can be lowered.
const SPINDLE_SPEED: &str = "spindle speed";
const CUTTING_SPEED: &str = "cutting speed";
const FEED: &str = "feed";

fn figure_of(cut: &Cut, figure: &str) -> Option<Term> {
    match figure {
        SPINDLE_SPEED => cut.fastest.map(Term::from),
        CUTTING_SPEED => Some(cut.speed.into()),
        _ => cut.feed.map(super::item::Feed::term),
    }
}

/// The cut with one figure so many times as large.
fn raised(at: &Setting<'_>, cut: &Cut, by: (&str, f64)) -> Cut {
    let (figure, factor) = by;
    let mut cut = cut.clone();
    match figure {
        SPINDLE_SPEED => cut.fastest = cut.fastest.map(|fastest| fastest * factor),
        CUTTING_SPEED => cut.speed = (cut.speed * factor).smaller(at.cut.speed),
        _ => cut.feed = cut.feed.map(|feed| feed.times(factor)),
    }
    cut
}

/// Keeps what was lowered; a second lowering for the same limit continues the first.
fn note(slowed: &mut Vec<Slowed>, limit: &LimitCheck, before: (&CutEstimate, &Cut), after: &Cut) {
    let (estimate, cut) = before;
    let (figure, from, to) = match limit.remedy {
        Remedy::SpindleSpeed => {
            (SPINDLE_SPEED, estimate.top_speed.map(Term::from), after.fastest.map(Term::from))
        }
        Remedy::CuttingSpeed => (CUTTING_SPEED, Some(cut.speed.into()), Some(after.speed.into())),
        Remedy::Feed => {
            (FEED, cut.feed.map(super::item::Feed::term), after.feed.map(super::item::Feed::term))
        }
        Remedy::Other(_) => return,
    };
    let (Some(from), Some(to)) = (from, to) else { return };
    match slowed.iter_mut().find(|known| known.limit == limit.limit && known.figure == figure) {
        Some(known) => known.to = to,
        None => slowed.push(Slowed { limit: limit.limit, figure, from, to }),
    }
}
