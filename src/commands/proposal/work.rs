//! The work of a proposed cut as a scenario has it.

use super::lines::value;
use crate::cycle::{HoleKind, HoleWork, Side, ThreadWork, TurningWork, Work};
use crate::quantity::{Length, Range, Units};

/// The line of a work.
pub(super) fn work(work: &Work, units: &Units) -> String {
    match work {
        Work::Turning(work) => turning(work, units),
        Work::Thread(work) => thread(work, units),
        Work::Hole(work) => hole(work, units),
        // The planner proposes turned parts alone.
        Work::Milling(_) | Work::Gear(_) | Work::Linear(_) | Work::Grinding(_) => String::new(),
    }
}

fn turning(work: &TurningWork, units: &Units) -> String {
    let text = |length: Length| value(length, units);
    let inwards =
        |diameters: &Range<Length>| format!("from = {}, to = {}", text(diameters.high), text(diameters.low));
    match work {
        TurningWork::Along { side, diameters, end, length, approach, .. } => {
            let end = end.map_or_else(String::new, |end| format!(", end = {}", text(end)));
            let along = format!("length = {}{end}, approach = {}", text(*length), text(*approach));
            match side {
                Side::Outside => format!("turn = {{ {}, {along} }}", inwards(diameters)),
                Side::Inside => {
                    let outwards = format!("from = {}, to = {}", text(diameters.low), text(diameters.high));
                    format!("bore = {{ {outwards}, {along} }}")
                }
            }
        }
        TurningWork::Face { diameters, depth, .. } => {
            format!("face = {{ {}, depth = {} }}", inwards(diameters), text(*depth))
        }
        TurningWork::Part { diameters, .. } => format!("part = {{ {} }}", inwards(diameters)),
        TurningWork::Groove { diameters, width, dwell } => {
            format!("groove = {{ {}, width = {}, dwell = {dwell} }}", inwards(diameters), text(*width))
        }
        // The planner makes steps by turning along, and proposes neither forms nor rolling.
        TurningWork::Profile { .. }
        | TurningWork::Form { .. }
        | TurningWork::Knurl { .. }
        | TurningWork::Burnish { .. } => String::new(),
    }
}

fn thread(work: &ThreadWork, units: &Units) -> String {
    let text = |length: Length| value(length, units);
    let internal = if work.side == Side::Inside { ", internal = true" } else { "" };
    format!(
        "thread = {{ diameter = {}, pitch = {}, length = {}{internal} }}",
        text(work.diameter),
        text(work.pitch),
        text(work.length)
    )
}

fn hole(work: &HoleWork, units: &Units) -> String {
    let text = |length: Length| value(length, units);
    let common = format!("holes = {}, approach = {}", work.holes, text(work.approach));
    match &work.kind {
        HoleKind::Drill { depth, .. } => format!("drill = {{ depth = {}, {common} }}", text(*depth)),
        HoleKind::Ream { depth, .. } => format!("ream = {{ depth = {}, {common} }}", text(*depth)),
        HoleKind::Tap { depth, pitch, .. } => {
            format!("tap = {{ depth = {}, pitch = {}, {common} }}", text(*depth), text(*pitch))
        }
        // The planner drills, reams and taps, and nothing else.
        HoleKind::Centre { .. }
        | HoleKind::Spot { .. }
        | HoleKind::Counterbore { .. }
        | HoleKind::Countersink { .. } => String::new(),
    }
}
