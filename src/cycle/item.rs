//! What is made: parts and products, their routes, operations and cuts.

use super::drawing::Drawing;
use super::lots::Lots;
use super::roll::RollTest;
use super::station::StationWork;
use super::work::Work;
use crate::cutting::bar::Section;
use crate::cutting::hobbing::Gear;
use crate::cutting::limits::Support;
use crate::plant::{Attendance, Firm, Machine};
use crate::quantity::{
    CuttingSpeed, Duration, FeedPerRev, FeedPerStroke, FeedPerTooth, Fraction, Hardness, Length, Mass, Money,
    Roughness, SpindleSpeed, Term,
};
use crate::tooling::{ChangePolicy, Condition, Coolant, Material, ScatterBand, Tool};

/// Everything a cycle can refer to. Ids are places in these lists.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// Work materials in use.
    pub materials: Vec<Material>,
    /// Tools in use.
    pub tools: Vec<Tool>,
    /// Coolant states in use.
    pub coolants: Vec<Coolant>,
    /// Machines and stations.
    pub machines: Vec<Machine>,
    /// Firms outside.
    pub firms: Vec<Firm>,
    /// Names of the families of work that are set up alike.
    pub families: Vec<String>,
    /// Parts first, then products.
    pub items: Vec<Item>,
    /// How far lives scatter where a tool does not say; the first that holds counts.
    pub scatter: Vec<ScatterBand>,
    /// When edges come out, where a tool does not say.
    pub policy: ChangePolicy,
}

/// A part or a product.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Key in the scenario.
    pub key: String,
    /// In words.
    pub title: String,
    /// What it is made from.
    pub making: Making,
    /// Operations in the order of the route.
    pub operations: Vec<Operation>,
}

/// What an item is made from.
#[derive(Debug, Clone, PartialEq)]
pub enum Making {
    /// A part, from stock.
    Part {
        /// Its material.
        material: usize,
        /// Its own hardness, if other than usual.
        hardness: Option<Hardness>,
        /// Its finished length, needed for bars.
        length: Option<Length>,
        /// The stock.
        stock: Stock,
        /// Its teeth, if it is a gear.
        gear: Option<Gear>,
        /// What its drawing shows, from which cuts can be proposed.
        drawing: Option<Box<Drawing>>,
    },
    /// A product, from other items: item and pieces of it in one set.
    Product {
        /// The bill of materials.
        parts: Vec<(usize, u32)>,
    },
}

/// Stock of a part.
#[derive(Debug, Clone, PartialEq)]
pub enum Stock {
    /// Cut from bars.
    Bar(Bar),
    /// A casting or blank for each piece.
    Each {
        /// Its mass.
        mass: Option<Mass>,
        /// Its price.
        price: Option<Money>,
    },
}

/// Bar stock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// Round, hexagon or square.
    pub section: Section,
    /// Diameter, or size across flats.
    pub size: Length,
    /// Length of a bar as bought.
    pub length: Length,
    /// Length that cannot be used at the end of a bar.
    pub remnant: Length,
    /// Length faced off once for a bar.
    pub end_facing: Length,
    /// Width of the cut that parts a piece off.
    pub cutoff: Length,
    /// Facing stock on each piece.
    pub facing: Length,
    /// Price for a kilogram.
    pub price_per_kg: Option<Money>,
}

/// One visit to one machine.
#[derive(Debug, Clone, PartialEq)]
pub struct Operation {
    /// Its number on the route: 10, 20.
    pub id: u32,
    /// In words.
    pub title: String,
    /// Machines that can do it; none if it is done outside only.
    pub machines: Vec<usize>,
    /// Time to set a machine up for it.
    pub setup: Duration,
    /// Share of pieces that are good.
    pub good: Fraction,
    /// Pieces in one machine cycle.
    pub pieces: u32,
    /// Loading and unloading.
    pub load: Option<Load>,
    /// Time to pass the piece from main to sub spindle, or to change pallets: once a machine cycle.
    pub transfer: Duration,
    /// Gauging beside the machine.
    pub gauge: Option<Gauge>,
    /// People it holds, if other than the machine says.
    pub attendance: Option<Attendance>,
    /// How the work is held.
    pub hold: Option<Hold>,
    /// Cuts in order; empty at a station.
    pub cuts: Vec<Cut>,
    /// How the changes of its edges are laid.
    pub edge_changes: EdgeChanges,
    /// Rolling of each gear against a master.
    pub roll: Option<RollTest>,
    /// What a station does; `None` where cuts are made.
    pub station: Option<StationWork>,
    /// How pieces go through it in lots.
    pub lots: Lots,
}

/// How the work is held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// What holds it at its ends.
    pub support: Support,
    /// Length out of the chuck, or between the supports.
    pub overhang: Length,
    /// Diameter that bends; `None`: that of the cut.
    pub diameter: Option<Length>,
    /// Diameter in the jaws; `None`: that of the cut.
    pub gripped: Option<Length>,
}

/// Loading and unloading of one machine cycle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// Time for it.
    pub time: Duration,
    /// Who or what does it.
    pub by: LoadedBy,
    /// Whether the machine stands meanwhile.
    pub during: While,
}

/// Who or what loads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LoadedBy {
    /// A person.
    Hand,
    /// A robot.
    Robot,
    /// A gantry.
    Gantry,
    /// The bar feeder.
    Bar,
}

