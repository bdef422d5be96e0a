//! Standard tolerance grades of sizes up to 500 mm.

use crate::quantity::{Formula, Length};

/// A standard tolerance grade, IT1 to IT18: the smaller the finer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Grade(pub(super) u8);

impl Grade {
    /// IT of a number, 1 to 18.
    #[must_use]
    pub const fn it(number: u8) -> Option<Self> {
        if 1 <= number && number <= 18 { Some(Self(number)) } else { None }
    }

    /// The number behind IT.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }
}

/// End of each step of sizes in mm, and IT1 to IT18 on it in um.
const STEPS: [(f64, [f64; 18]); 13] = [
    (
        3.0,
        [
            0.8, 1.2, 2.0, 3.0, 4.0, 6.0, 10.0, 14.0, 25.0, 40.0, 60.0, 100.0, 140.0, 250.0, 400.0, 600.0,
            1000.0, 1400.0,
        ],
    ),
    (
        6.0,
        [
            1.0, 1.5, 2.5, 4.0, 5.0, 8.0, 12.0, 18.0, 30.0, 48.0, 75.0, 120.0, 180.0, 300.0, 480.0, 750.0,
            1200.0, 1800.0,
        ],
    ),
    (
        10.0,
        [
            1.0, 1.5, 2.5, 4.0, 6.0, 9.0, 15.0, 22.0, 36.0, 58.0, 90.0, 150.0, 220.0, 360.0, 580.0, 900.0,
            1500.0, 2200.0,
        ],
    ),
    (
        18.0,
        [
            1.2, 2.0, 3.0, 5.0, 8.0, 11.0, 18.0, 27.0, 43.0, 70.0, 110.0, 180.0, 270.0, 430.0, 700.0, 1100.0,
            1800.0, 2700.0,
        ],
    ),
    (
        30.0,
        [
            1.5, 2.5, 4.0, 6.0, 9.0, 13.0, 21.0, 33.0, 52.0, 84.0, 130.0, 210.0, 330.0, 520.0, 840.0, 1300.0,
            2100.0, 3300.0,
        ],
    ),
    (
        50.0,
        [
            1.5, 2.5, 4.0, 7.0, 11.0, 16.0, 25.0, 39.0, 62.0, 100.0, 160.0, 250.0, 390.0, 620.0, 1000.0,
            1600.0, 2500.0, 3900.0,
        ],
    ),
    (
        80.0,
        [
            2.0, 3.0, 5.0, 8.0, 13.0, 19.0, 30.0, 46.0, 74.0, 120.0, 190.0, 300.0, 460.0, 740.0, 1200.0,
            1900.0, 3000.0, 4600.0,
        ],
    ),
    (
        120.0,
        [
            2.5, 4.0, 6.0, 10.0, 15.0, 22.0, 35.0, 54.0, 87.0, 140.0, 220.0, 350.0, 540.0, 870.0, 1400.0,
            2200.0, 3500.0, 5400.0,
        ],
    ),
    (
        180.0,
        [
            3.5, 5.0, 8.0, 12.0, 18.0, 25.0, 40.0, 63.0, 100.0, 160.0, 250.0, 400.0, 630.0, 1000.0, 1600.0,
            2500.0, 4000.0, 6300.0,
        ],
    ),
    (
        250.0,
        [
            4.5, 7.0, 10.0, 14.0, 20.0, 29.0, 46.0, 72.0, 115.0, 185.0, 290.0, 460.0, 720.0, 1150.0, 1850.0,
            2900.0, 4600.0, 7200.0,
        ],
    ),
    (
        315.0,
        [
            6.0, 8.0, 12.0, 16.0, 23.0, 32.0, 52.0, 81.0, 130.0, 210.0, 320.0, 520.0, 810.0, 1300.0, 2100.0,
            3200.0, 5200.0, 8100.0,
        ],
    ),
    (
        400.0,
        [
            7.0, 9.0, 13.0, 18.0, 25.0, 36.0, 57.0, 89.0, 140.0, 230.0, 360.0, 570.0, 890.0, 1400.0, 2300.0,
            3600.0, 5700.0, 8900.0,
        ],
    ),
    (
        500.0,
        [
            8.0, 10.0, 15.0, 20.0, 27.0, 40.0, 63.0, 97.0, 155.0, 250.0, 400.0, 630.0, 970.0, 1550.0, 2500.0,
            4000.0, 6300.0, 9700.0,
        ],
    ),
];

/// Units i in a grade, from IT5 on.
const UNITS: [f64; 14] =
    [7.0, 10.0, 16.0, 25.0, 40.0, 64.0, 100.0, 160.0, 250.0, 400.0, 640.0, 1000.0, 1600.0, 2500.0];

/// The step of a size: its lower end (1 mm for the first), its upper end, its tolerances.
fn step(size: Length) -> Option<(f64, f64, &'static [f64; 18])> {
    if size.to_mm() <= 0.0 {
        return None;
    }
    let place = STEPS.iter().position(|(end, _)| size.to_mm() <= *end)?;
    let (high, grades) = &STEPS[place];
    let low = if place == 0 { 1.0 } else { STEPS[place - 1].0 };
    Some((low, *high, grades))
}

