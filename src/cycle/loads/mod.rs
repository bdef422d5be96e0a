//! Force, power and torque of a cut by specific cutting force.

mod gear;
mod grinding;
mod hole;
mod linear;
mod milling;
mod turning;

use super::process::Motion;
use super::setting::{CutError, Setting};
use super::work::Work;
use crate::cutting::force::{SPECIFIC_FORCE, specific_force};
use crate::quantity::{Force, Length, Power, Record, RemovalRate, SpecificForce, Term, Torque};

/// What a cut asks of the machine. A figure for which no formula is held is missing, not nought.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Loads {
    pub(super) removal_rate: Option<RemovalRate>,
    /// Cutting force.
    pub(super) force: Option<Force>,
    /// Force along the feed.
    pub(super) feed_force: Option<Force>,
    /// Force square to feed and cutting speed, which bends the work.
    pub(super) passive_force: Option<Force>,
    pub(super) power: Option<Power>,
    pub(super) torque: Option<Torque>,
    /// Largest thickness of the chip.
    pub(super) chip_thickness: Option<Length>,
}

/// Works out force, power and torque of a cut in motion.
pub(super) fn loads(at: &Setting<'_>, motion: &Motion, record: &mut impl Record) -> Result<Loads, CutError> {
    match &at.cut.work {
        Work::Turning(work) => Ok(turning::loads(at, motion, work, record)),
        Work::Hole(work) => Ok(hole::loads(at, motion, work, record)),
        Work::Linear(work) => Ok(linear::loads(at, motion, work, record)),
        Work::Milling(work) => Ok(milling::loads(at, motion, work, record)),
        Work::Grinding(work) => Ok(grinding::loads(motion, work, record)),
        Work::Gear(work) => Ok(gear::loads(at, motion, work, record)),
        Work::Thread(_) => Ok(Loads::default()),
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
