//! Feed marks of round cutters.

use crate::quantity::{Formula, Length, Roughness};

/// Formula of [`feed_marks`].
pub const FEED_MARKS: Formula =
    Formula { figure: "height of feed marks", text: "Rt = D / 2 - sqrt(D^2 - s^2) / 2", source: "derived" };

/// Height of the ridges between neighbouring cuts of a round cutter: of tooth after tooth of a cutter that cuts with
/// its circumference, or of path beside path of a ball nose.
///
/// Rt = D / 2 - sqrt(D^2 - s^2) / 2
///
/// # Symbols
/// Rt height of the ridges. D diameter of the cutter or ball. s feed per tooth, or step from path to path.
/// # Range
/// s below D, beyond that as at D. No run-out: with it, feed per revolution takes the place of feed per tooth.
/// # Source
/// \[derived\]: row of circular arcs. Worked examples: tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::feed_marks;
/// use wearland::quantity::Length;
/// assert!((feed_marks(Length::mm(1.0), Length::mm(10.0)).to_um() - 25.06).abs() < 0.01);
/// ```
#[must_use]
pub fn feed_marks(step: Length, diameter: Length) -> Roughness {
    let (radius, half) = (diameter.to_mm() / 2.0, step.to_mm() / 2.0);
    let half = half.min(radius);
    Roughness::um(half.powi(2) / (radius + (radius.powi(2) - half.powi(2)).sqrt()) * 1000.0)
}

/// Formula of [`feed_marks_short`].
pub const FEED_MARKS_SHORT: Formula =
    Formula { figure: "height of feed marks", text: "Rt = s^2 / (4 * D)", source: "ghosh-mallik" };

/// Height of the ridges by the short form, the arc taken as a parabola.
///
/// Rt = s^2 / (4 D)
///
/// # Symbols
/// Rt height of the ridges. s feed per tooth, or step from path to path. D diameter of the cutter or ball.
/// # Range
/// s small against D: at a tenth of D, 0.25 % low.
/// # Source
/// [ghosh-mallik]. Worked examples: tests/published/finish.toml.
/// # Example
/// ```
/// use wearland::cutting::finish::feed_marks_short;
/// use wearland::quantity::Length;
/// assert!((feed_marks_short(Length::mm(1.0), Length::mm(10.0)).to_um() - 25.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn feed_marks_short(step: Length, diameter: Length) -> Roughness {
    Roughness::um(step.to_mm().powi(2) / (4.0 * diameter.to_mm()) * 1000.0)
}
