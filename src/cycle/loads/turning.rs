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
use crate::quantity::{Angle, CuttingSpeed, FeedPerRev, Length, Quantity, Record, SpindleSpeed};

pub(super) fn loads(
    at: &Setting<'_>,
    motion: &Motion,
    work: &TurningWork,
    record: &mut impl Record,
) -> Loads {
    match work {
        TurningWork::Along { .. } | TurningWork::Profile { .. } | TurningWork::Face { .. } => {
            let rough = Bite::of(motion);
            let loads = single_point(at, &rough, at.edge_angle(), record);
            match Bite::of_finish(motion) {
                Some(finish) => larger(&loads, &single_point(at, &finish, at.edge_angle(), record)),
                None => loads,
            }
        }
        // A blade or form tool cuts over its whole width, square to the feed.
        TurningWork::Part { .. } | TurningWork::Groove { .. } | TurningWork::Form { .. } => {
            single_point(at, &Bite::of(motion), Angle::deg(90.0), record)
        }
        // Rolling makes no chip.
        TurningWork::Knurl { .. } | TurningWork::Burnish { .. } => Loads::default(),
    }
}

/// One pass as the load sees it.
struct Bite {
    feed: FeedPerRev,
    depth: Length,
    speed: CuttingSpeed,
    turns: SpindleSpeed,
}

impl Bite {
    fn of(motion: &Motion) -> Self {
        Self {
            feed: FeedPerRev::mm_per_rev(motion.advance.to_mm()),
            depth: motion.depth.unwrap_or(Length::ZERO),
            speed: motion.speed(),
            turns: motion.turns(),
        }
    }

    fn of_finish(motion: &Motion) -> Option<Self> {
        let finish = motion.finishing?;
        Some(Self {
            feed: FeedPerRev::mm_per_rev(finish.advance.to_mm()),
            depth: finish.depth,
            speed: motion.runs.get(finish.from)?.0,
            turns: finish.spindle_speed,
        })
    }
}

/// The larger of each load: a machine has to bear roughing and finishing.
fn larger(one: &Loads, other: &Loads) -> Loads {
    fn most<Q: Quantity>(one: Option<Q>, other: Option<Q>) -> Option<Q> {
        [one, other].into_iter().flatten().max_by(|a, b| a.base().total_cmp(&b.base()))
    }
    Loads {
        removal_rate: most(one.removal_rate, other.removal_rate),
        force: most(one.force, other.force),
        power: most(one.power, other.power),
        torque: most(one.torque, other.torque),
        chip_thickness: most(one.chip_thickness, other.chip_thickness),
        ..*one
    }
}

fn single_point(at: &Setting<'_>, bite: &Bite, edge_angle: Angle, record: &mut impl Record) -> Loads {
    let Bite { feed, depth, speed, turns } = *bite;
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
    let turning = torque(power, turns);
    record.step(&TORQUE, turning.into(), || vec![("P_c", power.into()), ("n", turns.into())]);
    Loads {
        removal_rate: Some(turning_removal_rate(speed, depth, feed)),
        force: Some(force),
        power: Some(power),
        torque: Some(turning),
        chip_thickness: Some(thickness),
        ..Loads::default()
    }
}
