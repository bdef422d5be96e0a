//! Allowance and tolerances of external metric threads, tolerance class 6g.

use crate::quantity::{Formula, Length};

/// Formula of [`thread_allowance`].
pub const THREAD_ALLOWANCE: Formula =
    Formula { figure: "allowance of position g", text: "es = 15 + 11 * P", source: "iso-965-1" };

/// How far a thread of position g lies below its basic size.
///
/// es = 15 + 11 P, in um with P in mm
///
/// # Symbols
/// es allowance on the diameter. P pitch.
/// # Range
/// P 0.5 mm to 8 mm; the tables of the standard round it.
/// # Source
/// [iso-965-1]. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_allowance;
/// use wearland::quantity::Length;
/// assert!((thread_allowance(Length::mm(1.5)).to_mm() - 0.0315).abs() < 1e-12);
/// ```
#[must_use]
pub fn thread_allowance(pitch: Length) -> Length {
    Length::mm((15.0 + 11.0 * pitch.to_mm()) / 1000.0)
}

/// Formula of [`major_tolerance`].
pub const MAJOR_TOLERANCE: Formula = Formula {
    figure: "tolerance of the major diameter, grade 6",
    text: "T_d = 180 * P^(2/3) - 3.15 / sqrt(P)",
    source: "iso-965-1",
};

/// Tolerance of the major diameter of an external thread, grade 6.
///
/// T_d = 180 P^(2/3) - 3.15 / sqrt(P), in um with P in mm
///
/// # Symbols
/// T_d tolerance. P pitch.
/// # Range
/// P 0.5 mm to 8 mm; the tables of the standard round it to a series of preferred numbers.
/// # Source
/// [iso-965-1]. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::major_tolerance;
/// use wearland::quantity::Length;
/// assert!((major_tolerance(Length::mm(1.5)).to_mm() - 0.2333).abs() < 1e-4);
/// ```
#[must_use]
pub fn major_tolerance(pitch: Length) -> Length {
    let pitch = pitch.to_mm();
    Length::mm((180.0 * pitch.powf(2.0 / 3.0) - 3.15 / pitch.sqrt()) / 1000.0)
}

/// Formula of [`pitch_diameter_tolerance`].
pub const PITCH_DIAMETER_TOLERANCE: Formula = Formula {
    figure: "tolerance of the pitch diameter, grade 6",
    text: "T_d2 = 90 * P^0.4 * d^0.1",
    source: "iso-965-1",
};

/// Tolerance of the pitch diameter of an external thread, grade 6.
///
/// T_d2 = 90 P^0.4 d^0.1, in um with P and d in mm
///
/// # Symbols
/// T_d2 tolerance. P pitch. d geometric mean of the step of diameters the thread lies in.
/// # Range
/// P 0.5 mm to 8 mm; the tables of the standard round it to a series of preferred numbers.
/// # Source
/// [iso-965-1]. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::pitch_diameter_tolerance;
/// use wearland::quantity::Length;
/// // M10 lies in the step from 5.6 mm to 11.2 mm.
/// let mean = Length::mm((5.6_f64 * 11.2).sqrt());
/// assert!((pitch_diameter_tolerance(Length::mm(1.5), mean).to_mm() - 0.1302).abs() < 1e-4);
/// ```
#[must_use]
pub fn pitch_diameter_tolerance(pitch: Length, step_mean: Length) -> Length {
    Length::mm(90.0 * pitch.to_mm().powf(0.4) * step_mean.to_mm().powf(0.1) / 1000.0)
}
