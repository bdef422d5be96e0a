//! Single-point threads.

use super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::work::{Side, ThreadWork};
use super::{Motion, spin};
use crate::cutting::threading::{
    THREAD_FEED_RATE, THREAD_PASSES, THREAD_PASSES_WITH_LEAST_LAST, external_thread_volume,
    internal_thread_volume, proposed_pass_count, thread_depth_external, thread_depth_internal,
    thread_feed_rate, thread_passes, thread_passes_with_least_last,
};
use crate::cutting::turning::{TRAVEL_TIME, cutting_speed, travel_time};
use crate::quantity::{Length, Record, Term, Volume};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &ThreadWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let (diameter, pitch) = (work.diameter, work.pitch);
    let infeeds = infeeds(work, record)?;
    let passes = u32::try_from(infeeds.len()).unwrap_or(MOST_PASSES);
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
        // The first pass is the deepest.
        depth: infeeds.first().copied(),
        advance: pitch,
        runs: vec![(cutting_speed(n, diameter), pass_time * f64::from(passes))],
        rapid: at.cut.rapid + path * f64::from(passes),
        removed: Some(volume(work)),
        capped,
        ..Motion::still(diameter)
    })
}

fn infeeds(work: &ThreadWork, record: &mut impl Record) -> Result<Vec<Length>, CutError> {
    let passes = work.passes.unwrap_or_else(|| proposed_pass_count(work.pitch));
    if passes > MOST_PASSES {
        return Err(CutError::TooManyPasses { passes });
    }
    let depth = match work.side {
        Side::Inside => thread_depth_internal(work.pitch),
        Side::Outside => thread_depth_external(work.pitch),
    };
    let (formula, infeeds) = match work.last_pass {
        None => (&THREAD_PASSES, thread_passes(depth, passes)),
        Some(least) => (&THREAD_PASSES_WITH_LEAST_LAST, thread_passes_with_least_last(depth, passes, least)),
    };
    if let Some(first) = infeeds.first() {
        record.step(formula, (*first).into(), || {
            let mut inputs = vec![("h", depth.into()), ("i", Term::Plain(f64::from(passes)))];
            inputs.extend(work.last_pass.map(|least| ("a_min", least.into())));
            inputs
        });
    }
    Ok(infeeds)
}

fn volume(work: &ThreadWork) -> Volume {
    match work.side {
        Side::Inside => internal_thread_volume(work.diameter, work.pitch, work.length),
        Side::Outside => external_thread_volume(work.diameter, work.pitch, work.length),
    }
}
