//! Broaching: time of a stroke, teeth, length, force.

use crate::quantity::{CuttingSpeed, Duration, FeedRate, Force, Formula, Length, SpecificForce};

use super::turning::{pass_count, travel_time};

/// Formula of [`broaching_time`].
pub const BROACHING_TIME: Formula =
    Formula { figure: "broaching time", text: "t = L / v_c + L / v_b", source: "sharma" };

/// Time of a stroke of the broach and of its way back.
///
/// t = L / v_c + L / v_b
///
/// # Symbols
/// t time. L stroke. v_c cutting speed. v_b speed back.
/// # Range
/// Speeds above zero; the ram is taken to reach its speed at once.
/// # Source
/// \[sharma\], example 4.16. Worked examples: tests/published/broaching.toml.
/// # Example
/// ```
/// use wearland::cutting::broaching::broaching_time;
/// use wearland::quantity::{CuttingSpeed, FeedRate, Length};
/// let time =
///     broaching_time(Length::m(0.7), CuttingSpeed::m_per_min(11.0), FeedRate::m_per_min(24.0));
/// assert!((time.to_min() - 0.0928).abs() < 1e-4);
/// ```
#[must_use]
pub fn broaching_time(stroke: Length, speed: CuttingSpeed, back: FeedRate) -> Duration {
    travel_time(stroke, FeedRate::m_per_min(speed.to_m_per_min())) + travel_time(stroke, back)
}

/// Formula of [`tooth_pitch`].
pub const TOOTH_PITCH: Formula =
    Formula { figure: "pitch of the teeth", text: "p = 1.75 * sqrt(l), in mm", source: "sharma" };

/// Pitch of the teeth of a broach for a length of cut.
///
/// p = 1.75 * sqrt(l), in mm
///
/// # Symbols
/// p pitch. l length of the work along the stroke.
/// # Range
/// A rule for the gullet of common steels; at least two teeth should be in the cut.
/// # Source
/// \[sharma\], example 15.3. Worked examples: tests/published/broaching.toml.
/// # Example
/// ```
/// use wearland::cutting::broaching::tooth_pitch;
/// use wearland::quantity::Length;
/// assert!((tooth_pitch(Length::mm(35.0)).to_mm() - 10.35).abs() < 0.01);
/// ```
#[must_use]
pub fn tooth_pitch(length_of_cut: Length) -> Length {
    Length::mm(1.75 * length_of_cut.to_mm().sqrt())
}

/// Formula of [`cutting_teeth`].
pub const CUTTING_TEETH: Formula =
    Formula { figure: "cutting teeth", text: "z = ceil(s / s_z)", source: "derived" };

/// Teeth that take off a stock, each its rise.
///
/// z = ceil(s / s_z)
///
/// # Symbols
/// z cutting teeth. s stock on one side. s_z rise of each tooth over the one before it.
/// # Range
/// s_z above zero. Finishing and sizing teeth come on top.
/// # Source
/// \[derived\]. Worked examples: tests/published/broaching.toml.
/// # Example
/// ```
/// use wearland::cutting::broaching::cutting_teeth;
/// use wearland::quantity::Length;
/// assert_eq!(cutting_teeth(Length::mm(0.6), Length::mm(0.02)), 30);
/// ```
#[must_use]
pub fn cutting_teeth(stock: Length, rise: Length) -> u32 {
    pass_count(stock, rise)
}

/// Formula of [`teeth_in_cut`].
pub const TEETH_IN_CUT: Formula =
    Formula { figure: "teeth in the cut", text: "z_e = ceil(l / p)", source: "derived" };

/// Most teeth in the work at once.
///
/// z_e = ceil(l / p)
///
/// # Symbols
/// z_e teeth. l length of the work along the stroke. p pitch of the teeth.
/// # Range
/// p above zero.
/// # Source
/// \[derived\]. Worked examples: tests/published/broaching.toml.
/// # Example
/// ```
/// use wearland::cutting::broaching::teeth_in_cut;
/// use wearland::quantity::Length;
/// assert_eq!(teeth_in_cut(Length::mm(35.0), Length::mm(10.35)), 4);
/// ```
#[must_use]
pub fn teeth_in_cut(length_of_cut: Length, pitch: Length) -> u32 {
    pass_count(length_of_cut, pitch)
}

/// Formula of [`broaching_force`].
pub const BROACHING_FORCE: Formula =
    Formula { figure: "broaching force", text: "F = k_c * b * s_z * z_e", source: "kienzle-1952" };

/// Force on a broach with the most teeth in the work.
///
/// F = k_c * b * s_z * z_e
///
/// # Symbols
/// F force. k_c specific cutting force at the chip thickness s_z. b width cut by one tooth, all keys or the whole
/// circumference. s_z rise of a tooth. z_e teeth in the cut.
/// # Range
/// Sharp teeth. k_c holds down to a chip of about 0.05 mm; a smaller rise takes more than this.
/// # Source
/// [kienzle-1952], the cutting force of an edge, times the edges. Worked examples: tests/published/broaching.toml.
/// # Example
/// ```
/// use wearland::cutting::broaching::broaching_force;
/// use wearland::quantity::{Length, SpecificForce};
/// let force = broaching_force(SpecificForce::n_per_mm2(4000.0), Length::mm(8.0), Length::mm(0.05), 4);
/// assert!((force.to_n() - 6400.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn broaching_force(specific_force: SpecificForce, width: Length, rise: Length, teeth: u32) -> Force {
    Force::n(specific_force.to_n_per_mm2() * width.to_mm() * rise.to_mm() * f64::from(teeth))
}
