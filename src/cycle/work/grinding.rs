//! Grinding; all stock is on the radius.

use crate::quantity::{Angle, CuttingSpeed, Duration, FeedPerRev, FeedRate, Length, Range, SpindleSpeed};
use crate::tooling::ToolKind;

/// The work of a grinding wheel. The cut's speed is that of the wheel.
#[derive(Debug, Clone, PartialEq)]
pub enum GrindingWork {
    /// A cylinder, outside or inside, the wheel fed into it.
    Plunge {
        /// Diameters before and after.
        diameters: Range<Length>,
        /// Width ground; wider than the wheel, it takes several plunges.
        width: Length,
        /// Speed of the work at its rim.
        work_speed: CuttingSpeed,
        /// Stages, rough to fine.
        stages: Vec<PlungeStage>,
        /// Time without infeed at the end.
        spark_out: Duration,
    },
    /// A cylinder, outside or inside, the wheel moved along it.
    Traverse {
        /// Diameters before and after.
        diameters: Range<Length>,
        /// Length ground.
        length: Length,
        /// Speed of the work at its rim.
        work_speed: CuttingSpeed,
        /// Stages, rough to fine.
        stages: Vec<TraverseStage>,
        /// Strokes without infeed at the end, at the traverse of the last stage.
        spark_out_passes: u32,
        /// What a stroke is longer than the work at each end; with none, half the wheel runs out there.
        overrun: Length,
    },
    /// Bars or pins between two wheels.
    Centreless(CentrelessWork),
}

/// One stage of a plunge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlungeStage {
    /// Stock.
    pub stock: Length,
    /// Infeed rate, on the radius.
    pub infeed: FeedRate,
}

/// One stage of strokes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TraverseStage {
    /// Stock.
    pub stock: Length,
    /// Most infeed of a stroke.
    pub infeed: Length,
    /// Traverse for each turn of the work.
    pub traverse: FeedPerRev,
}

/// Centreless grinding with through-feed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CentrelessWork {
    /// Diameter before the cut.
    pub diameter: Length,
    /// Length of the piece.
    pub length: Length,
    /// Stock, in equal passes.
    pub stock: Length,
    /// Diameter of the regulating wheel.
    pub regulating_diameter: Length,
    /// Its speed.
    pub regulating_speed: SpindleSpeed,
    /// Its tilt.
    pub regulating_angle: Angle,
    /// Gap to the next piece.
    pub gap: Length,
    /// Passes between the wheels.
    pub passes: u32,
}

impl GrindingWork {
    pub(super) fn tools(&self) -> (&'static [ToolKind], &'static str) {
        (&[ToolKind::Wheel], "a grinding wheel")
    }
}
