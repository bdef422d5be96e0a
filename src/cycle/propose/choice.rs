//! The tool for a cut: all that can make it are worked out, the quickest within all limits is taken.

use super::super::cut::CutEstimate;
use super::super::drawing::Feature;
use super::super::item::{Asked, Cut, Feed, Item, Offset, Operation, Repair, Shop, SpeedFreedom};
use super::super::limits::LimitCheck;
use super::super::repair::{Slowed, within_limits};
use super::super::setting::Setting;
use super::super::work::{HoleKind, Work};
use super::route::ProposeError;
use crate::cutting::finish::feed_for_roughness;
use crate::plant::Machine;
use crate::quantity::{CuttingSpeed, FeedPerRev, Length, NoWorkings, Roughness, SpindleSpeed};
use crate::tooling::{LifeLaw, Tool, ToolKind};

/// Share of the corner radius up to which a roughing feed goes: common practice.
const FEED_OF_CORNER: f64 = 0.5;

/// Share of the roughness asked that the feed marks may take; the rest is for wear and vibration: common practice.
const SHARE_OF_ROUGHNESS: f64 = 0.8;

/// Why a figure was proposed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reason {
    /// The tool is the quickest of so many that can make the cut.
    Quickest {
        /// Tools that can.
        of: usize,
    },
    /// The speed at which the edge lasts as in its reference cut.
    EqualLife {
        /// Speed of the reference cut.
        reference: CuttingSpeed,
        /// Factor for material, hardness, coolant.
        factor: f64,
    },
    /// The feed of the reference cut.
    ReferenceFeed,
    /// The feed is held to a share of the corner radius.
    CornerFeed,
    /// The feed reaches the roughness asked.
    FinishFeed(Roughness),
    /// Lowered to a limit.
    Slowed(Slowed),
}

/// A proposed cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposed {
    /// What of the drawing it makes.
    pub feature: Feature,
    /// The cut.
    pub cut: Cut,
    /// Why so.
    pub reasons: Vec<Reason>,
    /// The cut worked out on the first machine.
    pub estimate: CutEstimate,
}

/// A cut that still lacks tool, speed and feed.
#[derive(Debug, Clone)]
pub(super) struct Wish {
    pub(super) feature: Feature,
    pub(super) id: String,
    pub(super) work: Work,
    pub(super) channel: u32,
    pub(super) asked: Asked,
    /// Stock of a pass may be as deep as the reference cut of the tool.
    pub(super) deep: bool,
}

/// Where tools are chosen.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bench<'a> {
    pub(super) shop: &'a Shop,
    pub(super) item: &'a Item,
    pub(super) operation: &'a Operation,
    pub(super) machine: &'a Machine,
}

impl<'a> Bench<'a> {
    /// Tools of a kind, with their places.
    pub(super) fn tools(&self, kind: ToolKind) -> impl Iterator<Item = (usize, &'a Tool)> {
        self.shop.tools.iter().enumerate().filter(move |(_, tool)| tool.kind == kind)
    }

