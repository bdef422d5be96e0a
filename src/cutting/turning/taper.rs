//! Cones: angle, path, time along them, volume.

use std::f64::consts::PI;

use crate::quantity::{Angle, CuttingSpeed, Duration, FeedPerRev, Formula, Length, SpindleSpeed, Volume};

/// Formula of [`taper_half_angle`].
pub const TAPER_HALF_ANGLE: Formula =
    Formula { figure: "half angle of the taper", text: "a = atan((D - d) / (2 * L))", source: "derived" };

/// Angle between the axis and the side of a cone: the angle the slide is set to.
///
/// a = atan((D - d) / (2 L))
///
/// # Symbols
/// a half angle. D, d diameters at both ends. L length along the axis; a taper 1:k has D - d = 1, L = k.
/// # Range
/// L zero gives a face, 90 degrees. Negative if the second diameter is the larger.
/// # Source
/// \[derived\]: right triangle. Worked examples: tests/published/taper.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::taper_half_angle;
/// use wearland::quantity::Length;
/// let angle = taper_half_angle(Length::mm(80.0), Length::mm(50.0), Length::mm(80.0));
/// assert!((angle.to_deg() - 10.6197).abs() < 1e-4);
/// ```
#[must_use]
pub fn taper_half_angle(from: Length, to: Length, length: Length) -> Angle {
    Angle::rad((from - to).to_mm().atan2(2.0 * length.to_mm()))
}

/// Formula of [`cone_path`].
pub const CONE_PATH: Formula =
    Formula { figure: "path along the cone", text: "s = sqrt(L^2 + ((D - d) / 2)^2)", source: "derived" };

/// Path along the side of a cone.
///
/// s = sqrt(L^2 + ((D - d) / 2)^2)
///
/// # Symbols
/// s path. L length along the axis. D, d diameters at both ends.
/// # Range
/// Any; a cylinder gives L, a face half the difference of the diameters.
/// # Source
/// \[derived\]: right triangle. Worked examples: tests/published/taper.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::cone_path;
/// use wearland::quantity::Length;
/// let path = cone_path(Length::mm(60.0), Length::mm(40.0), Length::mm(100.0));
/// assert!((path.to_mm() - 100.49876).abs() < 1e-5);
/// ```
#[must_use]
pub fn cone_path(from: Length, to: Length, length: Length) -> Length {
    Length::mm(length.to_mm().hypot((from - to).to_mm() / 2.0))
}

/// A straight side turned at constant cutting speed: cylinder, cone or face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TaperCut {
    /// Diameter at the start.
    pub from: Length,
    /// Diameter at the end.
    pub to: Length,
    /// Length along the axis.
    pub length: Length,
    /// Cutting speed held while the spindle can follow.
    pub speed: CuttingSpeed,
    /// Feed per revolution, along the side.
    pub feed: FeedPerRev,
    /// Greatest spindle speed.
    pub fastest: SpindleSpeed,
}

/// Formula of [`taper_time`].
pub const TAPER_TIME: Formula = Formula {
    figure: "time along the cone",
    text: "t = s / f * (w * pi * (D + D_s) / (2 * v_c) + (1 - w) / n_max), D_c = v_c / (pi * n_max), D_s = max(d, D_c), w = (D - D_s) / (D - d) within 0 and 1",
    source: "derived",
};

