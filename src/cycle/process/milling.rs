//! Straight milling cuts, and what all milling shares.

use super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::work::{MillShape, MillingWork, StraightWork, ThinChip};
use super::{Motion, balance, milled_thread, pocket, spin};
use crate::cutting::milling::{
    CleanUp, FACE_APPROACH, FACE_TRAVEL, FEED_FOR_CHIP_THICKNESS, SIDE_APPROACH, SIDE_TRAVEL, TABLE_FEED,
    THINNING_FACTOR, face_approach, face_travel, feed_for_chip_thickness, side_approach, side_travel,
    table_feed, thinning_factor,
};
use crate::cutting::turning::{TRAVEL_TIME, cutting_speed, pass_count, travel_time};
use crate::quantity::{Angle, Duration, FeedPerTooth, FeedRate, Length, Record, SpindleSpeed, Term, Volume};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &MillingWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    match work {
        MillingWork::Straight(work) => straight(at, work, record),
        MillingWork::Pocket(work) => pocket::motion(at, work, record),
        MillingWork::Keyway { length, depth, count, ends } => {
            pocket::keyways(at, (*length, *depth), (*count, *ends), record)
        }
        MillingWork::Thread(work) => milled_thread::motion(at, work, record),
        MillingWork::Balance { unbalance, radius, deepest } => {
            balance::motion(at, *unbalance, (*radius, *deepest), record)
        }
    }
}

fn straight(at: &Setting<'_>, work: &StraightWork, record: &mut impl Record) -> Result<Motion, CutError> {
    let diameter = at.tool_diameter()?;
    covers(work, diameter)?;
    let passes = levels(at, work.depth)?;
    let depth = work.depth / f64::from(passes.max(1));
    let engagement = straight_engagement(work, diameter, depth);
    let mut cutter = Cutter::of(at, record)?;
    if work.thin_chip == ThinChip::RaiseFeed && work.shape != MillShape::Face {
        cutter = cutter.raised(engagement, record);
    }
    let path = path(work, diameter, engagement, record);
    let time = cutter.time(path, record);
    let across = match work.shape {
        MillShape::Side => work.width,
        MillShape::Face | MillShape::Shoulder | MillShape::Slot => engagement,
    };
    Ok(Motion {
        passes,
        depth: Some(depth),
        runs: vec![(cutter.speed(), time * f64::from(passes))],
        rapid: at.cut.rapid + path * f64::from(passes.saturating_sub(1)),
        removed: Some(Volume::cm3(work.length.to_mm() * across.to_mm() * work.depth.to_mm() / 1000.0)),
        ..cutter.motion()
    })
}

/// The cutter must cover what it is to mill in one lane.
fn covers(work: &StraightWork, diameter: Length) -> Result<(), CutError> {
    let (width, cutter) = (work.width.to_mm(), diameter.to_mm() * (1.0 + 1e-9));
    let why = match work.shape {
        MillShape::Face if 2.0 * work.offset.to_mm().abs() + width > cutter => {
            "the cutter does not cover the face; give one cut for each lane, or a smaller offset"
        }
        MillShape::Shoulder if width > cutter => {
            "the shoulder is wider than the cutter; give one cut for each lane"
        }
        MillShape::Slot if width > cutter => "the slot is wider than the cutter",
        MillShape::Slot if width < diameter.to_mm() * (1.0 - 1e-9) => "the slot is narrower than the cutter",
        MillShape::Side if work.depth.to_mm() > cutter => "the side is deeper than the cutter is thick",
        MillShape::Face | MillShape::Shoulder | MillShape::Slot | MillShape::Side => return Ok(()),
    };
    Err(CutError::DoesNotFit { why })
}

/// Width across the feed that the cutter takes in a pass.
pub(in crate::cycle) fn straight_engagement(work: &StraightWork, diameter: Length, depth: Length) -> Length {
    match work.shape {
        MillShape::Slot => diameter,
        MillShape::Side => depth.smaller(diameter),
        MillShape::Face | MillShape::Shoulder => work.width.smaller(diameter),
    }
}

