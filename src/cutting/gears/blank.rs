//! Blank, root and whole depth of a gear, and the length of tooth cut.

use crate::cutting::hobbing::{Gear, pitch_diameter};
use crate::quantity::{Formula, Length};

/// Which rule the whole depth of a tooth follows: racks differ, so it is said, never assumed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ToothDepth {
    /// 2.25 modules: rack of ISO 53, module 1.25 and coarser.
    Coarse,
    /// 2.4 modules: metric gears finer than module 1.25.
    Fine,
    /// 2.157 / P: full depth, inch.
    InchFull,
    /// 2.2 / P + 0.002 in: inch, diametral pitch 20 and finer.
    InchFine,
    /// So many modules: 2.35 to 2.45 where the flanks are shaved or ground afterwards.
    Modules(f64),
}

/// Formula of [`whole_depth`].
pub const WHOLE_DEPTH: Formula = Formula {
    figure: "whole depth",
    text: "h = c * m (c = 2.25, 2.4 or 2.157); inch fine pitch h = 2.2 * m + 0.002 in",
    source: "metric-gears-page",
};

/// Whole depth of a tooth.
///
/// h = c * m, with c = 2.25, 2.4 or 2.157; inch fine pitch h = 2.2 * m + 0.002 in
///
/// # Symbols
/// h whole depth. m normal module, 1 in / P. c as [`ToothDepth`] says.
/// # Range
/// As each rule says.
/// # Source
/// [metric-gears-page] for 2.25 and 2.4, [gear-formula-sheet] for 2.157, [ansi-b6] for the inch fine pitch.
/// Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::{ToothDepth, whole_depth};
/// use wearland::quantity::Length;
/// assert!((whole_depth(Length::mm(2.5), ToothDepth::Coarse).to_mm() - 5.625).abs() < 1e-12);
/// ```
#[must_use]
pub fn whole_depth(module: Length, depth: ToothDepth) -> Length {
    match depth {
        ToothDepth::Coarse => module * 2.25,
        ToothDepth::Fine => module * 2.4,
        ToothDepth::InchFull => module * 2.157,
        ToothDepth::InchFine => module * 2.2 + Length::inch(0.002),
        ToothDepth::Modules(modules) => module * modules,
    }
}

/// Formula of [`blank_diameter`].
pub const BLANK_DIAMETER: Formula =
    Formula { figure: "tip diameter", text: "d_a = d + 2 * m * (1 + x)", source: "gear-geometry-notes" };

/// Tip diameter of a gear with profile shift: the size its blank is turned to.
///
/// d_a = d + 2 * m * (1 + x)
///
/// # Symbols
/// d_a tip diameter. d pitch diameter. m normal module. x profile shift factor.
/// # Range
/// External; no shortening of the tip.
/// # Source
/// [gear-geometry-notes]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::blank_diameter;
/// use wearland::cutting::hobbing::Gear;
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(2.5),
///     teeth: 40,
///     helix: Angle::ZERO,
///     face: Length::mm(20.0),
///     whole_depth: Length::mm(5.625),
/// };
/// assert!((blank_diameter(&gear, 0.2).to_mm() - 106.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn blank_diameter(gear: &Gear, profile_shift: f64) -> Length {
    pitch_diameter(gear) + gear.module * (2.0 * (1.0 + profile_shift))
}

/// Formula of [`root_diameter`].
pub const ROOT_DIAMETER: Formula =
    Formula { figure: "root diameter", text: "d_f = d_a - 2 * h", source: "gear-geometry-notes" };

/// Root diameter of a gear; with h = 2.25 m it is d - 2 * m * (1.25 - x).
///
/// d_f = d_a - 2 * h
///
/// # Symbols
/// d_f root diameter. d_a tip diameter. h whole depth.
/// # Range
/// External.
/// # Source
/// [gear-geometry-notes]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::root_diameter;
/// use wearland::cutting::hobbing::Gear;
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(2.5),
///     teeth: 40,
///     helix: Angle::ZERO,
///     face: Length::mm(20.0),
///     whole_depth: Length::mm(5.625),
/// };
/// assert!((root_diameter(&gear, 0.0).to_mm() - 93.75).abs() < 1e-9);
/// ```
#[must_use]
pub fn root_diameter(gear: &Gear, profile_shift: f64) -> Length {
    blank_diameter(gear, profile_shift) - gear.whole_depth * 2.0
}

/// Formula of [`tooth_metres`].
pub const TOOTH_METRES: Formula =
    Formula { figure: "length of tooth cut", text: "l = z * b / cos(beta)", source: "derived" };

/// Length of tooth cut on one gear, the measure of a gear cutter's life.
///
/// l = z * b / cos(beta)
///
/// # Symbols
/// l length of tooth. z teeth. b face width. beta helix angle.
/// # Range
/// Approach and overrun cut nothing to full depth and are left out.
/// # Source
/// \[derived\]: teeth laid end to end. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::gears::tooth_metres;
/// use wearland::cutting::hobbing::Gear;
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(3.0),
///     teeth: 40,
///     helix: Angle::ZERO,
///     face: Length::mm(30.0),
///     whole_depth: Length::mm(6.75),
/// };
/// assert!((tooth_metres(&gear).to_m() - 1.2).abs() < 1e-12);
/// ```
#[must_use]
pub fn tooth_metres(gear: &Gear) -> Length {
    gear.face * (f64::from(gear.teeth) / gear.helix.to_rad().cos())
}
