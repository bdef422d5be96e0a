//! Loads of single-point turning.

use super::super::process::Motion;
use super::super::setting::Setting;
use super::super::work::TurningWork;
use super::{Loads, specific};
use crate::cutting::force::{
    CHIP_THICKNESS, CHIP_WIDTH, CUTTING_FORCE, CUTTING_POWER, TORQUE, chip_thickness, chip_width,
    cutting_force, cutting_power, torque,
};
use crate::cutting::turning::turning_removal_rate;
use crate::quantity::{Angle, FeedPerRev, Length, Record};

pub(super) fn loads(
    at: &Setting<'_>,
    motion: &Motion,
    work: &TurningWork,
    record: &mut impl Record,
) -> Loads {
    match work {
        TurningWork::Along { .. } | TurningWork::Profile { .. } | TurningWork::Face { .. } => {
            single_point(at, motion, at.edge_angle(), record)
        }
        // A blade or form tool cuts over its whole width, square to the feed.
        TurningWork::Part { .. } | TurningWork::Groove { .. } | TurningWork::Form { .. } => {
            single_point(at, motion, Angle::deg(90.0), record)
        }
        // Rolling makes no chip.
        TurningWork::Knurl { .. } | TurningWork::Burnish { .. } => Loads::default(),
    }
}

fn single_point(at: &Setting<'_>, motion: &Motion, edge_angle: Angle, record: &mut impl Record) -> Loads {
    let feed = FeedPerRev::mm_per_rev(motion.advance.to_mm());
    let depth = motion.depth.unwrap_or(Length::ZERO);
    let speed = motion.speed();
    let thickness = chip_thickness(feed, edge_angle);
    record.step(&CHIP_THICKNESS, thickness.into(), || vec![("f", feed.into()), ("kappa", edge_angle.into())]);
    let width = chip_width(depth, edge_angle);
    record.step(&CHIP_WIDTH, width.into(), || vec![("a_p", depth.into()), ("kappa", edge_angle.into())]);
    let kc = specific(at, thickness, record);
    let force = cutting_force(kc, width, thickness);
    record.step(&CUTTING_FORCE, force.into(), || {
        vec![("k_c", kc.into()), ("b", width.into()), ("h", thickness.into())]
    });
    let power = cutting_power(force, speed);
    record.step(&CUTTING_POWER, power.into(), || vec![("F_c", force.into()), ("v_c", speed.into())]);
    let turning = torque(power, motion.turns());
    record.step(&TORQUE, turning.into(), || vec![("P_c", power.into()), ("n", motion.turns().into())]);
    Loads {
        removal_rate: Some(turning_removal_rate(speed, depth, feed)),
        force: Some(force),
        power: Some(power),
        torque: Some(turning),
        chip_thickness: Some(thickness),
        ..Loads::default()
    }
}
