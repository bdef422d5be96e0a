//! A stepped outline: level roughing passes, finishing contour, volume.

use crate::quantity::{Formula, Length, Volume};

use super::{frustum_volume, pass_count, ring_volume};

/// One step of an outline, counted from the free end inwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProfileStep {
    /// Diameter at the side of the free end.
    pub diameter: Length,
    /// Diameter at the other side; the same for a cylinder.
    pub end: Length,
    /// Length along the axis; nothing for a face.
    pub length: Length,
}

/// How an outline is roughed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProfileRoughing {
    /// Diameter of the stock.
    pub stock: Length,
    /// Greatest depth of a pass on the radius.
    pub depth: Length,
    /// Left on the radius for the finishing pass. Faces are roughed to size.
    pub allowance: Length,
}

/// One roughing pass: level, or along a cone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoughPass {
    /// Where it begins, along the axis from the free end.
    pub start: Length,
    /// Diameter it leaves there.
    pub from: Length,
    /// Diameter it leaves at its end; the same for a level pass.
    pub to: Length,
    /// Length along the axis.
    pub length: Length,
    /// Depth on the radius; along a cone that of the highest stair.
    pub depth: Length,
}

/// Roughing passes from the stock down to the outline and its allowance, in the order they are cut.
///
/// Every diameter of the outline is a level; between neighbouring levels lie equal passes no deeper than allowed. A
/// level pass covers only the lengths where metal above it has to go: lengths parted by a bigger step are passes of
/// their own, with rapid travel between. Last, one pass along each cone takes off the stairs that level passes leave.
///
/// # Range
/// Depth above zero. Where outline and allowance reach the stock, nothing is roughed. The tool is taken to reach the
/// foot of a falling step.
/// # Source
/// [common-practice].
/// # Example
/// ```
/// use wearland::cutting::turning::{ProfileRoughing, ProfileStep, profile_passes};
/// use wearland::quantity::Length;
/// let step = |diameter, length| ProfileStep {
///     diameter: Length::mm(diameter),
///     end: Length::mm(diameter),
///     length: Length::mm(length),
/// };
/// let how = ProfileRoughing {
///     stock: Length::mm(40.0),
///     depth: Length::mm(2.5),
///     allowance: Length::mm(0.5),
/// };
/// let passes = profile_passes(how, &[step(19.0, 30.0), step(29.0, 10.0)]);
/// let cut: Vec<_> = passes.iter().map(|pass| (pass.from.to_mm(), pass.length.to_mm())).collect();
/// assert_eq!(cut, [(35.0, 40.0), (30.0, 40.0), (25.0, 30.0), (20.0, 30.0)]);
/// ```
#[must_use]
pub fn profile_passes(how: ProfileRoughing, steps: &[ProfileStep]) -> Vec<RoughPass> {
    let raised = raised(how, steps);
    let mut passes = Vec::new();
    let levels = levels(how, &raised);
    let mut above = how.stock;
    for level in levels.iter().copied() {
        let depth = (above - level) / 2.0;
        above = level;
        for (start, length) in runs(&raised, level) {
            passes.push(RoughPass { start, from: level, to: level, length, depth });
        }
    }
    let mut start = Length::ZERO;
    for step in &raised {
        if step.diameter != step.end && step.length > Length::ZERO {
            let (before, length) = below(step, how.stock);
            if length > Length::ZERO {
                let (from, to) = (step.diameter.smaller(how.stock), step.end.smaller(how.stock));
                let depth = highest_stair(&levels, how.stock, (from, to));
                passes.push(RoughPass { start: start + before, from, to, length, depth });
            }
        }
        start += step.length;
    }
    passes
}

/// The outline with its allowance.
fn raised(how: ProfileRoughing, steps: &[ProfileStep]) -> Vec<ProfileStep> {
    let up = how.allowance * 2.0;
    steps
        .iter()
        .map(|step| ProfileStep { diameter: step.diameter + up, end: step.end + up, length: step.length })
        .collect()
}

/// Diameters of the level passes, falling.
fn levels(how: ProfileRoughing, raised: &[ProfileStep]) -> Vec<Length> {
    let solid = raised.iter().filter(|step| step.length > Length::ZERO);
    let mut edges: Vec<Length> = solid.flat_map(|step| [step.diameter, step.end]).collect();
    edges.retain(|edge| *edge < how.stock);
    edges.sort_by(|a, b| b.total_cmp(a));
    let (mut levels, mut above) = (Vec::new(), how.stock);
    for edge in edges {
        let stock = (above - edge) / 2.0;
        let passes = pass_count(stock, how.depth);
        for pass in 1..=passes {
            let share = f64::from(pass) / f64::from(passes);
            levels.push(if pass == passes { edge } else { above + (edge - above) * share });
        }
        above = edge;
    }
    levels
}

