//! Gear, hob, and how the hob is set to the gear.

use crate::quantity::{Angle, Formula, Length};

/// A gear to be cut, external, without profile shift.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gear {
    /// Normal module.
    pub module: Length,
    /// Teeth.
    pub teeth: u32,
    /// Helix angle; zero for a spur gear. The hand is told apart by [`Hand`].
    pub helix: Angle,
    /// Face width.
    pub face: Length,
    /// Whole depth of tooth: an input, since racks differ (2.25 and 2.4 modules, 2.157 / P and others).
    pub whole_depth: Length,
}

/// A hob.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hob {
    /// Outside diameter.
    pub diameter: Length,
    /// Starts.
    pub starts: u32,
}

/// Hands of gear and hob against each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    /// Right on right, or left on left.
    Same,
    /// Right on left.
    Opposite,
}

/// Formula of [`pitch_diameter`].
pub const PITCH_DIAMETER: Formula =
    Formula { figure: "pitch diameter", text: "d = z * m / cos(beta)", source: "common-practice" };

/// Pitch diameter of a gear.
///
/// d = z * m / cos(beta)
///
/// # Symbols
/// d pitch diameter. z teeth. m normal module; for a diametral pitch P, 1 in / P. beta helix angle.
/// # Range
/// beta below 90 degrees.
/// # Source
/// [common-practice]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, pitch_diameter};
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(2.0),
///     teeth: 30,
///     helix: Angle::deg(25.0),
///     face: Length::mm(25.0),
///     whole_depth: Length::mm(4.5),
/// };
/// assert!((pitch_diameter(&gear).to_mm() - 66.2027).abs() < 1e-4);
/// ```
#[must_use]
pub fn pitch_diameter(gear: &Gear) -> Length {
    gear.module * (f64::from(gear.teeth) / gear.helix.to_rad().cos())
}

/// Formula of [`tip_diameter`].
pub const TIP_DIAMETER: Formula =
    Formula { figure: "tip diameter", text: "d_a = d + 2 * m", source: "common-practice" };

/// Tip diameter of a gear, the size of its blank.
///
/// d_a = d + 2 * m
///
/// # Symbols
/// d_a tip diameter. d pitch diameter. m normal module.
/// # Range
/// No profile shift.
/// # Source
/// [common-practice]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, tip_diameter};
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(2.5),
///     teeth: 40,
///     helix: Angle::ZERO,
///     face: Length::mm(20.0),
///     whole_depth: Length::mm(5.625),
/// };
/// assert!((tip_diameter(&gear).to_mm() - 105.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn tip_diameter(gear: &Gear) -> Length {
    pitch_diameter(gear) + gear.module * 2.0
}

/// Formula of [`hob_lead_angle`].
pub const HOB_LEAD_ANGLE: Formula = Formula {
    figure: "lead angle of hob",
    text: "gamma_0 = asin(z_0 * m / (d_a0 - 2.5 * m))",
    source: "common-practice",
};

/// Lead angle of a hob.
///
/// gamma_0 = asin(z_0 * m / d_0), with d_0 = d_a0 - 2.5 * m
///
/// # Symbols
/// gamma_0 lead angle. z_0 starts. m normal module. d_0 reference diameter. d_a0 outside diameter.
/// # Range
/// Addendum of the hob 1.25 m: a new hob. It falls a little in diameter with each sharpening.
/// # Source
/// [common-practice]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Hob, hob_lead_angle};
/// use wearland::quantity::Length;
/// let hob = Hob { diameter: Length::mm(70.0), starts: 2 };
/// assert!((hob_lead_angle(&hob, Length::mm(2.0)).to_deg() - 3.5281).abs() < 1e-4);
/// ```
#[must_use]
pub fn hob_lead_angle(hob: &Hob, module: Length) -> Angle {
    let reference = hob.diameter - module * 2.5;
    Angle::rad((f64::from(hob.starts) * (module / reference)).asin())
}

/// Formula of [`swivel_angle`].
pub const SWIVEL_ANGLE: Formula = Formula {
    figure: "swivel angle",
    text: "eta = |beta - gamma_0| same hand, beta + gamma_0 opposite",
    source: "common-practice",
};

/// Angle to which the hob head is set, without its sign.
///
/// eta = |beta - gamma_0| for the same hand, beta + gamma_0 for the opposite
///
/// # Symbols
/// eta swivel angle. beta helix angle of the gear. gamma_0 lead angle of the hob.
/// # Range
/// A spur gear is set to gamma_0 with either hand.
/// # Source
/// [common-practice]. Worked examples: tests/published/hobbing.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, Hand, Hob, swivel_angle};
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(2.0),
///     teeth: 30,
///     helix: Angle::deg(25.0),
///     face: Length::mm(25.0),
///     whole_depth: Length::mm(4.5),
/// };
/// let hob = Hob { diameter: Length::mm(70.0), starts: 2 };
/// assert!((swivel_angle(&gear, &hob, Hand::Same).to_deg() - 21.4719).abs() < 1e-4);
/// assert!((swivel_angle(&gear, &hob, Hand::Opposite).to_deg() - 28.5281).abs() < 1e-4);
/// ```
#[must_use]
pub fn swivel_angle(gear: &Gear, hob: &Hob, hand: Hand) -> Angle {
    let (helix, lead) = (gear.helix.to_deg().abs(), hob_lead_angle(hob, gear.module).to_deg());
    Angle::deg(match hand {
        Hand::Same => (helix - lead).abs(),
        Hand::Opposite => helix + lead,
    })
}
