//! Loads of drilling.

use super::super::process::Motion;
use super::super::setting::Setting;
use super::super::work::{HoleKind, HoleWork};
use super::{Loads, specific};
use crate::cutting::drilling::{
    DRILLING_CHIP_THICKNESS, DRILLING_TORQUE, drilling_chip_thickness, drilling_removal_rate, drilling_torque,
};
use crate::cutting::force::{ROTATIONAL_POWER, rotational_power};
use crate::quantity::{FeedPerRev, Record};

pub(super) fn loads(at: &Setting<'_>, motion: &Motion, work: &HoleWork, record: &mut impl Record) -> Loads {
    match work.kind {
        HoleKind::Drill { .. } => drilling(at, motion, record),
        HoleKind::Ream { .. } | HoleKind::Tap { .. } => Loads::default(),
    }
}

fn drilling(at: &Setting<'_>, motion: &Motion, record: &mut impl Record) -> Loads {
    let feed = FeedPerRev::mm_per_rev(motion.advance.to_mm());
    let angle = at.point_angle();
    let thickness = drilling_chip_thickness(feed, angle);
    record.step(&DRILLING_CHIP_THICKNESS, thickness.into(), || {
        vec![("f", feed.into()), ("sigma", angle.into())]
    });
    let kc = specific(at, thickness, record);
    let turning = drilling_torque(kc, feed, motion.diameter);
    record.step(&DRILLING_TORQUE, turning.into(), || {
        vec![("k_c", kc.into()), ("f", feed.into()), ("D", motion.diameter.into())]
    });
    let power = rotational_power(turning, motion.turns());
    record
        .step(&ROTATIONAL_POWER, power.into(), || vec![("M", turning.into()), ("n", motion.turns().into())]);
    Loads {
        removal_rate: Some(drilling_removal_rate(motion.diameter, feed, motion.turns())),

        power: Some(power),
        torque: Some(turning),
        chip_thickness: Some(thickness),
        ..Loads::default()
    }
}