impl LoadedBy {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 4] =
        [("hand", Self::Hand), ("robot", Self::Robot), ("gantry", Self::Gantry), ("bar", Self::Bar)];

    /// As written in scenarios.
    #[must_use]
    pub fn name(self) -> &'static str {
        Self::NAMES.iter().find(|(_, by)| *by == self).map_or("", |(name, _)| name)
    }
}

/// When something is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum While {
    /// The machine stands.
    Stopped,
    /// The machine goes on.
    Cutting,
}

impl While {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 2] = [("stopped", Self::Stopped), ("cutting", Self::Cutting)];
}

/// Gauging of every so many pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gauge {
    /// Time for one.
    pub time: Duration,
    /// One piece in so many.
    pub every: u32,
    /// Whether the machine stands meanwhile.
    pub during: While,
    /// Station on which it is done, shared by machines; `None`: beside the machine.
    pub at: Option<usize>,
}

/// Feed as the engineer gives it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Feed {
    /// For each revolution.
    PerRev(FeedPerRev),
    /// For each tooth.
    PerTooth(FeedPerTooth),
    /// For each stroke.
    PerStroke(FeedPerStroke),
}

impl Feed {
    /// The advance as a length, for the life law.
    #[must_use]
    pub fn advance(self) -> Length {
        match self {
            Self::PerRev(feed) => Length::mm(feed.to_mm_per_rev()),
            Self::PerTooth(feed) => Length::mm(feed.to_mm_per_tooth()),
            Self::PerStroke(feed) => Length::mm(feed.to_mm_per_stroke()),
        }
    }

    /// With its own unit.
    #[must_use]
    pub fn term(self) -> Term {
        match self {
            Self::PerRev(feed) => feed.into(),
            Self::PerTooth(feed) => feed.into(),
            Self::PerStroke(feed) => feed.into(),
        }
    }

    /// As run: a feed for each tooth may be raised where the chip is thin.
    #[must_use]
    pub fn run_at(self, advance: Length) -> Self {
        match self {
            Self::PerTooth(_) => Self::PerTooth(FeedPerTooth::mm_per_tooth(advance.to_mm())),
            Self::PerRev(_) | Self::PerStroke(_) => self,
        }
    }

    /// The same kind of feed, so many times as large.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        match self {
            Self::PerRev(feed) => Self::PerRev(feed * factor),
            Self::PerTooth(feed) => Self::PerTooth(feed * factor),
            Self::PerStroke(feed) => Self::PerStroke(feed * factor),
        }
    }
}

/// Whether the cutting speed of a cut may be chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum SpeedFreedom {
    /// Within the speeds that the life of the tool is trusted for, and the limits of the cut.
    #[default]
    Free,
    /// As the engineer gives it.
    AsGiven,
}

/// What the program may do where a limit is broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Repair {
    /// Lower speed or feed down to the limit.
    SlowDown,
}

impl Repair {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 1] = [("slow down", Self::SlowDown)];
}

/// How the changes of the edges of an operation are laid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EdgeChanges {
    /// Each when it is due.
    Each,
    /// At common stops of several edges.
    Together,
}

impl EdgeChanges {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 2] = [("each", Self::Each), ("together", Self::Together)];
}

/// How the size is brought back while an edge wears.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offset {
    /// Share of the tolerance that wear may take up before the offset is corrected.
    pub share: Fraction,
    /// Most corrections of an edge; `None`: as many as it takes where the operation is gauged, none where it is not.
    pub most: Option<u32>,
}

impl Offset {
    /// Where nothing is said: half of the tolerance for wear, the other half for gauging, heat and the machine (common practice).
    pub const USUAL: Self = Self { share: Fraction::HALF, most: None };
}

/// What the drawing asks of the surface that a cut leaves.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Asked {
    /// Largest mean roughness Ra.
    pub roughness: Option<Roughness>,
    /// Grade of ISO 286: 7 for IT7.
    pub grade: Option<u32>,
    /// Size that the grade belongs to; `None`: the diameter of the cut.
    pub size: Option<Length>,
}

/// One tool's work inside an operation.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// Its name within the operation.
    pub id: String,
    /// The tool.
    pub tool: usize,
    /// Where the tool sits; two cuts with the same tool and place share the edge.
    pub position: String,
    /// Cutting speed.
    pub speed: CuttingSpeed,
    /// Whether another may be chosen.
    pub freedom: SpeedFreedom,
    /// Feed; threads and taps take their pitch.
    pub feed: Option<Feed>,
    /// Most depth of a pass.
    pub depth: Option<Length>,
    /// Flank wear land at which this cut's edge is changed, if other than that of its life law.
    pub wear: Option<Length>,
    /// Channel or spindle; channels work at the same time.
    pub channel: u32,
    /// Circumstance that changes the speed for equal life.
    pub condition: Option<Condition>,
    /// Coolant, if other than the machine's.
    pub coolant: Option<usize>,
    /// Path at rapid to and from the cut.
    pub rapid: Length,
    /// Highest spindle speed allowed for this cut.
    pub fastest: Option<SpindleSpeed>,
    /// Length of the tool out of its holder.
    pub overhang: Option<Length>,
    /// What the drawing asks.
    pub asked: Asked,
    /// How wear is offset until the edge comes out.
    pub offset: Offset,
    /// Tools alike in the magazine, taken one after the other before the machine stops.
    pub sisters: u32,
    /// What may be done where a limit is broken.
    pub repair: Option<Repair>,
    /// The work.
    pub work: Work,
}
