//! Tools: what they are, how many edges they have, what an edge costs.

use super::{ChangePolicy, Group, LifeLaw, Sourced, decode_insert};
use crate::cutting::limits::BoringBar;
use crate::quantity::{Angle, Duration, Length, Money, SpindleSpeed};

/// What a tool is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ToolKind {
    /// Indexable insert for turning, boring or grooving.
    Insert,
    /// Blade or insert that cuts a part from the bar.
    PartingBlade,
    /// Tool ground to the profile of the part.
    FormTool,
    /// Insert of thread profile.
    ThreadingInsert,
    /// Twist, centre or indexable drill.
    Drill,
    /// Reamer.
    Reamer,
    /// Tap.
    Tap,
    /// End mill, face mill, shoulder mill, slot cutter.
    Mill,
    /// Gear hob.
    Hob,
    /// Knurling wheel.
    Knurl,
    /// Burnishing roller.
    Roller,
    /// Centre drill.
    CentreDrill,
    /// Spot drill.
    SpotDrill,
    /// Counterbore.
    Counterbore,
    /// Countersink.
    Countersink,
    /// Tap that forms the thread without chips.
    FormingTap,
    /// Thread mill.
    ThreadMill,
    /// Gear shaper cutter.
    ShaperCutter,
    /// Gear shaving cutter.
    ShavingCutter,
    /// Grinding wheel.
    Wheel,
    /// Threaded wheel for generating grinding of gears.
    GrindingWorm,
    /// Broach.
    Broach,
    /// Saw band.
    SawBand,
}

impl ToolKind {
    /// As written in catalogs, in the order of the list.
    pub const NAMES: [(&'static str, Self); 23] = [
        ("insert", Self::Insert),
        ("parting blade", Self::PartingBlade),
        ("form tool", Self::FormTool),
        ("threading insert", Self::ThreadingInsert),
        ("drill", Self::Drill),
        ("reamer", Self::Reamer),
        ("tap", Self::Tap),
        ("mill", Self::Mill),
        ("hob", Self::Hob),
        ("knurl", Self::Knurl),
        ("burnishing roller", Self::Roller),
        ("centre drill", Self::CentreDrill),
        ("spot drill", Self::SpotDrill),
        ("counterbore", Self::Counterbore),
        ("countersink", Self::Countersink),
        ("forming tap", Self::FormingTap),
        ("thread mill", Self::ThreadMill),
        ("shaper cutter", Self::ShaperCutter),
        ("shaving cutter", Self::ShavingCutter),
        ("grinding wheel", Self::Wheel),
        ("gear grinding worm", Self::GrindingWorm),
        ("broach", Self::Broach),
        ("saw band", Self::SawBand),
    ];

    /// As written in catalogs.
    #[must_use]
    pub fn name(self) -> &'static str {
        Self::NAMES.iter().find(|(_, kind)| *kind == self).map_or("", |(name, _)| name)
    }
}

/// What the edge is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Substrate {
    /// High-speed steel.
    Hss,
    /// Coated high-speed steel.
    CoatedHss,
    /// Uncoated carbide.
    Carbide,
    /// Coated carbide.
    CoatedCarbide,
    /// Cermet.
    Cermet,
    /// Ceramic.
    Ceramic,
    /// Cubic boron nitride.
    Cbn,
    /// Polycrystalline diamond.
    Pcd,
    /// Single-crystal diamond.
    Diamond,
    /// Bonded abrasive grain: corundum, silicon carbide, CBN grain.
    Abrasive,
}

impl Substrate {
    /// As written in catalogs.
    pub const NAMES: [(&'static str, Self); 10] = [
        ("HSS", Self::Hss),
        ("coated HSS", Self::CoatedHss),
        ("carbide", Self::Carbide),
        ("coated carbide", Self::CoatedCarbide),
        ("cermet", Self::Cermet),
        ("ceramic", Self::Ceramic),
        ("CBN", Self::Cbn),
        ("PCD", Self::Pcd),
        ("diamond", Self::Diamond),
        ("abrasive", Self::Abrasive),
    ];

    /// As written in catalogs.
    #[must_use]
    pub fn name(self) -> &'static str {
        Self::NAMES.iter().find(|(_, substrate)| *substrate == self).map_or("", |(name, _)| name)
    }
}

