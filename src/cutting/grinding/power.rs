//! Power and force of grinding from specific energy.

use crate::quantity::{CuttingSpeed, Force, Formula, Power, RemovalRate, SpecificForce};

/// Formula of [`grinding_power`].
pub const GRINDING_POWER: Formula =
    Formula { figure: "grinding power", text: "P = u * Q_w", source: "kalpakjian" };

/// Power at the wheel.
///
/// P = u * Q_w
///
/// # Symbols
/// P power. u specific energy, energy for each volume ground: 1 J/mm3 is 1000 N/mm2. Q_w removal rate.
/// # Range
/// u is many times that of cutting, 15 to 70 J/mm3 and more the finer the chip; take it from a measurement near the cut.
/// # Source
/// \[kalpakjian\]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::grinding_power;
/// use wearland::quantity::{RemovalRate, SpecificForce};
/// let rate = RemovalRate::cm3_per_min(6.0);
/// assert!((grinding_power(SpecificForce::n_per_mm2(40_000.0), rate).to_kw() - 4.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn grinding_power(energy: SpecificForce, rate: RemovalRate) -> Power {
    Power::kw(energy.to_n_per_mm2() * rate.to_cm3_per_min() / 60_000.0)
}

/// Formula of [`grinding_force`].
pub const GRINDING_FORCE: Formula =
    Formula { figure: "grinding force", text: "F_c = P / v_s", source: "kalpakjian" };

/// Force along the wheel's rim.
///
/// F_c = P / v_s
///
/// # Symbols
/// F_c force. P power. v_s wheel speed.
/// # Range
/// v_s above zero. The thrust into the work is larger: 1.3 times in the worked example, up to 3 times in hard or tough work.
/// # Source
/// \[kalpakjian\]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::grinding_force;
/// use wearland::quantity::{CuttingSpeed, Power};
/// let force = grinding_force(Power::kw(3.0), CuttingSpeed::m_per_min(1800.0));
/// assert!((force.to_n() - 100.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn grinding_force(power: Power, wheel_speed: CuttingSpeed) -> Force {
    Force::n(power.to_kw() * 60_000.0 / wheel_speed.to_m_per_min())
}
