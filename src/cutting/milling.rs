//! Milling: feed rate, approach, engagement, chip thickness.

use crate::quantity::{Angle, FeedPerTooth, FeedRate, Formula, Length, RemovalRate, SpindleSpeed};

/// Formula of [`table_feed`].
pub const TABLE_FEED: Formula =
    Formula { figure: "feed rate", text: "v_f = f_z * z * n", source: "mitsubishi-technical-data" };

/// Feed rate of a milling cutter.
///
/// v_f = f_z * z * n
///
/// # Symbols
/// v_f feed rate. f_z feed per tooth. z teeth that cut. n spindle speed.
/// # Range
/// Any.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::table_feed;
/// use wearland::quantity::{FeedPerTooth, SpindleSpeed};
/// let rate = table_feed(FeedPerTooth::inch_per_tooth(0.004), 10, SpindleSpeed::rpm(500.0));
/// assert!((rate.to_inch_per_min() - 20.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn table_feed(feed: FeedPerTooth, teeth: u32, speed: SpindleSpeed) -> FeedRate {
    FeedRate::mm_per_min(feed.to_mm_per_tooth() * f64::from(teeth) * speed.to_rpm())
}

/// Formula of [`side_approach`].
pub const SIDE_APPROACH: Formula = Formula {
    figure: "approach",
    text: "A = sqrt(a_e * (D - a_e)), from a_e = D / 2 on A = D / 2",
    source: "sharma",
};

/// Approach of a cutter that mills with its side: travel of its axis from first touch to the edge of the work.
///
/// A = sqrt(a_e * (D - a_e)); from a_e = D / 2 on, A = D / 2
///
/// # Symbols
/// A approach. a_e engagement across the feed. D diameter.
/// # Range
/// a_e from 0 to D. The overrun of a cut that must clean up is as long.
/// # Source
/// \[sharma\]. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::side_approach;
/// use wearland::quantity::Length;
/// assert!((side_approach(Length::mm(100.0), Length::mm(2.0)).to_mm() - 14.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn side_approach(diameter: Length, engagement: Length) -> Length {
    let engagement = engagement.smaller(diameter / 2.0);
    Length::mm((engagement.to_mm() * (diameter - engagement).to_mm()).sqrt())
}

/// Formula of [`face_approach`].
pub const FACE_APPROACH: Formula = Formula {
    figure: "approach",
    text: "A = D / 2 - sqrt((D / 2)^2 - (w / 2 + e)^2), from w / 2 + e = D / 2 on A = D / 2",
    source: "sharma",
};

/// Approach of a face mill: travel from first touch until the whole width is reached.
///
/// A = D / 2 - sqrt((D / 2)^2 - (w / 2 + e)^2); from w / 2 + e = D / 2 on, A = D / 2
///
/// # Symbols
/// A approach. D diameter. w width of the work. e distance of the cutter's axis from the middle of the work.
/// # Range
/// Roughing; a cut that must clean up runs D beyond the work in all.
/// # Source
/// \[sharma\] for e = 0; the offset is geometry. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::face_approach;
/// use wearland::quantity::Length;
/// let approach = face_approach(Length::mm(100.0), Length::mm(60.0), Length::mm(10.0));
/// assert!((approach.to_mm() - 20.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn face_approach(diameter: Length, width: Length, offset: Length) -> Length {
    let radius = diameter.to_mm() / 2.0;
    let reach = (width.to_mm() / 2.0 + offset.to_mm().abs()).min(radius);
    Length::mm(radius - (radius.powi(2) - reach.powi(2)).sqrt())
}

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

/// Formula of [`milling_removal_rate`].
pub const MILLING_REMOVAL_RATE: Formula =
    Formula { figure: "removal rate", text: "Q = a_p * a_e * v_f", source: "mitsubishi-technical-data" };

/// Metal removed in a time by milling.
///
/// Q = a_p * a_e * v_f
///
/// # Symbols
/// Q removal rate. a_p depth along the cutter's axis. a_e engagement. v_f feed rate.
/// # Range
/// Any; while the cutter is fully engaged.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::milling_removal_rate;
/// use wearland::quantity::{FeedRate, Length};
/// let rate = milling_removal_rate(Length::mm(3.0), Length::mm(100.0), FeedRate::mm_per_min(500.0));
/// assert!((rate.to_cm3_per_min() - 150.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn milling_removal_rate(depth: Length, engagement: Length, rate: FeedRate) -> RemovalRate {
    RemovalRate::cm3_per_min(depth.to_mm() * engagement.to_mm() * rate.to_mm_per_min() / 1000.0)
}
