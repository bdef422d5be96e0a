//! Passes of a thread: how many, how deep, with what section of chip.

use crate::quantity::{Area, Formula, Length};

/// Formula of [`thread_passes`].
pub const THREAD_PASSES: Formula = Formula {
    figure: "infeed of each pass",
    text: "a_x = h * sqrt(q / (i - 1)), q = 0.3, 1, 2, 3 ..; infeed = a_x - a_(x-1)",
    source: "widia-2017",
};

/// Infeed of each threading pass, for an about constant area of chip.
///
/// a_x = h * sqrt(q / (i - 1)) with q = 0.3 in the first pass, then 1, 2, 3 ..; each infeed is a_x - a_(x-1)
///
/// # Symbols
/// a_x depth after pass x. h whole depth on the radius. i passes. q share of area.
/// # Range
/// Two passes or more; one pass takes the whole depth, none gives an empty list. The infeeds add up to h.
/// # Source
/// [widia-2017]. Worked examples: tests/published/threading.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_passes;
/// use wearland::quantity::Length;
/// let infeeds = thread_passes(Length::mm(0.94), 6);
/// assert!((infeeds[0].to_mm() - 0.2303).abs() < 1e-4);
/// assert!((infeeds[5].to_mm() - 0.0992).abs() < 1e-4);
/// ```
#[must_use]
pub fn thread_passes(depth: Length, passes: u32) -> Vec<Length> {
    if passes == 1 {
        return vec![depth];
    }
    let last = f64::from(passes) - 1.0;
    let mut before = Length::ZERO;
    (0..passes)
        .map(|pass| {
            let share = if pass == 0 { 0.3 } else { f64::from(pass) };
            let after = depth * (share / last).sqrt();
            let infeed = after - before;
            before = after;
            infeed
        })
        .collect()
}

/// Formula of [`proposed_pass_count`].
pub const PROPOSED_PASS_COUNT: Formula = Formula {
    figure: "proposed threading passes",
    text: "i = table(P), middle of each bracket, straight lines between",
    source: "widia-2017",
};

/// Middle of each bracket of the published table: pitch in mm, passes.
const BRACKETS: [(f64, f64); 8] = [
    (0.625, 4.5),
    (0.9, 5.5),
    (1.375, 7.0),
    (1.875, 9.0),
    (2.75, 10.5),
    (3.75, 13.5),
    (5.25, 15.0),
    (8.0, 20.0),
];

/// Passes to begin with for a pitch.
///
/// i read from a table of brackets: the middle of each, straight lines between, rounded to a whole pass.
///
/// # Symbols
/// i passes. P pitch.
/// # Range
/// P 0.5 mm to 8 mm; outside, the end of the table. A proposal: work, insert and overhang may ask for more.
/// # Source
/// [widia-2017]. Brackets: tests/it/properties.rs.
/// # Example
/// ```
/// use wearland::cutting::threading::proposed_pass_count;
/// use wearland::quantity::Length;
/// assert_eq!(proposed_pass_count(Length::mm(2.0)), 9);
/// ```
#[must_use]
pub fn proposed_pass_count(pitch: Length) -> u32 {
    let pitch = pitch.to_mm();
    let (first, last) = (BRACKETS[0], BRACKETS[BRACKETS.len() - 1]);
    let between = BRACKETS.windows(2).find(|pair| pair[0].0 <= pitch && pitch < pair[1].0);
    let passes = match between {
        Some(pair) => {
            let (low, high) = (pair[0], pair[1]);
            low.1 + (high.1 - low.1) * (pitch - low.0) / (high.0 - low.0)
        }
        None if pitch < first.0 => first.1,
        None => last.1,
    };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between the ends of the table, 4 to 20"
    )]
    let whole = passes.round() as u32;
    whole
}

/// Formula of [`thread_passes_with_least_last`].
pub const THREAD_PASSES_WITH_LEAST_LAST: Formula = Formula {
    figure: "infeed of each pass",
    text: "a_x = h * sqrt(q / (i - 1)), q = 0.3, 1, 2, 3 ..; infeed = a_x - a_(x-1), i lowered until the last infeed is not below a_min",
    source: "widia-2017",
};

/// Infeed of each threading pass where none may be too thin to cut: with fewer passes, should the last be.
///
/// As [`thread_passes`], with i lowered one by one until a_i - a_(i-1) is at least a_min.
///
/// # Symbols
/// a_x depth after pass x. i passes. a_min least infeed of the last pass, the thinnest of all.
/// # Range
/// With fewer passes the first ones go deeper; to be held against what the insert bears. A depth below a_min is one pass.
/// # Source
/// [widia-2017], which asks for a last pass of 0.05 mm or more. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::{thread_passes, thread_passes_with_least_last};
/// use wearland::quantity::Length;
/// let (depth, least) = (Length::mm(0.577), Length::mm(0.05));
/// assert!(thread_passes(depth, 40).iter().any(|infeed| *infeed < least));
/// let passes = thread_passes_with_least_last(depth, 40, least);
/// assert_eq!(passes.len(), 7);
/// assert!(passes.iter().all(|infeed| *infeed >= least));
/// ```
#[must_use]
pub fn thread_passes_with_least_last(depth: Length, passes: u32, least: Length) -> Vec<Length> {
    let enough = |count: &u32| thread_passes(depth, *count).last().is_some_and(|last| *last >= least);
    let count = (2..=passes).rev().find(enough).unwrap_or(passes.min(1));
    thread_passes(depth, count)
}

/// Formula of [`thread_chip_areas`].
pub const THREAD_CHIP_AREAS: Formula = Formula {
    figure: "section of chip of each pass",
    text: "A_x = tan(30 deg) * (a_x^2 - a_(x-1)^2)",
    source: "derived",
};

/// Section of the chip of each threading pass, of a sharp 60 degree edge.
///
/// A_x = tan(30 deg) * (a_x^2 - a_(x-1)^2)
///
/// # Symbols
/// A_x section of the chip of pass x. a_x depth after it, the sum of the infeeds so far.
/// # Range
/// Corner radius of the insert small against the depth: the radius makes the first chips wider than this.
/// # Source
/// \[derived\]: the triangle cut so far, less the one before. Infeeds for constant area give the same section from
/// the third pass on, and the first two together have one.
/// # Example
/// ```
/// use wearland::cutting::threading::{thread_chip_areas, thread_passes};
/// use wearland::quantity::Length;
/// let areas = thread_chip_areas(&thread_passes(Length::mm(0.94), 6));
/// assert!((areas[2].to_mm2() - 0.10203).abs() < 1e-5);
/// assert!((areas[0] + areas[1]).to_mm2() - areas[5].to_mm2() < 1e-12);
/// ```
#[must_use]
pub fn thread_chip_areas(infeeds: &[Length]) -> Vec<Area> {
    let slope = (std::f64::consts::PI / 6.0).tan();
    let mut before = 0.0;
    let area = |infeed: &Length| {
        let after = before + infeed.to_mm();
        let area = Area::mm2(slope * (after.powi(2) - f64::powi(before, 2)));
        before = after;
        area
    };
    infeeds.iter().map(area).collect()
}
