//! Chip thickness in milling.

use crate::quantity::{Angle, FeedPerTooth, Formula, Length};

use super::engagement::{Engagement, swept_angle};

/// What the mean chip thickness of a milling cut depends on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeanChip {
    /// Feed per tooth.
    pub feed: FeedPerTooth,
    /// Angle of the cutting edge to the feed direction; 90 degrees for a square shoulder.
    pub edge_angle: Angle,
    /// Engagement across the feed.
    pub engagement: Length,
    /// Diameter of the cutter.
    pub diameter: Length,
    /// Angle through which a tooth cuts.
    pub swept: Angle,
}

/// Formula of [`mean_chip_thickness`].
pub const MEAN_CHIP_THICKNESS: Formula = Formula {
    figure: "mean chip thickness",
    text: "h_m = f_z * sin(kappa) * 2 * a_e / (D * phi_s), phi_s in rad",
    source: "derived",
};

/// Chip thickness of a milling cut, its mean over the angle of engagement.
///
/// h_m = f_z * sin(kappa) * 2 * a_e / (D * phi_s), phi_s in radians
///
/// # Symbols
/// h_m mean chip thickness. f_z feed per tooth. kappa edge angle. a_e engagement. D diameter. phi_s engagement angle.
/// # Range
/// f_z small against D. Holds at any position of the cutter, with the engagement angle of that position.
/// # Source
/// \[derived\]: mean of f_z * sin(kappa) * sin(phi) over phi_s. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{MeanChip, engagement_angle_side, mean_chip_thickness};
/// use wearland::quantity::{Angle, FeedPerTooth, Length};
/// let (diameter, engagement) = (Length::mm(50.0), Length::mm(5.0));
/// let chip = mean_chip_thickness(MeanChip {
///     feed: FeedPerTooth::mm_per_tooth(0.1),
///     edge_angle: Angle::deg(90.0),
///     engagement,
///     diameter,
///     swept: engagement_angle_side(diameter, engagement),
/// });
/// assert!((chip.to_mm() - 0.031080).abs() < 1e-6);
/// ```
#[must_use]
pub fn mean_chip_thickness(chip: MeanChip) -> Length {
    let feed = chip.feed.to_mm_per_tooth() * chip.edge_angle.to_rad().sin();
    Length::mm(feed * 2.0 * (chip.engagement / chip.diameter) / chip.swept.to_rad())
}

/// Formula of [`max_chip_thickness`].
pub const MAX_CHIP_THICKNESS: Formula = Formula {
    figure: "greatest chip thickness",
    text: "h_ex = f_z * sin(kappa) * 2 * sqrt(x * (1 - x)), x = a_e / D, from x = 1/2 on h_ex = f_z * sin(kappa)",
    source: "derived",
};

/// Chip thickness of a milling cut where it is greatest, the cutter working at one edge of the work.
///
/// h_ex = f_z * sin(kappa) * 2 * sqrt(x * (1 - x)) with x = a_e / D; from x = 1/2 on, h_ex = f_z * sin(kappa)
///
/// # Symbols
/// h_ex greatest chip thickness. f_z feed per tooth. kappa edge angle. a_e engagement. D diameter.
/// # Range
/// f_z small against D; a_e from 0 to D.
/// # Source
/// \[derived\]: f_z * sin(kappa) * sin(phi) at the edge of the work. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::max_chip_thickness;
/// use wearland::quantity::{Angle, FeedPerTooth, Length};
/// let feed = FeedPerTooth::mm_per_tooth(0.1);
/// let chip = max_chip_thickness(feed, Angle::deg(90.0), Length::mm(5.0), Length::mm(50.0));
/// assert!((chip.to_mm() - 0.06).abs() < 1e-12);
/// ```
#[must_use]
pub fn max_chip_thickness(
    feed: FeedPerTooth,
    edge_angle: Angle,
    engagement: Length,
    diameter: Length,
) -> Length {
    let share = (engagement / diameter).min(0.5);
    let thinning = 2.0 * (share * (1.0 - share)).sqrt();
    Length::mm(feed.to_mm_per_tooth() * edge_angle.to_rad().sin() * thinning)
}

/// Formula of [`mean_chip_thickness_engaged`].
pub const MEAN_CHIP_THICKNESS_ENGAGED: Formula = Formula {
    figure: "mean chip thickness",
    text: "h_m = f_z * sin(kappa) * (cos(phi_in) - cos(phi_out)) / phi_s, phi_s in rad",
    source: "derived",
};