/// Depth on the radius of the highest stair that levels leave between two diameters.
fn highest_stair(levels: &[Length], stock: Length, ends: (Length, Length)) -> Length {
    let (small, large) = (ends.0.smaller(ends.1), ends.0.larger(ends.1));
    let mut above = stock;
    let mut highest = Length::ZERO;
    for level in levels.iter().copied().filter(|level| *level >= small) {
        if above <= large {
            highest = highest.larger((above - level) / 2.0);
        }
        above = level;
    }
    highest
}

/// Start within a step, and length, of the part that lies no higher than a level.
fn below(step: &ProfileStep, level: Length) -> (Length, Length) {
    let (first, last) = (step.diameter, step.end);
    if first <= level && last <= level {
        return (Length::ZERO, step.length);
    }
    if first > level && last > level {
        return (Length::ZERO, Length::ZERO);
    }
    let crossing = step.length * ((level - first) / (last - first));
    if first <= level { (Length::ZERO, crossing) } else { (crossing, step.length - crossing) }
}

/// Start and length of each run of the outline that lies no higher than a level.
fn runs(steps: &[ProfileStep], level: Length) -> Vec<(Length, Length)> {
    let mut runs: Vec<(Length, Length)> = Vec::new();
    let mut position = Length::ZERO;
    let mut open = false;
    for step in steps.iter().filter(|step| step.length > Length::ZERO) {
        let (before, length) = below(step, level);
        if length > Length::ZERO {
            match runs.last_mut() {
                Some(run) if open && before == Length::ZERO => run.1 += length,
                _ => runs.push((position + before, length)),
            }
        }
        open = length > Length::ZERO && step.end <= level;
        position += step.length;
    }
    runs
}

/// The outline as one tool path, with a face between steps that do not meet and one up to the stock at the end.
///
/// # Range
/// Begins at the diameter of the first step; the end of the bar is faced by another cut.
/// # Source
/// [common-practice].
/// # Example
/// ```
/// use wearland::cutting::turning::{ProfileStep, finishing_contour};
/// use wearland::quantity::Length;
/// let (small, large) = (Length::mm(20.0), Length::mm(30.0));
/// let steps = [
///     ProfileStep { diameter: small, end: small, length: Length::mm(30.0) },
///     ProfileStep { diameter: large, end: large, length: Length::mm(10.0) },
/// ];
/// let contour = finishing_contour(Length::mm(40.0), &steps);
/// assert_eq!(contour.len(), 4);
/// assert_eq!((contour[1].diameter, contour[1].end, contour[1].length), (small, large, Length::ZERO));
/// ```
#[must_use]
pub fn finishing_contour(stock: Length, steps: &[ProfileStep]) -> Vec<ProfileStep> {
    let mut contour: Vec<ProfileStep> = Vec::new();
    let face = |from, to| ProfileStep { diameter: from, end: to, length: Length::ZERO };
    for step in steps {
        if let Some(end) = contour.last().map(|last| last.end).filter(|end| *end != step.diameter) {
            contour.push(face(end, step.diameter));
        }
        contour.push(*step);
    }
    if let Some(end) = contour.last().map(|last| last.end).filter(|end| *end < stock) {
        contour.push(face(end, stock));
    }
    contour
}

/// Formula of [`profile_volume`].
pub const PROFILE_VOLUME: Formula = Formula {
    figure: "volume removed",
    text: "V = sum(pi / 4 * D^2 * L - pi / 12 * L * (d_1^2 + d_1 * d_2 + d_2^2))",
    source: "derived",
};

/// Volume between the stock and an outline.
///
/// V = sum over the steps of pi / 4 * D^2 * L - pi / 12 * L * (d_1^2 + d_1 d_2 + d_2^2)
///
/// # Symbols
/// V volume removed. D diameter of the stock. L length of a step. d_1, d_2 diameters at both sides of it.
/// # Range
/// No step above the stock.
/// # Source
/// \[derived\]: cylinder less truncated cone. Worked examples: tests/published/taper.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::{ProfileStep, profile_volume};
/// use wearland::quantity::Length;
/// let cone = ProfileStep { diameter: Length::mm(40.0), end: Length::mm(60.0), length: Length::mm(100.0) };
/// assert!((profile_volume(Length::mm(60.0), &[cone]).to_cm3() - 83.775_804).abs() < 1e-6);
/// ```
#[must_use]
pub fn profile_volume(stock: Length, steps: &[ProfileStep]) -> Volume {
    let removed = |step: &ProfileStep| {
        ring_volume(stock, Length::ZERO, step.length) - frustum_volume(step.diameter, step.end, step.length)
    };
    steps.iter().map(removed).sum()
}
