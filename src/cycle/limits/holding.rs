//! Speed and grip of the chuck, whirl of the bar.

use super::super::item::{Making, Stock};
use super::super::work::Work;
use super::{Held, LimitCheck, LimitOf, Remedy};
use crate::cutting::limits::{
    CRITICAL_SPEED, Clamping, Ends, GRIP_NEEDED, HeldCut, INITIAL_GRIP, JAW_FORCE, JawGrip, RoundBar,
    Support, WHIRL_SPEED, critical_speed, grip_needed, initial_grip, jaw_force, whirl_speed,
};
use crate::plant::{Chuck, MachineKind};
use crate::quantity::{Force, Record, Term};

pub(super) fn check(held: &Held<'_>, limits: &mut Vec<LimitCheck>, record: &mut impl Record) {
    if !work_turns(held) {
        return;
    }
    let between_centres = held.at.operation.hold.is_some_and(|hold| hold.support == Support::Centres);
    if let Some(chuck) = held.at.machine.chuck.filter(|_| !between_centres) {
        limits.push(LimitCheck::at_most(
            ("speed of the chuck", LimitOf::Hold),
            held.top_speed(),
            chuck.fastest,
            Remedy::SpindleSpeed,
        ));
        limits.extend(grip(held, &chuck, record));
    }
    limits.extend(whirl(held, record));
}

/// On a lathe the work turns, but for milling cutters, which are driven.
fn work_turns(held: &Held<'_>) -> bool {
    held.at.machine.kind == MachineKind::Lathe
        && matches!(held.at.cut.work, Work::Turning(_) | Work::Thread(_) | Work::Hole(_))
}

/// Grip that the cut and the centrifugal force of the jaws ask for, against the grip at rest.
fn grip(held: &Held<'_>, chuck: &Chuck, record: &mut impl Record) -> Option<LimitCheck> {
    let cut_diameter = held.motion.diameter;
    let force = match (held.loads.force, held.loads.torque) {
        (Some(force), _) => force,
        // A drill's torque as a force at its diameter.
        (None, Some(torque)) => Force::n(torque.to_nm() * 2000.0 / cut_diameter.to_mm()),
        (None, None) => return None,
    };
    let gripped = held.at.operation.hold.and_then(|hold| hold.gripped).or_else(|| bar_size(held));
    let cut = HeldCut {
        force,
        cut_diameter,
        grip_diameter: gripped.unwrap_or(cut_diameter),
        friction: chuck.friction,
    };
    let needed = grip_needed(cut);
    record.step(&GRIP_NEEDED, needed.into(), || {
        vec![
            ("F", force.into()),
            ("d_c", cut.cut_diameter.into()),
            ("d_g", cut.grip_diameter.into()),
            ("mu", Term::Plain(cut.friction)),
        ]
    });
    let jaws = JawGrip {
        at_rest: chuck.grip,
        jaw_moment: chuck.jaw_moment,
        fastest: chuck.fastest,
        grip_safety: chuck.safety,
        cut_safety: chuck.safety,
    };
    let speed = held.top_speed();
    let flying = jaw_force(chuck.jaw_moment, speed);
    record.step(&JAW_FORCE, flying.into(), || vec![("M_c", chuck.jaw_moment.into()), ("n", speed.into())]);
    let at_rest = initial_grip(&jaws, needed, speed, Clamping::Outside);
    record.step(&INITIAL_GRIP, at_rest.into(), || {
        vec![
            ("F_spz", needed.into()),
            ("F_c", flying.into()),
            ("S_z", Term::Plain(jaws.cut_safety)),
            ("S_sp", Term::Plain(jaws.grip_safety)),
        ]
    });
    // What takes more of the grip is what to lower.
    let remedy = if flying > needed * jaws.cut_safety { Remedy::SpindleSpeed } else { Remedy::Feed };
    Some(
        LimitCheck::at_most(("grip at rest", LimitOf::Hold), at_rest, chuck.grip, remedy).sourced("vdi-3106"),
    )
}

fn bar_size(held: &Held<'_>) -> Option<crate::quantity::Length> {
    match &held.at.item.making {
        Making::Part { stock: Stock::Bar(bar), .. } => Some(bar.size),
        Making::Part { .. } | Making::Product { .. } => None,
    }
}

/// Whirl of the longest unguided piece of the bar, its ends free to bend; hexagon and square as the round bar inside.
fn whirl(held: &Held<'_>, record: &mut impl Record) -> Option<LimitCheck> {
    let length = held.at.machine.bar_support?;
    let diameter = bar_size(held)?;
    let material = held.at.material();
    let bar =
        RoundBar { diameter, modulus: material.modulus.as_ref()?.value, density: material.density.value };
    let critical = critical_speed(&bar, length, Ends::Pinned);
    record.step(&CRITICAL_SPEED, critical.into(), || {
        vec![
            ("d", bar.diameter.into()),
            ("E", bar.modulus.into()),
            ("rho", bar.density.into()),
            ("L", length.into()),
        ]
    });
    let most = whirl_speed(critical);
    record.step(&WHIRL_SPEED, most.into(), || vec![("n_c", critical.into())]);
    let named = ("speed of the bar", LimitOf::Hold);
    Some(LimitCheck::at_most(named, held.top_speed(), most, Remedy::SpindleSpeed).sourced("memory"))
}
