//! Loads of milling.

use super::super::process::{Motion, straight_engagement};
use super::super::setting::Setting;
use super::super::work::{MillShape, MillingWork, StraightWork};
use super::{Loads, specific};
use crate::cutting::force::{REMOVAL_POWER, TORQUE, removal_power, torque};
use crate::cutting::milling::{
    Engagement, MAX_CHIP_THICKNESS_ENGAGED, MEAN_CHIP_THICKNESS, MILLING_REMOVAL_RATE, MeanChip,
    max_chip_thickness_engaged, mean_chip_thickness, milling_removal_rate, swept_angle,
};
use crate::quantity::{FeedPerTooth, Length, Record};

/// What a milling cut takes at once.
struct Bite {
    engaged: Engagement,
    /// Across the feed.
    across: Length,
    /// Along the cutter's axis.
    along: Length,
}

/// Loads where the cutter is engaged most: in a pocket that is the first slot. Of a thread mill and of a mere plunge no
/// formula is held.
pub(super) fn loads(
    at: &Setting<'_>,
    motion: &Motion,
    work: &MillingWork,
    record: &mut impl Record,
) -> Loads {
    let depth = motion.depth.unwrap_or(Length::ZERO);
    let slot = Bite {
        engaged: Engagement::side(motion.diameter, motion.diameter),
        across: motion.diameter,
        along: depth,
    };
    let bite = match work {
        MillingWork::Straight(work) => straight(work, motion.diameter, depth),
        MillingWork::Pocket(_) | MillingWork::Keyway { .. } => slot,
        MillingWork::Thread(_) | MillingWork::Balance { .. } => return Loads::default(),
    };
    taken(at, motion, &bite, record)
}

fn straight(work: &StraightWork, diameter: Length, depth: Length) -> Bite {
    let across = straight_engagement(work, diameter, depth);
    match work.shape {
        MillShape::Face => {
            let engaged = Engagement::of(diameter, work.width, work.offset);
            let reach = engaged.entry.to_rad().cos() - engaged.exit.to_rad().cos();
            Bite { engaged, across: diameter / 2.0 * reach, along: depth }
        }
        MillShape::Side => Bite { engaged: Engagement::side(diameter, across), across, along: work.width },
        MillShape::Shoulder | MillShape::Slot => {
            Bite { engaged: Engagement::side(diameter, across), across, along: depth }
        }
    }
}

fn taken(at: &Setting<'_>, motion: &Motion, bite: &Bite, record: &mut impl Record) -> Loads {
    let feed = FeedPerTooth::mm_per_tooth(motion.advance.to_mm());
    let (edge_angle, engaged, diameter) = (at.edge_angle(), bite.engaged, motion.diameter);
    let swept = swept_angle(engaged);
    let mean = mean_chip_thickness(MeanChip { feed, edge_angle, engagement: bite.across, diameter, swept });
    record.step(&MEAN_CHIP_THICKNESS, mean.into(), || {
        vec![
            ("f_z", feed.into()),
            ("kappa", edge_angle.into()),
            ("a_e", bite.across.into()),
            ("D", diameter.into()),
            ("phi_s", swept.into()),
        ]
    });
    let thickest = max_chip_thickness_engaged(feed, edge_angle, engaged);
    record.step(&MAX_CHIP_THICKNESS_ENGAGED, thickest.into(), || {
        vec![
            ("f_z", feed.into()),
            ("kappa", edge_angle.into()),
            ("phi_in", engaged.entry.into()),
            ("phi_out", engaged.exit.into()),
        ]
    });
    let kc = specific(at, mean, record);
    let rate = milling_removal_rate(bite.along, bite.across, motion.feed_rate);
    record.step(&MILLING_REMOVAL_RATE, rate.into(), || {
        vec![("a_p", bite.along.into()), ("a_e", bite.across.into()), ("v_f", motion.feed_rate.into())]
    });
    let power = removal_power(rate, kc);
    record.step(&REMOVAL_POWER, power.into(), || vec![("Q", rate.into()), ("k_c", kc.into())]);
    let turning = torque(power, motion.turns());
    record.step(&TORQUE, turning.into(), || vec![("P_c", power.into()), ("n", motion.turns().into())]);
    Loads {
        removal_rate: Some(rate),
        power: Some(power),
        torque: Some(turning),
        chip_thickness: Some(thickest),
        ..Loads::default()
    }
}
