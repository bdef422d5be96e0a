//! Holes: drilled alone, drilled and reamed, drilled and bored, drilled and tapped - by size, tolerance and finish.

use super::super::drawing::{Drawing, DrawnBore, End, Feature};
use super::super::item::Asked;
use super::super::work::{DeepHoles, HoleKind, HoleWork, Side, TurningWork, Work};
use super::choice::{Bench, Proposed, Wish};
use super::outside::APPROACH;
use super::route::ProposeError;
use crate::quantity::{Length, Range};
use crate::tooling::{Tool, ToolKind};

/// Finest grade that a drill alone keeps: common practice (drilling IT10 to IT13).
const DRILLED_GRADE: u32 = 10;
/// Finest roughness that a drill alone leaves, um Ra: common practice (1.6 to 6.3).
const DRILLED_ROUGHNESS: f64 = 3.2;
/// Least and most stock on the diameter for a reamer, mm, and as a share of the diameter: common practice.
const REAMED: (f64, f64, f64) = (0.1, 0.4, 0.03);
/// Least stock on the diameter for a boring tool, mm.
const BORED: f64 = 0.4;
/// Clearance between a boring bar and the hole it starts in, as a share of the hole.
const BAR_IN_HOLE: f64 = 0.8;
/// Most that a core hole may differ from d - P, as shares of the pitch, down and up: common practice.
const CORE: (f64, f64) = (0.06, 0.2);

/// A hole to be made.
#[derive(Clone, Copy)]
struct Hole {
    feature: Feature,
    diameter: Length,
    depth: Length,
    count: u32,
    channel: u32,
    asked: Asked,
}

/// All holes of one end along the axis, the deepest first; then the threads in them.
pub(super) fn along(
    bench: &Bench<'_>,
    drawing: &Drawing,
    from: (End, u32),
    beyond: Length,
) -> Result<Vec<Proposed>, ProposeError> {
    let (end, channel) = from;
    let mut bores: Vec<(usize, &DrawnBore)> =
        drawing.bores.iter().enumerate().filter(|(_, bore)| bore.from == end).collect();
    bores.sort_by(|one, other| other.1.depth.total_cmp(&one.1.depth).then(one.0.cmp(&other.0)));
    let mut cuts = Vec::new();
    for (id, bore) in bores {
        let hole = Hole {
            feature: Feature::Bore(id),
            diameter: bore.diameter,
            // A through bore reaches past the cut that parts the piece off.
            depth: if bore.depth.to_mm() >= drawing.length().to_mm() - 1e-9 {
                bore.depth + beyond
            } else {
                bore.depth
            },
            count: 1,
            channel,
            asked: bore.asked,
        };
        cuts.extend(self::hole(bench, &hole)?);
    }
    for (id, thread) in drawing.threads.iter().enumerate() {
        if thread.side == Side::Inside && thread.from == end {
            cuts.extend(tapped(bench, (id, thread.diameter, thread.pitch, thread.length), channel)?);
        }
    }
    Ok(cuts)
}

/// All holes across the axis.
pub(super) fn across(bench: &Bench<'_>, drawing: &Drawing) -> Result<Vec<Proposed>, ProposeError> {
    let mut cuts = Vec::new();
    for (id, drawn) in drawing.cross_holes.iter().enumerate() {
        let hole = Hole {
            feature: Feature::CrossHole(id),
            diameter: drawn.diameter,
            depth: drawn.depth,
            count: drawn.count,
            channel: 1,
            asked: drawn.asked,
        };
        cuts.extend(self::hole(bench, &hole)?);
    }
    Ok(cuts)
}

fn same(one: Length, other: Length) -> bool {
    (one.to_mm() - other.to_mm()).abs() < 1e-6
}

fn is_of(tool: &Tool, diameter: Length) -> bool {
    tool.geometry.diameter.is_some_and(|own| same(own, diameter))
}

fn hole(bench: &Bench<'_>, hole: &Hole) -> Result<Vec<Proposed>, ProposeError> {
    let fine = hole.asked.grade.is_some_and(|grade| grade < DRILLED_GRADE)
        || hole.asked.roughness.is_some_and(|asked| asked.to_um() < DRILLED_ROUGHNESS);
    if !fine && exists(bench, ToolKind::Drill, hole.diameter) {
        return Ok(vec![drill(bench, hole, hole.diameter, hole.asked)?]);
    }
    let (least, most, share) = REAMED;
    let most = most.max(share * hole.diameter.to_mm());
    if exists(bench, ToolKind::Reamer, hole.diameter)
        && let Some(core) =
            largest_drill(bench, (hole.diameter.to_mm() - most, hole.diameter.to_mm() - least))
    {
        let wish = Wish {
            feature: hole.feature,
            id: named("ream", hole.feature),
            work: Work::Hole(HoleWork {
                holes: hole.count,
                approach: APPROACH,
                kind: HoleKind::Ream { depth: hole.depth, through: Length::ZERO },
            }),
            channel: hole.channel,
            asked: hole.asked,
            deep: false,
        };
        let ream = bench.choose(&wish, |tool| is_of(tool, hole.diameter))?;
        return Ok(vec![drill(bench, hole, core, Asked::default())?, ream]);
    }
    bored(bench, hole)
}

