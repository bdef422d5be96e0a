//! Flank wear moves the edge away from the work: the size drifts.

use crate::quantity::{Angle, Formula, Length};

/// Formula of [`size_drift`].
pub const SIZE_DRIFT: Formula =
    Formula { figure: "drift of size", text: "Delta D = 2 * VB * tan(alpha)", source: "derived" };

/// Drift of a turned or bored diameter by flank wear.
///
/// Delta D = 2 * VB * tan(alpha)
///
/// # Symbols
/// Delta D change of diameter. VB width of the wear land. alpha clearance angle.
/// # Range
/// Wear land along the cutting direction at the point that makes the size, rake near zero; alpha below 90 deg. Heat
/// and deflection drift as well and are not in it.
/// # Source
/// \[derived\] from the geometry of the land: the edge falls back by VB tan(alpha).
/// # Example
/// ```
/// use wearland::quantity::{Angle, Length};
/// use wearland::tooling::replacement::size_drift;
/// let drift = size_drift(Length::mm(0.2), Angle::deg(7.0));
/// assert!((drift.to_mm() - 0.04911).abs() < 1e-5);
/// ```
#[must_use]
pub fn size_drift(wear: Length, clearance: Angle) -> Length {
    wear * (2.0 * clearance.to_rad().tan())
}

/// Formula of [`wear_for_drift`].
pub const WEAR_FOR_DRIFT: Formula =
    Formula { figure: "wear land for a drift", text: "VB = Delta D / (2 * tan(alpha))", source: "derived" };

/// Wear land at which a diameter has drifted by so much.
///
/// VB = Delta D / (2 * tan(alpha))
///
/// # Symbols
/// Delta D change of diameter. VB width of the wear land. alpha clearance angle.
/// # Range
/// As [`size_drift`]; alpha above zero.
/// # Source
/// \[derived\]: the drift of size solved for the land.
/// # Example
/// ```
/// use wearland::quantity::{Angle, Length};
/// use wearland::tooling::replacement::wear_for_drift;
/// let land = wear_for_drift(Length::mm(0.02), Angle::deg(7.0));
/// assert!((land.to_mm() - 0.08144).abs() < 1e-5);
/// ```
#[must_use]
pub fn wear_for_drift(drift: Length, clearance: Angle) -> Length {
    drift / (2.0 * clearance.to_rad().tan())
}
