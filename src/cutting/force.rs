//! Chip section, cutting force, torque and power.

use std::f64::consts::PI;

use crate::quantity::{
    Angle, CuttingSpeed, FeedPerRev, Force, Formula, Length, Power, RemovalRate, SpecificForce, SpindleSpeed,
    Torque,
};

/// Formula of [`chip_thickness`].
pub const CHIP_THICKNESS: Formula =
    Formula { figure: "chip thickness", text: "h = f * sin(kappa)", source: "iso-3002" };

/// Thickness of the chip before it is cut, in turning.
///
/// h = f * sin(kappa)
///
/// # Symbols
/// h chip thickness. f feed per revolution. kappa angle of the cutting edge to the feed direction.
/// # Range
/// Straight edge; depth of cut well above the corner radius.
/// # Source
/// [iso-3002]. Worked examples: tests/published/force.toml.
/// # Example
/// ```
/// use wearland::cutting::force::chip_thickness;
/// use wearland::quantity::{Angle, FeedPerRev};
/// let chip = chip_thickness(FeedPerRev::mm_per_rev(0.3), Angle::deg(95.0));
/// assert!((chip.to_mm() - 0.29886).abs() < 1e-5);
/// ```
#[must_use]
pub fn chip_thickness(feed: FeedPerRev, edge_angle: Angle) -> Length {
    Length::mm(feed.to_mm_per_rev() * edge_angle.to_rad().sin())
}

/// Formula of [`chip_width`].
pub const CHIP_WIDTH: Formula =
    Formula { figure: "chip width", text: "b = a_p / sin(kappa)", source: "iso-3002" };

/// Width of the chip before it is cut.
///
/// b = a_p / sin(kappa)
///
/// # Symbols
/// b chip width. a_p depth of cut. kappa edge angle.
/// # Range
/// kappa above 0, below 180 degrees; straight edge.
/// # Source
/// [iso-3002]. Worked examples: tests/published/force.toml.
/// # Example
/// ```
/// use wearland::cutting::force::chip_width;
/// use wearland::quantity::{Angle, Length};
/// assert!((chip_width(Length::mm(3.0), Angle::deg(30.0)).to_mm() - 6.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn chip_width(depth: Length, edge_angle: Angle) -> Length {
    depth / edge_angle.to_rad().sin()
}

/// Formula of [`specific_force`].
pub const SPECIFIC_FORCE: Formula = Formula {
    figure: "specific cutting force",
    text: "k_c = k_c1.1 * h^-m_c, h in mm",
    source: "kienzle-1952",
};

/// Specific cutting force at a chip thickness.
///
/// k_c = k_c1.1 * h^-m_c, h in mm
///
/// # Symbols
/// k_c specific cutting force. k_c1.1 its value for a chip 1 mm by 1 mm. m_c exponent. h chip thickness in mm.
/// # Range
/// h 0.05 mm to 2.5 mm; a thinner chip takes more than this. Sharp edge, no correction for rake or wear.
/// # Source
/// [kienzle-1952]. Worked examples: tests/published/force.toml.
/// # Example
/// ```
/// use wearland::cutting::force::specific_force;
/// use wearland::quantity::{Length, SpecificForce};
/// let force = specific_force(SpecificForce::n_per_mm2(1500.0), 0.22, Length::mm(0.29886));
/// assert!((force.to_n_per_mm2() - 1956.5).abs() < 0.1);
/// ```
#[must_use]
pub fn specific_force(kc11: SpecificForce, mc: f64, chip_thickness: Length) -> SpecificForce {
    kc11 * chip_thickness.to_mm().powf(-mc)
}

/// Formula of [`cutting_force`].
pub const CUTTING_FORCE: Formula =
    Formula { figure: "cutting force", text: "F_c = k_c * b * h", source: "kienzle-1952" };

/// Cutting force on an edge.
///
/// F_c = k_c * b * h
///
/// # Symbols
/// F_c cutting force. k_c specific cutting force. b chip width. h chip thickness.
/// # Range
/// As for k_c.
/// # Source
/// [kienzle-1952]. Worked examples: tests/published/force.toml.
/// # Example
/// ```
/// use wearland::cutting::force::cutting_force;
/// use wearland::quantity::{Length, SpecificForce};
/// let force = cutting_force(SpecificForce::n_per_mm2(2000.0), Length::mm(3.0), Length::mm(0.25));
/// assert!((force.to_n() - 1500.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn cutting_force(specific_force: SpecificForce, width: Length, thickness: Length) -> Force {
    Force::n(specific_force.to_n_per_mm2() * width.to_mm() * thickness.to_mm())
}

