//! Gear teeth.

use super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::work::{GearWork, HobWork, Infeed};
use super::{Motion, spin, spin_at};
use crate::cutting::gears::{
    GENERATING_GRINDING_TIME, GRINDING_WORK_SPEED, SHAPING_STROKES, SHAPING_TIME, SHAVING_TIME, ShapingCut,
    ShavingCut, generating_grinding_time, grinding_work_speed, shaping_strokes, shaping_time, shaving_time,
};
use crate::cutting::hobbing::{
    APPROACH, Gear, HOBBING_TIME, Hob, HobbingCut, PITCH_DIAMETER, RADIAL_INFEED_TIME, RadialInfeed,
    approach, hobbing_time, overrun, pitch_diameter, radial_infeed_time, stack_face, swivel_angle,
};
use crate::cutting::turning::cutting_speed;
use crate::quantity::{Duration, FeedPerRev, FeedPerStroke, FeedRate, Length, Record, SpindleSpeed, Term};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &GearWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    match work {
        GearWork::Hob(work) => hob(at, work, record),
        GearWork::Shape { radial_feed, turns, overrun } => {
            shape(at, (*radial_feed, *turns, *overrun), record)
        }
        GearWork::Shave { strokes, overrun } => shave(at, (*strokes, *overrun), record),
        GearWork::Grind { strokes, overrun } => grind(at, (strokes, *overrun), record),
    }
}

/// One cut of a hob over the whole stack.
#[derive(Clone, Copy)]
struct Pass {
    depth: Length,
    feed: FeedPerRev,
    infeed: Infeed,
}

fn hob(at: &Setting<'_>, work: &HobWork, record: &mut impl Record) -> Result<Motion, CutError> {
    let gear = at.gear()?;
    if work.cuts > MOST_PASSES {
        return Err(CutError::TooManyPasses { passes: work.cuts });
    }
    let hob = Hob { diameter: at.tool_diameter()?, starts: at.starts()? };
    let feed = at.feed_per_rev()?;
    let blanks = at.operation.pieces.max(1);
    let stacked = f64::from(blanks);
    if gear.whole_depth * 2.0 >= hob.diameter {
        return Err(CutError::DoesNotFit { why: "the teeth are too deep for a hob of this diameter" });
    }
    let left = work.finish.map_or(Length::ZERO, |finish| finish.depth);
    if left >= gear.whole_depth {
        return Err(CutError::DoesNotFit { why: "the finishing cut is as deep as the teeth" });
    }
    let depth = (gear.whole_depth - left) / f64::from(work.cuts.max(1));
    let first = Pass { depth, feed, infeed: work.infeed };
    let (n, capped) = spin(at, hob.diameter, record)?;
    let (time, path) = pass(at, (work, &hob), (first, n), record)?;
    let mut runs = vec![(cutting_speed(n, hob.diameter), time * f64::from(work.cuts) / stacked)];
    let mut ways = path * f64::from(work.cuts);
    let mut top = n;
    if let Some(finish) = work.finish {
        let speed = finish.speed.unwrap_or(at.cut.speed);
        let last = Pass { depth: finish.depth, feed: finish.feed, infeed: Infeed::Axial };
        let (n, _) = spin_at(at, speed, hob.diameter, record)?;
        let (time, path) = pass(at, (work, &hob), (last, n), record)?;
        runs.push((cutting_speed(n, hob.diameter), time / stacked));
        ways += path;
        top = top.larger(n);
    }
    let rate = FeedRate::mm_per_min(
        feed.to_mm_per_rev() * n.to_rpm() * f64::from(hob.starts) / f64::from(gear.teeth.max(1)),
    );
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(top),
        feed_rate: rate,
        passes: work.cuts + u32::from(work.finish.is_some()),
        depth: Some(depth),
        advance: Length::mm(feed.to_mm_per_rev()),
        runs,
        rapid: (at.cut.rapid + ways) / stacked,
        capped,
        ..Motion::still(hob.diameter)
    })
}

/// Time and path of one cut over the stack.
fn pass(
    at: &Setting<'_>,
    of: (&HobWork, &Hob),
    run: (Pass, SpindleSpeed),
    record: &mut impl Record,
) -> Result<(Duration, Length), CutError> {
    let ((work, hob), (pass, n), gear) = (of, run, at.gear()?);
    let behind = work.overrun.unwrap_or_else(|| overrun(gear, swivel_angle(gear, hob, work.hand)));
    let (infeed, run_up) = match pass.infeed {
        Infeed::Axial => {
            let run_up = approach(gear, hob, work.hand, pass.depth);
            record.step(&APPROACH, run_up.into(), || {
                vec![("h", pass.depth.into()), ("d_a0", hob.diameter.into()), ("beta", gear.helix.into())]
            });
            (Duration::ZERO, run_up)
        }
        Infeed::Radial(radial_feed) => {
            (radial(gear, hob, (pass.depth, radial_feed, n), record), Length::ZERO)
        }
    };
    let path = run_up + stack_face(at.operation.pieces.max(1), gear.face, work.spacer) + behind;
    let cut =
        HobbingCut { gear_teeth: gear.teeth, starts: hob.starts, speed: n, axial_feed: pass.feed, path };
    let time = hobbing_time(cut);
    record.step(&HOBBING_TIME, time.into(), || {
        vec![
            ("z", Term::Plain(f64::from(gear.teeth))),
            ("L", path.into()),
            ("z_0", Term::Plain(f64::from(hob.starts))),
            ("n_0", n.into()),
            ("f_a", pass.feed.into()),
        ]
    });
    Ok((infeed + time, path))
}

