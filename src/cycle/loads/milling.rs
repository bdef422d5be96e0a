//! Loads of milling.

use super::super::process::Motion;
use super::super::setting::{CutError, Setting};
use super::super::work::{MillShape, MillingWork};
use super::{Loads, specific};
use crate::cutting::force::{REMOVAL_POWER, TORQUE, removal_power, torque};
use crate::cutting::milling::{
    MEAN_CHIP_THICKNESS, MILLING_REMOVAL_RATE, MeanChip, engagement_angle_centred, engagement_angle_side,
    mean_chip_thickness, milling_removal_rate,
};
use crate::quantity::{FeedPerTooth, Length, Record};

pub(super) fn loads(
    at: &Setting<'_>,
    motion: &Motion,
    work: &MillingWork,
    record: &mut impl Record,
) -> Result<Loads, CutError> {
    let MillingWork::Straight { shape, width, .. } = *work;
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
    let turning = torque(power, motion.turns());
    record.step(&TORQUE, turning.into(), || vec![("P_c", power.into()), ("n", motion.turns().into())]);
    Ok(Loads {
        removal_rate: Some(rate),
        power: Some(power),
        torque: Some(turning),
        chip_thickness: Some(thickness),
        ..Loads::default()
    })
}
