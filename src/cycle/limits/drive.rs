//! Power and torque of the spindle, rate and force of the axes, speed of a work table.

use super::super::setting::CutError;
use super::super::work::{GearWork, Work};
use super::{Held, LimitCheck, LimitOf, POWER, Remedy};
use crate::cutting::force::{MOTOR_POWER, motor_power};
use crate::cutting::hobbing::{TABLE_SPEED, table_speed};
use crate::cutting::limits::{AVAILABLE_POWER, available_power};
use crate::plant::Spindle;
use crate::quantity::{Power, Record, Term};

pub(super) fn check(
    held: &Held<'_>,
    limits: &mut Vec<LimitCheck>,
    record: &mut impl Record,
) -> Result<(), CutError> {
    if let Some(power) = held.loads.power {
        limits.push(power_limit(held, power, held.at.spindle()?, record));
    }
    if let Some(torque) = held.loads.torque {
        let most = held.at.spindle()?.torque;
        limits.push(LimitCheck::at_most(("torque", LimitOf::Machine), torque, most, Remedy::Feed));
    }
    if let Some(most) = held.at.machine.feed_limit {
        // Feed for each turn is fastest where the spindle is.
        let faster = match (held.motion.top_speed, held.motion.spindle_speed) {
            (Some(top), Some(first)) if top > first && first.to_rpm() > 0.0 => top / first,
            _ => 1.0,
        };
        let rate = held.motion.feed_rate * faster;
        let remedy = match held.at.cut.work {
            Work::Grinding(_) => Remedy::Other("lower the speed of the work or its traverse"),
            Work::Linear(_) => Remedy::Other("lower the rate of the saw or the speed of the broach"),
            _ => Remedy::SpindleSpeed,
        };
        limits.push(LimitCheck::at_most(("feed rate", LimitOf::Machine), rate, most, remedy));
    }
    if let Some(most) = held.at.machine.feed_force
        && let Some(force) = held.component(held.loads.feed_force, record)
    {
        limits.push(LimitCheck::at_most(("feed force", LimitOf::Machine), force, most, Remedy::Feed));
    }
    table(held, limits, record);
    Ok(())
}

/// Power of the motor against what it gives at the speed of the cut.
fn power_limit(held: &Held<'_>, power: Power, spindle: Spindle, record: &mut impl Record) -> LimitCheck {
    let motor = motor_power(power, spindle.efficiency.value());
    record.step(&MOTOR_POWER, motor.into(), || {
        vec![("P_c", power.into()), ("eta", Term::Plain(spindle.efficiency.value()))]
    });
    let named = (POWER, LimitOf::Machine);
    let speed = held.motion.turns();
    let Some(base) = spindle.base_speed else {
        return LimitCheck::at_most(named, motor, spindle.power, Remedy::CuttingSpeed);
    };
    if speed >= base && motor * (base / speed) <= spindle.power {
        return LimitCheck::at_most(named, motor, spindle.power, Remedy::CuttingSpeed);
    }
    let given = available_power(spindle.power, base, speed);
    record.step(&AVAILABLE_POWER, given.into(), || {
        vec![("P", spindle.power.into()), ("n", speed.into()), ("n_b", base.into())]
    });
    // A slower spindle does not help: below the base speed it gives less as fast as the cut asks for less.
    LimitCheck::at_most(named, motor, given, Remedy::Feed)
}

/// Speed of the work table of a hobber, which turns with the hob.
fn table(held: &Held<'_>, limits: &mut Vec<LimitCheck>, record: &mut impl Record) {
    let (Work::Gear(GearWork::Hob(_)), Some(most)) = (&held.at.cut.work, held.at.machine.table_speed) else {
        return;
    };
    let (Ok(gear), Ok(starts)) = (held.at.gear(), held.at.starts()) else { return };
    let speed = table_speed(held.top_speed(), starts, gear.teeth);
    record.step(&TABLE_SPEED, speed.into(), || {
        vec![
            ("n_0", held.top_speed().into()),
            ("z_0", Term::Plain(f64::from(starts))),
            ("z", Term::Plain(f64::from(gear.teeth))),
        ]
    });
    limits.push(LimitCheck::at_most(("table speed", LimitOf::Machine), speed, most, Remedy::SpindleSpeed));
}
