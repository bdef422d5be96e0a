//! Holes.

use super::super::read::{self, Bounds};
use super::super::{Fields, Spanned};
use super::{APPROACH, MOST_TURNS, length, length_or, pitch};
use crate::cutting::drilling::Retract;
use crate::cycle::{DeepHoles, HoleKind, HoleWork, Pecks};
use crate::diag::{Code, Diagnostic};
use crate::quantity::Length;

/// Keys of this family.
pub(super) const KINDS: [&str; 7] = ["centre", "spot", "drill", "ream", "counterbore", "countersink", "tap"];

/// Lift of a chip break, and distance kept from the bottom after a full retract, where none is given.
const LIFT: Length = Length::mm(0.5);

/// Most that a tap's way back may be faster than its way in.
const FASTEST_BACK: f64 = 10.0;

pub(super) fn work(kind: &str, fields: &mut Fields<'_, '_>) -> Option<HoleWork> {
    let holes = fields.optional("holes", read::count).map_or(1, |holes| holes.value);
    let approach = length_or(fields, "approach", APPROACH);
    let kind = match kind {
        "centre" => {
            let (depth, dwell) = (length(fields, "depth"), dwell(fields));
            HoleKind::Centre { depth: depth?, dwell }
        }
        "spot" => {
            let (diameter, dwell) = (length(fields, "diameter"), dwell(fields));
            HoleKind::Spot { diameter: diameter?, dwell }
        }
        "drill" => drill(fields, approach)?,
        "ream" => {
            let depth = length(fields, "depth");
            let through = length_or(fields, "through", Length::ZERO);
            HoleKind::Ream { depth: depth?, through }
        }
        "counterbore" => {
            let (depth, dwell) = (length(fields, "depth"), dwell(fields));
            HoleKind::Counterbore { depth: depth?, dwell }
        }
        "countersink" => countersink(fields)?,
        _ => {
            let depth = length(fields, "depth");
            let pitch = fields.required("pitch", pitch).map(|pitch| pitch.value);
            let faster = fields.optional("faster_back", read::number_between(1.0, FASTEST_BACK));
            HoleKind::Tap {
                depth: depth?,
                pitch: pitch?,
                faster_back: faster.map_or(1.0, |faster| faster.value),
            }
        }
    };
    Some(HoleWork { holes, approach, kind })
}

fn dwell(fields: &mut Fields<'_, '_>) -> f64 {
    fields.optional("dwell", read::number_between(0.0, MOST_TURNS)).map_or(0.0, |dwell| dwell.value)
}

fn countersink(fields: &mut Fields<'_, '_>) -> Option<HoleKind> {
    let diameter = fields.required("diameter", read::quantity::<Length>(Bounds::Positive));
    let hole = fields.optional("hole", read::quantity::<Length>(Bounds::Positive));
    let dwell = dwell(fields);
    let diameter = diameter?;
    if let Some(hole) = hole.as_ref().filter(|hole| hole.value >= diameter.value) {
        fields.diagnostics().push(
            Diagnostic::new(Code::Geometry, "this countersink leaves nothing to cut")
                .at(hole.span, "expected less than `diameter`")
                .also(diameter.span, "`diameter` is here")
                .help("`diameter` is that at the face, `hole` that of the hole"),
        );
        return None;
    }
    let hole = hole.map_or(Length::ZERO, |hole| hole.value);
    Some(HoleKind::Countersink { diameter: diameter.value, hole, dwell })
}

fn drill(fields: &mut Fields<'_, '_>, approach: Length) -> Option<HoleKind> {
    let depth = length(fields, "depth");
    let through = length_or(fields, "through", Length::ZERO);
    let deep_hole = fields.optional("deep_hole", read::choice(&DeepHoles::NAMES));
    let peck = fields.optional("peck", read::quantity::<Length>(Bounds::Positive));
    let retract =
        fields.optional("retract", read::choice(&[("full", Retract::Full), ("chip", Retract::Chip)]));
    let lift = fields.optional("lift", read::quantity::<Length>(Bounds::Positive));
    let clearance = fields.optional("clearance", read::quantity::<Length>(Bounds::Positive));
    let pecks = match peck {
        None => {
            let places = [
                retract.map(|retract| ("retract", retract.span)),
                lift.map(|lift| ("lift", lift.span)),
                clearance.map(|clearance| ("clearance", clearance.span)),
            ];
            if let Some((key, span)) = places.into_iter().flatten().next() {
                fields.diagnostics().push(
                    Diagnostic::new(
                        Code::MissingKey,
                        format!("`{key}` says how to peck, and no `peck` is given"),
                    )
                    .at(span, "expected `peck` beside it")
                    .help("peck = \"10 mm\" is the depth of each peck"),
                );
                return None;
            }
            None
        }
        Some(peck) => Some(Pecks {
            lift: lift_within(&peck, lift.as_ref(), fields)?,
            depth: peck.value,
            retract: retract.map_or(Retract::Full, |retract| retract.value),
            clearance: clearance.map_or(approach, |clearance| clearance.value),
        }),
    };
    let deep_hole = deep_hole.map_or(DeepHoles::AsGiven, |deep_hole| deep_hole.value);
    Some(HoleKind::Drill { depth: depth?, through, pecks, deep_hole })
}

/// The lift, which must be less than a peck; unstated, it is at most half of one.
fn lift_within(
    peck: &Spanned<Length>,
    lift: Option<&Spanned<Length>>,
    fields: &mut Fields<'_, '_>,
) -> Option<Length> {
    let Some(lift) = lift else { return Some(LIFT.smaller(peck.value / 2.0)) };
    if lift.value < peck.value {
        return Some(lift.value);
    }
    fields.diagnostics().push(
        Diagnostic::new(Code::Geometry, "the drill goes back further than it has drilled")
            .at(lift.span, "expected less than `peck`")
            .also(peck.span, "`peck` is here"),
    );
    None
}
