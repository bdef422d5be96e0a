//! Power and torque of the spindle, rate of the axes.

use super::super::loads::Loads;
use super::super::process::Motion;
use super::super::setting::{CutError, Setting};
use super::{LimitCheck, Remedy, Sense};
use crate::cutting::force::{MOTOR_POWER, motor_power};
use crate::quantity::{Record, Term};

pub(super) fn check(
    at: &Setting<'_>,
    motion: &Motion,
    loads: &Loads,
    to: (&mut Vec<LimitCheck>, &mut impl Record),
) -> Result<(), CutError> {
    let (limits, record) = to;
    let at_most = |limit, asked, allowed, remedy| LimitCheck {
        limit,
        asked,
        allowed,
        sense: Sense::AtMost,
        remedy,
        source: "scenario",
    };
    if let Some(power) = loads.power {
        let spindle = at.spindle()?;
        let motor = motor_power(power, spindle.efficiency.value());
        record.step(&MOTOR_POWER, motor.into(), || {
            vec![("P_c", power.into()), ("eta", Term::Plain(spindle.efficiency.value()))]
        });
        limits.push(at_most("power", motor.into(), spindle.power.into(), Remedy::CuttingSpeed));
    }
    if let Some(torque) = loads.torque {
        limits.push(at_most("torque", torque.into(), at.spindle()?.torque.into(), Remedy::Feed));
    }
    if let Some(fastest) = at.machine.feed_limit {
        limits.push(at_most("feed rate", motion.feed_rate.into(), fastest.into(), Remedy::SpindleSpeed));
    }
    Ok(())
}
