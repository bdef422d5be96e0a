//! Milling away an unbalance.

use std::f64::consts::PI;

use super::super::setting::{CutError, Setting};
use super::Motion;
use super::milling::{Cutter, levels, timed};
use crate::cutting::milling::{
    BALANCE_MOMENT, BALANCE_PATH, PLUNGE_SHARE, balance_cut, balance_moment, balance_path,
};
use crate::quantity::{Length, MassMoment, Record, Volume};

pub(super) fn motion(
    at: &Setting<'_>,
    unbalance: MassMoment,
    place: (Length, Length),
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let (radius, deepest) = place;
    let cutter = Cutter::of(at, record)?;
    if radius < cutter.diameter / 2.0 {
        return Err(CutError::DoesNotFit { why: "the mill reaches over the axis of the piece" });
    }
    let density = at.material().density.value;
    let arc = balance_cut(unbalance, radius, cutter.diameter, deepest, density)
        .ok_or(CutError::DoesNotFit { why: "even half a turn at the greatest depth leaves unbalance" })?;
    record.step(&BALANCE_MOMENT, balance_moment(arc, density).into(), || {
        vec![
            ("rho", density.into()),
            ("h", arc.depth.into()),
            ("d", arc.diameter.into()),
            ("r", arc.radius.into()),
            ("theta", arc.angle.into()),
        ]
    });
    let passes = levels(at, arc.depth)?;
    let path = balance_path(arc);
    record.step(&BALANCE_PATH, path.into(), || vec![("r", arc.radius.into()), ("theta", arc.angle.into())]);
    let plunge = timed(arc.depth, cutter.rate * PLUNGE_SHARE, record);
    let along = cutter.time(path, record);
    let d = cutter.diameter.to_mm();
    let area = d * path.to_mm() + PI / 4.0 * d * d;
    Ok(Motion {
        passes,
        depth: Some(arc.depth / f64::from(passes.max(1))),
        runs: vec![(cutter.speed(), plunge + along * f64::from(passes))],
        rapid: at.cut.rapid,
        removed: Some(Volume::cm3(area * arc.depth.to_mm() / 1000.0)),
        ..cutter.motion()
    })
}
