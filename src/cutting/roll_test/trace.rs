//! Deviations read from a trace of centre distance over one turn of the gear.

use crate::quantity::Length;

/// Total radial composite deviation of a trace, F_i": largest less smallest centre distance.
///
/// # Symbols
/// Points of the trace at equal angles over one turn.
/// # Range
/// Nothing for an empty trace.
/// # Source
/// [iso-1328-2-1997], definition. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::roll_test::total_deviation;
/// use wearland::quantity::Length;
/// let trace = [0.0, 0.012, -0.004, 0.003].map(Length::mm);
/// assert!((total_deviation(&trace).to_mm() - 0.016).abs() < 1e-12);
/// ```
#[must_use]
pub fn total_deviation(trace: &[Length]) -> Length {
    let Some(first) = trace.first() else { return Length::ZERO };
    let low = trace.iter().fold(*first, |low, point| low.smaller(*point));
    let high = trace.iter().fold(*first, |high, point| high.larger(*point));
    high - low
}

/// Tooth-to-tooth radial composite deviation of a trace, f_i": largest change of centre distance within one pitch.
///
/// # Symbols
/// Points of the trace at equal angles over one turn; one pitch is 360 degrees / teeth.
/// # Range
/// At least twenty points for each tooth, or short waves are missed; the last point is followed by the first.
/// # Source
/// [iso-1328-2-1997], definition. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::roll_test::tooth_deviation;
/// use wearland::quantity::Length;
/// let trace = [0.0, 0.012, -0.004, 0.003].map(Length::mm);
/// assert!((tooth_deviation(&trace, 4).to_mm() - 0.016).abs() < 1e-12);
/// ```
#[must_use]
pub fn tooth_deviation(trace: &[Length], teeth: u32) -> Length {
    let pitch = trace.len() / usize::try_from(teeth.max(1)).unwrap_or(usize::MAX);
    let window =
        |start: usize| -> Vec<Length> { trace.iter().cycle().skip(start).take(pitch + 1).copied().collect() };
    let changes = (0..trace.len()).map(|start| total_deviation(&window(start)));
    changes.fold(Length::ZERO, Length::larger)
}
