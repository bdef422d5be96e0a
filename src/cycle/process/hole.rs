//! Holes.

use std::f64::consts::PI;

use super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::work::{HoleKind, HoleWork, Pecks};
use super::{Motion, spin};
use crate::cutting::drilling::{
    COUNTERSINK_DEPTH, DRILLING_TIME, MARK_DEPTH, PECK_COUNT, PECK_FEED_PATH, PECK_RAPID_PATH,
    POINT_ALLOWANCE, PeckCycle, TAPPING_TIME, countersink_depth, drilling_time, mark_depth, peck_count,
    peck_feed_path, peck_rapid_path, point_allowance, tapping_time,
};
use crate::cutting::threading::thread_feed_rate;
use crate::cutting::turning::{DWELL_TIME, cutting_speed, dwell_time, feed_rate, travel_time};
use crate::quantity::{Duration, Length, Record, SpindleSpeed, Term, Volume};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &HoleWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    match work.kind {
        HoleKind::Tap { depth, pitch, faster_back } => {
            tap(at, work, Thread { depth, pitch, faster_back }, record)
        }
        _ => fed(at, work, record),
    }
}

/// One hole: where the tool goes.
struct Path {
    /// Diameter on which the speed is held.
    diameter: Length,
    /// At feed.
    feed: Length,
    /// At rapid, out of the hole again.
    rapid: Length,
    /// Revolutions at the bottom.
    dwell: f64,
    /// Metal taken, where it is known.
    removed: Option<Volume>,
}

fn fed(at: &Setting<'_>, work: &HoleWork, record: &mut impl Record) -> Result<Motion, CutError> {
    let feed = at.feed_per_rev()?;
    let path = path(at, work, record)?;
    let holes = f64::from(work.holes);
    let (n, capped) = spin(at, path.diameter, record)?;
    let time = drilling_time(path.feed, feed, n);
    record.step(&DRILLING_TIME, time.into(), || {
        vec![("L", path.feed.into()), ("f", feed.into()), ("n", n.into())]
    });
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n),
        feed_rate: feed_rate(feed, n),
        passes: work.holes,
        advance: Length::mm(feed.to_mm_per_rev()),
        runs: vec![(cutting_speed(n, path.diameter), time * holes)],
        idle: standing(path.dwell, n, record) * holes,
        rapid: (at.cut.rapid + path.rapid) * holes,
        removed: path.removed.map(|volume| volume * holes),
        capped,
        ..Motion::still(path.diameter)
    })
}

fn standing(dwell: f64, n: SpindleSpeed, record: &mut impl Record) -> Duration {
    if dwell <= 0.0 {
        return Duration::ZERO;
    }
    let time = dwell_time(dwell, n);
    record.step(&DWELL_TIME, time.into(), || vec![("N", Term::Plain(dwell)), ("n", n.into())]);
    time
}

fn path(at: &Setting<'_>, work: &HoleWork, record: &mut impl Record) -> Result<Path, CutError> {
    let tool = at.tool_diameter()?;
    let straight = |depth: Length, through: Length, dwell: f64| {
        let feed = depth + work.approach + through;
        Path { diameter: tool, feed, rapid: feed, dwell, removed: None }
    };
    match work.kind {
        HoleKind::Drill { depth, through, pecks, .. } => drill(at, work, (depth, through, pecks), record),
        HoleKind::Ream { depth, through } => Ok(straight(depth, through, 0.0)),
        HoleKind::Centre { depth, dwell } | HoleKind::Counterbore { depth, dwell } => {
            Ok(straight(depth, Length::ZERO, dwell))
        }
        HoleKind::Tap { depth, .. } => Ok(straight(depth, Length::ZERO, 0.0)),
        HoleKind::Spot { diameter, dwell } => {
            let angle = at.sharp_angle()?;
            let depth = mark_depth(made(diameter, tool)?, angle);
            record
                .step(&MARK_DEPTH, depth.into(), || vec![("D_m", diameter.into()), ("sigma", angle.into())]);
            let removed = Some(cone(diameter, depth));
            Ok(Path { diameter, removed, ..straight(depth, Length::ZERO, dwell) })
        }
        HoleKind::Countersink { diameter, hole, dwell } => {
            let angle = at.sharp_angle()?;
            let depth = countersink_depth(made(diameter, tool)?, hole, angle);
            record.step(&COUNTERSINK_DEPTH, depth.into(), || {
                vec![("D", diameter.into()), ("d", hole.into()), ("sigma", angle.into())]
            });
            // The cone down to the hole, less its tip and the hole inside it.
            let tip = cone(hole, mark_depth(hole, angle));
            let whole = cone(diameter, depth + mark_depth(hole, angle));
            let removed = (hole > Length::ZERO).then(|| whole - tip - cylinder(hole, depth));
            Ok(Path { diameter, removed, ..straight(depth, Length::ZERO, dwell) })
        }
    }
}

