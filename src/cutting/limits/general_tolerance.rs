//! Tolerances of lengths without a tolerance of their own.

use crate::quantity::Length;

/// Class of general tolerances.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ToleranceClass {
    /// f.
    Fine,
    /// m.
    Medium,
    /// c.
    Coarse,
    /// v.
    VeryCoarse,
}

/// End of each step of sizes in mm, and f, m, c, v on it in mm, each to either side.
const STEPS: [(f64, [Option<f64>; 4]); 8] = [
    (3.0, [Some(0.05), Some(0.1), Some(0.2), None]),
    (6.0, [Some(0.05), Some(0.1), Some(0.3), Some(0.5)]),
    (30.0, [Some(0.1), Some(0.2), Some(0.5), Some(1.0)]),
    (120.0, [Some(0.15), Some(0.3), Some(0.8), Some(1.5)]),
    (400.0, [Some(0.2), Some(0.5), Some(1.2), Some(2.5)]),
    (1000.0, [Some(0.3), Some(0.8), Some(2.0), Some(4.0)]),
    (2000.0, [Some(0.5), Some(1.2), Some(3.0), Some(6.0)]),
    (4000.0, [None, Some(2.0), Some(4.0), Some(8.0)]),
];

/// General tolerance of a length, to either side.
///
/// t of the size, as tabled
///
/// # Symbols
/// t deviation allowed to either side.
/// # Range
/// Lengths from 0.5 mm to 4000 mm; nothing beyond, and where the class has none.
/// # Source
/// [iso-2768-1]. Worked examples: tests/published/tolerances.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{ToleranceClass, general_tolerance};
/// use wearland::quantity::Length;
/// let either_side = general_tolerance(ToleranceClass::Medium, Length::mm(45.0)).unwrap();
/// assert!((either_side.to_mm() - 0.3).abs() < 1e-12);
/// ```
#[must_use]
pub fn general_tolerance(class: ToleranceClass, size: Length) -> Option<Length> {
    if size.to_mm() < 0.5 {
        return None;
    }
    let (_, classes) = STEPS.iter().find(|(end, _)| size.to_mm() <= *end)?;
    let either_side = match class {
        ToleranceClass::Fine => classes[0],
        ToleranceClass::Medium => classes[1],
        ToleranceClass::Coarse => classes[2],
        ToleranceClass::VeryCoarse => classes[3],
    };
    either_side.map(Length::mm)
}
