//! Milling away an unbalance: how deep, and along how long an arc.

use std::f64::consts::PI;

use crate::quantity::{Angle, Density, Formula, Length, Mass, MassMoment};

/// Formula of [`balance_mass`].
pub const BALANCE_MASS: Formula =
    Formula { figure: "mass to remove", text: "m = U / r", source: "common-practice" };

/// Mass to take away at a radius against an unbalance.
///
/// m = U / r
///
/// # Symbols
/// m mass. U unbalance. r radius at which it is taken away.
/// # Range
/// At one point; along an arc more must go, see [`balance_cut`].
/// # Source
/// [common-practice]: the definition of unbalance. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::balance_mass;
/// use wearland::quantity::{Length, MassMoment};
/// let mass = balance_mass(MassMoment::kg_m(40e-6), Length::mm(30.0));
/// assert!((mass.to_kg() * 1000.0 - 1.3333).abs() < 1e-4);
/// ```
#[must_use]
pub fn balance_mass(unbalance: MassMoment, radius: Length) -> Mass {
    Mass::kg(unbalance.to_kg_m() * 1000.0 / radius.to_mm())
}

/// An arc milled by an end mill at a radius; an angle of zero is one plunge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BalanceArc {
    /// Distance of the cutter's axis from the axis of the piece.
    pub radius: Length,
    /// Diameter of the end mill.
    pub diameter: Length,
    /// Depth.
    pub depth: Length,
    /// Angle through which the cutter's axis runs.
    pub angle: Angle,
}

/// Formula of [`balance_moment`].
pub const BALANCE_MOMENT: Formula = Formula {
    figure: "unbalance removed",
    text: "U = rho * h * (2 * d * r^2 * sin(theta / 2) + pi / 4 * d^2 * r * cos(theta / 2))",
    source: "derived",
};

/// Unbalance that a milled arc takes away.
///
/// U = rho * h * (2 * d * r^2 * sin(theta / 2) + pi / 4 * d^2 * r * cos(theta / 2))
///
/// # Symbols
/// U unbalance. rho density. h depth. d diameter of the end mill. r radius of its path. theta angle of the path.
/// # Range
/// theta from 0, one plunge, to 180 degrees; r from d / 2 up; a flat-ended mill in solid material.
/// # Source
/// \[derived\]: first moment of a ring sector with round ends, exact. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{BalanceArc, balance_moment};
/// use wearland::quantity::{Angle, Density, Length};
/// let plunge = BalanceArc {
///     radius: Length::mm(30.0),
///     diameter: Length::mm(10.0),
///     depth: Length::mm(4.0),
///     angle: Angle::ZERO,
/// };
/// let moment = balance_moment(plunge, Density::g_per_cm3(7.85));
/// assert!((moment.to_kg_m() * 1e6 - 73.98).abs() < 0.01);
/// ```
#[must_use]
pub fn balance_moment(arc: BalanceArc, density: Density) -> MassMoment {
    let half = arc.angle.to_rad() / 2.0;
    let (along, ends) = shares(arc.radius, arc.diameter);
    let area = along * half.sin() + ends * half.cos();
    MassMoment::kg_m(density.to_g_per_cm3() * arc.depth.to_mm() * area * 1e-9)
}

/// The cut that takes an unbalance away: a plunge as deep as needed, or, where that is deeper than allowed, an arc at the
/// greatest depth. `None` if even the best arc, near half a turn, is not enough.
#[must_use]
pub fn balance_cut(
    unbalance: MassMoment,
    radius: Length,
    diameter: Length,
    deepest: Length,
    density: Density,
) -> Option<BalanceArc> {
    let (along, ends) = shares(radius, diameter);
    let wanted = unbalance.to_kg_m() * 1e9 / density.to_g_per_cm3();
    let plunge = Length::mm(wanted / ends);
    if plunge <= deepest {
        return Some(BalanceArc { radius, diameter, depth: plunge, angle: Angle::ZERO });
    }
    let most = along.hypot(ends);
    let sine = wanted / deepest.to_mm() / most;
    if sine.is_nan() || sine > 1.0 {
        return None;
    }
    let angle = Angle::rad(2.0 * (sine.asin() - ends.atan2(along)));
    Some(BalanceArc { radius, diameter, depth: deepest, angle })
}

/// First moments for a unit of depth and density, mm3: of the arc, of its round ends.
fn shares(radius: Length, diameter: Length) -> (f64, f64) {
    let (r, d) = (radius.to_mm(), diameter.to_mm());
    (2.0 * d * r.powi(2), PI / 4.0 * d.powi(2) * r)
}

/// Formula of [`balance_path`].
pub const BALANCE_PATH: Formula =
    Formula { figure: "path of the arc", text: "L = r * theta, theta in rad", source: "derived" };

/// Path of the cutter's axis along the arc.
///
/// L = r * theta, theta in radians
///
/// # Symbols
/// L path. r radius. theta angle.
/// # Range
/// Any. The plunge is not in it.
/// # Source
/// \[derived\]. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{BalanceArc, balance_path};
/// use wearland::quantity::{Angle, Length};
/// let (radius, diameter, depth) = (Length::mm(30.0), Length::mm(10.0), Length::mm(4.0));
/// let path = balance_path(BalanceArc { radius, diameter, depth, angle: Angle::rad(0.5) });
/// assert!((path.to_mm() - 15.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn balance_path(arc: BalanceArc) -> Length {
    arc.radius * arc.angle.to_rad()
}
