//! Depth and reach of the tool, chips too thin or too thick for its edge.

use super::super::work::{HoleKind, MillShape, MillingWork, TurningWork, Work};
use super::{Held, LimitCheck, LimitOf, Remedy};
use crate::cutting::limits::{EDGE_SHARE, LEAST_CHIP, LEAST_DEPTH, least_chip, least_depth};
use crate::quantity::{Length, Record, Term};

pub(super) fn check(held: &Held<'_>, limits: &mut Vec<LimitCheck>, record: &mut impl Record) {
    let geometry = &held.at.tool().geometry;
    if let (Some(depth), Some(most)) = (along_the_cutter(held), geometry.most_depth) {
        let remedy = Remedy::Other("take more passes: give the cut a smaller `depth`");
        limits.push(LimitCheck::at_most(("depth of cut", LimitOf::Tool), depth, most, remedy));
    }
    if let (Some(depth), Some(most)) = (hole_depth(&held.at.cut.work), geometry.usable_length) {
        let remedy = Remedy::Other("take a longer tool");
        limits.push(LimitCheck::at_most(("depth of the hole", LimitOf::Tool), depth, most, remedy));
    }
    if let (Some(chip), Some(most)) = (held.loads.chip_thickness, geometry.most_chip) {
        limits.push(LimitCheck::at_most(("chip thickness", LimitOf::Tool), chip, most, Remedy::Feed));
    }
    if let (Some(chip), Some(radius)) = (held.loads.chip_thickness, geometry.edge_radius) {
        let least = least_chip(radius, EDGE_SHARE);
        record
            .step(&LEAST_CHIP, least.into(), || vec![("k", Term::Plain(EDGE_SHARE)), ("r_n", radius.into())]);
        let remedy = Remedy::Other("take a sharper edge or more feed");
        let check = LimitCheck::at_least(("least chip", LimitOf::Rule), chip, least, remedy);
        limits.push(check.sourced("memory"));
    }
    limits.extend(least_depth_of_corner(held, record));
}

/// Depth of a pass along the tool; a side is milled by so much of the cutter as the work is high.
fn along_the_cutter(held: &Held<'_>) -> Option<Length> {
    match &held.at.cut.work {
        Work::Milling(MillingWork::Straight(work)) if work.shape == MillShape::Side => Some(work.width),
        _ => held.motion.depth,
    }
}

/// A depth below a third of the corner radius mostly presses the work away.
fn least_depth_of_corner(held: &Held<'_>, record: &mut impl Record) -> Option<LimitCheck> {
    let round_corner = matches!(
        held.at.cut.work,
        Work::Turning(TurningWork::Along { .. } | TurningWork::Profile { .. } | TurningWork::Face { .. })
    );
    let (deepest, radius) = (held.motion.depth?, held.at.tool().geometry.corner_radius?);
    let depth = held.at.cut.work.finish().map_or(deepest, |finish| deepest.smaller(finish.depth));
    if !round_corner {
        return None;
    }
    let least = least_depth(radius);
    record.step(&LEAST_DEPTH, least.into(), || vec![("r", radius.into())]);
    let remedy = Remedy::Other("take a smaller corner radius or leave more stock");
    let check = LimitCheck::at_least(("least depth", LimitOf::Rule), depth, least, remedy);
    Some(check.sourced("common-practice"))
}

fn hole_depth(work: &Work) -> Option<Length> {
    let Work::Hole(hole) = work else { return None };
    if let HoleKind::Drill { depth, through, .. } = hole.kind {
        return Some(depth + through);
    }
    if let HoleKind::Ream { depth, .. } = hole.kind {
        return Some(depth);
    }
    if let HoleKind::Tap { depth, .. } = hole.kind { Some(depth) } else { None }
}