/// A diameter that the tool can make.
fn made(diameter: Length, tool: Length) -> Result<Length, CutError> {
    if diameter > tool * (1.0 + 1e-9) { Err(CutError::ToolTooSmall) } else { Ok(diameter) }
}

fn cone(diameter: Length, height: Length) -> Volume {
    Volume::cm3(PI / 12.0 * diameter.to_mm().powi(2) * height.to_mm() / 1000.0)
}

fn cylinder(diameter: Length, height: Length) -> Volume {
    Volume::cm3(PI / 4.0 * diameter.to_mm().powi(2) * height.to_mm() / 1000.0)
}

/// Depth, way behind the hole, pecks.
type Drilled = (Length, Length, Option<Pecks>);

fn drill(
    at: &Setting<'_>,
    work: &HoleWork,
    drilled: Drilled,
    record: &mut impl Record,
) -> Result<Path, CutError> {
    let (depth, through, pecks) = drilled;
    let diameter = at.tool_diameter()?;
    let angle = at.point_angle();
    let point = point_allowance(diameter, angle);
    record.step(&POINT_ALLOWANCE, point.into(), || vec![("D", diameter.into()), ("sigma", angle.into())]);
    // Behind a through hole the point meets no metal.
    let tip = if through > Length::ZERO { Volume::ZERO } else { cone(diameter, point) };
    let removed = Some(cylinder(diameter, depth) + tip);
    let Some(pecks) = pecks else {
        let feed = depth + work.approach + through + point;
        return Ok(Path { diameter, feed, rapid: feed, dwell: 0.0, removed });
    };
    let cycle = PeckCycle {
        depth: depth + through + point,
        peck: pecks.depth,
        clearance: pecks.clearance,
        back_off: pecks.lift,
        retract: pecks.retract,
    };
    let count = peck_count(&cycle);
    if count > MOST_PASSES {
        return Err(CutError::TooManyPasses { passes: count });
    }
    let (feed, rapid) = (peck_feed_path(&cycle), peck_rapid_path(&cycle));
    let m = Term::Plain(f64::from(count));
    record.step(&PECK_COUNT, m, || vec![("h", cycle.depth.into()), ("q", cycle.peck.into())]);
    let terms = || {
        vec![
            ("h", cycle.depth.into()),
            ("q", cycle.peck.into()),
            ("m", m),
            ("c", cycle.clearance.into()),
            ("d", cycle.back_off.into()),
        ]
    };
    record.step(&PECK_FEED_PATH, feed.into(), terms);
    record.step(&PECK_RAPID_PATH, rapid.into(), terms);
    Ok(Path { diameter, feed, rapid, dwell: 0.0, removed })
}

/// What a tap makes, and how it comes back.
struct Thread {
    depth: Length,
    pitch: Length,
    faster_back: f64,
}

fn tap(
    at: &Setting<'_>,
    work: &HoleWork,
    thread: Thread,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let holes = work.holes;
    let diameter = at.tool_diameter()?;
    let (n, capped) = spin(at, diameter, record)?;
    let back = (n * thread.faster_back).smaller(at.fastest()?);
    let pitch = thread.pitch;
    let path = thread.depth + work.approach;
    let rate = thread_feed_rate(pitch, n);
    let way_in = travel_time(path, rate);
    let time = tapping_time(path, pitch, n, back);
    record.step(&TAPPING_TIME, time.into(), || {
        vec![("L", path.into()), ("P", pitch.into()), ("n", n.into()), ("n_back", back.into())]
    });
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n.larger(back)),
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