/// Formula of [`cutting_power`].
pub const CUTTING_POWER: Formula =
    Formula { figure: "cutting power", text: "P_c = F_c * v_c", source: "mitsubishi-technical-data" };

/// Power at the cut from force and speed.
///
/// P_c = F_c * v_c
///
/// # Symbols
/// P_c cutting power. F_c cutting force. v_c cutting speed.
/// # Range
/// Any; feed power is small and left out.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/force.toml.
/// # Example
/// ```
/// use wearland::cutting::force::cutting_power;
/// use wearland::quantity::{CuttingSpeed, Force};
/// let power = cutting_power(Force::lbf(330.0), CuttingSpeed::ft_per_min(400.0));
/// assert!((power.to_hp() - 4.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn cutting_power(force: Force, speed: CuttingSpeed) -> Power {
    Power::kw(force.to_n() * speed.to_m_per_min() / 60_000.0)
}

/// Formula of [`removal_power`].
pub const REMOVAL_POWER: Formula =
    Formula { figure: "cutting power", text: "P_c = Q * k_c", source: "mitsubishi-technical-data" };

/// Power at the cut from the metal removed.
///
/// P_c = Q * k_c
///
/// # Symbols
/// P_c cutting power. Q removal rate. k_c specific cutting force; as energy, 1 N/mm2 is 0.001 J/mm3.
/// # Range
/// As for k_c.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/force.toml.
/// # Example
/// ```
/// use wearland::cutting::force::removal_power;
/// use wearland::quantity::{RemovalRate, SpecificForce};
/// let power = removal_power(RemovalRate::cm3_per_min(150.0), SpecificForce::n_per_mm2(3000.0));
/// assert!((power.to_kw() - 7.5).abs() < 1e-9);
/// ```
#[must_use]
pub fn removal_power(rate: RemovalRate, specific_force: SpecificForce) -> Power {
    Power::kw(rate.to_cm3_per_min() * specific_force.to_n_per_mm2() / 60_000.0)
}

/// Formula of [`motor_power`].
pub const MOTOR_POWER: Formula =
    Formula { figure: "motor power", text: "P_m = P_c / eta", source: "mitsubishi-technical-data" };

/// Power the motor must give.
///
/// P_m = P_c / eta
///
/// # Symbols
/// P_m motor power. P_c cutting power. eta efficiency of the drive, 0 to 1.
/// # Range
/// eta above zero.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/force.toml.
/// # Example
/// ```
/// use wearland::cutting::force::motor_power;
/// use wearland::quantity::Power;
/// assert!((motor_power(Power::kw(4.0), 0.8).to_kw() - 5.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn motor_power(power: Power, efficiency: f64) -> Power {
    power / efficiency
}

/// Formula of [`torque`].
pub const TORQUE: Formula =
    Formula { figure: "torque", text: "M = P / (2 * pi * n)", source: "common-practice" };

/// Torque at a spindle that gives a power.
///
/// M = P / (2 * pi * n)
///
/// # Symbols
/// M torque. P power. n spindle speed.
/// # Range
/// n above zero.
/// # Source
/// [common-practice]. Worked examples: tests/published/force.toml.
/// # Example
/// ```
/// use wearland::cutting::force::torque;
/// use wearland::quantity::{Power, SpindleSpeed};
/// assert!((torque(Power::kw(7.5), SpindleSpeed::rpm(100.0)).to_nm() - 716.197).abs() < 1e-3);
/// ```
#[must_use]
pub fn torque(power: Power, speed: SpindleSpeed) -> Torque {
    Torque::nm(power.to_w() * 60.0 / (2.0 * PI * speed.to_rpm()))
}

/// Formula of [`rotational_power`].
pub const ROTATIONAL_POWER: Formula =
    Formula { figure: "power", text: "P = 2 * pi * n * M", source: "common-practice" };

/// Power of a torque that turns.
///
/// P = 2 * pi * n * M
///
/// # Symbols
/// P power. n spindle speed. M torque.
/// # Range
/// Any.
/// # Source
/// [common-practice]. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::force::rotational_power;
/// use wearland::quantity::{SpindleSpeed, Torque};
/// let power = rotational_power(Torque::nm(1.25), SpindleSpeed::rpm(800.0));
/// assert!((power.to_w() - 104.72).abs() < 0.01);
/// ```
#[must_use]
pub fn rotational_power(torque: Torque, speed: SpindleSpeed) -> Power {
    Power::w(2.0 * PI * torque.to_nm() * speed.to_rpm() / 60.0)
}
