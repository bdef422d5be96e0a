//! One cut on one machine: cutting data, load on the machine, life of the edge.

use super::change::{Kept, kept};
use super::cut_life::{Edge, edge};
use super::deep_hole::eased;
use super::item::Feed;
use super::limits::{LimitCheck, limits};
use super::loads::loads;
use super::process::{Motion, motion, record_feed_rate};
use super::repair::Slowed;
use super::setting::{CutError, Setting};
use super::work::{GearWork, TurningWork, Work};
use crate::cutting::finish::{PEAK_TO_VALLEY, peak_to_valley};
use crate::cutting::hobbing::{FEED_MARK_DEPTH, feed_mark_depth};
use crate::quantity::{
    Angle, Caution, CuttingSpeed, Duration, FeedPerRev, FeedRate, Force, Length, Limit, Power, Quantity,
    Record, RemovalRate, Roughness, SpindleSpeed, Torque, Volume,
};

/// One cut worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct CutEstimate {
    /// Diameter on which the speed is held.
    pub diameter: Length,
    /// Spindle speed of the first pass; `None` where nothing turns.
    pub spindle_speed: Option<SpindleSpeed>,
    /// Highest spindle speed of the cut.
    pub top_speed: Option<SpindleSpeed>,
    /// Cutting speed actually run at the first pass.
    pub speed: CuttingSpeed,
    /// Feed as run.
    pub feed: Option<Feed>,
    /// Feed rate of the first pass.
    pub feed_rate: FeedRate,
    /// Passes, holes or plunges of one piece.
    pub passes: u32,
    /// Depth of a pass.
    pub depth: Option<Length>,
    /// Time in cut for a piece.
    pub cut_time: Duration,
    /// Time at rapid for a piece.
    pub rapid_time: Duration,
    /// Metal taken from a piece.
    pub removed: Option<Volume>,
    /// Metal removed in a minute.
    pub removal_rate: Option<RemovalRate>,
    /// Cutting force.
    pub force: Option<Force>,
    /// Power at the edge.
    pub power: Option<Power>,
    /// Torque at the spindle.
    pub torque: Option<Torque>,
    /// Theoretical height of the feed marks, Rt.
    pub roughness: Option<Roughness>,
    /// The edge.
    pub edge: Edge,
    /// What of the drawing the edge keeps, and how long.
    pub kept: Kept,
    /// Limits of machine, hold, tool and drawing, used or broken.
    pub limits: Vec<LimitCheck>,
    /// What was lowered to keep the limits.
    pub slowed: Vec<Slowed>,
    /// The speed asked for is out of the spindle's reach; it runs at its fastest.
    pub capped: bool,
    /// Figures outside their range.
    pub cautions: Vec<Caution>,
}

/// Works out one cut.
///
/// # Errors
/// [`CutError`] says what the cut, its tool or its machine lacks.
pub fn estimate_cut(at: &Setting<'_>, record: &mut impl Record) -> Result<CutEstimate, CutError> {
    if let Some((cut, caution)) = eased(at, record) {
        let mut estimate = estimate_cut(&Setting { cut: &cut, ..*at }, record)?;
        estimate.cautions.extend(caution);
        return Ok(estimate);
    }
    let motion = motion(at, record)?;
    record_feed_rate(&motion, at.cut.feed, record);
    can_be(&motion)?;
    let loads = loads(at, &motion, record)?;
    let (edge, mut cautions) = edge(at, &motion, record)?;
    let law = at.tool().life_in(at.material().group);
    let kept = law.map(|law| kept(at, &motion, law, record)).unwrap_or_default();
    let limits = limits(at, &motion, &loads, record)?;
    let rapid_time = at
        .machine
        .rapid
        .map_or(Duration::ZERO, |rate| Duration::min(motion.rapid.to_mm() / rate.to_mm_per_min()));
    let speed = motion.speed();
    if motion.capped {
        let slowest = motion.runs.iter().map(|(speed, _)| *speed).fold(speed, CuttingSpeed::smaller);
        cautions.push(Caution {
            subject: "cutting speed",
            value: at.cut.speed.measure(),
            limit: Limit::AtMost(slowest.measure()),
            remark: "the spindle runs at its fastest on the smallest diameter and cuts slower there than asked",
            source: "scenario".to_owned(),
        });
    }
    Ok(CutEstimate {
        diameter: motion.diameter,
        spindle_speed: motion.spindle_speed,
        top_speed: motion.top_speed,
        speed,
        feed: at.cut.feed.map(|feed| feed.run_at(motion.advance)),
        feed_rate: motion.feed_rate,
        passes: motion.passes,
        depth: motion.depth,
        cut_time: motion.runs.iter().map(|(_, time)| *time).sum::<Duration>() + motion.idle,
        rapid_time,
        removed: motion.removed,
        removal_rate: loads.removal_rate,
        force: loads.force,
        power: loads.power,
        torque: loads.torque,
        roughness: roughness(at, motion.advance, record),
        edge,
        kept,
        limits,
        slowed: Vec::new(),
        capped: motion.capped,
        cautions,
    })
}

/// Longest time of one cut, s: a hundred days.
const LONGEST: f64 = 8.64e6;

/// Figures that each can be meant may still give a time that nobody means.
fn can_be(motion: &Motion) -> Result<(), CutError> {
    let time = motion.runs.iter().map(|(_, time)| *time).sum::<Duration>() + motion.idle;
    if time.to_s() > 0.0 && time.to_s() <= LONGEST {
        return Ok(());
    }
    Err(CutError::DoesNotFit { why: "these figures give no time of cut between nothing and a hundred days" })
}

/// Theoretical height of the feed marks; `None` where no single corner makes them.
fn roughness(at: &Setting<'_>, advance: Length, record: &mut impl Record) -> Option<Roughness> {
    if let Work::Gear(GearWork::Hob(_)) = at.cut.work {
        return hob_marks(at, advance, record);
    }
    let Work::Turning(TurningWork::Along { .. } | TurningWork::Profile { .. } | TurningWork::Face { .. }) =
        at.cut.work
    else {
        return None;
    };
    let radius = at.tool().geometry.corner_radius.filter(|radius| *radius > Length::ZERO)?;
    let roughing = FeedPerRev::mm_per_rev(advance.to_mm());
    let feed = at.cut.work.finish().map_or(roughing, |finish| finish.feed);
    let height = peak_to_valley(feed, radius);
    record.step(&PEAK_TO_VALLEY, height.into(), || vec![("f", feed.into()), ("r_eps", radius.into())]);
    Some(height)
}

/// Normal pressure angle of the standard rack.
const PRESSURE_ANGLE: Angle = Angle::deg(20.0);

/// Depth of the marks that the axial feed of a hob leaves on the flanks.
fn hob_marks(at: &Setting<'_>, advance: Length, record: &mut impl Record) -> Option<Roughness> {
    let (gear, hob) = (at.gear().ok()?, at.tool().geometry.diameter?);
    let roughing = FeedPerRev::mm_per_rev(advance.to_mm());
    let feed = at.cut.work.finish().map_or(roughing, |finish| finish.feed);
    let depth = feed_mark_depth(feed, gear.helix, PRESSURE_ANGLE, hob);
    record.step(&FEED_MARK_DEPTH, depth.into(), || {
        vec![
            ("f_a", feed.into()),
            ("beta", gear.helix.into()),
            ("alpha_n", PRESSURE_ANGLE.into()),
            ("d_a0", hob.into()),
        ]
    });
    Some(depth)
}
