//! Turning: along, across, into, by rolling; `low` and `high` are diameters.

use super::FinishPass;
use crate::cutting::turning::ProfileStep;
use crate::quantity::{Fraction, Length, Range};
use crate::tooling::ToolKind;

/// Outside or inside of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Outside.
    Outside,
    /// Inside a hole.
    Inside,
}

/// Less feed near the end of a cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlowFeed {
    /// Diameter from which on it holds.
    pub below: Length,
    /// Share of the feed that is left.
    pub share: Fraction,
}

/// The work of a turning tool.
#[derive(Debug, Clone, PartialEq)]
pub enum TurningWork {
    /// Turn along the outside, or bore along the inside.
    Along {
        /// Outside or inside.
        side: Side,
        /// Diameters before and after.
        diameters: Range<Length>,
        /// Diameter at the far end of a taper; `None`: a cylinder.
        end: Option<Length>,
        /// Length turned.
        length: Length,
        /// Path before the cut at feed.
        approach: Length,
        /// Last pass to size.
        finish: Option<FinishPass>,
    },
    /// Turn an outline of steps from bar or blank.
    Profile {
        /// Diameter of the stock.
        stock: Length,
        /// Steps from the free end inwards.
        steps: Vec<ProfileStep>,
        /// Path before the cut at feed.
        approach: Length,
        /// Last pass along the whole outline.
        finish: Option<FinishPass>,
    },
    /// Face towards the axis.
    Face {
        /// Diameters: inner and outer end.
        diameters: Range<Length>,
        /// Stock faced off.
        depth: Length,
        /// Last pass to size.
        finish: Option<FinishPass>,
    },
    /// Part off.
    Part {
        /// Diameters: inner and outer end.
        diameters: Range<Length>,
        /// Less feed near the centre.
        slow: Option<SlowFeed>,
    },
    /// Groove, in plunges of the width of the blade.
    Groove {
        /// Diameters: bottom and top.
        diameters: Range<Length>,
        /// Width of the groove.
        width: Length,
        /// Revolutions at the bottom.
        dwell: f64,
    },
    /// Plunge a form tool over its whole contact.
    Form {
        /// Smallest and largest diameter of the form.
        diameters: Range<Length>,
        /// Width of the contact.
        width: Length,
        /// Revolutions at the bottom.
        dwell: f64,
    },
    /// Knurl: along the axis, or by plunging where the wheel is as wide as the knurl is long.
    Knurl {
        /// Diameter.
        diameter: Length,
        /// Length knurled.
        length: Length,
        /// Path before the knurl at feed.
        approach: Length,
        /// Revolutions of a plunge.
        revolutions: f64,
    },
    /// Burnish with rollers.
    Burnish {
        /// Outside or inside.
        side: Side,
        /// Diameter.
        diameter: Length,
        /// Length burnished.
        length: Length,
        /// Path before it at feed.
        approach: Length,
        /// Passes.
        passes: u32,
    },
}

impl TurningWork {
    pub(super) fn tools(&self) -> (&'static [ToolKind], &'static str) {
        match self {
            Self::Along { .. } | Self::Profile { .. } | Self::Face { .. } => {
                (&[ToolKind::Insert], "an insert")
            }
            Self::Part { .. } => (&[ToolKind::PartingBlade], "a parting blade"),
            Self::Groove { .. } => {
                (&[ToolKind::Insert, ToolKind::PartingBlade], "an insert or parting blade")
            }
            Self::Form { .. } => (&[ToolKind::FormTool], "a form tool"),
            Self::Knurl { .. } => (&[ToolKind::Knurl], "a knurl"),
            Self::Burnish { .. } => (&[ToolKind::Roller], "a burnishing roller"),
        }
    }

    pub(super) fn outermost(&self) -> Option<Length> {
        match self {
            Self::Along { side: Side::Inside, .. } | Self::Burnish { side: Side::Inside, .. } => None,
            Self::Along { diameters, .. }
            | Self::Face { diameters, .. }
            | Self::Part { diameters, .. }
            | Self::Groove { diameters, .. }
            | Self::Form { diameters, .. } => Some(diameters.high),
            Self::Profile { stock, .. } => Some(*stock),
            Self::Knurl { diameter, .. } | Self::Burnish { diameter, .. } => Some(*diameter),
        }
    }

    pub(super) fn length_along(&self) -> Option<Length> {
        match self {
            Self::Along { length, .. } | Self::Knurl { length, .. } | Self::Burnish { length, .. } => {
                Some(*length)
            }
            Self::Profile { steps, .. } => Some(steps.iter().map(|step| step.length).sum()),
            Self::Face { .. } | Self::Part { .. } | Self::Groove { .. } | Self::Form { .. } => None,
        }
    }

    pub(super) fn finish(&self) -> Option<FinishPass> {
        match self {
            Self::Along { finish, .. } | Self::Profile { finish, .. } | Self::Face { finish, .. } => *finish,
            Self::Part { .. }
            | Self::Groove { .. }
            | Self::Form { .. }
            | Self::Knurl { .. }
            | Self::Burnish { .. } => None,
        }
    }
}
