//! Grip of a jaw chuck that turns.

use std::f64::consts::PI;

use crate::quantity::{Force, Formula, Length, MassMoment, SpindleSpeed};

/// Where the jaws hold the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Clamping {
    /// From outside: the jaws fly off the work.
    Outside,
    /// From inside: the jaws fly into the work.
    Inside,
}

/// The grip of a jaw chuck as it is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JawGrip {
    /// Grip of all jaws at rest.
    pub at_rest: Force,
    /// Mass of each jaw times the distance of its centre of gravity from the axis, all jaws together.
    pub jaw_moment: MassMoment,
    /// Speed marked on the chuck.
    pub fastest: SpindleSpeed,
    /// Safety on the grip at rest, S_sp; 1.5 is usual.
    pub grip_safety: f64,
    /// Safety on the grip the cut needs, S_z; 1.5 is usual.
    pub cut_safety: f64,
}

/// A cut on work held by friction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeldCut {
    /// Cutting force.
    pub force: Force,
    /// Diameter at which it acts.
    pub cut_diameter: Length,
    /// Diameter at which the jaws hold.
    pub grip_diameter: Length,
    /// Friction between jaws and work: 0.1 to 0.15 smooth, 0.3 to 0.4 toothed jaws.
    pub friction: f64,
}

/// Formula of [`jaw_force`].
pub const JAW_FORCE: Formula = Formula {
    figure: "centrifugal force of the jaws",
    text: "F_c = M_c * (pi * n / 30)^2",
    source: "vdi-3106",
};

/// Centrifugal force of all jaws.
///
/// F_c = M_c * (pi * n / 30)^2
///
/// # Symbols
/// F_c centrifugal force, N. M_c sum of jaw mass times distance from the axis, kg m. n spindle speed, rpm.
/// # Range
/// Jaws without balance weights.
/// # Source
/// [vdi-3106], read in [schunk-chuck-manuals]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::jaw_force;
/// use wearland::quantity::{MassMoment, SpindleSpeed};
/// assert!((jaw_force(MassMoment::kg_m(2.668), SpindleSpeed::rpm(500.0)).to_n() - 7314.5).abs() < 0.1);
/// ```
#[must_use]
pub fn jaw_force(jaw_moment: MassMoment, speed: SpindleSpeed) -> Force {
    Force::n(jaw_moment.to_kg_m() * (PI * speed.to_rpm() / 30.0).powi(2))
}

/// Formula of [`grip_needed`].
pub const GRIP_NEEDED: Formula =
    Formula { figure: "grip needed", text: "F_spz = F * d_c / (mu * d_g)", source: "common-practice" };

/// Grip that keeps a cut from turning the work in the jaws, without any safety.
///
/// F_spz = F * d_c / (mu * d_g)
///
/// # Symbols
/// F_spz grip of all jaws. F cutting force. d_c diameter of the cut. d_g diameter of the grip. mu friction.
/// # Range
/// Torque alone: the feed force and the tilting of long work are not in it.
/// # Source
/// [common-practice]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{HeldCut, grip_needed};
/// use wearland::quantity::{Force, Length};
/// let grip = grip_needed(HeldCut {
///     force: Force::n(1000.0),
///     cut_diameter: Length::mm(60.0),
///     grip_diameter: Length::mm(80.0),
///     friction: 0.15,
/// });
/// assert!((grip.to_n() - 5000.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn grip_needed(cut: HeldCut) -> Force {
    cut.force * (cut.cut_diameter / cut.grip_diameter / cut.friction)
}

/// Formula of [`grip_left`].
pub const GRIP_LEFT: Formula = Formula {
    figure: "grip at the speed",
    text: "F_sp = F_sp0 - F_c outside, F_sp0 + F_c inside",
    source: "vdi-3106",
};

/// Grip of a chuck that turns.
///
/// F_sp = F_sp0 - F_c outside, F_sp0 + F_c inside
///
/// # Symbols
/// F_sp grip at the speed. F_sp0 grip at rest. F_c centrifugal force of the jaws.
/// # Range
/// The chuck neither stiffens nor sticks. Never below nothing.
/// # Source
/// [vdi-3106], read in [schunk-chuck-manuals]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{Clamping, grip_left};
/// use wearland::quantity::Force;
/// let grip = grip_left(Force::n(17723.0), Force::n(7314.5), Clamping::Outside);
/// assert!((grip.to_n() - 10408.5).abs() < 1e-6);
/// ```
#[must_use]
pub fn grip_left(at_rest: Force, jaw_force: Force, clamping: Clamping) -> Force {
    match clamping {
        Clamping::Outside => (at_rest - jaw_force).larger(Force::ZERO),
        Clamping::Inside => at_rest + jaw_force,
    }
}

