//! Power and torque of a spindle drive over its speed, and the force a feed drive meets.

use std::f64::consts::PI;

use crate::quantity::{Force, Formula, Power, SpindleSpeed, Torque};

/// Formula of [`base_speed`].
pub const BASE_SPEED: Formula =
    Formula { figure: "base speed", text: "n_b = P / (2 * pi * M_max)", source: "common-practice" };

/// Spindle speed from which a drive gives its full power.
///
/// n_b = P / (2 * pi * M_max)
///
/// # Symbols
/// n_b base speed. P full power. M_max full torque.
/// # Range
/// Drive of constant torque below, of constant power above; one gear step.
/// # Source
/// [common-practice]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::base_speed;
/// use wearland::quantity::{Power, Torque};
/// assert!((base_speed(Power::kw(7.5), Torque::nm(716.197)).to_rpm() - 100.0).abs() < 1e-3);
/// ```
#[must_use]
pub fn base_speed(power: Power, most_torque: Torque) -> SpindleSpeed {
    SpindleSpeed::rpm(power.to_w() * 60.0 / (2.0 * PI * most_torque.to_nm()))
}

/// Formula of [`available_power`].
pub const AVAILABLE_POWER: Formula =
    Formula { figure: "power at the speed", text: "P(n) = P * min(1, n / n_b)", source: "common-practice" };

/// Power that a drive gives at a spindle speed.
///
/// P(n) = P * min(1, n / n_b)
///
/// # Symbols
/// P full power. n spindle speed. n_b base speed.
/// # Range
/// Drive of constant torque below the base speed, of constant power above; one gear step, continuous duty.
/// # Source
/// [common-practice]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::available_power;
/// use wearland::quantity::{Power, SpindleSpeed};
/// let power = available_power(Power::kw(15.0), SpindleSpeed::rpm(1500.0), SpindleSpeed::rpm(500.0));
/// assert!((power.to_kw() - 5.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn available_power(power: Power, base_speed: SpindleSpeed, speed: SpindleSpeed) -> Power {
    if speed < base_speed { power * (speed / base_speed) } else { power }
}

/// Formula of [`available_torque`].
pub const AVAILABLE_TORQUE: Formula = Formula {
    figure: "torque at the speed",
    text: "M(n) = min(M_max, P / (2 * pi * n))",
    source: "common-practice",
};

/// Torque that a drive gives at a spindle speed.
///
/// M(n) = min(M_max, P / (2 * pi * n))
///
/// # Symbols
/// M torque. M_max full torque. P full power. n spindle speed.
/// # Range
/// As for the power. At rest the full torque.
/// # Source
/// [common-practice]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::available_torque;
/// use wearland::quantity::{Power, SpindleSpeed, Torque};
/// let torque = available_torque(Torque::nm(95.0), Power::kw(15.0), SpindleSpeed::rpm(3000.0));
/// assert!((torque.to_nm() - 47.746).abs() < 1e-3);
/// ```
#[must_use]
pub fn available_torque(most_torque: Torque, power: Power, speed: SpindleSpeed) -> Torque {
    most_torque.smaller(Torque::nm(power.to_w() * 60.0 / (2.0 * PI * speed.to_rpm())))
}

/// Share of the cutting force that the feed drive meets in turning with a sharp edge: 0.3 to 0.5, the cautious end.
pub const FEED_FORCE_SHARE: f64 = 0.5;

/// Formula of [`component_force`].
pub const COMPONENT_FORCE: Formula =
    Formula { figure: "feed force", text: "F_f = k * F_c", source: "common-practice" };

/// Feed force or passive force as a share of the cutting force.
///
/// F_f = k * F_c
///
/// # Symbols
/// F_f feed force (or passive force). k share. F_c cutting force.
/// # Range
/// A rough rule. Feed force in turning 0.3 to 0.5, more for a worn edge; which part of it is passive force follows from the
/// edge angle, the corner radius and the rake.
/// # Source
/// [common-practice]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::component_force;
/// use wearland::quantity::Force;
/// assert!((component_force(Force::n(1760.0), 0.5).to_n() - 880.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn component_force(cutting_force: Force, share: f64) -> Force {
    cutting_force * share
}
