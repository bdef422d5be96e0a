//! A turned part as its drawing shows it: steps from the free end, bores, threads, grooves, cross holes.

use super::item::Asked;
use super::work::Side;
use crate::quantity::Length;

/// One end of a turned part. The front is free while the bar is held; the back is parted off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The free end.
    Front,
    /// The end that is parted off.
    Back,
}

impl End {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 2] = [("front", Self::Front), ("back", Self::Back)];
}

/// A cylinder or cone of the outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnStep {
    /// Diameter, at a cone that of its front end.
    pub diameter: Length,
    /// Diameter of the back end of a cone.
    pub end: Option<Length>,
    /// Length along the axis.
    pub length: Length,
    /// Tolerance and finish.
    pub asked: Asked,
}

impl DrawnStep {
    /// Larger diameter.
    #[must_use]
    pub fn high(&self) -> Length {
        self.end.map_or(self.diameter, |end| end.larger(self.diameter))
    }

    /// Smaller diameter.
    #[must_use]
    pub fn low(&self) -> Length {
        self.end.map_or(self.diameter, |end| end.smaller(self.diameter))
    }
}

/// A hole along the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnBore {
    /// Diameter.
    pub diameter: Length,
    /// Depth at full diameter.
    pub depth: Length,
    /// End from which it goes in.
    pub from: End,
    /// Tolerance and finish.
    pub asked: Asked,
}

/// A thread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnThread {
    /// Outside, or inside along the axis.
    pub side: Side,
    /// Nominal diameter.
    pub diameter: Length,
    /// Pitch.
    pub pitch: Length,
    /// Length.
    pub length: Length,
    /// Distance of its start from the front, outside.
    pub at: Length,
    /// End from which it goes in, inside.
    pub from: End,
}

/// A groove around the outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnGroove {
    /// Diameter of its bottom.
    pub diameter: Length,
    /// Width.
    pub width: Length,
    /// Distance of its nearer wall from the front.
    pub at: Length,
}

/// Holes across the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnHole {
    /// Diameter.
    pub diameter: Length,
    /// Depth.
    pub depth: Length,
    /// How many of them.
    pub count: u32,
    /// Tolerance and finish.
    pub asked: Asked,
}

/// What a drawing shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    /// The outline, from the front.
    pub steps: Vec<DrawnStep>,
    /// Holes along the axis.
    pub bores: Vec<DrawnBore>,
    /// Threads.
    pub threads: Vec<DrawnThread>,
    /// Grooves.
    pub grooves: Vec<DrawnGroove>,
    /// Holes across the axis.
    pub cross_holes: Vec<DrawnHole>,
}

/// A feature of a drawing, by its place in the list of its kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Feature {
    /// The stock that a bar leaves on an end, or the end itself.
    Ends,
    /// A step.
    Step(usize),
    /// A bore.
    Bore(usize),
    /// A thread.
    Thread(usize),
    /// A groove.
    Groove(usize),
    /// A cross hole.
    CrossHole(usize),
}

impl Drawing {
    /// Largest diameter.
    #[must_use]
    pub fn thickest(&self) -> Length {
        self.steps.iter().map(DrawnStep::high).fold(Length::ZERO, Length::larger)
    }

    /// Number of steps that are reached from the front: up to the last of the thickest that does not fall towards the back.
    #[must_use]
    pub fn front_steps(&self) -> usize {
        let thick = |step: &DrawnStep| step.high() >= self.thickest();
        let falls = |step: &DrawnStep| step.end.is_some_and(|end| end < step.diameter);
        let rising = self.steps.iter().rposition(|step| thick(step) && !falls(step)).map(|at| at + 1);
        rising.or_else(|| self.steps.iter().position(thick)).unwrap_or(0)
    }

    /// Step in which a distance from the front lies.
    #[must_use]
    pub fn step_at(&self, distance: Length) -> Option<usize> {
        let mut end = Length::ZERO;
        self.steps.iter().position(|step| {
            end += step.length;
            distance.to_mm() < end.to_mm() - 1e-9
        })
    }

    /// Length of all steps.
    #[must_use]
    pub fn length(&self) -> Length {
        self.steps.iter().map(|step| step.length).sum()
    }
}
