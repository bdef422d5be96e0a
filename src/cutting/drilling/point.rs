//! Lengths that a point angle gives: of a drill's point, of a spot, of a countersink.

use crate::quantity::{Angle, Formula, Length};

/// Formula of [`point_allowance`].
pub const POINT_ALLOWANCE: Formula =
    Formula { figure: "point allowance", text: "A = D / (2 * tan(sigma / 2))", source: "derived" };

/// Length of a drill's point, fed beyond the depth of the full diameter.
///
/// A = D / (2 * tan(sigma / 2))
///
/// # Symbols
/// A length of the point. D diameter. sigma point angle, tip to tip.
/// # Range
/// sigma above 0, up to 180 degrees, where there is no point: the flat end of an indexable drill.
/// # Source
/// \[derived\]: height of a cone. Worked examples: tests/published/drilling.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::point_allowance;
/// use wearland::quantity::{Angle, Length};
/// assert!((point_allowance(Length::mm(10.0), Angle::deg(118.0)).to_mm() - 3.004).abs() < 1e-3);
/// ```
#[must_use]
pub fn point_allowance(diameter: Length, point_angle: Angle) -> Length {
    if point_angle >= Angle::deg(180.0) {
        return Length::ZERO;
    }
    diameter / (2.0 * (point_angle.to_rad() / 2.0).tan())
}

/// Formula of [`mark_depth`].
pub const MARK_DEPTH: Formula =
    Formula { figure: "depth of the mark", text: "h = D_m / (2 * tan(sigma / 2))", source: "derived" };

/// Depth at which a centre drill's cone or a spot drill leaves a mark of a diameter.
///
/// h = D_m / (2 * tan(sigma / 2))
///
/// # Symbols
/// h depth of the tip below the face. D_m diameter of the mark. sigma point angle, tip to tip.
/// # Range
/// D_m up to the diameter of the tool; sharp point, no chisel edge; sigma above 0, below 180 degrees.
/// # Source
/// \[derived\]: height of a cone. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::mark_depth;
/// use wearland::quantity::{Angle, Length};
/// assert!((mark_depth(Length::mm(6.0), Angle::deg(90.0)).to_mm() - 3.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn mark_depth(diameter: Length, point_angle: Angle) -> Length {
    point_allowance(diameter, point_angle)
}

/// Formula of [`countersink_depth`].
pub const COUNTERSINK_DEPTH: Formula = Formula {
    figure: "depth of the countersink",
    text: "h = (D - d) / (2 * tan(sigma / 2))",
    source: "derived",
};

/// Way a countersink cuts, from the rim of the hole to the diameter at the face.
///
/// h = (D - d) / (2 * tan(sigma / 2))
///
/// # Symbols
/// h way in the cut. D diameter at the face. d diameter of the hole. sigma angle of the countersink.
/// # Range
/// D not below d; sigma above 0, below 180 degrees.
/// # Source
/// \[derived\]: height of a cut cone. Worked examples: tests/published/holes.toml.
/// # Example
/// ```
/// use wearland::cutting::drilling::countersink_depth;
/// use wearland::quantity::{Angle, Length};
/// let depth = countersink_depth(Length::mm(12.0), Length::mm(6.6), Angle::deg(90.0));
/// assert!((depth.to_mm() - 2.7).abs() < 1e-12);
/// ```
#[must_use]
pub fn countersink_depth(diameter: Length, hole: Length, point_angle: Angle) -> Length {
    point_allowance(diameter - hole, point_angle)
}
