//! Force, power and torque of a cut by specific cutting force.

use super::item::{MillShape, Work};
use super::process::Motion;
use super::setting::{CutError, Setting};
use crate::cutting::drilling::{
    DRILLING_CHIP_THICKNESS, DRILLING_TORQUE, drilling_chip_thickness, drilling_removal_rate, drilling_torque,
};
use crate::cutting::force::{
    CHIP_THICKNESS, CHIP_WIDTH, CUTTING_FORCE, CUTTING_POWER, REMOVAL_POWER, ROTATIONAL_POWER,
    SPECIFIC_FORCE, TORQUE, chip_thickness, chip_width, cutting_force, cutting_power, removal_power,
    rotational_power, specific_force, torque,
};
use crate::cutting::milling::{
    MEAN_CHIP_THICKNESS, MILLING_REMOVAL_RATE, MeanChip, engagement_angle_centred, engagement_angle_side,
    mean_chip_thickness, milling_removal_rate,
};
use crate::cutting::turning::turning_removal_rate;
use crate::quantity::{
    Angle, CuttingSpeed, FeedPerRev, FeedPerTooth, Force, Length, Power, Record, RemovalRate, SpecificForce,
    Term, Torque,
};

/// What a cut asks of the machine. A figure for which no formula is held is missing, not nought.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Loads {
    pub(super) removal_rate: Option<RemovalRate>,
    pub(super) force: Option<Force>,
    pub(super) power: Option<Power>,
    pub(super) torque: Option<Torque>,
}

/// Works out force, power and torque of a cut in motion.
pub(super) fn loads(at: &Setting<'_>, motion: &Motion, record: &mut impl Record) -> Result<Loads, CutError> {
    match at.cut.work {
        Work::Turn { .. } | Work::Bore { .. } | Work::Face { .. } => {
            Ok(single_point(at, motion, at.edge_angle(), record))
        }
        // A blade or form tool cuts over its whole width, square to the feed.
        Work::Part { .. } | Work::Groove { .. } => Ok(single_point(at, motion, Angle::deg(90.0), record)),
        Work::Drill { .. } => Ok(drilling(at, motion, record)),
        Work::Mill { .. } => milling(at, motion, record),
        Work::Thread { .. } | Work::Ream { .. } | Work::Tap { .. } | Work::Hob { .. } => Ok(Loads::default()),
    }
}

fn specific(at: &Setting<'_>, thickness: Length, record: &mut impl Record) -> SpecificForce {
    let material = at.material();
    let kc = specific_force(material.kc11.value, material.mc.value, thickness);
    record.step(&SPECIFIC_FORCE, kc.into(), || {
        vec![
            ("k_c1.1", material.kc11.value.into()),
            ("h", thickness.into()),
            ("m_c", Term::Plain(material.mc.value)),
        ]
    });
    kc
}

fn running_speed(motion: &Motion) -> CuttingSpeed {
    motion.runs.first().map_or(CuttingSpeed::ZERO, |(speed, _)| *speed)
}

fn single_point(at: &Setting<'_>, motion: &Motion, edge_angle: Angle, record: &mut impl Record) -> Loads {
    let feed = FeedPerRev::mm_per_rev(motion.advance.to_mm());
    let depth = motion.depth.unwrap_or(Length::ZERO);
    let speed = running_speed(motion);
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
    let turning = torque(power, motion.spindle_speed);
    record.step(&TORQUE, turning.into(), || vec![("P_c", power.into()), ("n", motion.spindle_speed.into())]);
    Loads {
        removal_rate: Some(turning_removal_rate(speed, depth, feed)),
        force: Some(force),
        power: Some(power),
        torque: Some(turning),
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
    let power = rotational_power(turning, motion.spindle_speed);
    record.step(&ROTATIONAL_POWER, power.into(), || {
        vec![("M", turning.into()), ("n", motion.spindle_speed.into())]
    });
    Loads {
        removal_rate: Some(drilling_removal_rate(motion.diameter, feed, motion.spindle_speed)),
        force: None,
        power: Some(power),
        torque: Some(turning),
    }
}

fn milling(at: &Setting<'_>, motion: &Motion, record: &mut impl Record) -> Result<Loads, CutError> {
    let Work::Mill { shape, width, .. } = at.cut.work else {
        return Err(CutError::WrongTool);
    };
    let engagement = match shape {
        MillShape::Slot => motion.diameter,
        MillShape::Face | MillShape::Shoulder => width.smaller(motion.diameter),
    };
    let swept = match shape {
        MillShape::Face => engagement_angle_centred(motion.diameter, engagement),
        MillShape::Shoulder | MillShape::Slot => engagement_angle_side(motion.diameter, engagement),
    };
    let feed = FeedPerTooth::mm_per_tooth(motion.advance.to_mm());
    let chip = MeanChip { feed, edge_angle: at.edge_angle(), engagement, diameter: motion.diameter, swept };
    let thickness = mean_chip_thickness(chip);
    record.step(&MEAN_CHIP_THICKNESS, thickness.into(), || {
        vec![
            ("f_z", feed.into()),
            ("kappa", chip.edge_angle.into()),
            ("a_e", engagement.into()),
            ("D", motion.diameter.into()),
            ("phi_s", swept.into()),
        ]
    });
    let kc = specific(at, thickness, record);
    let depth = motion.depth.unwrap_or(Length::ZERO);
    let rate = milling_removal_rate(depth, engagement, motion.feed_rate);
    record.step(&MILLING_REMOVAL_RATE, rate.into(), || {
        vec![("a_p", depth.into()), ("a_e", engagement.into()), ("v_f", motion.feed_rate.into())]
    });
    let power = removal_power(rate, kc);
    record.step(&REMOVAL_POWER, power.into(), || vec![("Q", rate.into()), ("k_c", kc.into())]);
    let turning = torque(power, motion.spindle_speed);
    record.step(&TORQUE, turning.into(), || vec![("P_c", power.into()), ("n", motion.spindle_speed.into())]);
    Ok(Loads { removal_rate: Some(rate), force: None, power: Some(power), torque: Some(turning) })
}
