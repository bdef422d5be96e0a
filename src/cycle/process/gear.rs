//! Gear teeth.

use super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::work::{GearWork, HobWork};
use super::{Motion, spin};
use crate::cutting::hobbing::{
    APPROACH, HOBBING_TIME, Hob, HobbingCut, approach, hobbing_time, overrun, swivel_angle,
};
use crate::cutting::turning::cutting_speed;
use crate::quantity::{FeedRate, Length, Record, Term};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &GearWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    match work {
        GearWork::Hob(work) => hob(at, work, record),
    }
}

fn hob(at: &Setting<'_>, work: &HobWork, record: &mut impl Record) -> Result<Motion, CutError> {
    let HobWork { cuts, overrun: behind, hand, spacer } = *work;
    let gear = at.gear()?;
    if cuts > MOST_PASSES {
        return Err(CutError::TooManyPasses { passes: cuts });
    }
    let hob = Hob { diameter: at.tool_diameter()?, starts: at.starts()? };
    let feed = at.feed_per_rev()?;
    let stacked = f64::from(at.operation.pieces.max(1));
    let behind = behind.unwrap_or_else(|| overrun(gear, swivel_angle(gear, &hob, hand)));
    let depth = gear.whole_depth / f64::from(cuts.max(1));
    let run_up = approach(gear, &hob, hand, depth);
    record.step(&APPROACH, run_up.into(), || {
        vec![("h", depth.into()), ("d_a0", hob.diameter.into()), ("beta", gear.helix.into())]
    });
    let (n, capped) = spin(at, hob.diameter, record)?;
    let path = run_up + gear.face * stacked + spacer * (stacked - 1.0) + behind;
    let cut = HobbingCut { gear_teeth: gear.teeth, starts: hob.starts, speed: n, axial_feed: feed, path };
    let time = hobbing_time(cut);
    record.step(&HOBBING_TIME, time.into(), || {
        vec![
            ("z", Term::Plain(f64::from(gear.teeth))),
            ("L", path.into()),
            ("z_0", Term::Plain(f64::from(hob.starts))),
            ("n_0", n.into()),
            ("f_a", feed.into()),
        ]
    });
    let rate = FeedRate::mm_per_min(
        feed.to_mm_per_rev() * n.to_rpm() * f64::from(hob.starts) / f64::from(gear.teeth.max(1)),
    );
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n),
        feed_rate: rate,
        passes: cuts,
        depth: Some(depth),
        advance: Length::mm(feed.to_mm_per_rev()),
        runs: vec![(cutting_speed(n, hob.diameter), time * f64::from(cuts) / stacked)],
        rapid: (at.cut.rapid + path * f64::from(cuts)) / stacked,
        capped,
        ..Motion::still(hob.diameter)
    })
}
