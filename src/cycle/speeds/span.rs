//! The speeds between which a cut may run: trusted by its life law, within its limits, one piece to an edge at least.

use super::super::cut::{CutEstimate, estimate_cut};
use super::super::deep_hole::eased;
use super::super::item::SpeedFreedom;
use super::super::limits::{LimitCheck, Remedy};
use super::super::repair::estimate_within_limits;
use super::super::setting::Setting;
use super::change::SpeedRule;
use crate::quantity::{CuttingSpeed, NoWorkings};
use crate::tooling::{LifeLaw, LifeShape, ReferenceLife};

/// Slowest and fastest speed of a cut, each with what sets it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Span {
    pub(super) slow: (CuttingSpeed, SpeedRule),
    pub(super) fast: (CuttingSpeed, SpeedRule),
}

/// Halvings when an end is searched.
const HALVINGS: usize = 40;

/// A cut that may be run at other speeds.
pub(super) struct Trial<'a> {
    at: Setting<'a>,
    /// As written, before anything is repaired.
    written: CutEstimate,
}

/// Time in cut and share of a life, for a piece.
pub(super) type Takes = (f64, f64);

impl<'a> Trial<'a> {
    /// `None` where the speed is to stay: so given, or without a life that hangs on the speed.
    pub(super) fn new(at: Setting<'a>) -> Option<Self> {
        let law = at.tool().life_in(at.material().group)?;
        if at.cut.freedom == SpeedFreedom::AsGiven || !hangs_on_speed(law) {
            return None;
        }
        let written = estimate_cut(&at, &mut NoWorkings).ok()?;
        Some(Self { at, written })
    }

    /// Minutes in cut and share of a life at a speed, as it would be run.
    pub(super) fn takes(&self, speed: CuttingSpeed) -> Option<Takes> {
        let mut cut = self.at.cut.clone();
        cut.speed = speed;
        let estimate = estimate_within_limits(&Setting { cut: &cut, ..self.at }, &mut NoWorkings).ok()?;
        Some((estimate.cut_time.to_min(), estimate.edge.share))
    }

    /// The limit that a speed breaks and the written one keeps; a limit that a lower speed would cure is never broken.
    fn broken_at(&self, speed: CuttingSpeed) -> Option<&'static str> {
        let mut cut = self.at.cut.clone();
        cut.speed = speed;
        let Ok(estimate) = estimate_cut(&Setting { cut: &cut, ..self.at }, &mut NoWorkings) else {
            return Some("this cut");
        };
        let repaired = self.at.cut.repair.is_some();
        let before = |limit: &LimitCheck| {
            let known = self.written.limits.iter().find(|known| known.limit == limit.limit);
            known.map_or(1.0, LimitCheck::used).max(1.0)
        };
        let bad = |limit: &&LimitCheck| {
            let by_speed = matches!(limit.remedy, Remedy::SpindleSpeed | Remedy::CuttingSpeed);
            if repaired && by_speed { limit.passed() } else { limit.used() > before(limit) * (1.0 + 1e-9) }
        };
        estimate.limits.iter().find(bad).map(|limit| limit.limit)
    }

    /// The speeds between which the cut may run; `None` where there is no choice.
    pub(super) fn span(&self) -> Option<Span> {
        let trusted = self.trusted()?;
        let slow = self.within_limits(trusted.slow);
        let fast = self.within_limits(trusted.fast);
        let (slow, fast) = (slow?, fast?);
        let fast = self.lasting(self.effective(fast, slow.0)?, slow.0)?;
        (fast.0 > slow.0 * (1.0 + 1e-6)).then_some(Span { slow, fast })
    }

    /// The speeds of the life law, and up to the written one if that lies beyond.
    fn trusted(&self) -> Option<Span> {
        let law = self.at.tool().life_in(self.at.material().group)?;
        let asked = self.at.cut.speed;
        let share = eased(&self.at, &mut NoWorkings).map_or(1.0, |(cut, _)| cut.speed / asked);
        let k = self.written.edge.factors.product() / share;
        let (low, high) = ((law.speeds.low * k).smaller(asked), (law.speeds.high * k).larger(asked));
        Some(Span { slow: (low, SpeedRule::TrustedSpeeds), fast: (high, SpeedRule::TrustedSpeeds) })
    }

    /// An end drawn in from where a limit is broken towards the written speed.
    fn within_limits(&self, end: (CuttingSpeed, SpeedRule)) -> Option<(CuttingSpeed, SpeedRule)> {
        let Some(mut limit) = self.broken_at(end.0) else { return Some(end) };
        let mut kept = self.start()?;
        let mut broken = end.0;
        for _ in 0..HALVINGS {
            let middle = (kept + broken) / 2.0;
            match self.broken_at(middle) {
                None => kept = middle,
                Some(name) => (broken, limit) = (middle, name),
            }
        }
        Some((kept, SpeedRule::Limit(limit)))
    }

    /// A speed within the limits: the written one, or the one to which it is slowed.
    fn start(&self) -> Option<CuttingSpeed> {
        let written = self.at.cut.speed;
        let mut share = 1.0;
        while share > 0.02 {
            if self.broken_at(written * share).is_none() {
                return Some(written * share);
            }
            share *= 0.9;
        }
        None
    }

    /// The slowest speed that takes as little time as the fastest one; `None` where time does not hang on the speed.
    fn effective(
        &self,
        fast: (CuttingSpeed, SpeedRule),
        slow: CuttingSpeed,
    ) -> Option<(CuttingSpeed, SpeedRule)> {
        let least = self.takes(fast.0)?.0;
        let quick = |speed: CuttingSpeed| Some(self.takes(speed)?.0 <= least * (1.0 + 1e-9));
        if quick(slow)? {
            return None;
        }
        if !quick(fast.0 * 0.999)? {
            return Some(fast);
        }
        let (mut low, mut high) = (slow, fast.0);
        for _ in 0..HALVINGS {
            let middle = (low + high) / 2.0;
            if quick(middle)? { high = middle } else { low = middle }
        }
        Some((high, SpeedRule::Spindle))
    }

    /// The fastest speed at which an edge lasts a piece, where it does so at the slowest.
    fn lasting(
        &self,
        fast: (CuttingSpeed, SpeedRule),
        slow: CuttingSpeed,
    ) -> Option<(CuttingSpeed, SpeedRule)> {
        let most = self.written.edge.share.max(1.0);
        let lasts = |speed: CuttingSpeed| Some(self.takes(speed)?.1 <= most);
        if lasts(fast.0)? {
            return Some(fast);
        }
        if !lasts(slow)? {
            return None;
        }
        let (mut low, mut high) = (slow, fast.0);
        for _ in 0..HALVINGS {
            let middle = (low + high) / 2.0;
            if lasts(middle)? { low = middle } else { high = middle }
        }
        Some((low, SpeedRule::OnePiece))
    }
}

/// Whether a law says what another speed does to the life.
fn hangs_on_speed(law: &LifeLaw) -> bool {
    if matches!(law.life.value, ReferenceLife::Volume(_)) {
        return false;
    }
    match &law.shape {
        LifeShape::Taylor(taylor) => taylor.n.value.is_finite(),
        LifeShape::Colding(_) => true,
    }
}
