//! Pitch, depth and diameters of 60 degree threads, metric and unified.

use crate::quantity::{Formula, Length};

/// Height of the sharp 60 degree triangle for each unit of pitch, sqrt(3) / 2.
pub(super) const TRIANGLE: f64 = 0.866_025_403_784_438_6;

/// Formula of [`thread_depth_external`].
pub const THREAD_DEPTH_EXTERNAL: Formula =
    Formula { figure: "depth of external thread", text: "h_3 = 17/24 * sqrt(3)/2 * P", source: "iso-68-1" };

/// Depth of an external 60 degree thread with a rounded root, metric or unified.
///
/// h_3 = 17/24 * H = 0.613435 * P, with H = sqrt(3)/2 * P
///
/// # Symbols
/// h_3 depth on the radius. H height of the sharp triangle. P pitch; for threads per inch N, 1 in / N.
/// # Range
/// Basic profile, no allowance. A partial-profile insert with a smaller corner goes deeper.
/// # Source
/// [iso-68-1]. Worked examples: tests/published/threading.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_depth_external;
/// use wearland::quantity::Length;
/// assert!((thread_depth_external(Length::mm(1.5)).to_mm() - 0.9202).abs() < 1e-4);
/// ```
#[must_use]
pub fn thread_depth_external(pitch: Length) -> Length {
    pitch * (17.0 / 24.0 * TRIANGLE)
}

/// Formula of [`thread_depth_internal`].
pub const THREAD_DEPTH_INTERNAL: Formula =
    Formula { figure: "depth of internal thread", text: "H_1 = 5/8 * sqrt(3)/2 * P", source: "iso-68-1" };

/// Depth of an internal 60 degree thread, metric or unified.
///
/// H_1 = 5/8 * H = 0.541266 * P, with H = sqrt(3)/2 * P
///
/// # Symbols
/// H_1 depth on the radius. H height of the sharp triangle. P pitch; for threads per inch N, 1 in / N.
/// # Range
/// Basic profile, no allowance.
/// # Source
/// [iso-68-1]. Worked examples: tests/published/threading.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_depth_internal;
/// use wearland::quantity::Length;
/// assert!((thread_depth_internal(Length::inch(1.0 / 13.0)).to_inch() - 0.041636).abs() < 1e-6);
/// ```
#[must_use]
pub fn thread_depth_internal(pitch: Length) -> Length {
    pitch * (5.0 / 8.0 * TRIANGLE)
}

/// Formula of [`pitch_of_threads`].
pub const PITCH_OF_THREADS: Formula =
    Formula { figure: "pitch", text: "P = 1 in / N", source: "common-practice" };

/// Pitch of a number of threads per inch.
///
/// P = 1 in / N
///
/// # Symbols
/// P pitch. N threads per inch.
/// # Range
/// N above zero.
/// # Source
/// [common-practice]. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::pitch_of_threads;
/// assert!((pitch_of_threads(20.0).to_mm() - 1.27).abs() < 1e-12);
/// ```
#[must_use]
pub fn pitch_of_threads(per_inch: f64) -> Length {
    Length::inch(1.0 / per_inch)
}

/// Formula of [`thread_pitch_diameter`].
pub const THREAD_PITCH_DIAMETER: Formula =
    Formula { figure: "pitch diameter", text: "d_2 = d - 3/4 * sqrt(3)/2 * P", source: "iso-68-1" };

/// Pitch diameter of a 60 degree thread, metric or unified.
///
/// d_2 = d - 3/4 * H = d - 0.649519 * P, with H = sqrt(3)/2 * P
///
/// # Symbols
/// d_2 pitch diameter. d major diameter. H height of the sharp triangle. P pitch.
/// # Range
/// Basic profile, no allowance.
/// # Source
/// [iso-68-1]. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_pitch_diameter;
/// use wearland::quantity::Length;
/// assert!((thread_pitch_diameter(Length::mm(10.0), Length::mm(1.5)).to_mm() - 9.026).abs() < 5e-4);
/// ```
#[must_use]
pub fn thread_pitch_diameter(diameter: Length, pitch: Length) -> Length {
    diameter - pitch * (3.0 / 4.0 * TRIANGLE)
}

/// Formula of [`internal_minor_diameter`].
pub const INTERNAL_MINOR_DIAMETER: Formula = Formula {
    figure: "minor diameter of internal thread",
    text: "D_1 = d - 5/4 * sqrt(3)/2 * P",
    source: "iso-68-1",
};

/// Minor diameter of an internal 60 degree thread: the bore before it is threaded.
///
/// D_1 = d - 5/4 * H = d - 1.082532 * P, with H = sqrt(3)/2 * P
///
/// # Symbols
/// D_1 minor diameter. d major diameter. H height of the sharp triangle. P pitch.
/// # Range
/// Basic profile, no allowance.
/// # Source
/// [iso-68-1]. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::internal_minor_diameter;
/// use wearland::quantity::Length;
/// assert!((internal_minor_diameter(Length::mm(10.0), Length::mm(1.5)).to_mm() - 8.376).abs() < 5e-4);
/// ```
#[must_use]
pub fn internal_minor_diameter(diameter: Length, pitch: Length) -> Length {
    diameter - thread_depth_internal(pitch) * 2.0
}

/// Formula of [`thread_root_diameter`].
pub const THREAD_ROOT_DIAMETER: Formula = Formula {
    figure: "root diameter of external thread",
    text: "d_3 = d - 17/12 * sqrt(3)/2 * P",
    source: "iso-68-1",
};

/// Root diameter of an external 60 degree thread with a rounded root: what the last pass leaves.
///
/// d_3 = d - 17/12 * H = d - 1.226869 * P, with H = sqrt(3)/2 * P
///
/// # Symbols
/// d_3 root diameter. d major diameter. H height of the sharp triangle. P pitch.
/// # Range
/// Basic profile, no allowance.
/// # Source
/// [iso-68-1]. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_root_diameter;
/// use wearland::quantity::Length;
/// assert!((thread_root_diameter(Length::mm(10.0), Length::mm(1.5)).to_mm() - 8.160).abs() < 5e-4);
/// ```
#[must_use]
pub fn thread_root_diameter(diameter: Length, pitch: Length) -> Length {
    diameter - thread_depth_external(pitch) * 2.0
}
