//! Faces, parting, grooves and forms.

use super::super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::super::work::{FinishPass, SlowFeed, TurningWork};
use super::super::Finishing;
use super::{Motion, spin_at};
use crate::cutting::turning::{
    DWELL_TIME, FACING_TIME, FacingCut, PARTING_TIME, PartingCut, cutting_speed, dwell_time, facing_time,
    feed_rate, parting_time, pass_plan, plunge_count, ring_volume, spindle_speed,
};
use crate::quantity::{CuttingSpeed, Duration, FeedPerRev, Length, Range, Record, SpindleSpeed, Term};

/// A cut across, whatever its name.
struct Across {
    diameters: Range<Length>,
    /// Length along the axis that is taken off.
    width: Length,
    /// Passes or plunges before the last one to size.
    passes: u32,
    depth: Length,
    dwell: f64,
    slow: Option<SlowFeed>,
    finish: Option<FinishPass>,
}

impl Across {
    fn of(at: &Setting<'_>, work: &TurningWork) -> Result<Self, CutError> {
        let plain = |diameters, width, depth| Self {
            diameters,
            width,
            passes: 1,
            depth,
            dwell: 0.0,
            slow: None,
            finish: None,
        };
        Ok(match *work {
            TurningWork::Face { diameters, depth, finish } => {
                let left = finish.map_or(Length::ZERO, |finish| finish.depth);
                let plan = pass_plan(depth, at.cut.depth.unwrap_or(depth), left);
                let deepest = if plan.roughing == 0 { plan.finish } else { plan.depth };
                Self { passes: plan.roughing, finish, ..plain(diameters, depth, deepest) }
            }
            TurningWork::Part { diameters, slow } => {
                let width = at.tool_width()?;
                Self { slow, ..plain(diameters, width, width) }
            }
            TurningWork::Groove { diameters, width, dwell } => {
                let blade = at.tool_width()?;
                if blade.to_mm() > width.to_mm() * (1.0 + 1e-9) {
                    return Err(CutError::DoesNotFit { why: "the blade is wider than the groove" });
                }
                let passes = plunge_count(width, blade);
                Self { passes, dwell, ..plain(diameters, width, blade.smaller(width)) }
            }
            TurningWork::Form { diameters, width, dwell } => {
                if at.tool().geometry.width.is_some_and(|own| width.to_mm() > own.to_mm() * (1.0 + 1e-9)) {
                    return Err(CutError::DoesNotFit { why: "the contact is wider than the form tool" });
                }
                Self { dwell, ..plain(diameters, width, width) }
            }
            _ => return Err(CutError::WrongTool),
        })
    }

    fn face(&self, speed: CuttingSpeed, feed: FeedPerRev, fastest: SpindleSpeed) -> FacingCut {
        let Range { low: inner, high: outer } = self.diameters;
        FacingCut { outer, inner, speed, feed, fastest }
    }
}

pub(super) fn motion(
    at: &Setting<'_>,
    work: &TurningWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let feed = at.feed_per_rev()?;
    let cut = Across::of(at, work)?;
    let passes = cut.passes.saturating_add(u32::from(cut.finish.is_some()));
    if passes > MOST_PASSES {
        return Err(CutError::TooManyPasses { passes });
    }
    let (outer, inner) = (cut.diameters.high, cut.diameters.low);
    let finish = cut.finish.map(|finish| (finish.speed.unwrap_or(at.cut.speed), finish.feed));
    // The finishing pass is the first one where it takes all there is.
    let (speed, advance) = finish.filter(|_| cut.passes == 0).unwrap_or((at.cut.speed, feed));
    let (n, capped) = spin_at(at, speed, outer, record)?;
    let fastest = at.fastest()?;
    let bottom = |speed| spindle_speed(speed, inner).smaller(fastest);
    let mut top = bottom(speed);
    let mut runs = Vec::new();
    let mut finishing = None;
    if cut.passes > 0 {
        let face = cut.face(speed, feed, fastest);
        let time = feeding(&cut, face, record) + dwelling(cut.dwell, bottom(speed), record);
        runs.push((cutting_speed(n, outer), time * f64::from(cut.passes)));
    }
    if let Some((speed, feed)) = finish {
        let turns = spindle_speed(speed, outer).smaller(fastest);
        let time = feeding(&cut, cut.face(speed, feed, fastest), record);
        if let (true, Some(finish)) = (cut.passes > 0, cut.finish) {
            finishing = Some(Finishing {
                from: runs.len(),
                advance: Length::mm(feed.to_mm_per_rev()),
                depth: finish.depth,
                spindle_speed: turns,
            });
        }
        runs.push((cutting_speed(turns, outer), time));
        top = top.larger(bottom(speed));
    }
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(top),
        feed_rate: feed_rate(advance, n),
        passes,
        depth: Some(cut.depth),
        advance: Length::mm(advance.to_mm_per_rev()),
        runs,
        finishing,
        rapid: at.cut.rapid + (outer - inner) / 2.0 * f64::from(passes.saturating_sub(1)),
        removed: Some(ring_volume(outer, inner, cut.width)),
        capped,
        ..Motion::still(outer)
    })
}

fn feeding(cut: &Across, face: FacingCut, record: &mut impl Record) -> Duration {
    let inputs = || {
        vec![
            ("D", face.outer.into()),
            ("d", face.inner.into()),
            ("v_c", face.speed.into()),
            ("f", face.feed.into()),
            ("n_max", face.fastest.into()),
        ]
    };
    let Some(slow) = cut.slow else {
        let time = facing_time(face);
        record.step(&FACING_TIME, time.into(), inputs);
        return time;
    };
    let time = parting_time(PartingCut { face, slow_below: slow.below, slow_share: slow.share.value() });
    record.step(&PARTING_TIME, time.into(), || {
        let mut all = inputs();
        all.extend([("D_s", slow.below.into()), ("q", Term::Plain(slow.share.value()))]);
        all
    });
    time
}

fn dwelling(turns: f64, n: SpindleSpeed, record: &mut impl Record) -> Duration {
    if turns <= 0.0 {
        return Duration::ZERO;
    }
    let standing = dwell_time(turns, n);
    record.step(&DWELL_TIME, standing.into(), || vec![("N", Term::Plain(turns)), ("n", n.into())]);
    standing
}
