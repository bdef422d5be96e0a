//! Equivalent chip thickness: chip section over the length of edge that cuts it.

use crate::quantity::{Angle, FeedPerRev, Formula, Length};

/// Formula of [`turning_equivalent_chip`].
pub const TURNING_EQUIVALENT_CHIP: Formula = Formula {
    figure: "equivalent chip thickness",
    text: "h_e = a_p * f / ((a_p - r * (1 - cos(kappa))) / sin(kappa) + kappa * r + f / 2)",
    source: "woxen-1932",
};

/// The part of a tool that meets the work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CornerAndEdge {
    /// Corner radius.
    pub radius: Length,
    /// Edge angle to the feed direction.
    pub edge_angle: Angle,
}

/// Equivalent chip thickness after Woxen.
///
/// h_e = a_p f / ((a_p - r (1 - cos kappa)) / sin kappa + kappa r + f / 2), kappa in the arc in radians
///
/// # Symbols
/// h_e equivalent chip thickness. a_p depth of cut. f feed. r corner radius. kappa edge angle.
/// # Range
/// kappa above 0, below 180 degrees. A depth within the corner, below r (1 - cos kappa), engages the arc alone:
/// r arccos(1 - a_p / r) in place of the first two terms.
/// # Source
/// [woxen-1932]. Worked examples: tests/published/life.toml.
/// # Example
/// ```
/// use wearland::cutting::turning::{CornerAndEdge, turning_equivalent_chip};
/// use wearland::quantity::{Angle, FeedPerRev, Length};
/// let tool = CornerAndEdge { radius: Length::mm(0.8), edge_angle: Angle::deg(95.0) };
/// let chip = turning_equivalent_chip(Length::mm(2.0), FeedPerRev::mm_per_rev(0.3), tool);
/// assert!((chip.to_mm() - 0.229793).abs() < 1e-6);
/// ```
#[must_use]
pub fn turning_equivalent_chip(depth: Length, feed: FeedPerRev, tool: CornerAndEdge) -> Length {
    let (radius, angle) = (tool.radius.to_mm(), tool.edge_angle.to_rad());
    let (depth, feed) = (depth.to_mm(), feed.to_mm_per_rev());
    let beyond_corner = depth - radius * (1.0 - angle.cos());
    let edge = if beyond_corner >= 0.0 {
        beyond_corner / angle.sin() + angle * radius
    } else {
        radius * (1.0 - depth / radius).acos()
    };
    Length::mm(depth * feed / (edge + feed / 2.0))
}

#[cfg(test)]
mod tests {
    use super::{CornerAndEdge, turning_equivalent_chip};
    use crate::quantity::{Angle, FeedPerRev, Length};

    #[test]
    fn the_arc_meets_the_straight_edge() {
        let tool = CornerAndEdge { radius: Length::mm(0.8), edge_angle: Angle::deg(75.0) };
        let joint = 0.8 * (1.0 - 75_f64.to_radians().cos());
        let chip = |depth| turning_equivalent_chip(Length::mm(depth), FeedPerRev::mm_per_rev(0.2), tool);
        assert!((chip(joint - 1e-9) / chip(joint + 1e-9) - 1.0).abs() < 1e-6);
        assert!(chip(0.1) < chip(joint));
    }
}
