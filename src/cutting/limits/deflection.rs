//! Bending and slenderness of the work and of a boring bar.

use std::f64::consts::PI;

use crate::quantity::{ElasticModulus, Force, Formula, Length};

/// How the work is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Support {
    /// In a chuck or collet alone.
    Chuck,
    /// In a chuck, its end on a centre.
    ChuckAndCentre,
    /// Between centres.
    Centres,
    /// In a chuck, with a steady or follow rest at the cut.
    Steady,
}

impl Support {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 4] = [
        ("chuck", Self::Chuck),
        ("chuck and centre", Self::ChuckAndCentre),
        ("centres", Self::Centres),
        ("steady", Self::Steady),
    ];

    /// As written in scenarios.
    #[must_use]
    pub fn name(self) -> &'static str {
        Self::NAMES.iter().find(|(_, support)| *support == self).map_or("", |(name, _)| name)
    }

    /// Length by diameter up to which work is turned without trouble; nothing where a rest carries the cut.
    #[must_use]
    pub const fn slenderest(self) -> Option<f64> {
        match self {
            Self::Chuck => Some(3.0),
            Self::ChuckAndCentre | Self::Centres => Some(8.0),
            Self::Steady => None,
        }
    }

    /// Deflection times E * I / (F * L^3).
    fn share(self) -> f64 {
        match self {
            Self::Chuck => 1.0 / 3.0,
            Self::ChuckAndCentre => 7.0 / 768.0,
            Self::Centres => 1.0 / 48.0,
            Self::Steady => 0.0,
        }
    }
}

/// What a boring bar is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BoringBar {
    /// Steel.
    Steel,
    /// Cemented carbide.
    Carbide,
    /// Steel with a damper inside.
    Damped,
}

impl BoringBar {
    /// As written in catalogs.
    pub const NAMES: [(&'static str, Self); 3] =
        [("steel", Self::Steel), ("carbide", Self::Carbide), ("damped", Self::Damped)];

    /// Overhang by diameter up to which it bores without chatter, by common rule.
    #[must_use]
    pub const fn slenderest(self) -> f64 {
        match self {
            Self::Steel => 4.0,
            Self::Carbide => 6.0,
            Self::Damped => 10.0,
        }
    }

    /// Modulus of elasticity. A damped bar bends like its steel.
    #[must_use]
    pub const fn modulus(self) -> ElasticModulus {
        match self {
            Self::Steel | Self::Damped => ElasticModulus::gpa(206.0),
            Self::Carbide => ElasticModulus::gpa(600.0),
        }
    }
}

/// Formula of [`deflection`].
pub const DEFLECTION: Formula = Formula {
    figure: "deflection",
    text: "y = F * L^3 / (c * E * I), I = pi * d^4 / 64, c = 3 chuck, 48 centres, 768/7 chuck and centre",
    source: "derived",
};

/// How far a force bends a solid round bar: at its end in a chuck, in its middle on two supports.
///
/// y = F * L^3 / (c * E * I), I = pi * d^4 / 64, c = 3 chuck, 48 centres, 768/7 chuck and centre
///
/// # Symbols
/// y deflection. F force. L length. E modulus of elasticity. I second moment of area. d diameter.
/// # Range
/// Stiff chuck, centre and holder; nothing where a rest carries the cut. Shear left out: L above about 5 d.
/// # Source
/// \[derived\]: bending of a beam. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{Support, deflection};
/// use wearland::quantity::{ElasticModulus, Force, Length};
/// let steel = ElasticModulus::gpa(206.0);
/// let bend = deflection(Force::n(200.0), Support::Chuck, Length::mm(25.0), Length::mm(100.0), steel);
/// assert!((bend.to_mm() - 0.01688).abs() < 1e-5);
/// ```
#[must_use]
pub fn deflection(
    force: Force,
    support: Support,
    diameter: Length,
    length: Length,
    modulus: ElasticModulus,
) -> Length {
    let second_moment = PI * diameter.to_mm().powi(4) / 64.0;
    let bent = force.to_n() * length.to_mm().powi(3) / (modulus.to_gpa() * 1e3 * second_moment);
    Length::mm(support.share() * bent)
}

/// Formula of [`slenderness`].
pub const SLENDERNESS: Formula =
    Formula { figure: "length by diameter", text: "s = L / d", source: "common-practice" };

/// Length by diameter.
///
/// s = L / d, held against [`Support::slenderest`] or [`BoringBar::slenderest`]
#[must_use]
pub fn slenderness(length: Length, diameter: Length) -> f64 {
    length / diameter
}

/// Formula of [`longest_overhang`].
pub const LONGEST_OVERHANG: Formula = Formula {
    figure: "longest overhang",
    text: "L = c * d, c = 4 steel, 6 carbide, 10 damped",
    source: "common-practice",
};

/// Longest overhang of a boring bar.
///
/// L = c * d, c = 4 steel, 6 carbide, 10 damped
///
/// # Symbols
/// L overhang out of the holder. d diameter of the bar.
/// # Range
/// Well clamped. Makers claim more for small carbide bars (10) and for damped bars of their own (to 14).
/// # Source
/// [common-practice]; steel also in [widia-2017]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{BoringBar, longest_overhang};
/// use wearland::quantity::Length;
/// assert!((longest_overhang(BoringBar::Steel, Length::mm(25.0)).to_mm() - 100.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn longest_overhang(bar: BoringBar, diameter: Length) -> Length {
    diameter * bar.slenderest()
}
