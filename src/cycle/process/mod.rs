//! The motion of each kind of cut: spindle speed, feed rate, passes, time in cut.

mod balance;
mod gear;
mod grinding;
mod hole;
mod linear;
mod milled_thread;
mod milling;
mod pocket;
mod thread;
mod turning;

pub(super) use milling::straight_engagement;

use super::item::Feed;
use super::setting::{CutError, Setting};
use super::work::Work;
use crate::cutting::turning::{CUTTING_SPEED, FEED_RATE, SPINDLE_SPEED, cutting_speed, spindle_speed};
use crate::quantity::{
    CuttingSpeed, Duration, FeedPerRev, FeedPerStroke, FeedPerTooth, FeedRate, Length, Record,
    SpecificVolume, SpindleSpeed, Volume,
};

/// The finishing pass behind the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Finishing {
    /// Place of its first run.
    pub(super) from: usize,
    /// Its advance for each revolution.
    pub(super) advance: Length,
    /// Its depth.
    pub(super) depth: Length,
    /// Spindle speed at its start.
    pub(super) spindle_speed: SpindleSpeed,
}

/// How a cut moves.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Motion {
    /// Diameter on which the speed is held.
    pub(super) diameter: Length,
    /// Spindle speed of the first pass; `None` where nothing turns.
    pub(super) spindle_speed: Option<SpindleSpeed>,
    /// Highest spindle speed of the cut.
    pub(super) top_speed: Option<SpindleSpeed>,
    /// Feed rate of the first pass.
    pub(super) feed_rate: FeedRate,
    /// Passes, holes, plunges or strokes of one piece.
    pub(super) passes: u32,
    /// Depth of the deepest pass.
    pub(super) depth: Option<Length>,
    /// Advance for each revolution, tooth or stroke.
    pub(super) advance: Length,
    /// Time in cut for one piece, by the speed actually run.
    pub(super) runs: Vec<(CuttingSpeed, Duration)>,
    /// The finishing pass, where there is one behind others.
    pub(super) finishing: Option<Finishing>,
    /// Time at feed for one piece that wears nothing: the way back of a tap, a dwell.
    pub(super) idle: Duration,
    /// Path at rapid for one piece.
    pub(super) rapid: Length,
    /// Volume of metal taken from one piece.
    pub(super) removed: Option<Volume>,
    /// Volume ground from one piece by each millimetre of wheel width.
    pub(super) ground: Option<SpecificVolume>,
    /// The speed asked for is out of the spindle's reach.
    pub(super) capped: bool,
}

impl Motion {
    /// A motion that does nothing yet: families fill in what they have.
    pub(super) fn still(diameter: Length) -> Self {
        Self {
            diameter,
            spindle_speed: None,
            top_speed: None,
            feed_rate: FeedRate::ZERO,
            passes: 1,
            depth: None,
            advance: Length::ZERO,
            runs: Vec::new(),
            finishing: None,
            idle: Duration::ZERO,
            rapid: Length::ZERO,
            removed: None,
            ground: None,
            capped: false,
        }
    }

    /// Cutting speed actually run at the first pass.
    pub(super) fn speed(&self) -> CuttingSpeed {
        self.runs.first().map_or(CuttingSpeed::ZERO, |(speed, _)| *speed)
    }

    /// Spindle speed of the first pass, or none at all.
    pub(super) fn turns(&self) -> SpindleSpeed {
        self.spindle_speed.unwrap_or(SpindleSpeed::ZERO)
    }
}

/// Works out the motion of a cut.
pub(super) fn motion(at: &Setting<'_>, record: &mut impl Record) -> Result<Motion, CutError> {
    match &at.cut.work {
        Work::Turning(work) => turning::motion(at, work, record),
        Work::Thread(work) => thread::motion(at, work, record),
        Work::Hole(work) => hole::motion(at, work, record),
        Work::Milling(work) => milling::motion(at, work, record),
        Work::Gear(work) => gear::motion(at, work, record),
        Work::Linear(work) => linear::motion(at, work, record),
        Work::Grinding(work) => grinding::motion(at, work, record),
    }
}

/// Spindle speed for a diameter at the cut's own speed, held down to what may be run; true if it was.
fn spin(
    at: &Setting<'_>,
    diameter: Length,
    record: &mut impl Record,
) -> Result<(SpindleSpeed, bool), CutError> {
    spin_at(at, at.cut.speed, diameter, record)
}

/// Spindle speed for a diameter at any cutting speed, held down to what may be run; true if it was.
fn spin_at(
    at: &Setting<'_>,
    speed: CuttingSpeed,
    diameter: Length,
    record: &mut impl Record,
) -> Result<(SpindleSpeed, bool), CutError> {
    let fastest = at.fastest()?;
    let wanted = spindle_speed(speed, diameter);
    record.step(&SPINDLE_SPEED, wanted.into(), || vec![("v_c", speed.into()), ("d", diameter.into())]);
    if wanted > fastest {
        record.step(&CUTTING_SPEED, cutting_speed(fastest, diameter).into(), || {
            vec![("n", fastest.into()), ("d", diameter.into())]
        });
    }
    Ok((wanted.smaller(fastest), wanted > fastest))
}

impl Setting<'_> {
    pub(super) fn feed_per_rev(&self) -> Result<FeedPerRev, CutError> {
        match self.cut.feed {
            Some(Feed::PerRev(feed)) => Ok(feed),
            _ => Err(CutError::NoFeed { wanted: "mm/rev" }),
        }
    }

    pub(super) fn feed_per_stroke(&self) -> Result<FeedPerStroke, CutError> {
        match self.cut.feed {
            Some(Feed::PerStroke(feed)) => Ok(feed),
            _ => Err(CutError::NoFeed { wanted: "mm/stroke" }),
        }
    }

    pub(super) fn feed_per_tooth(&self) -> Result<FeedPerTooth, CutError> {
        match self.cut.feed {
            Some(Feed::PerTooth(feed)) => Ok(feed),
            _ => Err(CutError::NoFeed { wanted: "mm/tooth" }),
        }
    }
}

/// Reports a feed rate worked from feed and speed.
pub(super) fn record_feed_rate(motion: &Motion, feed: Option<Feed>, record: &mut impl Record) {
    if let Some(Feed::PerRev(_)) = feed {
        let feed = FeedPerRev::mm_per_rev(motion.advance.to_mm());
        record.step(&FEED_RATE, motion.feed_rate.into(), || {
            vec![("f", feed.into()), ("n", motion.turns().into())]
        });
    }
}
