//! Milling.

use super::super::setting::{CutError, Setting};
use super::super::work::{MillShape, MillingWork};
use super::{Motion, spin};
use crate::cutting::milling::{TABLE_FEED, face_approach, side_approach, table_feed};
use crate::cutting::turning::{TRAVEL_TIME, cutting_speed, pass_count, travel_time};
use crate::quantity::{Length, Record, Term};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &MillingWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let MillingWork::Straight { shape, length, width, depth, offset } = *work;
    let diameter = at.tool_diameter()?;
    let teeth = at.teeth()?;
    let feed = at.feed_per_tooth()?;
    let passes = pass_count(depth, at.cut.depth.unwrap_or(depth));
    let run_up = match shape {
        MillShape::Face => face_approach(diameter, width, offset),
        MillShape::Shoulder => side_approach(diameter, width),
        MillShape::Slot => diameter,
    };
    let (n, capped) = spin(at, diameter, record)?;
    let rate = table_feed(feed, teeth, n);
    record.step(&TABLE_FEED, rate.into(), || {
        vec![("f_z", feed.into()), ("z", Term::Plain(f64::from(teeth))), ("n", n.into())]
    });
    let path = length + run_up;
    let time = travel_time(path, rate);
    record.step(&TRAVEL_TIME, time.into(), || vec![("L", path.into()), ("v_f", rate.into())]);
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n),
        feed_rate: rate,
        passes,
        depth: Some(depth / f64::from(passes.max(1))),
        advance: Length::mm(feed.to_mm_per_tooth()),
        runs: vec![(cutting_speed(n, diameter), time * f64::from(passes))],
        rapid: at.cut.rapid + path * f64::from(passes.saturating_sub(1)),
        capped,
        ..Motion::still(diameter)
    })
}
