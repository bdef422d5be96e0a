//! Limits of the radial composite deviations after ISO 1328-2:1997, and the grade that measured ones reach.

use std::ops::RangeInclusive;

use crate::quantity::{Formula, Length};

/// Grades of the standard: 4 is the finest.
pub const GRADES: RangeInclusive<u8> = 4..=12;

/// Ends of the ranges of pitch diameter, in mm; each range holds its upper end.
const DIAMETERS: [f64; 7] = [5.0, 20.0, 50.0, 125.0, 280.0, 560.0, 1000.0];
/// Ends of the ranges of normal module, in mm; each range holds its upper end.
const MODULES: [f64; 9] = [0.2, 0.5, 0.8, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0];

/// The two radial composite deviations.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Composite {
    /// Total, F_i": over one turn of the gear.
    Total,
    /// Tooth to tooth, f_i": within one pitch.
    Tooth,
}

/// Formula of [`composite_limit`].
pub const COMPOSITE_LIMIT: Formula = Formula {
    figure: "radial composite limit",
    text: "F_i\" = (3.2 * m + 1.01 * sqrt(d) + 6.4) * 2^((Q - 5) / 2), f_i\" = (2.96 * m + 0.01 * sqrt(d) + 0.8) * 2^((Q - 5) / 2), in um",
    source: "iso-1328-2-1997",
};

/// Limit of a radial composite deviation; `None` outside the standard.
///
/// F_i" = (3.2 * m + 1.01 * sqrt(d) + 6.4) * 2^((Q - 5) / 2), f_i" = (2.96 * m + 0.01 * sqrt(d) + 0.8) * 2^((Q - 5) / 2)
///
/// # Symbols
/// F_i" total, f_i" tooth-to-tooth limit, in um. m and d geometric means of the ends of the ranges in which normal module
/// and pitch diameter fall, in mm, not the values themselves. Q grade.
/// # Range
/// Q 4 to 12, m 0.2 to 10 mm, d 5 to 1000 mm. Rounded: above 10 um to whole, else to half micrometres.
/// # Source
/// [iso-1328-2-1997]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::roll_test::{Composite, composite_limit};
/// use wearland::quantity::Length;
/// let limit = composite_limit(Composite::Total, Length::mm(2.0), Length::mm(80.0), 8);
/// assert!(limit.is_some_and(|limit| (limit.to_mm() - 0.061).abs() < 1e-9));
/// assert_eq!(composite_limit(Composite::Total, Length::mm(2.0), Length::mm(80.0), 3), None);
/// ```
#[must_use]
pub fn composite_limit(which: Composite, module: Length, diameter: Length, grade: u8) -> Option<Length> {
    if !GRADES.contains(&grade) {
        return None;
    }
    let module = mean_of_range(&MODULES, module.to_mm())?;
    let root = mean_of_range(&DIAMETERS, diameter.to_mm())?.sqrt();
    let fifth = match which {
        Composite::Total => 3.2 * module + 1.01 * root + 6.4,
        Composite::Tooth => 2.96 * module + 0.01 * root + 0.8,
    };
    let limit = fifth * 2.0_f64.powf((f64::from(grade) - 5.0) / 2.0);
    let rounded = if limit > 10.0 { limit.round() } else { (limit * 2.0).round() / 2.0 };
    Some(Length::mm(rounded / 1000.0))
}

/// Finest grade whose limit a measured deviation keeps; `None` if it keeps none, or outside the standard.
///
/// ```
/// use wearland::cutting::roll_test::{Composite, grade_reached};
/// use wearland::quantity::Length;
/// let (module, diameter) = (Length::mm(2.0), Length::mm(80.0));
/// assert_eq!(grade_reached(Composite::Total, module, diameter, Length::mm(0.03798)), Some(7));
/// assert_eq!(grade_reached(Composite::Tooth, module, diameter, Length::mm(0.00921)), Some(6));
/// ```
#[must_use]
pub fn grade_reached(which: Composite, module: Length, diameter: Length, measured: Length) -> Option<u8> {
    // A hair above the limit is the limit: it is itself rounded.
    GRADES.into_iter().find(|grade| {
        composite_limit(which, module, diameter, *grade)
            .is_some_and(|limit| measured.to_mm() <= limit.to_mm() + 1e-12)
    })
}

/// The worse of the grades that both deviations reach; `None` if either reaches none.
///
/// ```
/// use wearland::cutting::roll_test::worse_grade;
/// assert_eq!(worse_grade(Some(7), Some(6)), Some(7));
/// assert_eq!(worse_grade(Some(7), None), None);
/// ```
#[must_use]
pub fn worse_grade(total: Option<u8>, tooth: Option<u8>) -> Option<u8> {
    Some(total?.max(tooth?))
}

/// Grade of a gear from both measured deviations, total and tooth to tooth: the worse of the two.
///
/// ```
/// use wearland::cutting::roll_test::grade_of_gear;
/// use wearland::quantity::Length;
/// let (module, diameter) = (Length::mm(2.0), Length::mm(80.0));
/// let grade = grade_of_gear(module, diameter, Length::mm(0.03798), Length::mm(0.00921));
/// assert_eq!(grade, Some(7));
/// ```
#[must_use]
pub fn grade_of_gear(module: Length, diameter: Length, total: Length, tooth: Length) -> Option<u8> {
    worse_grade(
        grade_reached(Composite::Total, module, diameter, total),
        grade_reached(Composite::Tooth, module, diameter, tooth),
    )
}

/// Geometric mean of the ends of the range in which a value falls; a value on an end belongs to the range below it.
fn mean_of_range(ends: &[f64], value: f64) -> Option<f64> {
    if value < *ends.first()? - 1e-9 {
        return None;
    }
    let range = ends.windows(2).find(|range| value <= range[1] + 1e-9)?;
    Some((range[0] * range[1]).sqrt())
}
