//! Grooves and forms: plunges, time, volume.

use std::f64::consts::PI;

use crate::quantity::{Duration, Formula, Length, Volume};

use super::{FacingCut, dwell_time, facing_time, pass_count, spindle_speed};

/// Formula of [`plunge_count`].
pub const PLUNGE_COUNT: Formula = Formula {
    figure: "plunges",
    text: "i = ceil((B - w) / (0.8 * w)) + 1, one if the blade is as wide as the groove",
    source: "common-practice",
};

/// Plunges of a blade into a groove wider than itself, overlapping by a fifth of its width.
///
/// i = ceil((B - w) / (0.8 w)) + 1, one if the blade is as wide as the groove
///
/// # Symbols
/// i plunges. B width of the groove. w width of the blade.
/// # Range
/// Positive widths.
/// # Source
/// [common-practice]
/// # Example
/// ```
/// use wearland::cutting::turning::plunge_count;
/// use wearland::quantity::Length;
/// assert_eq!(plunge_count(Length::mm(8.0), Length::mm(3.0)), 4);
/// assert_eq!(plunge_count(Length::mm(3.0), Length::mm(3.0)), 1);
/// ```
#[must_use]
pub fn plunge_count(groove: Length, blade: Length) -> u32 {
    let wider = groove - blade;
    if wider <= Length::ZERO { 1 } else { pass_count(wider, blade * 0.8) + 1 }
}

/// Formula of [`ring_volume`].
pub const RING_VOLUME: Formula =
    Formula { figure: "volume removed", text: "V = pi / 4 * (D^2 - d^2) * B", source: "derived" };

/// Volume of a ring: of a groove, a face or a straight pass.
///
/// V = pi / 4 * (D^2 - d^2) * B
///
/// # Symbols
/// V volume. D, d outer and inner diameter. B width along the axis.
/// # Range
/// D at least d.
/// # Source
/// \[derived\]: cylinder less cylinder. Worked examples: tests/published/turning.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::ring_volume;
/// use wearland::quantity::Length;
/// let volume = ring_volume(Length::mm(50.0), Length::mm(40.0), Length::mm(8.0));
/// assert!((volume.to_cm3() - 5.654_867).abs() < 1e-6);
/// ```
#[must_use]
pub fn ring_volume(outer: Length, inner: Length, width: Length) -> Volume {
    let square = outer.to_mm().powi(2) - inner.to_mm().powi(2);
    Volume::cm3(PI / 4.0 * square * width.to_mm() / 1000.0)
}

/// A form tool fed straight in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FormCut {
    /// From the diameter where the tool first touches to its end.
    pub face: FacingCut,
    /// Turns of the spindle that it stays at the end.
    pub dwell: f64,
}

/// Formula of [`form_time`].
pub const FORM_TIME: Formula = Formula {
    figure: "form plunge time",
    text: "t = t_face(R_o to R_i) + N / min(n_max, v_c / (2 * pi * R_i))",
    source: "derived",
};

/// Plunge time of a form tool or grooving blade at constant cutting speed, its dwell included.
///
/// t = t_face(R_o to R_i) + N / min(n_max, v_c / (2 * pi * R_i)), with t_face as for facing
///
/// # Symbols
/// t time. R_o, R_i radius at the start and at the end. N turns of dwell. n_max greatest spindle speed. v_c cutting
/// speed.
/// # Range
/// As for facing. The chip is as wide as the contact of the tool and as thick as the feed.
/// # Source
/// \[derived\]: the facing integral and a dwell. Worked examples: tests/published/facing.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::{FacingCut, FormCut, form_time};
/// use wearland::quantity::{CuttingSpeed, FeedPerRev, Length, SpindleSpeed};
/// let face = FacingCut {
///     outer: Length::mm(61.0),
///     inner: Length::mm(50.0),
///     speed: CuttingSpeed::m_per_min(150.0),
///     feed: FeedPerRev::mm_per_rev(0.08),
///     fastest: SpindleSpeed::rpm(1e6),
/// };
/// // 4.7949 s of cut, then two turns at 954.93 rpm.
/// assert!((form_time(FormCut { face, dwell: 2.0 }).to_s() - (4.7949 + 0.12566)).abs() < 1e-4);
/// ```
#[must_use]
pub fn form_time(cut: FormCut) -> Duration {
    let speed = spindle_speed(cut.face.speed, cut.face.inner).smaller(cut.face.fastest);
    facing_time(cut.face) + dwell_time(cut.dwell, speed)
}
