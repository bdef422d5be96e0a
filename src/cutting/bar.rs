//! Bar stock: section, mass, pieces from a bar.

use std::f64::consts::PI;

use crate::quantity::{Area, Density, Formula, Length, Mass};

/// Section of a bar. Its size is the diameter, or the distance across flats.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Section {
    /// Round, by diameter.
    Round,
    /// Hex, across flats.
    Hex,
    /// Square, across flats.
    Square,
}

impl Section {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 3] =
        [("round", Self::Round), ("hex", Self::Hex), ("square", Self::Square)];
}

/// Formula of [`section_area`].
pub const SECTION_AREA: Formula = Formula {
    figure: "area of section",
    text: "A = c * s^2, c = pi/4 round, sqrt(3)/2 hexagon, 1 square",
    source: "derived",
};

/// Area of a bar's section.
///
/// A = c * s^2, with c = pi/4 for round, sqrt(3)/2 for hexagon, 1 for square
///
/// # Symbols
/// A area. s diameter, or distance across flats.
/// # Range
/// Sharp corners.
/// # Source
/// \[derived\]: plane geometry. Worked examples: tests/published/bar.toml.
/// # Example
/// ```
/// use wearland::cutting::bar::{Section, section_area};
/// use wearland::quantity::Length;
/// assert!((section_area(Section::Hex, Length::mm(24.0)).to_mm2() - 498.83).abs() < 0.01);
/// ```
#[must_use]
pub fn section_area(section: Section, size: Length) -> Area {
    let share = match section {
        Section::Round => PI / 4.0,
        Section::Hex => 3.0_f64.sqrt() / 2.0,
        Section::Square => 1.0,
    };
    Area::mm2(share * size.to_mm().powi(2))
}

/// Formula of [`bar_mass`].
pub const BAR_MASS: Formula =
    Formula { figure: "mass of bar", text: "m = rho * A * L", source: "common-practice" };

/// Mass of a length of bar; of one metre, the mass for each metre.
///
/// m = rho * A * L
///
/// # Symbols
/// m mass. rho density. A area of section. L length.
/// # Range
/// Nominal size; rolling tolerances are not in it.
/// # Source
/// [common-practice]. Worked examples: tests/published/bar.toml.
/// # Example
/// ```
/// use wearland::cutting::bar::{Section, bar_mass, section_area};
/// use wearland::quantity::{Density, Length};
/// let area = section_area(Section::Round, Length::mm(25.0));
/// let mass = bar_mass(area, Length::m(1.0), Density::g_per_cm3(7.85));
/// assert!((mass.to_kg() - 3.8534).abs() < 1e-4);
/// ```
#[must_use]
pub fn bar_mass(area: Area, length: Length, density: Density) -> Mass {
    // 1 mm3 of 1 g/cm3 weighs 1e-6 kg.
    Mass::kg(density.to_g_per_cm3() * area.to_mm2() * length.to_mm() * 1e-6)
}

/// How a bar is used up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarPlan {
    /// Length of the bar.
    pub length: Length,
    /// Last length the spindle cannot use.
    pub remnant: Length,
    /// Taken off the first end, once for each bar.
    pub end_facing: Length,
    /// Length of a finished piece.
    pub piece: Length,
    /// Width of the parting cut.
    pub cutoff: Length,
    /// Stock faced off each piece.
    pub facing: Length,
}

/// Formula of [`pieces_per_bar`].
pub const PIECES_PER_BAR: Formula = Formula {
    figure: "pieces from a bar",
    text: "N = floor((L - L_r - L_e) / (l + w + l_f))",
    source: "common-practice",
};

/// Whole pieces from a bar.
///
/// N = floor((L - L_r - L_e) / (l + w + l_f)), where a quotient less than a thousand-millionth part below a whole
/// number counts as whole.
///
/// # Symbols
/// N pieces. L bar. L_r remnant. L_e end facing. l piece. w parting cut. l_f facing stock of a piece.
/// # Range
/// Each piece is parted off, the last too. A bar too short gives none.
/// # Source
/// [common-practice]. Worked examples: tests/published/bar.toml.
/// # Example
/// ```
/// use wearland::cutting::bar::{BarPlan, pieces_per_bar};
/// use wearland::quantity::Length;
/// let pieces = pieces_per_bar(BarPlan {
///     length: Length::inch(144.0),
///     remnant: Length::mm(250.0),
///     end_facing: Length::mm(5.0),
///     piece: Length::mm(42.0),
///     cutoff: Length::mm(3.0),
///     facing: Length::mm(0.5),
/// });
/// assert_eq!(pieces, 74);
/// ```
#[must_use]
pub fn pieces_per_bar(plan: BarPlan) -> u32 {
    let useful = plan.length - plan.remnant - plan.end_facing;
    let pieces = (useful / (plan.piece + plan.cutoff + plan.facing) * (1.0 + 1e-9)).floor().max(0.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "at least zero; the cast stops at the greatest count"
    )]
    let whole = pieces as u32;
    whole
}
