//! Pockets and keyways, level by level.

use std::f64::consts::PI;

use super::super::setting::{CutError, Setting};
use super::super::work::{Entry, PocketWork, ThinChip};
use super::Motion;
use super::milling::{Cutter, levels, timed};
use crate::cutting::milling::{
    CLEARING_PATH, HELIX_PATH, KEYWAY_PATH, KeywayEnds, PLUNGE_SHARE, Pocket, RAMP_PATH, WALL_PATH,
    clearing_path, helix_path, keyway_path, ramp_path, wall_path,
};
use crate::quantity::{Duration, Length, Record, Volume};

/// Hole that a helix opens, in diameters of the mill: no core stays, and the mill's middle never cuts.
const HELIX_HOLE: f64 = 1.8;

pub(super) fn motion(
    at: &Setting<'_>,
    work: &PocketWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let diameter = at.tool_diameter()?;
    if work.width < diameter {
        return Err(CutError::DoesNotFit { why: "the pocket is narrower than the mill" });
    }
    let count = levels(at, work.depth)?;
    let depth = work.depth / f64::from(count.max(1));
    let step_over = work.step_over.unwrap_or(diameter / 2.0);
    if step_over > diameter {
        return Err(CutError::DoesNotFit { why: "the step over is more than the mill: ridges would stay" });
    }
    let pocket = Pocket { length: work.length, width: work.width, diameter, step_over };
    let cutter = Cutter::of(at, record)?;
    let beside = match work.thin_chip {
        ThinChip::RaiseFeed => cutter.raised(step_over, record),
        ThinChip::AsGiven => cutter,
    };
    let slot = work.length - diameter;
    let clearing = clearing_path(pocket);
    record.step(&CLEARING_PATH, clearing.into(), || {
        vec![
            ("l", pocket.length.into()),
            ("w", pocket.width.into()),
            ("D", diameter.into()),
            ("b", step_over.into()),
        ]
    });
    let wall = wall_path(pocket);
    record.step(&WALL_PATH, wall.into(), || {
        vec![("l", pocket.length.into()), ("w", pocket.width.into()), ("D", diameter.into())]
    });
    let level = way_in(work, depth, &cutter, record)
        + cutter.time(slot + wall, record)
        + beside.time(clearing - slot, record);
    let corners = (4.0 - PI) / 4.0 * diameter.to_mm().powi(2);
    let area = work.length.to_mm() * work.width.to_mm() - corners;
    Ok(Motion {
        passes: count,
        depth: Some(depth),
        runs: vec![(cutter.speed(), level * f64::from(count))],
        rapid: at.cut.rapid + work.length * f64::from(count.saturating_sub(1)),
        removed: Some(Volume::cm3(area * work.depth.to_mm() / 1000.0)),
        ..cutter.motion()
    })
}

fn way_in(work: &PocketWork, depth: Length, cutter: &Cutter, record: &mut impl Record) -> Duration {
    match work.entry {
        Entry::Plunge => timed(depth, cutter.rate * PLUNGE_SHARE, record),
        Entry::Ramp => {
            let path = ramp_path(depth, work.ramp_angle);
            record.step(&RAMP_PATH, path.into(), || {
                vec![("a_p", depth.into()), ("alpha", work.ramp_angle.into())]
            });
            cutter.time(path, record)
        }
        Entry::Helix => {
            let hole = (cutter.diameter * HELIX_HOLE).smaller(work.width);
            let path = helix_path(depth, work.ramp_angle, hole, cutter.diameter);
            record.step(&HELIX_PATH, path.into(), || {
                vec![
                    ("a_p", depth.into()),
                    ("alpha", work.ramp_angle.into()),
                    ("d_h", hole.into()),
                    ("D", cutter.diameter.into()),
                ]
            });
            cutter.time(path, record)
        }
    }
}

/// Keyways: length and depth of one, number and ends.
pub(super) fn keyways(
    at: &Setting<'_>,
    size: (Length, Length),
    kind: (u32, KeywayEnds),
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let ((length, whole), (count, ends)) = (size, kind);
    let cutter = Cutter::of(at, record)?;
    let diameter = cutter.diameter;
    if length < diameter {
        return Err(CutError::DoesNotFit { why: "the keyway is shorter than the mill is wide" });
    }
    let passes = levels(at, whole)?;
    let depth = whole / f64::from(passes.max(1));
    let path = keyway_path(length, diameter, ends);
    record.step(&KEYWAY_PATH, path.into(), || vec![("l", length.into()), ("D", diameter.into())]);
    let plunge = match ends {
        KeywayEnds::Closed => timed(depth, cutter.rate * PLUNGE_SHARE, record),
        KeywayEnds::Open => Duration::ZERO,
    };
    let all = f64::from(passes) * f64::from(count);
    let d = diameter.to_mm();
    let round = match ends {
        KeywayEnds::Closed => (4.0 - PI) / 4.0 * d * d,
        KeywayEnds::Open => (4.0 - PI) / 8.0 * d * d,
    };
    let area = length.to_mm() * d - round;
    // A closed keyway is milled to and fro; an open one starts each level from outside.
    let back = match ends {
        KeywayEnds::Closed => Length::ZERO,
        KeywayEnds::Open => path * f64::from(passes.saturating_sub(1)),
    };
    Ok(Motion {
        passes: passes.saturating_mul(count),
        depth: Some(depth),
        runs: vec![(cutter.speed(), (plunge + cutter.time(path, record)) * all)],
        rapid: (at.cut.rapid + back) * f64::from(count),
        removed: Some(Volume::cm3(area * whole.to_mm() * f64::from(count) / 1000.0)),
        ..cutter.motion()
    })
}
