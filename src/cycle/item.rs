//! What is made: parts and products, their routes, operations and cuts.

use crate::cutting::bar::Section;
use crate::cutting::hobbing::{Gear, Hand};
use crate::plant::{Attendance, Machine};
use crate::quantity::{
    CuttingSpeed, Duration, FeedPerRev, FeedPerTooth, Fraction, Hardness, Length, Mass, Money, Range,
};
use crate::tooling::{Condition, Coolant, Material, Tool};

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
    /// Parts first, then products.
    pub items: Vec<Item>,
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
    /// Machines that can do it.
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
    /// Cuts in order; empty at a station.
    pub cuts: Vec<Cut>,
    /// What a station does; `None` where cuts are made.
    pub station: Option<StationWork>,
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
}

/// What a station does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StationWork {
    /// One piece at a time.
    Fixed {
        /// Time for a piece.
        time: Duration,
    },
    /// A load of pieces at a time.
    Batch {
        /// Time for a load.
        time: Duration,
        /// Pieces in a full load.
        pieces: u32,
    },
    /// Several pieces beside each other, each with its own start.
    Slots {
        /// Time for a piece.
        time: Duration,
        /// Places.
        slots: u32,
    },
    /// One piece in so many; the others pass.
    Sample {
        /// Time for a piece.
        time: Duration,
        /// One piece in so many.
        every: u32,
    },
}

/// Feed as the engineer gives it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Feed {
    /// For each revolution.
    PerRev(FeedPerRev),
    /// For each tooth.
    PerTooth(FeedPerTooth),
}

impl Feed {
    /// The advance as a length, for the life law.
    #[must_use]
    pub fn advance(self) -> Length {
        match self {
            Self::PerRev(feed) => Length::mm(feed.to_mm_per_rev()),
            Self::PerTooth(feed) => Length::mm(feed.to_mm_per_tooth()),
        }
    }
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
    /// Feed; threads and taps take their pitch.
    pub feed: Option<Feed>,
    /// Most depth of a pass.
    pub depth: Option<Length>,
    /// Channel or spindle; channels work at the same time.
    pub channel: u32,
    /// Circumstance that changes the speed for equal life.
    pub condition: Option<Condition>,
    /// Coolant, if other than the machine's.
    pub coolant: Option<usize>,
    /// Path at rapid to and from the cut.
    pub rapid: Length,
    /// The work.
    pub work: Work,
}

/// Shape of a milling cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MillShape {
    /// A face, the cutter over the work.
    Face,
    /// A shoulder, the cutter at the side of the work.
    Shoulder,
    /// A slot as wide as the cutter.
    Slot,
}

impl MillShape {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 3] =
        [("face", Self::Face), ("shoulder", Self::Shoulder), ("slot", Self::Slot)];
}

/// The work of a cut; `from` and `to` are diameters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Work {
    /// Turn along the outside.
    Turn {
        /// Diameters before and after.
        diameters: Range<Length>,
        /// Length turned.
        length: Length,
        /// Path before the cut at feed.
        approach: Length,
    },
    /// Bore along the inside.
    Bore {
        /// Diameters before and after.
        diameters: Range<Length>,
        /// Length bored.
        length: Length,
        /// Path before the cut at feed.
        approach: Length,
    },
    /// Face towards the axis.
    Face {
        /// Diameters: inner and outer end.
        diameters: Range<Length>,
        /// Stock faced off.
        depth: Length,
    },
    /// Part off.
    Part {
        /// Diameters: inner and outer end.
        diameters: Range<Length>,
    },
    /// Groove, or plunge a form tool.
    Groove {
        /// Diameters: bottom and top.
        diameters: Range<Length>,
        /// Width of the groove.
        width: Length,
        /// Revolutions at the bottom.
        dwell: f64,
    },
    /// Single-point thread.
    Thread {
        /// Nominal diameter.
        diameter: Length,
        /// Pitch.
        pitch: Length,
        /// Length threaded.
        length: Length,
        /// Passes; `None`: as proposed for the pitch.
        passes: Option<u32>,
        /// Path before the thread.
        run_in: Length,
        /// Path behind the thread.
        run_out: Length,
        /// Inside a hole.
        internal: bool,
    },
    /// Drill.
    Drill {
        /// Depth of the hole at full diameter.
        depth: Length,
        /// Holes in a piece.
        holes: u32,
        /// Path before the hole at feed.
        approach: Length,
        /// Path behind the hole.
        through: Length,
    },
    /// Ream.
    Ream {
        /// Depth of the hole.
        depth: Length,
        /// Holes in a piece.
        holes: u32,
        /// Path before the hole at feed.
        approach: Length,
    },
    /// Tap, in and out.
    Tap {
        /// Depth of the thread.
        depth: Length,
        /// Pitch.
        pitch: Length,
        /// Holes in a piece.
        holes: u32,
        /// Path before the hole.
        approach: Length,
    },
    /// Mill.
    Mill {
        /// Face, shoulder or slot.
        shape: MillShape,
        /// Length milled.
        length: Length,
        /// Width milled at once.
        width: Length,
        /// Depth milled away, in passes of the cut's `depth`.
        depth: Length,
        /// Distance of the cutter's axis from the middle of the work.
        offset: Length,
    },
    /// Hob the part's teeth.
    Hob {
        /// Cuts, each to an equal share of the depth.
        cuts: u32,
        /// Path behind the face width.
        overrun: Option<Length>,
        /// Hands of hob and gear.
        hand: Hand,
        /// Gap between stacked blanks.
        spacer: Length,
    },
}