/// Drilled, then bored to size: only along the axis, where the part turns.
fn bored(bench: &Bench<'_>, hole: &Hole) -> Result<Vec<Proposed>, ProposeError> {
    let nothing =
        ProposeError::NoTool { feature: hole.feature, wanted: "a drill or reamer of this size", limit: None };
    if matches!(hole.feature, Feature::CrossHole(_)) {
        return Err(nothing);
    }
    let Some(core) = largest_drill(bench, (0.0, hole.diameter.to_mm() - BORED)) else { return Err(nothing) };
    let wish = Wish {
        feature: hole.feature,
        id: named("bore", hole.feature),
        work: Work::Turning(TurningWork::Along {
            side: Side::Inside,
            diameters: Range { low: core, high: hole.diameter },
            end: None,
            finish: None,
            length: hole.depth,
            approach: APPROACH,
        }),
        channel: hole.channel,
        asked: hole.asked,
        deep: true,
    };
    let bar_fits =
        |tool: &Tool| tool.geometry.bar_diameter.is_some_and(|bar| bar.to_mm() <= core.to_mm() * BAR_IN_HOLE);
    let bore = bench.choose(&wish, bar_fits)?;
    Ok(vec![drill(bench, hole, core, Asked::default())?, bore])
}

/// Core hole and tap.
fn tapped(
    bench: &Bench<'_>,
    thread: (usize, Length, Length, Length),
    channel: u32,
) -> Result<Vec<Proposed>, ProposeError> {
    let (id, diameter, pitch, length) = thread;
    let feature = Feature::Thread(id);
    let core = diameter.to_mm() - pitch.to_mm();
    let Some(drilled) = largest_drill(bench, (core - CORE.0 * pitch.to_mm(), core + CORE.1 * pitch.to_mm()))
    else {
        return Err(ProposeError::NoTool {
            feature,
            wanted: "a drill for the core hole, d - P",
            limit: None,
        });
    };
    let hole = Hole {
        feature,
        diameter: drilled,
        // The chamfer of the tap needs room below the thread.
        depth: length + pitch * 3.0,
        count: 1,
        channel,
        asked: Asked::default(),
    };
    let wish = Wish {
        feature,
        id: named("tap", feature),
        work: Work::Hole(HoleWork {
            holes: 1,
            approach: APPROACH,
            kind: HoleKind::Tap { depth: length, pitch, faster_back: 1.0 },
        }),
        channel,
        asked: Asked::default(),
        deep: false,
    };
    let tap = bench.choose(&wish, |tool| tool.kind == ToolKind::Tap && is_of(tool, diameter))?;
    Ok(vec![drill(bench, &hole, drilled, Asked::default())?, tap])
}

fn drill(bench: &Bench<'_>, hole: &Hole, diameter: Length, asked: Asked) -> Result<Proposed, ProposeError> {
    let wish = Wish {
        feature: hole.feature,
        id: named("drill", hole.feature),
        work: Work::Hole(HoleWork {
            holes: hole.count,
            approach: APPROACH,
            kind: HoleKind::Drill {
                depth: hole.depth,
                through: Length::ZERO,
                pecks: None,
                deep_hole: DeepHoles::AsGiven,
            },
        }),
        channel: hole.channel,
        asked,
        deep: false,
    };
    bench.choose(&wish, |tool| is_of(tool, diameter))
}

fn named(what: &str, feature: Feature) -> String {
    match feature {
        Feature::Bore(id) => format!("{what}-bore-{}", id + 1),
        Feature::Thread(id) => format!("{what}-thread-{}", id + 1),
        Feature::CrossHole(id) => format!("{what}-cross-hole-{}", id + 1),
        Feature::Ends | Feature::Step(_) | Feature::Groove(_) => what.to_owned(),
    }
}

/// Whether there is a tool of this kind and size that can cut the material.
fn exists(bench: &Bench<'_>, kind: ToolKind, diameter: Length) -> bool {
    bench.tools(kind).any(|(_, tool)| is_of(tool, diameter) && bench.law(tool).is_some())
}

/// The largest drill of a range of diameters, mm, that can cut the material.
fn largest_drill(bench: &Bench<'_>, range: (f64, f64)) -> Option<Length> {
    let (low, high) = range;
    bench
        .tools(ToolKind::Drill)
        .filter(|(_, tool)| bench.law(tool).is_some())
        .filter_map(|(_, tool)| tool.geometry.diameter)
        .filter(|own| low - 1e-9 <= own.to_mm() && own.to_mm() <= high + 1e-9)
        .max_by(Length::total_cmp)
}
