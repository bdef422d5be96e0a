//! Holes.

use super::super::setting::{CutError, Setting};
use super::super::work::{HoleKind, HoleWork};
use super::{Motion, spin};
use crate::cutting::drilling::{
    DRILLING_TIME, POINT_ALLOWANCE, TAPPING_TIME, drilling_time, point_allowance, tapping_time,
};
use crate::cutting::threading::thread_feed_rate;
use crate::cutting::turning::{cutting_speed, feed_rate, travel_time};
use crate::quantity::{Length, Record};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &HoleWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    match work.kind {
        HoleKind::Drill { .. } | HoleKind::Ream { .. } => fed(at, work, record),
        HoleKind::Tap { depth, pitch } => tap(at, work, (depth, pitch), record),
    }
}

fn fed(at: &Setting<'_>, work: &HoleWork, record: &mut impl Record) -> Result<Motion, CutError> {
    let diameter = at.tool_diameter()?;
    let feed = at.feed_per_rev()?;
    let holes = work.holes;
    let path = match work.kind {
        HoleKind::Drill { depth, through } => {
            let angle = at.point_angle();
            let allowance = point_allowance(diameter, angle);
            record.step(&POINT_ALLOWANCE, allowance.into(), || {
                vec![("D", diameter.into()), ("sigma", angle.into())]
            });
            depth + work.approach + through + allowance
        }
        HoleKind::Ream { depth } | HoleKind::Tap { depth, .. } => depth + work.approach,
    };
    let (n, capped) = spin(at, diameter, record)?;
    let time = drilling_time(path, feed, n);
    record
        .step(&DRILLING_TIME, time.into(), || vec![("L", path.into()), ("f", feed.into()), ("n", n.into())]);
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n),
        feed_rate: feed_rate(feed, n),
        passes: holes,
        advance: Length::mm(feed.to_mm_per_rev()),
        runs: vec![(cutting_speed(n, diameter), time * f64::from(holes))],
        rapid: (at.cut.rapid + path) * f64::from(holes),
        capped,
        ..Motion::still(diameter)
    })
}

fn tap(
    at: &Setting<'_>,
    work: &HoleWork,
    thread: (Length, Length),
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let holes = work.holes;
    let diameter = at.tool_diameter()?;
    let (n, capped) = spin(at, diameter, record)?;
    let (depth, pitch) = thread;
    let path = depth + work.approach;
    let rate = thread_feed_rate(pitch, n);
    let way_in = travel_time(path, rate);
    let time = tapping_time(path, pitch, n, n);
    record.step(&TAPPING_TIME, time.into(), || {
        vec![("L", path.into()), ("P", pitch.into()), ("n", n.into()), ("n_back", n.into())]
    });
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n),
        feed_rate: rate,
        passes: holes,
        advance: pitch,
        runs: vec![(cutting_speed(n, diameter), way_in * f64::from(holes))],
        idle: (time - way_in) * f64::from(holes),
        rapid: at.cut.rapid * f64::from(holes),
        capped,
        ..Motion::still(diameter)
    })
}
