//! Travel of a hob before it has reached full depth, and beyond the gear.

use crate::quantity::{Angle, Formula, Length};

use super::gear::{Gear, Hand, Hob, swivel_angle, tip_diameter};

/// Pressure angle of the basic rack, in degrees.
const PRESSURE_ANGLE: f64 = 20.0;

/// Formula of [`approach`].
pub const APPROACH: Formula = Formula {
    figure: "approach",
    text: "E = max over y of (sqrt(R^2 - (a - sqrt(r_a^2 - y^2))^2) - y * sin(eta)) / cos(eta), a = r_a + R - h",
    source: "derived",
};

/// Approach of a hob: axial travel from first touch to full depth, exact for two crossed cylinders.
///
/// E = max over y of (sqrt(R^2 - (a - sqrt(r_a^2 - y^2))^2) - y * sin(eta)) / cos(eta), with a = r_a + R - h
///
/// # Symbols
/// E approach. y distance from the plane of both axes, across it. R radius of the hob. r_a tip radius of the gear.
/// a centre distance at full depth. h depth of this cut. eta swivel angle.
/// # Range
/// h below both radii. The outside of the hob is taken as a full cylinder.
/// # Source
/// \[derived\]: points of the gear's tip cylinder inside the hob's; found to 1e-9 mm by golden section, since what is
/// maximised is concave. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, Hand, Hob, approach};
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(2.0),
///     teeth: 30,
///     helix: Angle::deg(25.0),
///     face: Length::mm(25.0),
///     whole_depth: Length::mm(4.5),
/// };
/// let hob = Hob { diameter: Length::mm(70.0), starts: 2 };
/// let travel = approach(&gear, &hob, Hand::Same, gear.whole_depth);
/// assert!((travel.to_mm() - 19.795).abs() < 1e-3);
/// ```
#[must_use]
pub fn approach(gear: &Gear, hob: &Hob, hand: Hand, depth: Length) -> Length {
    let (sine, cosine) = swivel_angle(gear, hob, hand).to_rad().sin_cos();
    let (tip, radius) = (tip_diameter(gear).to_mm() / 2.0, hob.diameter.to_mm() / 2.0);
    let depth = depth.to_mm();
    let centres = tip + radius - depth;
    let travel = |y: f64| {
        let gap = centres - (tip.powi(2) - y.powi(2)).max(0.0).sqrt();
        ((radius.powi(2) - gap.powi(2)).max(0.0).sqrt() - y * sine) / cosine
    };
    // Beyond this the two cylinders do not meet.
    let reach = (tip.powi(2) - (tip - depth).max(0.0).powi(2)).sqrt();
    Length::mm(greatest(travel, -reach, reach))
}

/// Formula of [`spur_approach`].
pub const SPUR_APPROACH: Formula =
    Formula { figure: "approach", text: "E = sqrt(h * (d_a0 - h))", source: "common-practice" };

/// Approach of a hob that stands square to the gear.
///
/// E = sqrt(h * (d_a0 - h))
///
/// # Symbols
/// E approach. h depth of cut. d_a0 outside diameter of the hob.
/// # Range
/// Swivel angle near zero; low for a helical gear.
/// # Source
/// [common-practice]: chord geometry. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Hob, spur_approach};
/// use wearland::quantity::Length;
/// let hob = Hob { diameter: Length::mm(90.0), starts: 1 };
/// assert!((spur_approach(&hob, Length::mm(6.75)).to_mm() - 23.705).abs() < 1e-3);
/// ```
#[must_use]
pub fn spur_approach(hob: &Hob, depth: Length) -> Length {
    Length::mm((depth.to_mm() * (hob.diameter - depth).to_mm()).sqrt())
}

/// Formula of [`short_approach`].
pub const SHORT_APPROACH: Formula = Formula {
    figure: "approach",
    text: "E = tan(eta) * sqrt(h * ((d_a0 - h) / sin(eta)^2 + d_a))",
    source: "common-practice",
};

