//! One cut on one machine: cutting data, load on the machine, life of the edge.

use super::cut_life::edge;
use super::forces::loads;
use super::item::Work;
use super::item::{Cut, Item, Making, Operation, Shop};
use super::process::{motion, record_feed_rate};
use crate::cutting::finish::{PEAK_TO_VALLEY, peak_to_valley};
use crate::cutting::force::{MOTOR_POWER, motor_power};
use crate::cutting::hobbing::Gear;
use crate::plant::{Machine, Spindle};
use crate::quantity::{
    Angle, Caution, CuttingSpeed, Duration, FeedPerRev, FeedRate, Force, Hardness, Length, Limit, Measure,
    Power, Quantity, Record, RemovalRate, Roughness, SpindleSpeed, Term, Torque,
};
use crate::tooling::{Coolant, Group, Material, SpeedFactors, Tool};
use thiserror::Error;

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
    /// A coolant has no factor for this edge and material.
    #[error("the coolant has no factor for this edge and material")]
    NoCoolantFactor,
    /// A product has no material to cut, or a part has no teeth to hob.
    #[error("the item has no {missing}")]
    NoPart {
        /// What is missing.
        missing: &'static str,
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

/// The edge of a cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Minutes in cut until worn, at the first pass.
    pub life: Duration,
    /// Share of a life that one piece takes.
    pub share: f64,
    /// Whole pieces an edge makes.
    pub pieces: u32,
    /// What moves the life away from the reference cut.
    pub factors: SpeedFactors,
}

/// A limit of the machine held against what a cut asks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LimitCheck {
    /// Which limit: `power`.
    pub limit: &'static str,
    /// What is asked.
    pub asked: Measure,
    /// What the machine gives.
    pub given: Measure,
}

impl LimitCheck {
    /// Share of the limit that is used.
    #[must_use]
    pub fn used(&self) -> f64 {
        self.asked.base / self.given.base
    }

    /// Whether more is asked than given.
    #[must_use]
    pub fn broken(&self) -> bool {
        self.used() > 1.0 + 1e-9
    }
}

/// One cut worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct CutEstimate {
    /// Diameter on which the speed is held.
    pub diameter: Length,
    /// Spindle speed of the first pass.
    pub spindle_speed: SpindleSpeed,
    /// Cutting speed actually run at the first pass.
    pub speed: CuttingSpeed,
    /// Feed rate of the first pass.
    pub feed_rate: FeedRate,
    /// Passes, holes or plunges of one piece.
    pub passes: u32,
    /// Depth of a pass.
    pub depth: Option<Length>,
    /// Time in cut for a piece.
    pub cut_time: Duration,
    /// Time at rapid for a piece.
    pub rapid_time: Duration,
    /// Metal removed in a minute.
    pub removal_rate: Option<RemovalRate>,
    /// Cutting force.
    pub force: Option<Force>,
    /// Power at the edge.
    pub power: Option<Power>,
    /// Torque at the spindle.
    pub torque: Option<Torque>,
    /// Theoretical height of the feed marks, Rt.
    pub roughness: Option<Roughness>,
    /// The edge.
    pub edge: Edge,
    /// Limits of the machine, used or broken.
    pub limits: Vec<LimitCheck>,
    /// The speed asked for is out of the spindle's reach; it runs at its fastest.
    pub capped: bool,
    /// Figures outside their range.
    pub cautions: Vec<Caution>,
}

/// Works out one cut.
///
/// # Errors
/// [`CutError`] says what the cut, its tool or its machine lacks.
pub fn estimate_cut(at: &Setting<'_>, record: &mut impl Record) -> Result<CutEstimate, CutError> {
    let motion = motion(at, record)?;
    record_feed_rate(&motion, at.cut.feed, record);
    let loads = loads(at, &motion, record)?;
    let (edge, stretched) = edge(at, &motion, record)?;
    let spindle = at.spindle()?;
    let mut limits = Vec::new();
    if let Some(power) = loads.power {
        let motor = motor_power(power, spindle.efficiency.value());
        record.step(&MOTOR_POWER, motor.into(), || {
            vec![("P_c", power.into()), ("eta", Term::Plain(spindle.efficiency.value()))]
        });
        limits.push(LimitCheck { limit: "power", asked: motor.measure(), given: spindle.power.measure() });
    }
    if let Some(torque) = loads.torque {
        limits.push(LimitCheck { limit: "torque", asked: torque.measure(), given: spindle.torque.measure() });
    }
    if let Some(fastest) = at.machine.feed_limit {
        limits.push(LimitCheck {
            limit: "feed rate",
            asked: motion.feed_rate.measure(),
            given: fastest.measure(),
        });
    }
    let rapid_time = at
        .machine
        .rapid
        .map_or(Duration::ZERO, |rate| Duration::min(motion.rapid.to_mm() / rate.to_mm_per_min()));
    let speed = motion.runs.first().map_or(at.cut.speed, |(speed, _)| *speed);
    let mut cautions: Vec<Caution> = stretched.into_iter().collect();
    if motion.capped {
        cautions.push(Caution {
            subject: "cutting speed",
            value: at.cut.speed.measure(),
            limit: Limit::AtMost(speed.measure()),
            remark: "the spindle runs at its fastest and the cut is slower than asked",
            source: "scenario".to_owned(),
        });
    }
    Ok(CutEstimate {
        diameter: motion.diameter,
        spindle_speed: motion.spindle_speed,
        speed,
        feed_rate: motion.feed_rate,
        passes: motion.passes,
        depth: motion.depth,
        cut_time: motion.runs.iter().map(|(_, time)| *time).sum::<Duration>() + motion.back,
        rapid_time,
        removal_rate: loads.removal_rate,
        force: loads.force,
        power: loads.power,
        torque: loads.torque,
        roughness: at.roughness(motion.advance, record),
        edge,
        limits,
        capped: motion.capped,
        cautions,
    })
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

    /// Edge angle of the tool; square to the feed where it states none.
    pub(super) fn edge_angle(&self) -> Angle {
        self.tool().geometry.edge_angle.unwrap_or(Angle::deg(90.0))
    }

    /// Point angle of the drill; 118 degrees where it states none.
    pub(super) fn point_angle(&self) -> Angle {
        self.tool().geometry.point_angle.unwrap_or(Angle::deg(118.0))
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

    fn roughness(&self, advance: Length, record: &mut impl Record) -> Option<Roughness> {
        if !matches!(self.cut.work, Work::Turn { .. } | Work::Bore { .. } | Work::Face { .. }) {
            return None;
        }
        let radius = self.tool().geometry.corner_radius?;
        let feed = FeedPerRev::mm_per_rev(advance.to_mm());
        let height = peak_to_valley(feed, radius);
        record.step(&PEAK_TO_VALLEY, height.into(), || vec![("f", feed.into()), ("r_eps", radius.into())]);
        Some(height)
    }
}
