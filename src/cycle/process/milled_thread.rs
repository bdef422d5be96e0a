//! Threads milled along a helix.

use super::super::setting::{CutError, Setting};
use super::super::work::{MilledThread, Side};
use super::Motion;
use super::milling::{Cutter, timed};
use crate::cutting::milling::{
    CENTRE_FEED_RATE, CENTRE_PATH_DIAMETER, HELIX_TURN, LEAD_ARC, ThreadSide, centre_feed_rate,
    centre_path_diameter, helix_turn, lead_arc, thread_mill_turns,
};
use crate::cutting::threading::{
    THREAD_DEPTH_EXTERNAL, THREAD_DEPTH_INTERNAL, thread_depth_external, thread_depth_internal,
};
use crate::quantity::{Length, Record};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &MilledThread,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let cutter = Cutter::of(at, record)?;
    let (side, depth) = match work.side {
        Side::Inside => (ThreadSide::Internal, thread_depth_internal(work.pitch)),
        Side::Outside => (ThreadSide::External, thread_depth_external(work.pitch)),
    };
    let formula = if side == ThreadSide::Internal { &THREAD_DEPTH_INTERNAL } else { &THREAD_DEPTH_EXTERNAL };
    record.step(formula, depth.into(), || vec![("P", work.pitch.into())]);
    let traced = match side {
        ThreadSide::Internal => work.diameter,
        ThreadSide::External => work.diameter - depth * 2.0,
    };
    let path = centre_path_diameter(traced, cutter.diameter, side);
    if path <= Length::ZERO || traced <= Length::ZERO {
        return Err(CutError::DoesNotFit { why: "the thread mill is as wide as the thread" });
    }
    record.step(&CENTRE_PATH_DIAMETER, path.into(), || {
        vec![("D", traced.into()), ("d", cutter.diameter.into())]
    });
    let rate = centre_feed_rate(cutter.rate, path, traced);
    record.step(&CENTRE_FEED_RATE, rate.into(), || {
        vec![("v_f", cutter.rate.into()), ("d_c", path.into()), ("D", traced.into())]
    });
    let turn = helix_turn(path, work.pitch);
    record.step(&HELIX_TURN, turn.into(), || vec![("d_c", path.into()), ("P", work.pitch.into())]);
    let lead = lead_arc(path, cutter.diameter, side);
    record.step(&LEAD_ARC, lead.into(), || vec![("d_c", path.into()), ("d", cutter.diameter.into())]);
    let reach = at.tool().geometry.useful_length.unwrap_or(Length::ZERO);
    let turns = f64::from(thread_mill_turns(work.length, reach, work.pitch));
    let round = timed(turn * turns + lead * 2.0, rate, record);
    let rounds = f64::from(work.passes) * f64::from(work.holes);
    Ok(Motion {
        feed_rate: rate,
        passes: work.passes.saturating_mul(work.holes),
        depth: Some(depth / f64::from(work.passes.max(1))),
        runs: vec![(cutter.speed(), round * rounds)],
        rapid: (at.cut.rapid + work.length * (2.0 * f64::from(work.passes))) * f64::from(work.holes),
        ..cutter.motion()
    })
}
