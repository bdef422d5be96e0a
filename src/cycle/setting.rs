//! Where a cut is made - part, operation, machine, tool - and what it lacks before it can be worked out.

use super::item::{Cut, Item, Making, Operation, Shop};
use crate::cutting::hobbing::Gear;
use crate::plant::{Machine, Spindle};
use crate::quantity::{Angle, Hardness, Length, SpindleSpeed};
use crate::tooling::{Coolant, Group, Material, Tool};
use thiserror::Error;

/// Most passes of a cut; more is a slip of the pen in its depth or diameters.
pub(super) const MOST_PASSES: u32 = 1000;

/// What a cut lacks before it can be worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum CutError {
    /// The machine has no main drive.
    #[error("the machine has no spindle")]
    NoSpindle,
    /// The cut has no feed, or one of the other kind.
    #[error("this cut needs a feed in {wanted}")]
    NoFeed {
        /// Unit that would do.
        wanted: &'static str,
    },
    /// The tool does not state a measure that the cut needs.
    #[error("the tool states no {missing}, which this cut needs")]
    NoGeometry {
        /// Key in the tool.
        missing: &'static str,
    },
    /// The tool has no life data for the material.
    #[error("the tool has no life data for ISO group {}", group.letter())]
    NoLifeData {
        /// Group of the material.
        group: Group,
    },
    /// The cut states a wear land and the life of the tool does not.
    #[error("the life of this tool states no `wear` against which that of the cut can be read")]
    NoWearLand,
    /// A coolant has no factor for this edge and material.
    #[error("the coolant has no factor for this edge and material")]
    NoCoolantFactor,
    /// A product has no material to cut, or a part has no teeth to hob.
    #[error("the item has no {missing}")]
    NoPart {
        /// What is missing.
        missing: &'static str,
    },
    /// The depth is so small that the cut takes more passes than anybody would make.
    #[error("this cut takes {passes} passes; expected at most {MOST_PASSES}")]
    TooManyPasses {
        /// Passes it would take.
        passes: u32,
    },
    /// The tool is smaller than the diameter it is to make.
    #[error("the tool's diameter is less than the one it is to make")]
    ToolTooSmall,
    /// The tool is too large for the work, or too small to do all of it.
    #[error("this tool does not fit: {why}")]
    DoesNotFit {
        /// What is in its way.
        why: &'static str,
    },
    /// The tool cannot do this work.
    #[error("this kind of tool does not do this work")]
    WrongTool,
}

/// Where a cut is made: all that it refers to.
#[derive(Debug, Clone, Copy)]
pub struct Setting<'a> {
    /// The lists that ids point into.
    pub shop: &'a Shop,
    /// The part.
    pub item: &'a Item,
    /// The operation.
    pub operation: &'a Operation,
    /// The machine.
    pub machine: &'a Machine,
    /// The cut.
    pub cut: &'a Cut,
}

impl<'a> Setting<'a> {
    /// The tool of the cut.
    #[must_use]
    pub fn tool(&self) -> &'a Tool {
        &self.shop.tools[self.cut.tool]
    }

    /// The coolant of the cut: its own or the machine's.
    #[must_use]
    pub fn coolant(&self) -> Option<&'a Coolant> {
        self.cut.coolant.or(self.machine.coolant).map(|id| &self.shop.coolants[id])
    }

    /// The material of the part; a product is never cut, which `input` makes sure of.
    #[must_use]
    pub fn material(&self) -> &'a Material {
        match self.item.making {
            Making::Part { material, .. } => &self.shop.materials[material],
            Making::Product { .. } => &self.shop.materials[0],
        }
    }

    pub(super) fn part_hardness(&self) -> Option<Hardness> {
        match self.item.making {
            Making::Part { hardness, .. } => hardness,
            Making::Product { .. } => None,
        }
    }

    pub(super) fn gear(&self) -> Result<&'a Gear, CutError> {
        match &self.item.making {
            Making::Part { gear: Some(gear), .. } => Ok(gear),
            _ => Err(CutError::NoPart { missing: "gear data" }),
        }
    }

    pub(super) fn spindle(&self) -> Result<Spindle, CutError> {
        self.machine.spindle.ok_or(CutError::NoSpindle)
    }

    /// Highest spindle speed of the cut: of the machine, of the tool, or as given for the cut.
    pub(super) fn fastest(&self) -> Result<SpindleSpeed, CutError> {
        let mut fastest = self.spindle()?.fastest;
        for other in [self.cut.fastest, self.tool().geometry.fastest].into_iter().flatten() {
            fastest = fastest.smaller(other);
        }
        Ok(fastest)
    }

    /// Edge angle of the tool; square to the feed where it states none.
    pub(super) fn edge_angle(&self) -> Angle {
        self.tool().geometry.edge_angle.unwrap_or(Angle::deg(90.0))
    }

    /// Point angle of the drill; 118 degrees where it states none.
    pub(super) fn point_angle(&self) -> Angle {
        self.tool().geometry.point_angle.unwrap_or(Angle::deg(118.0))
    }

    /// Angle of a tool whose depth follows from it.
    pub(super) fn sharp_angle(&self) -> Result<Angle, CutError> {
        self.tool().geometry.point_angle.ok_or(CutError::NoGeometry { missing: "point_angle" })
    }

    pub(super) fn tool_width(&self) -> Result<Length, CutError> {
        self.tool().geometry.width.ok_or(CutError::NoGeometry { missing: "width" })
    }

    pub(super) fn tool_diameter(&self) -> Result<Length, CutError> {
        self.tool().geometry.diameter.ok_or(CutError::NoGeometry { missing: "diameter" })
    }

    pub(super) fn teeth(&self) -> Result<u32, CutError> {
        self.tool().geometry.teeth.ok_or(CutError::NoGeometry { missing: "teeth" })
    }

    pub(super) fn starts(&self) -> Result<u32, CutError> {
        self.tool().geometry.starts.ok_or(CutError::NoGeometry { missing: "starts" })
    }

    pub(super) fn hob_teeth(&self) -> Result<(u32, Length), CutError> {
        let geometry = &self.tool().geometry;
        let gashes = geometry.gashes.ok_or(CutError::NoGeometry { missing: "gashes" })?;
        let length = geometry.useful_length.ok_or(CutError::NoGeometry { missing: "useful_length" })?;
        Ok((gashes, length))
    }
}