    /// Life of a tool in the material of the part.
    pub(super) fn law(&self, tool: &'a Tool) -> Option<&'a LifeLaw> {
        let super::super::item::Making::Part { material, .. } = self.item.making else { return None };
        tool.life_in(self.shop.materials[material].group)
    }

    /// The quickest of the tools that make the wish within all limits.
    pub(super) fn choose(&self, wish: &Wish, fits: impl Fn(&Tool) -> bool) -> Result<Proposed, ProposeError> {
        let kinds = wish.work.tools().0;
        let mut found: Vec<Proposed> = Vec::new();
        let mut refused: Option<&'static str> = None;
        let candidates = self.shop.tools.iter().enumerate();
        for (id, tool) in candidates.filter(|(_, tool)| kinds.contains(&tool.kind) && fits(tool)) {
            let Some(law) = self.law(tool) else { continue };
            match self.worked(wish, (id, tool), law) {
                Some(Ok(proposed)) => found.push(proposed),
                Some(Err(limit)) => refused = Some(limit),
                None => {}
            }
        }
        let of = found.len();
        let quickest = found.into_iter().min_by(|one, other| {
            one.estimate.cut_time.total_cmp(&other.estimate.cut_time).then(one.cut.tool.cmp(&other.cut.tool))
        });
        let mut proposed = quickest.ok_or(ProposeError::NoTool {
            feature: wish.feature,
            wanted: wish.work.tools().1,
            limit: refused,
        })?;
        proposed.reasons.insert(0, Reason::Quickest { of });
        Ok(proposed)
    }

    /// A wish with a tool; the limit that stands against it, or nothing if the tool cannot be worked out at all.
    fn worked(
        &self,
        wish: &Wish,
        tool: (usize, &Tool),
        law: &LifeLaw,
    ) -> Option<Result<Proposed, &'static str>> {
        let (id, tool) = tool;
        // Threads and taps are fed by their pitch.
        let (feed, mut reasons) = match law.feed.filter(|_| !takes_pitch(&wish.work)) {
            Some(feed) => {
                let (feed, reason) = feed_of(wish, tool, feed);
                (Some(Feed::PerRev(feed)), vec![reason])
            }
            None => (None, Vec::new()),
        };
        let mut cut = Cut {
            id: wish.id.clone(),
            tool: id,
            position: String::new(),
            speed: law.speed.value,
            freedom: SpeedFreedom::Free,
            feed,
            depth: law.depth.filter(|_| wish.deep),
            wear: None,
            channel: wish.channel,
            condition: None,
            coolant: None,
            rapid: RAPID_PATH,
            fastest: None,
            overhang: None,
            asked: wish.asked,
            offset: Offset::USUAL,
            sisters: 1,
            repair: Some(Repair::SlowDown),
            work: wish.work.clone(),
        };
        let factor = self.slowed(&cut)?.1.edge.factors.product();
        reasons.insert(0, Reason::EqualLife { reference: law.speed.value, factor });
        cut.speed = round_speed(law.speed.value * factor);
        cut.feed = cut.feed.map(round_feed);
        let (mut slower, estimate) = self.slowed(&cut)?;
        if let Some(limit) = estimate.limits.iter().find(|limit| LimitCheck::broken(limit)) {
            return Some(Err(limit.limit));
        }
        if estimate.edge.pieces == 0 {
            return Some(Err("tool life"));
        }
        reasons.extend(estimate.slowed.iter().map(|slowed| Reason::Slowed(*slowed)));
        slower.speed = round_speed(slower.speed);
        slower.feed = slower.feed.map(round_feed);
        slower.fastest = slower.fastest.map(|fastest| SpindleSpeed::rpm(fastest.to_rpm().floor()));
        let (_, estimate) = self.slowed(&slower)?;
        slower.repair = None;
        Some(Ok(Proposed { feature: wish.feature, cut: slower, reasons, estimate }))
    }

    fn slowed(&self, cut: &Cut) -> Option<(Cut, CutEstimate)> {
        let at = Setting {
            shop: self.shop,
            item: self.item,
            operation: self.operation,
            machine: self.machine,
            cut,
        };
        within_limits(&at, &mut NoWorkings).ok()
    }
}

/// Whether the pitch is the feed.
fn takes_pitch(work: &Work) -> bool {
    match work {
        Work::Thread(_) => true,
        Work::Hole(hole) => matches!(hole.kind, HoleKind::Tap { .. }),
        Work::Turning(_) | Work::Milling(_) | Work::Gear(_) | Work::Linear(_) | Work::Grinding(_) => false,
    }
}

/// Path at rapid of a proposed cut: from the turret and back.
const RAPID_PATH: Length = Length::mm(150.0);

/// Feed by the finish asked, the corner, or the reference cut.
fn feed_of(wish: &Wish, tool: &Tool, reference: Length) -> (FeedPerRev, Reason) {
    let reference = FeedPerRev::mm_per_rev(reference.to_mm());
    let Some(corner) = tool.geometry.corner_radius.filter(|corner| *corner > Length::ZERO) else {
        return (reference, Reason::ReferenceFeed);
    };
    if let Some(asked) = wish.asked.roughness {
        let feed = feed_for_roughness(asked * SHARE_OF_ROUGHNESS, corner);
        if feed < reference {
            return (feed, Reason::FinishFeed(asked));
        }
    }
    let by_corner = FeedPerRev::mm_per_rev(corner.to_mm() * FEED_OF_CORNER);
    if by_corner < reference { (by_corner, Reason::CornerFeed) } else { (reference, Reason::ReferenceFeed) }
}

/// Down to whole metres a minute: what is entered at a machine.
fn round_speed(speed: CuttingSpeed) -> CuttingSpeed {
    let metres = speed.to_m_per_min();
    CuttingSpeed::m_per_min(if metres >= 10.0 { (metres + 1e-9).floor() } else { metres })
}

/// Down to hundredths of a millimetre, finer for small feeds.
fn round_feed(feed: Feed) -> Feed {
    let length = feed.advance().to_mm();
    let step = if length >= 0.05 { 0.01 } else { 0.001 };
    let rounded = (length / step + 1e-9).floor() * step;
    feed.times(if rounded > 0.0 { rounded / length } else { 1.0 })
}