/// Formula of [`tolerance_unit`].
pub const TOLERANCE_UNIT: Formula = Formula {
    figure: "tolerance unit",
    text: "i = 0.45 * D^(1/3) + 0.001 * D um, D geometric mean of the step in mm",
    source: "iso-286-1",
};

/// Standard tolerance unit of a size.
///
/// i = 0.45 * D^(1/3) + 0.001 * D um, D geometric mean of the step in mm
///
/// # Symbols
/// i tolerance unit, um. D geometric mean of the ends of the step of sizes, mm.
/// # Range
/// Sizes up to 500 mm; otherwise nothing.
/// # Source
/// [iso-286-1]. Worked examples: tests/published/tolerances.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::tolerance_unit;
/// use wearland::quantity::Length;
/// let unit = tolerance_unit(Length::mm(20.0)).unwrap();
/// assert!((unit.to_mm() * 1000.0 - 1.3074).abs() < 1e-4);
/// ```
#[must_use]
pub fn tolerance_unit(size: Length) -> Option<Length> {
    let (low, high, _) = step(size)?;
    let mean = (low * high).sqrt();
    Some(Length::mm((0.45 * mean.cbrt() + 0.001 * mean) / 1000.0))
}

/// Formula of [`worked_tolerance`].
pub const WORKED_TOLERANCE: Formula = Formula {
    figure: "tolerance",
    text: "IT5 = 7 i, IT6 = 10 i, then 10^(1/5) a grade",
    source: "iso-286-1",
};

/// Tolerance of a grade from its unit, before the standard rounds it.
///
/// IT5 = 7 i, IT6 10, IT7 16, IT8 25, IT9 40, IT10 64, and ten times as much five grades on
///
/// # Symbols
/// IT tolerance. i tolerance unit of the size.
/// # Range
/// IT5 to IT18, sizes up to 500 mm; otherwise nothing.
/// # Source
/// [iso-286-1]. Worked examples: tests/published/tolerances.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{Grade, worked_tolerance};
/// use wearland::quantity::Length;
/// let tolerance = worked_tolerance(Grade::it(7).unwrap(), Length::mm(20.0)).unwrap();
/// assert!((tolerance.to_mm() * 1000.0 - 20.9).abs() < 0.05);
/// ```
#[must_use]
pub fn worked_tolerance(grade: Grade, size: Length) -> Option<Length> {
    let units = UNITS.get(usize::from(grade.0).checked_sub(5)?)?;
    Some(tolerance_unit(size)? * *units)
}

/// Formula of [`standard_tolerance`].
pub const STANDARD_TOLERANCE: Formula =
    Formula { figure: "tolerance", text: "IT of the size, as tabled", source: "iso-286-1" };

/// Tolerance of a grade as the standard tables it.
///
/// IT of the size, as tabled
///
/// # Symbols
/// IT tolerance.
/// # Range
/// IT1 to IT18, sizes up to 500 mm; otherwise nothing.
/// # Source
/// [iso-286-1]. Worked examples: tests/published/tolerances.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{Grade, standard_tolerance};
/// use wearland::quantity::Length;
/// let tolerance = standard_tolerance(Grade::it(7).unwrap(), Length::mm(20.0)).unwrap();
/// assert!((tolerance.to_mm() - 0.021).abs() < 1e-12);
/// ```
#[must_use]
pub fn standard_tolerance(grade: Grade, size: Length) -> Option<Length> {
    let (_, _, grades) = step(size)?;
    grades.get(usize::from(grade.0) - 1).map(|tolerance| Length::mm(tolerance / 1000.0))
}

/// The coarsest grade that keeps within a tolerance; nothing if not even IT1 does, or above 500 mm.
#[must_use]
pub fn grade_within(tolerance: Length, size: Length) -> Option<Grade> {
    let (_, _, grades) = step(size)?;
    let wide = tolerance.to_mm() * 1000.0 * (1.0 + 1e-9);
    (1..=18).rev().map(Grade).find(|grade| grades[usize::from(grade.0) - 1] <= wide)
}

#[cfg(test)]
mod tests {
    use super::{Grade, STEPS, grade_within, standard_tolerance, worked_tolerance};
    use crate::quantity::Length;

    #[test]
    fn tables_and_formula_agree() {
        for (place, (end, _)) in STEPS.into_iter().enumerate() {
            // The standard rounds, most of all in the first steps.
            let slack = [0.16, 0.10].get(place).copied().unwrap_or(0.06);
            for number in 5..=18 {
                let (grade, size) = (Grade::it(number).unwrap(), Length::mm(end));
                let tabled = standard_tolerance(grade, size).unwrap();
                let worked = worked_tolerance(grade, size).unwrap();
                assert!((tabled / worked - 1.0).abs() < slack, "IT{number} at {end} mm: {}", tabled / worked);
                assert_eq!(grade_within(tabled, size), Some(grade));
            }
        }
    }

    #[test]
    fn beyond_the_tables_is_nothing() {
        let grade = Grade::it(7).unwrap();
        assert_eq!(standard_tolerance(grade, Length::mm(501.0)), None);
        assert_eq!(standard_tolerance(grade, Length::ZERO), None);
        assert_eq!(worked_tolerance(Grade::it(4).unwrap(), Length::mm(20.0)), None);
        assert_eq!((Grade::it(0), Grade::it(19)), (None, None));
        assert_eq!(grade_within(Length::mm(0.0001), Length::mm(20.0)), None);
    }
}