/// Time along a straight side at constant cutting speed, the spindle held at its limit below a diameter.
///
/// t = s / f * (w * pi * (D + D_s) / (2 * v_c) + (1 - w) / n_max), with D_c = v_c / (pi * n_max), D_s = max(d, D_c)
/// and w = (D - D_s) / (D - d) held within 0 and 1
///
/// # Symbols
/// t time. s path along the side. f feed per revolution. w share of the path on which the spindle follows. D, d larger
/// and smaller diameter. D_c diameter at which the spindle reaches its limit. v_c cutting speed. n_max greatest
/// spindle speed.
/// # Range
/// f, v_c and n_max above zero. Equal diameters give straight turning, no length gives facing: one form for all.
/// # Source
/// \[derived\]: dt = ds / (f * n(d)) with d linear in s. Worked examples: tests/published/taper.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::{TaperCut, taper_time};
/// use wearland::quantity::{CuttingSpeed, FeedPerRev, Length, SpindleSpeed};
/// let time = taper_time(TaperCut {
///     from: Length::mm(60.0),
///     to: Length::mm(40.0),
///     length: Length::mm(100.0),
///     speed: CuttingSpeed::m_per_min(180.0),
///     feed: FeedPerRev::mm_per_rev(0.25),
///     fastest: SpindleSpeed::rpm(1200.0),
/// });
/// assert!((time.to_min() - 0.361332).abs() < 1e-6);
/// ```
#[must_use]
pub fn taper_time(cut: TaperCut) -> Duration {
    let (large, small) = (cut.from.larger(cut.to).to_mm(), cut.from.smaller(cut.to).to_mm());
    let (speed, fastest) = (cut.speed.to_m_per_min() * 1000.0, cut.fastest.to_rpm());
    let limit = speed / (PI * fastest);
    let turn = small.max(limit).min(large);
    let following = if large > small {
        (large - turn) / (large - small)
    } else if large > limit {
        1.0
    } else {
        0.0
    };
    let turns = cone_path(cut.from, cut.to, cut.length).to_mm() / cut.feed.to_mm_per_rev();
    Duration::min(turns * (following * PI * (large + turn) / (2.0 * speed) + (1.0 - following) / fastest))
}

/// Formula of [`tailstock_offset`].
pub const TAILSTOCK_OFFSET: Formula =
    Formula { figure: "offset of the tailstock", text: "S = L_w * (D - d) / (2 * L)", source: "derived" };

/// How far the tailstock is set over to turn a taper between centres.
///
/// S = L_w * (D - d) / (2 L)
///
/// # Symbols
/// S offset. L_w whole length between centres. D, d diameters at both ends of the taper. L length of the taper.
/// # Range
/// Slim tapers: the tilt of the centres and the shortening of the work are left out.
/// # Source
/// \[derived\]: similar triangles. Worked examples: tests/published/taper.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::tailstock_offset;
/// use wearland::quantity::Length;
/// let (from, to) = (Length::mm(60.0), Length::mm(40.0));
/// let offset = tailstock_offset(from, to, Length::mm(100.0), Length::mm(250.0));
/// assert!((offset.to_mm() - 25.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn tailstock_offset(from: Length, to: Length, length: Length, between_centres: Length) -> Length {
    between_centres * ((from - to) / (length * 2.0))
}

/// Formula of [`frustum_volume`].
pub const FRUSTUM_VOLUME: Formula =
    Formula { figure: "volume of a cone", text: "V = pi / 12 * L * (D^2 + D * d + d^2)", source: "derived" };

/// Volume of a truncated cone.
///
/// V = pi / 12 * L * (D^2 + D d + d^2)
///
/// # Symbols
/// V volume. L length along the axis. D, d diameters at both ends.
/// # Range
/// Any; equal diameters give a cylinder, one of them zero a whole cone.
/// # Source
/// \[derived\]: pi / 4 * d^2 integrated over the length. Worked examples: tests/published/taper.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::frustum_volume;
/// use wearland::quantity::Length;
/// let volume = frustum_volume(Length::mm(60.0), Length::mm(40.0), Length::mm(100.0));
/// assert!((volume.to_cm3() - 198.967_535).abs() < 1e-6);
/// ```
#[must_use]
pub fn frustum_volume(from: Length, to: Length, length: Length) -> Volume {
    let (from, to) = (from.to_mm(), to.to_mm());
    Volume::cm3(PI / 12.0 * length.to_mm() * (from * from + from * to + to * to) / 1000.0)
}
