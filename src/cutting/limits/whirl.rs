//! Whirl of a bar that turns.

use std::f64::consts::PI;

use crate::quantity::{Density, ElasticModulus, Formula, Length, SpindleSpeed};

/// Share of the critical speed up to which an unguided bar may turn.
pub const GUIDED_SHARE: f64 = 0.6;

/// How the ends of a length of bar are held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// Both ends on a bearing or bush that lets the bar bend.
    Pinned,
    /// One end clamped, one on a bush or centre.
    ClampedPinned,
    /// Both ends clamped.
    Clamped,
    /// One end clamped, one free.
    Cantilever,
}

impl Ends {
    /// Square of the first root of the bending beam.
    fn root_squared(self) -> f64 {
        match self {
            Self::Pinned => PI * PI,
            Self::ClampedPinned => 15.418_206,
            Self::Clamped => 22.373_285,
            Self::Cantilever => 3.516_015,
        }
    }
}

/// A solid round bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundBar {
    /// Diameter.
    pub diameter: Length,
    /// Modulus of elasticity.
    pub modulus: ElasticModulus,
    /// Density.
    pub density: Density,
}

impl RoundBar {
    /// Speed times length squared, in rpm m2.
    fn stiffness(&self, ends: Ends) -> f64 {
        let wave = (self.modulus.to_gpa() * 1e9 / (self.density.to_g_per_cm3() * 1e3)).sqrt();
        60.0 / (2.0 * PI) * ends.root_squared() * self.diameter.to_m() / 4.0 * wave
    }
}

/// Formula of [`critical_speed`].
pub const CRITICAL_SPEED: Formula = Formula {
    figure: "critical speed of the bar",
    text: "n_c = 60 / (2 * pi) * lambda^2 * d / 4 * sqrt(E / rho) / L^2",
    source: "derived",
};

/// Speed at which a bar whirls.
///
/// n_c = 60 / (2 * pi) * lambda^2 * d / 4 * sqrt(E / rho) / L^2, with lambda^2 = 9.870 pinned, 15.418 clamped and pinned,
/// 22.373 clamped, 3.516 cantilever
///
/// # Symbols
/// n_c critical speed, rpm. d diameter. E modulus of elasticity. rho density. L unguided length.
/// # Range
/// Slender solid round bar, straight, first bending mode.
/// # Source
/// \[derived\]: first mode of the bending beam. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{Ends, RoundBar, critical_speed};
/// use wearland::quantity::{Density, ElasticModulus, Length};
/// let bar = RoundBar {
///     diameter: Length::mm(20.0),
///     modulus: ElasticModulus::gpa(206.0),
///     density: Density::g_per_cm3(7.85),
/// };
/// assert!((critical_speed(&bar, Length::m(1.0), Ends::Pinned).to_rpm() - 2414.0).abs() < 0.1);
/// ```
#[must_use]
pub fn critical_speed(bar: &RoundBar, length: Length, ends: Ends) -> SpindleSpeed {
    SpindleSpeed::rpm(bar.stiffness(ends) / length.to_m().powi(2))
}

/// Formula of [`whirl_speed`].
pub const WHIRL_SPEED: Formula =
    Formula { figure: "fastest speed of the bar", text: "n = 0.6 * n_c", source: "memory" };

/// Fastest speed at which an unguided bar may turn.
///
/// n = 0.6 * n_c
///
/// # Symbols
/// n spindle speed. n_c critical speed.
/// # Range
/// A bar out of the spindle without a tube is a fatal hazard at any speed: this figure does not permit it.
/// # Source
/// \[memory\]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::whirl_speed;
/// use wearland::quantity::SpindleSpeed;
/// assert!((whirl_speed(SpindleSpeed::rpm(2414.0)).to_rpm() - 1448.4).abs() < 1e-6);
/// ```
#[must_use]
pub fn whirl_speed(critical: SpindleSpeed) -> SpindleSpeed {
    critical * GUIDED_SHARE
}

/// Formula of [`longest_bar`].
pub const BAR_LENGTH: Formula = Formula {
    figure: "longest unguided bar",
    text: "L = sqrt(0.6 * 60 / (2 * pi) * lambda^2 * d / 4 * sqrt(E / rho) / n)",
    source: "memory",
};

/// Longest unguided length of a bar at a speed.
///
/// L = sqrt(0.6 * 60 / (2 * pi) * lambda^2 * d / 4 * sqrt(E / rho) / n), the inverse of [`whirl_speed`]
///
/// # Symbols
/// As for the critical speed; n spindle speed, rpm.
/// # Range
/// As for the critical speed.
/// # Source
/// \[derived\], share 0.6 from \[memory\]. Worked examples: tests/published/limits.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{Ends, RoundBar, longest_bar};
/// use wearland::quantity::{Density, ElasticModulus, Length, SpindleSpeed};
/// let bar = RoundBar {
///     diameter: Length::mm(20.0),
///     modulus: ElasticModulus::gpa(206.0),
///     density: Density::g_per_cm3(7.85),
/// };
/// let length = longest_bar(&bar, SpindleSpeed::rpm(1448.4), Ends::Pinned);
/// assert!((length.to_mm() - 1000.0).abs() < 0.1);
/// ```
#[must_use]
pub fn longest_bar(bar: &RoundBar, speed: SpindleSpeed, ends: Ends) -> Length {
    Length::m((GUIDED_SHARE * bar.stiffness(ends) / speed.to_rpm()).sqrt())
}
