//! Step-over of a ball-nosed cutter from the ridges it may leave.

use crate::quantity::{Formula, Length, Roughness};

/// Formula of [`step_over_for_scallop`].
pub const STEP_OVER_FOR_SCALLOP: Formula =
    Formula { figure: "step-over", text: "b = 2 * sqrt(Rt * (2 * R - Rt))", source: "derived" };

/// Greatest step-over that keeps a wanted ridge.
///
/// b = 2 * sqrt(Rt * (2 * R - Rt)), the inverse of [`crate::cutting::finish::feed_marks`]
///
/// # Symbols
/// b step-over. Rt wanted height. R radius of the ball.
/// # Range
/// Rt from 0 to R.
/// # Source
/// \[derived\]. Worked examples: tests/published/milling-cut.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::step_over_for_scallop;
/// use wearland::quantity::{Length, Roughness};
/// let step = step_over_for_scallop(Roughness::um(25.063), Length::mm(5.0));
/// assert!((step.to_mm() - 1.0).abs() < 1e-4);
/// ```
#[must_use]
pub fn step_over_for_scallop(height: Roughness, radius: Length) -> Length {
    let height = height.to_um() / 1000.0;
    Length::mm(2.0 * (height * (2.0 * radius.to_mm() - height)).sqrt())
}