fn path(work: &StraightWork, diameter: Length, engagement: Length, record: &mut impl Record) -> Length {
    if work.shape == MillShape::Face {
        let approach = face_approach(diameter, work.width, work.offset);
        record.step(&FACE_APPROACH, approach.into(), || {
            vec![("D", diameter.into()), ("w", work.width.into()), ("e", work.offset.into())]
        });
        let path = face_travel(work.length, approach, diameter, work.clean_up);
        record.step(&FACE_TRAVEL, path.into(), || {
            vec![("l", work.length.into()), ("A", approach.into()), ("D", diameter.into())]
        });
        return path;
    }
    let approach = side_approach(diameter, engagement);
    record.step(&SIDE_APPROACH, approach.into(), || vec![("a_e", engagement.into()), ("D", diameter.into())]);
    let clean_up = if work.shape == MillShape::Slot { CleanUp::Full } else { work.clean_up };
    let path = side_travel(work.length, approach, clean_up);
    record.step(&SIDE_TRAVEL, path.into(), || vec![("l", work.length.into()), ("A", approach.into())]);
    path
}

/// Levels in which a depth is milled away.
pub(super) fn levels(at: &Setting<'_>, depth: Length) -> Result<u32, CutError> {
    let passes = pass_count(depth, at.cut.depth.unwrap_or(depth));
    if passes > MOST_PASSES { Err(CutError::TooManyPasses { passes }) } else { Ok(passes) }
}

/// A cutter that turns and is fed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cutter {
    pub(super) diameter: Length,
    pub(super) feed: FeedPerTooth,
    pub(super) rate: FeedRate,
    teeth: u32,
    turns: SpindleSpeed,
    capped: bool,
}

impl Cutter {
    /// The tool of the cut at the speed and feed of the cut.
    pub(super) fn of(at: &Setting<'_>, record: &mut impl Record) -> Result<Self, CutError> {
        let diameter = at.tool_diameter()?;
        let (teeth, feed) = (at.teeth()?, at.feed_per_tooth()?);
        let (turns, capped) = spin(at, diameter, record)?;
        let cutter = Self { diameter, feed, rate: FeedRate::ZERO, teeth, turns, capped };
        Ok(cutter.fed(feed, record))
    }

    fn fed(self, feed: FeedPerTooth, record: &mut impl Record) -> Self {
        let rate = table_feed(feed, self.teeth, self.turns);
        record.step(&TABLE_FEED, rate.into(), || {
            vec![("f_z", feed.into()), ("z", Term::Plain(f64::from(self.teeth))), ("n", self.turns.into())]
        });
        Self { feed, rate, ..self }
    }

    /// With its feed raised until the chip is as thick as at half the cutter.
    pub(super) fn raised(self, engagement: Length, record: &mut impl Record) -> Self {
        let square = Angle::deg(90.0);
        let factor = thinning_factor(square, engagement, self.diameter);
        record.step(&THINNING_FACTOR, Term::Plain(factor), || {
            vec![("kappa", square.into()), ("a_e", engagement.into()), ("D", self.diameter.into())]
        });
        let wanted = Length::mm(self.feed.to_mm_per_tooth());
        let feed = feed_for_chip_thickness(wanted, factor);
        record.step(&FEED_FOR_CHIP_THICKNESS, feed.into(), || {
            vec![("K", Term::Plain(factor)), ("h_ex", wanted.into())]
        });
        self.fed(feed, record)
    }

    /// Time over a path at its feed rate.
    pub(super) fn time(self, path: Length, record: &mut impl Record) -> Duration {
        timed(path, self.rate, record)
    }

    /// Cutting speed.
    pub(super) fn speed(self) -> crate::quantity::CuttingSpeed {
        cutting_speed(self.turns, self.diameter)
    }

    /// What of its motion it knows itself.
    pub(super) fn motion(self) -> Motion {
        Motion {
            spindle_speed: Some(self.turns),
            top_speed: Some(self.turns),
            feed_rate: self.rate,
            advance: Length::mm(self.feed.to_mm_per_tooth()),
            capped: self.capped,
            ..Motion::still(self.diameter)
        }
    }
}

/// Time over a path at a rate.
pub(super) fn timed(path: Length, rate: FeedRate, record: &mut impl Record) -> Duration {
    let time = travel_time(path, rate);
    record.step(&TRAVEL_TIME, time.into(), || vec![("L", path.into()), ("v_f", rate.into())]);
    time
}
