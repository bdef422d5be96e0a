//! Loads of drilling.

use super::super::process::Motion;
use super::super::setting::Setting;
use super::super::work::{HoleKind, HoleWork};
use super::{Loads, specific};
use crate::cutting::drilling::{
    DRILLING_CHIP_THICKNESS, DRILLING_FEED_FORCE, DRILLING_TORQUE, drilling_chip_thickness,
    drilling_feed_force, drilling_removal_rate, drilling_torque,
};
use crate::cutting::force::{ROTATIONAL_POWER, rotational_power};
use crate::quantity::{FeedPerRev, Record};

pub(super) fn loads(at: &Setting<'_>, motion: &Motion, work: &HoleWork, record: &mut impl Record) -> Loads {
    match work.kind {
        // A spot drill asks the most at its full mark, as a drill of that diameter.
        HoleKind::Drill { .. } | HoleKind::Spot { .. } => drilling(at, motion, record),
        HoleKind::Centre { .. }
        | HoleKind::Ream { .. }
        | HoleKind::Counterbore { .. }
        | HoleKind::Countersink { .. }
        | HoleKind::Tap { .. } => Loads::default(),
    }
}

fn drilling(at: &Setting<'_>, motion: &Motion, record: &mut impl Record) -> Loads {
    let feed = FeedPerRev::mm_per_rev(motion.advance.to_mm());
    let (diameter, angle) = (motion.diameter, at.point_angle());
    let thickness = drilling_chip_thickness(feed, angle);
    record.step(&DRILLING_CHIP_THICKNESS, thickness.into(), || {
        vec![("f", feed.into()), ("sigma", angle.into())]
    });
    let kc = specific(at, thickness, record);
    let turning = drilling_torque(kc, feed, diameter);
    record.step(&DRILLING_TORQUE, turning.into(), || {
        vec![("k_c", kc.into()), ("f", feed.into()), ("D", diameter.into())]
    });
    let power = rotational_power(turning, motion.turns());
    record
        .step(&ROTATIONAL_POWER, power.into(), || vec![("M", turning.into()), ("n", motion.turns().into())]);
    let thrust = drilling_feed_force(kc, feed, diameter, angle);
    record.step(&DRILLING_FEED_FORCE, thrust.into(), || {
        vec![("k_c", kc.into()), ("D", diameter.into()), ("f", feed.into()), ("sigma", angle.into())]
    });
    Loads {
        removal_rate: Some(drilling_removal_rate(diameter, feed, motion.turns())),
        feed_force: Some(thrust),
        power: Some(power),
        torque: Some(turning),
        chip_thickness: Some(thickness),
        ..Loads::default()
    }
}
