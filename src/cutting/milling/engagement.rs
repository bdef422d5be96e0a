//! Angle through which a tooth cuts.

use crate::quantity::{Angle, Formula, Length};

/// Formula of [`engagement_angle_side`].
pub const ENGAGEMENT_ANGLE_SIDE: Formula =
    Formula { figure: "engagement angle", text: "phi_s = acos(1 - 2 * a_e / D)", source: "derived" };

/// Angle through which a tooth cuts when the cutter works at one edge of the work.
///
/// phi_s = acos(1 - 2 * a_e / D)
///
/// # Symbols
/// phi_s engagement angle. a_e engagement. D diameter.
/// # Range
/// a_e from 0 to D.
/// # Source
/// \[derived\]: chord geometry. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::engagement_angle_side;
/// use wearland::quantity::Length;
/// let angle = engagement_angle_side(Length::mm(16.0), Length::mm(4.0));
/// assert!((angle.to_deg() - 60.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn engagement_angle_side(diameter: Length, engagement: Length) -> Angle {
    Angle::rad((1.0 - 2.0 * (engagement / diameter)).clamp(-1.0, 1.0).acos())
}

/// Formula of [`engagement_angle_centred`].
pub const ENGAGEMENT_ANGLE_CENTRED: Formula =
    Formula { figure: "engagement angle", text: "phi_s = 2 * asin(a_e / D)", source: "derived" };

/// Angle through which a tooth cuts when the cutter is centred on the work.
///
/// phi_s = 2 * asin(a_e / D)
///
/// # Symbols
/// phi_s engagement angle. a_e width of the work. D diameter.
/// # Range
/// a_e from 0 to D.
/// # Source
/// \[derived\]: chord geometry. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::engagement_angle_centred;
/// use wearland::quantity::Length;
/// let angle = engagement_angle_centred(Length::mm(100.0), Length::mm(50.0));
/// assert!((angle.to_deg() - 60.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn engagement_angle_centred(diameter: Length, width: Length) -> Angle {
    Angle::rad(2.0 * (width / diameter).clamp(0.0, 1.0).asin())
}

/// Where a tooth enters the work and leaves it. At 0 degrees it moves straight into the feed's side of the work with no
/// chip, at 90 degrees it moves across the feed at the front of the cutter, where the chip is thickest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Engagement {
    /// Angle at which a tooth enters.
    pub entry: Angle,
    /// Angle at which it leaves.
    pub exit: Angle,
}

impl Engagement {
    /// The cutter at one edge of the work, engaged by less than its diameter.
    #[must_use]
    pub fn side(diameter: Length, engagement: Length) -> Self {
        let width = engagement.smaller(diameter);
        Self::of(diameter, width, (width - diameter) / 2.0)
    }

    /// A cutter whose axis runs at a distance from the middle of the work, to either side.
    ///
    /// cos(phi) = -y / (D / 2) at the two edges y = e - w / 2 and y = e + w / 2 of the work; edges beyond the cutter count as
    /// its own.
    #[must_use]
    pub fn of(diameter: Length, width: Length, offset: Length) -> Self {
        let at = |edge: Length| Angle::rad((-(edge / (diameter / 2.0))).clamp(-1.0, 1.0).acos());
        Self { entry: at(offset - width / 2.0), exit: at(offset + width / 2.0) }
    }
}

/// Formula of [`swept_angle`].
pub const SWEPT_ANGLE: Formula = Formula {
    figure: "engagement angle",
    text: "phi_s = acos(-(2 * e + w) / D) - acos(-(2 * e - w) / D)",
    source: "derived",
};

/// Angle through which a tooth cuts, at any position of the cutter.
///
/// phi_s = phi_out - phi_in = acos(-(2 * e + w) / D) - acos(-(2 * e - w) / D)
///
/// # Symbols
/// phi_s engagement angle. phi_in entry, phi_out exit. e offset of the cutter's axis from the middle of the work.
/// w width of the work. D diameter.
/// # Range
/// Any offset; edges of the work beyond the cutter count as the cutter's own. Side milling is e = (a_e - D) / 2, w = a_e.
/// # Source
/// \[derived\]: chord geometry. Worked examples: tests/published/milling-cut.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{Engagement, swept_angle};
/// use wearland::quantity::Length;
/// let centred = Engagement::of(Length::mm(125.0), Length::mm(90.0), Length::ZERO);
/// assert!((swept_angle(centred).to_deg() - 92.109).abs() < 1e-3);
/// ```
#[must_use]
pub fn swept_angle(engagement: Engagement) -> Angle {
    engagement.exit - engagement.entry
}

/// Formula of [`teeth_engaged`].
pub const TEETH_ENGAGED: Formula = Formula {
    figure: "teeth in the cut",
    text: "z_e = z * phi_s / 360 deg",
    source: "dietrich-tschaetsch-2014",
};

/// Teeth in the cut at once, on the mean of a turn.
///
/// z_e = z * phi_s / 360 deg
///
/// # Symbols
/// z_e teeth in the cut. z teeth of the cutter. phi_s engagement angle.
/// # Range
/// Teeth evenly spaced. Below one the cutter cuts with a tooth only part of the time.
/// # Source
/// [dietrich-tschaetsch-2014]. Worked examples: tests/published/milling-cut.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::teeth_engaged;
/// use wearland::quantity::Angle;
/// assert!((teeth_engaged(8, Angle::deg(90.0)) - 2.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn teeth_engaged(teeth: u32, swept: Angle) -> f64 {
    f64::from(teeth) * swept.to_deg() / 360.0
}