/// Approach of a hob by the usual short form for helical gears.
///
/// E = tan(eta) * sqrt(h * ((d_a0 - h) / sin(eta)^2 + d_a))
///
/// # Symbols
/// E approach. eta swivel angle. h depth of cut. d_a0 outside diameter of the hob. d_a tip diameter of the gear.
/// # Range
/// About 0.2 to 0.7 % low against [`approach`] for helix angles of 15 to 35 degrees.
/// # Source
/// [common-practice]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, Hand, Hob, short_approach};
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(2.0),
///     teeth: 30,
///     helix: Angle::deg(25.0),
///     face: Length::mm(25.0),
///     whole_depth: Length::mm(4.5),
/// };
/// let hob = Hob { diameter: Length::mm(70.0), starts: 2 };
/// let travel = short_approach(&gear, &hob, Hand::Same, gear.whole_depth);
/// assert!((travel.to_mm() - 19.729).abs() < 1e-3);
/// ```
#[must_use]
pub fn short_approach(gear: &Gear, hob: &Hob, hand: Hand, depth: Length) -> Length {
    let (sine, cosine) = swivel_angle(gear, hob, hand).to_rad().sin_cos();
    let (square, tip) = (spur_approach(hob, depth).to_mm().powi(2), tip_diameter(gear).to_mm());
    // The same with tan multiplied in, so that a swivel angle of zero does not divide by zero.
    Length::mm((square + depth.to_mm() * tip * sine.powi(2)).sqrt() / cosine)
}

/// Formula of [`crude_approach`].
pub const CRUDE_APPROACH: Formula =
    Formula { figure: "approach", text: "E = sqrt(h * (d_a0 - h)) / cos(eta)", source: "common-practice" };

/// Approach of a hob by the crude form: the square approach laid along the swivelled axis.
///
/// E = sqrt(h * (d_a0 - h)) / cos(eta)
///
/// # Symbols
/// E approach. h depth of cut. d_a0 outside diameter of the hob. eta swivel angle.
/// # Range
/// Always low: 4 to 15 % against [`approach`] for helix angles of 15 to 35 degrees.
/// # Source
/// [common-practice]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, Hand, Hob, crude_approach};
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(2.0),
///     teeth: 30,
///     helix: Angle::deg(25.0),
///     face: Length::mm(25.0),
///     whole_depth: Length::mm(4.5),
/// };
/// let hob = Hob { diameter: Length::mm(70.0), starts: 2 };
/// let travel = crude_approach(&gear, &hob, Hand::Same, gear.whole_depth);
/// assert!((travel.to_mm() - 18.449).abs() < 1e-3);
/// ```
#[must_use]
pub fn crude_approach(gear: &Gear, hob: &Hob, hand: Hand, depth: Length) -> Length {
    spur_approach(hob, depth) / swivel_angle(gear, hob, hand).to_rad().cos()
}

/// Formula of [`overrun`].
pub const OVERRUN: Formula = Formula {
    figure: "overrun",
    text: "U = m * cos(eta) * tan(beta) / tan(alpha_n), alpha_n = 20 deg",
    source: "common-practice",
};

/// Overrun of a hob beyond a helical gear, until the last flank is generated.
///
/// U = m * cos(eta) * tan(beta) / tan(alpha_n), with alpha_n = 20 degrees
///
/// # Symbols
/// U overrun. m normal module, taken as addendum. eta swivel angle. beta helix angle. alpha_n pressure angle.
/// # Range
/// Zero for a spur gear; add the usual clearance of 1 to 3 mm.
/// # Source
/// [common-practice]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, overrun};
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(2.0),
///     teeth: 30,
///     helix: Angle::deg(25.0),
///     face: Length::mm(25.0),
///     whole_depth: Length::mm(4.5),
/// };
/// assert!((overrun(&gear, Angle::deg(21.4719)).to_mm() - 2.385).abs() < 1e-3);
/// ```
#[must_use]
pub fn overrun(gear: &Gear, swivel: Angle) -> Length {
    let rise = gear.helix.to_rad().abs().tan() / PRESSURE_ANGLE.to_radians().tan();
    gear.module * (swivel.to_rad().cos() * rise)
}

/// Greatest value of a concave function, by golden section.
fn greatest(value: impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut low, mut high) = (low, high);
    let (mut left, mut right) = (high - golden * (high - low), low + golden * (high - low));
    let (mut at_left, mut at_right) = (value(left), value(right));
    // Each step keeps 0.618 of the width: 80 steps shrink it by 1e-16.
    for _ in 0..80 {
        if at_left < at_right {
            low = left;
            (left, at_left) = (right, at_right);
            right = low + golden * (high - low);
            at_right = value(right);
        } else {
            high = right;
            (right, at_right) = (left, at_left);
            left = high - golden * (high - low);
            at_left = value(left);
        }
    }
    at_left.max(at_right)
}
