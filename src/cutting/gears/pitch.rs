//! Pitches, modules and angles of a cylindrical gear, in the normal and in the transverse plane.

use std::f64::consts::PI;

use crate::cutting::hobbing::Gear;
use crate::quantity::{Angle, Formula, Length};

/// Formula of [`module_of_pitch`].
pub const MODULE_OF_PITCH: Formula =
    Formula { figure: "module", text: "m = 25.4 mm / P", source: "gear-geometry-notes" };

/// Module of a diametral pitch; normal from normal, transverse from transverse.
///
/// m = 25.4 mm / P
///
/// # Symbols
/// m module. P diametral pitch, teeth for each inch of pitch diameter.
/// # Range
/// P above zero.
/// # Source
/// [gear-geometry-notes]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::module_of_pitch;
/// assert!((module_of_pitch(10.0).to_mm() - 2.54).abs() < 1e-12);
/// ```
#[must_use]
pub fn module_of_pitch(diametral_pitch: f64) -> Length {
    Length::inch(1.0 / diametral_pitch)
}

/// Diametral pitch in the transverse plane, P = P_n * cos(beta), from that in the normal plane.
///
/// ```
/// use wearland::cutting::gears::transverse_pitch;
/// use wearland::quantity::Angle;
/// assert!((transverse_pitch(12.0, Angle::deg(15.0)) - 11.5911).abs() < 1e-4);
/// ```
#[must_use]
pub fn transverse_pitch(normal_pitch: f64, helix: Angle) -> f64 {
    normal_pitch * helix.to_rad().cos()
}

/// Formula of [`transverse_module`].
pub const TRANSVERSE_MODULE: Formula =
    Formula { figure: "transverse module", text: "m_t = m_n / cos(beta)", source: "gear-geometry-notes" };

/// Module in the transverse plane.
///
/// m_t = m_n / cos(beta)
///
/// # Symbols
/// m_t transverse module. m_n normal module. beta helix angle.
/// # Range
/// beta below 90 degrees.
/// # Source
/// [gear-geometry-notes]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::transverse_module;
/// use wearland::quantity::{Angle, Length};
/// assert!((transverse_module(Length::mm(2.0), Angle::deg(20.0)).to_mm() - 2.128356).abs() < 1e-6);
/// ```
#[must_use]
pub fn transverse_module(module: Length, helix: Angle) -> Length {
    module / helix.to_rad().cos()
}

/// Formula of [`transverse_pressure_angle`].
pub const TRANSVERSE_PRESSURE_ANGLE: Formula = Formula {
    figure: "transverse pressure angle",
    text: "alpha_t = atan(tan(alpha_n) / cos(beta))",
    source: "gear-geometry-notes",
};

/// Pressure angle in the transverse plane.
///
/// alpha_t = atan(tan(alpha_n) / cos(beta))
///
/// # Symbols
/// alpha_t transverse, alpha_n normal pressure angle. beta helix angle.
/// # Range
/// beta below 90 degrees.
/// # Source
/// [gear-geometry-notes]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::transverse_pressure_angle;
/// use wearland::quantity::Angle;
/// assert!((transverse_pressure_angle(Angle::deg(20.0), Angle::ZERO).to_deg() - 20.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn transverse_pressure_angle(normal: Angle, helix: Angle) -> Angle {
    Angle::rad((normal.to_rad().tan() / helix.to_rad().cos()).atan())
}

/// Formula of [`axial_pitch`].
pub const AXIAL_PITCH: Formula =
    Formula { figure: "axial pitch", text: "p_x = pi * m_n / sin(beta)", source: "gear-geometry-notes" };

/// Distance along the axis from one helical tooth to the next.
///
/// p_x = pi * m_n / sin(beta)
///
/// # Symbols
/// p_x axial pitch. m_n normal module. beta helix angle.
/// # Range
/// Without end for a spur gear.
/// # Source
/// [gear-geometry-notes]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::axial_pitch;
/// use wearland::quantity::{Angle, Length};
/// assert!((axial_pitch(Length::mm(2.0), Angle::deg(20.0)).to_mm() - 18.3708).abs() < 1e-4);
/// ```
#[must_use]
pub fn axial_pitch(module: Length, helix: Angle) -> Length {
    module * (PI / helix.to_rad().sin())
}

/// Formula of [`lead`].
pub const LEAD: Formula =
    Formula { figure: "lead", text: "p_z = pi * z * m_n / sin(beta)", source: "gear-geometry-notes" };

/// Lead of a helical gear: distance along the axis in which a tooth goes once round.
///
/// p_z = pi * z * m_n / sin(beta)
///
/// # Symbols
/// p_z lead. z teeth. m_n normal module. beta helix angle.
/// # Range
/// Without end for a spur gear.
/// # Source
/// [gear-geometry-notes]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::lead;
/// use wearland::cutting::hobbing::Gear;
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(2.0),
///     teeth: 30,
///     helix: Angle::deg(20.0),
///     face: Length::mm(25.0),
///     whole_depth: Length::mm(4.5),
/// };
/// assert!((lead(&gear).to_mm() - 551.124).abs() < 1e-3);
/// ```
#[must_use]
pub fn lead(gear: &Gear) -> Length {
    axial_pitch(gear.module, gear.helix) * f64::from(gear.teeth)
}
