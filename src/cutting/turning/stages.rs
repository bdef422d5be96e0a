//! Roughing and finishing passes of one diameter.

use crate::quantity::Length;

use super::pass_count;

/// How a stock on the radius is taken off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PassPlan {
    /// Roughing passes, all of the same depth.
    pub roughing: u32,
    /// Depth of each of them.
    pub depth: Length,
    /// Depth of the finishing pass; nothing if there is none.
    pub finish: Length,
}

/// Splits a stock on the radius into equal roughing passes and one finishing pass of its own depth.
///
/// i = ceil((s - a_f) / a_p), depth (s - a_f) / i
///
/// # Symbols
/// i roughing passes. s stock on the radius. a_f depth of the finishing pass. a_p greatest depth of a roughing pass.
/// # Range
/// a_p above zero. A stock no deeper than the finishing pass is taken by that pass alone.
/// # Source
/// [common-practice].
/// # Example
/// ```
/// use wearland::cutting::turning::pass_plan;
/// use wearland::quantity::Length;
/// let plan = pass_plan(Length::mm(10.0), Length::mm(3.0), Length::mm(0.4));
/// assert_eq!(plan.roughing, 4);
/// assert!((plan.depth.to_mm() - 2.4).abs() < 1e-12);
/// assert_eq!(plan.finish, Length::mm(0.4));
/// ```
#[must_use]
pub fn pass_plan(stock_per_side: Length, depth: Length, finish: Length) -> PassPlan {
    let finish = finish.smaller(stock_per_side).larger(Length::ZERO);
    let rough = stock_per_side - finish;
    let roughing = pass_count(rough, depth);
    let depth = if roughing == 0 { Length::ZERO } else { rough / f64::from(roughing) };
    PassPlan { roughing, depth, finish }
}