fn radial(
    gear: &Gear,
    hob: &Hob,
    of: (Length, FeedPerRev, SpindleSpeed),
    record: &mut impl Record,
) -> Duration {
    let (depth, radial_feed, speed) = of;
    let time = radial_infeed_time(RadialInfeed {
        gear_teeth: gear.teeth,
        starts: hob.starts,
        speed,
        radial_feed,
        depth,
    });
    record.step(&RADIAL_INFEED_TIME, time.into(), || {
        vec![
            ("z", Term::Plain(f64::from(gear.teeth))),
            ("h", depth.into()),
            ("z_0", Term::Plain(f64::from(hob.starts))),
            ("n_0", speed.into()),
            ("f_r", radial_feed.into()),
        ]
    });
    time
}

fn shape(
    at: &Setting<'_>,
    of: (FeedPerStroke, f64, Length),
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let (radial_feed, turns, overrun) = of;
    let gear = at.gear()?;
    let circular_feed = at.feed_per_stroke()?;
    let stroke = gear.face + overrun * 2.0;
    let wanted = shaping_strokes(at.cut.speed, stroke);
    record.step(&SHAPING_STROKES, wanted.into(), || vec![("v_c", at.cut.speed.into()), ("H", stroke.into())]);
    let strokes = at.machine.stroke_rate.map_or(wanted, |most| wanted.smaller(most));
    let diameter = pitch_diameter(gear);
    record.step(&PITCH_DIAMETER, diameter.into(), || {
        vec![
            ("z", Term::Plain(f64::from(gear.teeth))),
            ("m", gear.module.into()),
            ("beta", gear.helix.into()),
        ]
    });
    let cut = ShapingCut {
        depth: gear.whole_depth,
        pitch_diameter: diameter,
        radial_feed,
        circular_feed,
        strokes,
        turns,
    };
    let time = shaping_time(&cut);
    record.step(&SHAPING_TIME, time.into(), || {
        vec![
            ("h", cut.depth.into()),
            ("f_r", radial_feed.into()),
            ("n", strokes.into()),
            ("k", Term::Plain(turns)),
            ("d", diameter.into()),
            ("f_c", circular_feed.into()),
        ]
    });
    Ok(Motion {
        feed_rate: FeedRate::mm_per_min(circular_feed.to_mm_per_stroke() * strokes.to_per_min()),
        depth: Some(gear.whole_depth),
        advance: Length::mm(circular_feed.to_mm_per_stroke()),
        runs: vec![(at.cut.speed * (strokes / wanted), time)],
        rapid: at.cut.rapid,
        capped: strokes < wanted,
        ..Motion::still(diameter)
    })
}

fn shave(at: &Setting<'_>, of: (u32, Length), record: &mut impl Record) -> Result<Motion, CutError> {
    let (strokes, overrun) = of;
    let gear = at.gear()?;
    let feed = at.feed_per_rev()?;
    let cutter = at.tool_diameter()?;
    let (n, capped) = spin(at, cutter, record)?;
    // Cutter and gear mesh: their speeds are as their teeth.
    let work_speed = grinding_work_speed(n, at.teeth()?, gear.teeth);
    record.step(&GRINDING_WORK_SPEED, work_speed.into(), || {
        vec![
            ("n_s", n.into()),
            ("z_s", Term::Plain(at.teeth().map_or(0.0, f64::from))),
            ("z", Term::Plain(f64::from(gear.teeth))),
        ]
    });
    let path = gear.face + overrun;
    let time = shaving_time(&ShavingCut { strokes, path, feed, work_speed });
    record.step(&SHAVING_TIME, time.into(), || {
        vec![
            ("i", Term::Plain(f64::from(strokes))),
            ("L", path.into()),
            ("f", feed.into()),
            ("n_w", work_speed.into()),
        ]
    });
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n),
        feed_rate: FeedRate::mm_per_min(feed.to_mm_per_rev() * work_speed.to_rpm()),
        passes: strokes,
        advance: Length::mm(feed.to_mm_per_rev()),
        runs: vec![(cutting_speed(n, cutter), time)],
        rapid: at.cut.rapid,
        capped,
        ..Motion::still(cutter)
    })
}

fn grind(
    at: &Setting<'_>,
    of: (&[FeedPerRev], Length),
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let (strokes, overrun) = of;
    let gear = at.gear()?;
    let wheel = at.tool_diameter()?;
    let (n, capped) = spin(at, wheel, record)?;
    let starts = at.starts()?;
    let work_speed = grinding_work_speed(n, starts, gear.teeth);
    record.step(&GRINDING_WORK_SPEED, work_speed.into(), || {
        vec![
            ("n_s", n.into()),
            ("z_s", Term::Plain(f64::from(starts))),
            ("z", Term::Plain(f64::from(gear.teeth))),
        ]
    });
    let path = gear.face + overrun;
    let time = generating_grinding_time(path, strokes, work_speed);
    record.step(&GENERATING_GRINDING_TIME, time.into(), || {
        let mut inputs = vec![("L", path.into()), ("n_w", work_speed.into())];
        inputs.extend(strokes.iter().map(|feed| ("f", Term::from(*feed))));
        inputs
    });
    let first = strokes.first().copied().unwrap_or(FeedPerRev::ZERO);
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n),
        feed_rate: FeedRate::mm_per_min(first.to_mm_per_rev() * work_speed.to_rpm()),
        passes: u32::try_from(strokes.len()).unwrap_or(u32::MAX),
        advance: Length::mm(first.to_mm_per_rev()),
        runs: vec![(cutting_speed(n, wheel), time)],
        rapid: at.cut.rapid,
        capped,
        ..Motion::still(wheel)
    })
}
