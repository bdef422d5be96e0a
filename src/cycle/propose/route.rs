//! The order of the cuts, and which machines can make them.

use super::super::drawing::{Drawing, DrawnStep, End, Feature};
use super::super::item::{Bar, EdgeChanges, Item, Load, LoadedBy, Making, Operation, Shop, Stock, While};
use super::super::lots::Lots;
use super::super::repair::estimate_within_limits;
use super::super::setting::Setting;
use super::choice::{Bench, Proposed};
use super::outside::{Flank, face, flank, grooves, left_behind, part_off, threads};
use super::{holes, outside};
use crate::plant::{Machine, MachineKind};
use crate::quantity::{Duration, Fraction, Length, NoWorkings, Range};
use thiserror::Error;

/// Why a drawing could not be turned into cuts.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum ProposeError {
    /// The part has no drawing, or no bar to turn it from.
    #[error("only a part with a `drawing` and a `bar` can be proposed")]
    NoDrawing,
    /// No lathe in the scenario.
    #[error("the scenario has no lathe")]
    NoLathe,
    /// A step that is lower than both its neighbours.
    #[error("the step behind this one is thinner and cannot be turned from either end")]
    Recess {
        /// Place of the step in front of it.
        step: usize,
    },
    /// No tool makes the feature.
    #[error("no tool makes this feature: it takes {wanted}")]
    NoTool {
        /// The feature.
        feature: Feature,
        /// What it takes.
        wanted: &'static str,
        /// A limit that stands against those that would fit.
        limit: Option<&'static str>,
    },
}

/// A proposed operation.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// Place of the part.
    pub item: usize,
    /// Machines that can make all cuts.
    pub machines: Vec<usize>,
    /// Cuts in order.
    pub cuts: Vec<Proposed>,
    /// Whether the second end is cut in a second spindle.
    pub second_end: bool,
}

/// Proposes the operation of a part that has a drawing.
///
/// # Errors
/// [`ProposeError`] names the feature that cannot be made, and why.
pub fn propose(shop: &Shop, item: usize) -> Result<Proposal, ProposeError> {
    let part = &shop.items[item];
    let Making::Part { stock: Stock::Bar(bar), drawing: Some(drawing), .. } = &part.making else {
        return Err(ProposeError::NoDrawing);
    };
    let lathes: Vec<usize> =
        (0..shop.machines.len()).filter(|id| shop.machines[*id].kind == MachineKind::Lathe).collect();
    let first = *lathes.first().ok_or(ProposeError::NoLathe)?;
    let operation = template();
    let bench = Bench { shop, item: part, operation: &operation, machine: &shop.machines[first] };
    let mut cuts = cuts(&bench, drawing, bar)?;
    seat(&mut cuts);
    let able = |id: &usize| makes_all(shop, part, &cuts, &shop.machines[*id]);
    let machines = lathes.into_iter().filter(able).collect();
    let second_end = cuts.iter().any(|proposed| proposed.cut.channel == 2);
    Ok(Proposal { item, machines, cuts, second_end })
}

fn template() -> Operation {
    Operation {
        id: 10,
        title: "turn complete".to_owned(),
        machines: Vec::new(),
        setup: Duration::ZERO,
        good: Fraction::ONE,
        pieces: 1,
        load: Some(Load { time: Duration::ZERO, by: LoadedBy::Bar, during: While::Stopped }),
        transfer: Duration::ZERO,
        gauge: None,
        attendance: None,
        hold: None,
        cuts: Vec::new(),
        edge_changes: EdgeChanges::Each,
        roll: None,
        station: None,
        lots: Lots::default(),
    }
}

fn cuts(bench: &Bench<'_>, drawing: &Drawing, bar: &Bar) -> Result<Vec<Proposed>, ProposeError> {
    let (ahead, after) = drawing.steps.split_at(drawing.front_steps());
    let through = drawing
        .bores
        .iter()
        .filter(|bore| bore.from == End::Front && bore.depth.to_mm() >= drawing.length().to_mm() - 1e-9)
        .map(|bore| bore.diameter)
        .fold(Length::ZERO, Length::larger);
    let behind: Length = after.iter().map(|step| step.length).sum();
    let front = Flank {
        steps: ahead.iter().copied().enumerate().collect(),
        channel: 1,
        stock: bar.size,
        beyond: behind + bar.facing + bar.cutoff,
    };
    let turned = ahead.last().map_or(bar.size, left_behind).smaller(bar.size);
    let back = Flank {
        steps: after
            .iter()
            .enumerate()
            .rev()
            .map(|(id, step)| (ahead.len() + id, turned_round(step)))
            .collect(),
        channel: 2,
        stock: turned,
        beyond: Length::ZERO,
    };
    let channel_of = |step: usize| if step < ahead.len() { 1 } else { 2 };
    let mut cuts = Vec::new();
    let mut late = Vec::new();
    cuts.extend(face(bench, ("face", 1), Range { low: Length::ZERO, high: bar.size }, bar.facing)?);
    cuts.extend(flank(bench, &front)?);
    cuts.extend(holes::along(bench, drawing, (End::Front, 1), bar.facing + bar.cutoff)?);
    for proposed in
        grooves(bench, drawing, channel_of)?.into_iter().chain(threads(bench, drawing, channel_of)?)
    {
        if proposed.cut.channel == 2 { late.push(proposed) } else { cuts.push(proposed) }
    }
    cuts.extend(holes::across(bench, drawing)?);
    cuts.push(part_off(bench, Range { low: through, high: turned }, bar)?);
    cuts.extend(outside::face(bench, ("face-back", 2), Range { low: through, high: turned }, bar.facing)?);
    cuts.extend(flank(bench, &back)?);
    cuts.extend(holes::along(bench, drawing, (End::Back, 2), Length::ZERO)?);
    cuts.extend(late);
    Ok(cuts)
}

/// A step as seen from the other end.
fn turned_round(step: &DrawnStep) -> DrawnStep {
    match step.end {
        Some(end) => DrawnStep { diameter: end, end: Some(step.diameter), ..*step },
        None => *step,
    }
}

/// Gives each tool its place in the turret; cuts with the same tool in the same channel share the edge.
fn seat(cuts: &mut [Proposed]) {
    let mut seats: Vec<(usize, u32)> = Vec::new();
    for proposed in cuts {
        let seat = (proposed.cut.tool, proposed.cut.channel);
        let place = seats.iter().position(|known| *known == seat).unwrap_or_else(|| {
            seats.push(seat);
            seats.len() - 1
        });
        proposed.cut.position = format!("T{}", place + 1);
    }
}

/// Whether a machine makes all cuts within its limits.
fn makes_all(shop: &Shop, item: &Item, cuts: &[Proposed], machine: &Machine) -> bool {
    let operation = template();
    cuts.iter().all(|proposed| {
        let at = Setting { shop, item, operation: &operation, machine, cut: &proposed.cut };
        estimate_within_limits(&at, &mut NoWorkings).is_ok_and(|estimate| {
            estimate.edge.pieces > 0 && !estimate.limits.iter().any(|limit| limit.broken())
        })
    })
}
