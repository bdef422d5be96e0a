//! Single-point threads.

use super::super::setting::{CutError, Setting};
use super::super::work::{Side, ThreadWork};
use super::{Motion, spin};
use crate::cutting::threading::{
    THREAD_FEED_RATE, proposed_pass_count, thread_depth_external, thread_depth_internal, thread_feed_rate,
};
use crate::cutting::turning::{TRAVEL_TIME, cutting_speed, travel_time};
use crate::quantity::Record;

pub(super) fn motion(
    at: &Setting<'_>,
    work: &ThreadWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let (diameter, pitch) = (work.diameter, work.pitch);
    let passes = work.passes.unwrap_or_else(|| proposed_pass_count(pitch));
    let depth =
        if work.side == Side::Inside { thread_depth_internal(pitch) } else { thread_depth_external(pitch) };
    let (n, capped) = spin(at, diameter, record)?;
    let rate = thread_feed_rate(pitch, n);
    record.step(&THREAD_FEED_RATE, rate.into(), || vec![("P", pitch.into()), ("n", n.into())]);
    let path = work.length + work.run_in + work.run_out;
    let pass_time = travel_time(path, rate);
    record.step(&TRAVEL_TIME, pass_time.into(), || vec![("L", path.into()), ("v_f", rate.into())]);
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n),
        feed_rate: rate,
        passes,
        depth: Some(depth / f64::from(passes.max(1))),
        advance: pitch,
        runs: vec![(cutting_speed(n, diameter), pass_time * f64::from(passes))],
        rapid: at.cut.rapid + path * f64::from(passes),
        capped,
        ..Motion::still(diameter)
    })
}