/// Mean chip thickness between the angles at which a tooth enters and leaves.
///
/// h_m = f_z * sin(kappa) * (cos(phi_in) - cos(phi_out)) / phi_s, phi_s in radians
///
/// # Symbols
/// h_m mean chip thickness. f_z feed per tooth. kappa edge angle. phi_in entry. phi_out exit. phi_s the angle between.
/// # Range
/// f_z small against D; any position of the cutter in which it cuts at all.
/// # Source
/// \[derived\]: mean of f_z * sin(kappa) * sin(phi). Worked examples: tests/published/milling-cut.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{Engagement, mean_chip_thickness_engaged};
/// use wearland::quantity::{Angle, FeedPerTooth, Length};
/// let side = Engagement::side(Length::mm(50.0), Length::mm(5.0));
/// let chip = mean_chip_thickness_engaged(FeedPerTooth::mm_per_tooth(0.1), Angle::deg(90.0), side);
/// assert!((chip.to_mm() - 0.031080).abs() < 1e-6);
/// ```
#[must_use]
pub fn mean_chip_thickness_engaged(feed: FeedPerTooth, edge_angle: Angle, engaged: Engagement) -> Length {
    let feed = feed.to_mm_per_tooth() * edge_angle.to_rad().sin();
    let across = engaged.entry.to_rad().cos() - engaged.exit.to_rad().cos();
    Length::mm(feed * across / swept_angle(engaged).to_rad())
}

/// Formula of [`max_chip_thickness_engaged`].
pub const MAX_CHIP_THICKNESS_ENGAGED: Formula = Formula {
    figure: "greatest chip thickness",
    text: "h_ex = f_z * sin(kappa), or the larger of f_z * sin(kappa) * sin(phi_in), sin(phi_out) if 90 deg is not between",
    source: "derived",
};

/// Greatest chip thickness between the angles at which a tooth enters and leaves.
///
/// h_ex = f_z * sin(kappa) if phi_in <= 90 deg <= phi_out, else f_z * sin(kappa) times the larger of sin(phi_in), sin(phi_out)
///
/// # Symbols
/// h_ex greatest chip thickness. f_z feed per tooth. kappa edge angle. phi_in entry. phi_out exit.
/// # Range
/// f_z small against D; any position of the cutter.
/// # Source
/// \[derived\]: the chip is f_z * sin(kappa) * sin(phi) thick. Worked examples: tests/published/milling-cut.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{Engagement, max_chip_thickness_engaged};
/// use wearland::quantity::{Angle, FeedPerTooth, Length};
/// let side = Engagement::side(Length::mm(50.0), Length::mm(5.0));
/// let chip = max_chip_thickness_engaged(FeedPerTooth::mm_per_tooth(0.1), Angle::deg(90.0), side);
/// assert!((chip.to_mm() - 0.06).abs() < 1e-12);
/// ```
#[must_use]
pub fn max_chip_thickness_engaged(feed: FeedPerTooth, edge_angle: Angle, engaged: Engagement) -> Length {
    let (entry, exit) = (engaged.entry.to_rad(), engaged.exit.to_rad());
    let across = std::f64::consts::FRAC_PI_2;
    let most = if entry <= across && across <= exit { 1.0 } else { entry.sin().max(exit.sin()) };
    Length::mm(feed.to_mm_per_tooth() * edge_angle.to_rad().sin() * most)
}

/// Formula of [`mean_chip_thickness_short`].
pub const MEAN_CHIP_THICKNESS_SHORT: Formula =
    Formula { figure: "mean chip thickness", text: "h_m = f_z * sqrt(a_e / D)", source: "stellram-milling" };

/// Mean chip thickness by the short form of the tool makers.
///
/// h_m = f_z * sqrt(a_e / D)
///
/// # Symbols
/// h_m mean chip thickness. f_z feed per tooth. a_e engagement. D diameter.
/// # Range
/// Edge angle 90 degrees, a cutter at one edge of the work; 2 % high at a_e = D / 10, 11 % at D / 2.
/// # Source
/// [stellram-milling]. Worked examples: tests/published/milling-cut.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::mean_chip_thickness_short;
/// use wearland::quantity::{FeedPerTooth, Length};
/// let chip = mean_chip_thickness_short(FeedPerTooth::mm_per_tooth(0.1), Length::mm(5.0), Length::mm(50.0));
/// assert!((chip.to_mm() - 0.031623).abs() < 1e-6);
/// ```
#[must_use]
pub fn mean_chip_thickness_short(feed: FeedPerTooth, engagement: Length, diameter: Length) -> Length {
    Length::mm(feed.to_mm_per_tooth() * (engagement / diameter).sqrt())
}
