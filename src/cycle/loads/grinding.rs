//! Loads of grinding: metal removed in a minute. No specific energy is held for the materials, so force and power are
//! missing.

use super::super::process::Motion;
use super::super::work::GrindingWork;
use super::Loads;
use crate::cutting::grinding::{
    PLUNGE_REMOVAL_RATE, TRAVERSE_REMOVAL_RATE, plunge_removal_rate, traverse_removal_rate,
};
use crate::quantity::{Record, RemovalRate};

/// The first stage, which takes most.
pub(super) fn loads(motion: &Motion, work: &GrindingWork, record: &mut impl Record) -> Loads {
    let removal_rate = match work {
        GrindingWork::Plunge { diameters, width, stages, .. } => stages.first().map(|stage| {
            let rate = plunge_removal_rate(diameters.high, stage.infeed);
            record.step(&PLUNGE_REMOVAL_RATE, rate.into(), || {
                vec![("d_w", diameters.high.into()), ("v_fr", stage.infeed.into())]
            });
            let wide = *width / f64::from(motion.passes.max(1));
            RemovalRate::cm3_per_min(rate.to_mm3_per_s_mm() * wide.to_mm() * 0.06)
        }),
        GrindingWork::Traverse { stages, work_speed, .. } => stages.first().map(|stage| {
            let rate = traverse_removal_rate(stage.infeed, stage.traverse, *work_speed);
            record.step(&TRAVERSE_REMOVAL_RATE, rate.into(), || {
                vec![
                    ("a_e", stage.infeed.into()),
                    ("f_a", stage.traverse.into()),
                    ("v_w", (*work_speed).into()),
                ]
            });
            rate
        }),
        GrindingWork::Centreless(_) => {
            let time: f64 = motion.runs.iter().map(|(_, time)| time.to_min()).sum();
            motion.removed.map(|volume| RemovalRate::cm3_per_min(volume.to_cm3() / time))
        }
    };
    Loads { removal_rate, ..Loads::default() }
}