/// Formula of [`initial_grip`].
pub const INITIAL_GRIP: Formula = Formula {
    figure: "grip needed at rest",
    text: "F_sp0 = S_sp * (F_spz * S_z + F_c) outside, - F_c inside",
    source: "vdi-3106",
};

/// Grip a chuck must have at rest for a cut at a speed.
///
/// F_sp0 = S_sp * (F_spz * S_z + F_c) outside, S_sp * (F_spz * S_z - F_c) inside
///
/// # Symbols
/// F_sp0 grip at rest. S_sp safety on the grip. F_spz grip the cut needs. S_z safety on it. F_c centrifugal force of the jaws.
/// # Range
/// Inside, never below nothing; thin work bears only so much of it.
/// # Source
/// [vdi-3106], read in [schunk-chuck-manuals]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{Clamping, JawGrip, initial_grip};
/// use wearland::quantity::{Force, MassMoment, SpindleSpeed};
/// let chuck = JawGrip {
///     at_rest: Force::n(30000.0),
///     jaw_moment: MassMoment::kg_m(2.668),
///     fastest: SpindleSpeed::rpm(1500.0),
///     grip_safety: 1.5,
///     cut_safety: 1.5,
/// };
/// let grip = initial_grip(&chuck, Force::n(3000.0), SpindleSpeed::rpm(500.0), Clamping::Outside);
/// assert!((grip.to_n() / 17723.0 - 1.0).abs() < 1e-4);
/// ```
#[must_use]
pub fn initial_grip(chuck: &JawGrip, needed: Force, speed: SpindleSpeed, clamping: Clamping) -> Force {
    let jaws = jaw_force(chuck.jaw_moment, speed);
    let at_speed = match clamping {
        Clamping::Outside => needed * chuck.cut_safety + jaws,
        Clamping::Inside => (needed * chuck.cut_safety - jaws).larger(Force::ZERO),
    };
    at_speed * chuck.grip_safety
}

/// Formula of [`permissible_speed`].
pub const PERMISSIBLE_SPEED: Formula = Formula {
    figure: "fastest speed of the grip",
    text: "n = 30 / pi * sqrt((F_sp0 / S_sp - F_spz * S_z) / M_c), at most the marked speed",
    source: "vdi-3106",
};

/// Fastest spindle speed at which a chuck, clamping outside, still holds a cut.
///
/// n = 30 / pi * sqrt((F_sp0 / S_sp - F_spz * S_z) / M_c), at most the marked speed
///
/// # Symbols
/// n spindle speed, rpm. F_sp0 grip at rest, N. S_sp safety on it. F_spz grip the cut needs, N. S_z safety on it.
/// M_c sum of jaw mass times distance from the axis, kg m.
/// # Range
/// Outside clamping. Nothing if the grip does not hold the cut at rest.
/// # Source
/// [vdi-3106], read in [schunk-chuck-manuals]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{JawGrip, permissible_speed};
/// use wearland::quantity::{Force, MassMoment, SpindleSpeed};
/// let chuck = JawGrip {
///     at_rest: Force::n(17723.0),
///     jaw_moment: MassMoment::kg_m(2.668),
///     fastest: SpindleSpeed::rpm(1500.0),
///     grip_safety: 1.5,
///     cut_safety: 1.5,
/// };
/// assert!((permissible_speed(&chuck, Force::n(3000.0)).to_rpm() - 500.03).abs() < 0.01);
/// ```
#[must_use]
pub fn permissible_speed(chuck: &JawGrip, needed: Force) -> SpindleSpeed {
    let spare = (chuck.at_rest / chuck.grip_safety - needed * chuck.cut_safety).larger(Force::ZERO);
    let rate = (spare.to_n() / chuck.jaw_moment.to_kg_m()).sqrt();
    SpindleSpeed::rpm(30.0 / PI * rate).smaller(chuck.fastest)
}