/// What of a tool's shape enters the formulas.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Geometry {
    /// Corner radius r_eps.
    pub corner_radius: Option<Length>,
    /// Edge angle kappa_r.
    pub edge_angle: Option<Angle>,
    /// Clearance of the edge as it stands to the work.
    pub clearance: Option<Angle>,
    /// Width of a parting, grooving or form tool.
    pub width: Option<Length>,
    /// Diameter of a drill, reamer, tap, mill; outside diameter of a hob.
    pub diameter: Option<Length>,
    /// Teeth z of a mill.
    pub teeth: Option<u32>,
    /// Point angle sigma of a drill.
    pub point_angle: Option<Angle>,
    /// Starts of a hob.
    pub starts: Option<u32>,
    /// Gashes of a hob.
    pub gashes: Option<u32>,
    /// Length of a hob that takes part in the cutting, by shifting.
    pub useful_length: Option<Length>,
    /// Largest tip chip thickness of a hob.
    pub most_chip: Option<Length>,
    /// Angle between the axes of a shaving cutter and the gear.
    pub cross_angle: Option<Angle>,
    /// Rounding of the cutting edge.
    pub edge_radius: Option<Length>,
    /// Bar that carries a boring tool.
    pub bar: Option<BoringBar>,
    /// Diameter of that bar.
    pub bar_diameter: Option<Length>,
    /// Most depth of a pass.
    pub most_depth: Option<Length>,
    /// Depth of hole or length of work that the tool reaches.
    pub usable_length: Option<Length>,
    /// Highest spindle speed marked on the tool.
    pub fastest: Option<SpindleSpeed>,
}

/// A tool of the catalog or of the shop.
#[derive(Debug, Clone, PartialEq)]
pub struct Tool {
    /// Key in the catalog.
    pub key: String,
    /// In words.
    pub title: String,
    /// What it is.
    pub kind: ToolKind,
    /// ISO 1832 designation, where there is one.
    pub designation: Option<String>,
    /// What its edge is made of.
    pub substrate: Substrate,
    /// Usable edges of one tool: corners of an insert, sharpenings plus one of a solid tool.
    pub edges: Sourced<u32>,
    /// What of its shape enters the formulas.
    pub geometry: Geometry,
    /// Life by group of work material.
    pub lives: Vec<(Group, LifeLaw)>,
    /// Price of one tool.
    pub price: Option<Money>,
    /// Price of one sharpening.
    pub regrind: Option<Money>,
    /// Time the machine stands for one edge of this tool: to dress a wheel, to change a hob; `None`: as the machine says.
    pub change: Option<Duration>,
    /// Tools in a pack.
    pub pack: u32,
    /// Edges in the crib at the start, beyond those in the machines; `None`: as many as are needed.
    pub on_hand: Option<u32>,
    /// When its edges come out, where that is not left to the shop.
    pub policy: ChangePolicy,
    /// Roughness of the surface that an edge leaves at its wear limit over that of a new one.
    pub worn_finish: Option<f64>,
}

/// Clearance that a holder gives an insert without one of its own, by tilting it.
const TILT: Angle = Angle::deg(6.0);

impl Tool {
    /// How long it lasts in a group of work material.
    #[must_use]
    pub fn life_in(&self, group: Group) -> Option<&LifeLaw> {
        self.lives.iter().find(|(of, _)| *of == group).map(|(_, law)| law)
    }

    /// Clearance of the edge: as stated, or as the second letter of the designation says. An insert without clearance sits
    /// tilted in its holder, by common practice 6 degrees.
    #[must_use]
    pub fn clearance(&self) -> Option<Angle> {
        self.geometry.clearance.or_else(|| {
            let insert = decode_insert(self.designation.as_ref()?).ok()?;
            let own = insert.positions.iter().find(|position| position.number == 2)?.value?;
            Some(if own.base > 0.0 { Angle::deg(own.base) } else { TILT })
        })
    }
}

/// A circumstance of the cut that changes the speed for equal life: interrupted, through skin, internal.
#[derive(Debug, Clone, PartialEq)]
pub struct Condition {
    /// Key in the catalog.
    pub key: String,
    /// In words.
    pub title: String,
    /// Factor on the cutting speed at equal life.
    pub speed_factor: Sourced<f64>,
    /// Band in which it is published.
    pub band: Option<(f64, f64)>,
}

/// Cost of one edge.
///
/// C_edge = (price + (edges - 1) * sharpening) / edges; an insert has no sharpening.
///
/// # Symbols
/// price of one tool and of one sharpening, money; edges a count.
/// # Range
/// At least one edge; `None` where no price is given.
/// # Source
/// \[groover\]
/// # Example
/// ```
/// use wearland::quantity::Money;
/// use wearland::tooling::edge_cost;
/// // A tool of 20 that is sharpened 15 times at 2: 16 edges.
/// let cost = edge_cost(Some(Money::of(20.0)), Some(Money::of(2.0)), 16);
/// assert!((cost.unwrap().amount() - 50.0 / 16.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn edge_cost(price: Option<Money>, regrind: Option<Money>, edges: u32) -> Option<Money> {
    let sharpenings = f64::from(edges.saturating_sub(1));
    Some((price? + regrind.unwrap_or(Money::ZERO) * sharpenings) / f64::from(edges.max(1)))
}
