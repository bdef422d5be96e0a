//! Metal cut out of the groove of a thread.

use std::f64::consts::PI;

use crate::quantity::{Formula, Length, Volume};

use super::depth::TRIANGLE;
use super::internal_minor_diameter;

/// Formula of [`external_thread_volume`].
pub const EXTERNAL_THREAD_VOLUME: Formula = Formula {
    figure: "volume of the thread groove",
    text: "V = L / P * 2 * pi * (d / 2 * A - M), groove of the ISO 68-1 profile with root radius H / 6",
    source: "derived",
};

/// Volume of the groove of an external 60 degree thread with a rounded root.
///
/// V = L / P * 2 pi * (d / 2 * A - M), with A = 49/128 P H - (sqrt(3) - pi / 3) r^2 and r = H / 6
///
/// # Symbols
/// V volume. L threaded length. P pitch. d major diameter. A section of the groove. M its moment about the major
/// diameter. H height of the sharp triangle. r root radius.
/// # Range
/// Basic profile; run-out and chamfer are left out.
/// # Source
/// \[derived\]: the section turned about the axis, the lead making no difference. Worked examples:
/// tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::external_thread_volume;
/// use wearland::quantity::Length;
/// let volume = external_thread_volume(Length::mm(10.0), Length::mm(1.5), Length::mm(20.0));
/// assert!((volume.to_cm3() - 0.277_960).abs() < 1e-6);
/// ```
#[must_use]
pub fn external_thread_volume(diameter: Length, pitch: Length, length: Length) -> Volume {
    let (pitch, height) = (pitch.to_mm(), pitch.to_mm() * TRIANGLE);
    let depth = 7.0 / 8.0 * height;
    let whole = 7.0 / 8.0 * pitch * depth / 2.0;
    // The part of the sharp tip that the round root leaves standing, and its moment about the apex.
    let radius = height / 6.0;
    let tip = (3.0_f64.sqrt() - PI / 3.0) * radius.powi(2);
    let tip_moment = (1.5 * 3.0_f64.sqrt() - 2.0 * PI / 3.0) * radius.powi(3);
    let moment = whole * depth / 3.0 - (tip * depth - tip_moment);
    let turns = length.to_mm() / pitch;
    Volume::cm3(turns * 2.0 * PI * (diameter.to_mm() / 2.0 * (whole - tip) - moment) / 1000.0)
}

/// Formula of [`internal_thread_volume`].
pub const INTERNAL_THREAD_VOLUME: Formula = Formula {
    figure: "volume of the thread groove",
    text: "V = L / P * 2 * pi * 35/128 * P * H * (D_1 / 2 + 5/21 * H)",
    source: "derived",
};

/// Volume of the groove of an internal 60 degree thread, cut into a bore of its minor diameter.
///
/// V = L / P * 2 pi * A * (D_1 / 2 + 5/21 H), with A = 35/128 P H
///
/// # Symbols
/// V volume. L threaded length. P pitch. A section of the groove. D_1 minor diameter. H height of the sharp triangle.
/// # Range
/// Basic profile with a flat of P / 8 at the major diameter; run-out and chamfer are left out.
/// # Source
/// \[derived\]: the section turned about the axis, the lead making no difference. Worked examples:
/// tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::internal_thread_volume;
/// use wearland::quantity::Length;
/// let volume = internal_thread_volume(Length::mm(10.0), Length::mm(1.5), Length::mm(20.0));
/// assert!((volume.to_cm3() - 0.200_748).abs() < 1e-6);
/// ```
#[must_use]
pub fn internal_thread_volume(diameter: Length, pitch: Length, length: Length) -> Volume {
    let minor = internal_minor_diameter(diameter, pitch).to_mm();
    let (pitch, height) = (pitch.to_mm(), pitch.to_mm() * TRIANGLE);
    let section = 35.0 / 128.0 * pitch * height;
    let turns = length.to_mm() / pitch;
    Volume::cm3(turns * 2.0 * PI * section * (minor / 2.0 + 5.0 / 21.0 * height) / 1000.0)
}
