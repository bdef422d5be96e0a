//! Corrections of the specific cutting force: rake, speed, wear, process; and the energy behind it.

use crate::quantity::{Angle, CuttingSpeed, Formula, Length, Power, RemovalRate, SpecificForce};

/// Loss of force for a degree of rake by the classical rule, 1.5 %.
pub const RAKE_SHARE: f64 = 1.0 / 66.7;

/// Formula of [`rake_factor`].
pub const RAKE_FACTOR: Formula = Formula {
    figure: "rake factor",
    text: "K = 1 - c * (gamma - gamma_0), c = 1/66.7 or 1/100 a degree",
    source: "dietrich-tschaetsch-2014",
};

/// Factor on the cutting force for a rake other than that of the constant.
///
/// K = 1 - c * (gamma - gamma_0), c = 1/66.7 or 1/100 a degree
///
/// # Symbols
/// K factor. gamma rake of the tool. gamma_0 rake of the constant: classical +6 degrees steel, +2 cast iron; catalogues 0.
/// # Range
/// About -15 to +30 degrees.
/// # Source
/// [dietrich-tschaetsch-2014] for 1 % a degree, \[memory\] for 1.5 %. Worked examples: tests/published/corrections.toml.
/// # Example
/// ```
/// use wearland::cutting::correction::{RAKE_SHARE, rake_factor};
/// use wearland::quantity::Angle;
/// let factor = rake_factor(Angle::deg(-6.0), Angle::deg(6.0), RAKE_SHARE);
/// assert!((factor - 1.17991).abs() < 1e-5);
/// ```
#[must_use]
pub fn rake_factor(rake: Angle, rake_of_constant: Angle, share_a_degree: f64) -> f64 {
    1.0 - share_a_degree * (rake - rake_of_constant).to_deg()
}

/// Formula of [`speed_factor`].
pub const SPEED_FACTOR: Formula = Formula {
    figure: "speed factor",
    text: "K = 2.023 / v_c^0.153 up to 100 m/min, 1.380 / v_c^0.07 above",
    source: "memory",
};

/// Factor on the cutting force for the cutting speed.
///
/// K = 2.023 / v_c^0.153 from 20 to 100 m/min, 1.380 / v_c^0.07 above
///
/// # Symbols
/// K factor. v_c cutting speed, m/min.
/// # Range
/// 20 m/min to about 600 m/min; carbide in steel.
/// # Source
/// \[memory\]. Worked examples: tests/published/corrections.toml.
/// # Example
/// ```
/// use wearland::cutting::correction::speed_factor;
/// use wearland::quantity::CuttingSpeed;
/// assert!((speed_factor(CuttingSpeed::m_per_min(100.0)) - 1.0).abs() < 0.001);
/// ```
#[must_use]
pub fn speed_factor(speed: CuttingSpeed) -> f64 {
    let speed = speed.to_m_per_min();
    if speed <= 100.0 { 2.023 / speed.powf(0.153) } else { 1.380 / speed.powf(0.07) }
}

/// State of the edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// Sharp.
    Sharp,
    /// Worn to the end of its life.
    Worn,
}

/// Factor on the cutting force for wear: 1.3 worn (to 1.5), after Dietrich and Tschätsch.
#[must_use]
pub const fn wear_factor(edge: Edge) -> f64 {
    match edge {
        Edge::Sharp => 1.0,
        Edge::Worn => 1.3,
    }
}

/// How a chip is formed and led away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChipForming {
    /// Turning outside.
    OuterTurning,
    /// Boring, drilling, turning inside.
    InnerTurning,
    /// Milling.
    Milling,
    /// Parting and grooving.
    Parting,
    /// Planing and shaping.
    Planing,
}

/// Factor on the cutting force for the process: milling after Dietrich and Tschätsch, the others from memory.
#[must_use]
pub const fn process_factor(process: ChipForming) -> f64 {
    match process {
        ChipForming::OuterTurning => 1.0,
        ChipForming::InnerTurning | ChipForming::Milling => 1.2,
        ChipForming::Parting => 1.3,
        ChipForming::Planing => 1.1,
    }
}

/// Formula of [`specific_force_from`].
pub const SPECIFIC_FORCE_FROM: Formula = Formula {
    figure: "specific cutting force",
    text: "k_c = k_c0 * (h_0 / h)^m_c",
    source: "sandvik-boring-guide",
};

/// Specific cutting force from its value at another chip thickness.
///
/// k_c = k_c0 * (h_0 / h)^m_c
///
/// # Symbols
/// k_c specific cutting force. k_c0 its value at h_0. h_0 chip thickness of the constant, often 0.4 mm. h chip thickness.
/// m_c exponent, 0.29 in general.
/// # Range
/// As for the constant of a chip 1 mm thick.
/// # Source
/// [sandvik-boring-guide]. Worked examples: tests/published/corrections.toml.
/// # Example
/// ```
/// use wearland::cutting::correction::specific_force_from;
/// use wearland::quantity::{Length, SpecificForce};
/// let known = SpecificForce::n_per_mm2(2000.0);
/// let force = specific_force_from(known, Length::mm(0.4), 0.29, Length::mm(0.25));
/// assert!((force.to_n_per_mm2() * 0.25 * 3.0 - 1719.0).abs() < 0.1);
/// ```
#[must_use]
pub fn specific_force_from(
    known: SpecificForce,
    known_chip: Length,
    exponent: f64,
    chip_thickness: Length,
) -> SpecificForce {
    known * (known_chip / chip_thickness).powf(exponent)
}

/// Formula of [`specific_energy`].
pub const SPECIFIC_ENERGY: Formula =
    Formula { figure: "specific energy", text: "u = P_c / Q", source: "kalpakjian" };

/// Energy for each volume of metal, which is the mean specific cutting force.
///
/// u = P_c / Q; 1 J/mm3 is 1000 N/mm2
///
/// # Symbols
/// u specific energy. P_c cutting power. Q removal rate.
/// # Range
/// Q above nothing.
/// # Source
/// \[kalpakjian\]. Worked examples: tests/published/corrections.toml.
/// # Example
/// ```
/// use wearland::cutting::correction::specific_energy;
/// use wearland::quantity::{Power, RemovalRate};
/// let energy = specific_energy(Power::kw(7.5), RemovalRate::cm3_per_min(150.0));
/// assert!((energy.to_n_per_mm2() - 3000.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn specific_energy(power: Power, rate: RemovalRate) -> SpecificForce {
    SpecificForce::n_per_mm2(power.to_w() * 60.0 / rate.to_cm3_per_min())
}
