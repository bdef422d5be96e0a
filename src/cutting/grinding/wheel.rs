//! What a wheel grinds for each millimetre of its width: in a second, in a piece, between two dressings.

use std::f64::consts::PI;

use crate::quantity::{
    CuttingSpeed, FeedPerRev, FeedRate, Formula, Length, RemovalRate, SpecificRemovalRate, SpecificVolume,
};

/// Formula of [`plunge_removal_rate`].
pub const PLUNGE_REMOVAL_RATE: Formula =
    Formula { figure: "specific removal rate", text: "Q'_w = pi * d_w * v_fr", source: "iso-3002" };

/// Metal ground in a time by each millimetre of a wheel that plunges.
///
/// Q'_w = pi * d_w * v_fr
///
/// # Symbols
/// Q'_w specific removal rate. d_w diameter of the work. v_fr infeed rate, on the radius.
/// # Range
/// d_w before the cut: d_w - s would be the mean. Usual, from memory: 1 to 4 mm3/(s mm) roughing with conventional wheels, 0.1 to
/// 0.5 finishing, 5 to 25 with boron nitride.
/// # Source
/// [iso-3002]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::plunge_removal_rate;
/// use wearland::quantity::{FeedRate, Length};
/// let rate = plunge_removal_rate(Length::mm(60.0), FeedRate::mm_per_min(1.2));
/// assert!((rate.to_mm3_per_s_mm() - 3.76991).abs() < 1e-5);
/// ```
#[must_use]
pub fn plunge_removal_rate(work: Length, infeed: FeedRate) -> SpecificRemovalRate {
    SpecificRemovalRate::mm3_per_s_mm(PI * work.to_mm() * infeed.to_mm_per_min() / 60.0)
}

/// Formula of [`traverse_removal_rate`].
pub const TRAVERSE_REMOVAL_RATE: Formula =
    Formula { figure: "removal rate", text: "Q_w = a_e * f_a * v_w", source: "iso-3002" };

/// Metal ground in a time by a wheel that moves along the work.
///
/// Q_w = a_e * f_a * v_w
///
/// # Symbols
/// Q_w removal rate. a_e infeed of a stroke. f_a traverse for each turn of the work. v_w work speed.
/// # Range
/// f_a up to the width of the wheel.
/// # Source
/// [iso-3002]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::traverse_removal_rate;
/// use wearland::quantity::{CuttingSpeed, FeedPerRev, Length};
/// let speed = CuttingSpeed::m_per_min(15.0);
/// let rate = traverse_removal_rate(Length::mm(0.025), FeedPerRev::mm_per_rev(25.0), speed);
/// assert!((rate.to_cm3_per_min() - 9.375).abs() < 1e-9);
/// ```
#[must_use]
pub fn traverse_removal_rate(infeed: Length, traverse: FeedPerRev, work_speed: CuttingSpeed) -> RemovalRate {
    RemovalRate::cm3_per_min(infeed.to_mm() * traverse.to_mm_per_rev() * work_speed.to_m_per_min())
}

/// Formula of [`specific_volume`].
pub const SPECIFIC_VOLUME: Formula =
    Formula { figure: "specific volume", text: "V'_w = pi * d_w * s", source: "iso-3002" };

/// Metal ground from a piece by each millimetre of a wheel that plunges.
///
/// V'_w = pi * d_w * s
///
/// # Symbols
/// V'_w specific volume. d_w diameter of the work. s stock on the radius.
/// # Range
/// s small against d_w: with d_w before the cut it is high by s / d_w.
/// # Source
/// [iso-3002]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::specific_volume;
/// use wearland::quantity::Length;
/// let volume = specific_volume(Length::mm(60.0), Length::mm(0.2));
/// assert!((volume.to_mm3_per_mm() - 37.699).abs() < 1e-3);
/// ```
#[must_use]
pub fn specific_volume(work: Length, stock: Length) -> SpecificVolume {
    SpecificVolume::mm3_per_mm(PI * work.to_mm() * stock.to_mm())
}

/// Formula of [`traverse_specific_volume`].
pub const TRAVERSE_SPECIFIC_VOLUME: Formula =
    Formula { figure: "specific volume", text: "V'_w = pi * d_w * s * l / b", source: "derived" };

/// Metal ground from a piece by each millimetre of a wheel that moves along the work.
///
/// V'_w = pi * d_w * s * l / b
///
/// # Symbols
/// V'_w specific volume, the mean over the wheel. d_w diameter of the work. s stock on the radius. l length ground. b width of
/// the wheel.
/// # Range
/// s small against d_w. The leading edge of the wheel wears more than the mean.
/// # Source
/// \[derived\]: the same metal shared by the whole wheel. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::traverse_specific_volume;
/// use wearland::quantity::Length;
/// let (work, stock) = (Length::mm(60.0), Length::mm(0.2));
/// let volume = traverse_specific_volume(work, stock, Length::mm(250.0), Length::mm(50.0));
/// assert!((volume.to_mm3_per_mm() - 188.496).abs() < 1e-3);
/// ```
#[must_use]
pub fn traverse_specific_volume(
    work: Length,
    stock: Length,
    length: Length,
    wheel: Length,
) -> SpecificVolume {
    specific_volume(work, stock) * (length / wheel)
}

/// Whole pieces from one dressing of the wheel to the next.
#[must_use]
pub fn pieces_per_dressing(between_dressings: SpecificVolume, piece: SpecificVolume) -> f64 {
    (between_dressings / piece * (1.0 + 1e-9)).floor()
}

/// Formula of [`equivalent_chip_thickness`].
pub const EQUIVALENT_CHIP_THICKNESS: Formula =
    Formula { figure: "equivalent chip thickness", text: "h_eq = Q'_w / v_s", source: "iso-3002" };

/// Thickness of the layer of metal that leaves past the wheel.
///
/// h_eq = Q'_w / v_s
///
/// # Symbols
/// h_eq equivalent chip thickness. Q'_w specific removal rate. v_s wheel speed.
/// # Range
/// Any.
/// # Source
/// [iso-3002]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::equivalent_chip_thickness;
/// use wearland::quantity::{CuttingSpeed, SpecificRemovalRate};
/// let rate = SpecificRemovalRate::mm3_per_s_mm(3.0);
/// let chip = equivalent_chip_thickness(rate, CuttingSpeed::m_per_min(1800.0));
/// assert!((chip.to_mm() - 0.0001).abs() < 1e-12);
/// ```
#[must_use]
pub fn equivalent_chip_thickness(rate: SpecificRemovalRate, wheel_speed: CuttingSpeed) -> Length {
    Length::mm(rate.to_mm3_per_s_mm() / (wheel_speed.to_m_per_min() * 1000.0 / 60.0))
}
