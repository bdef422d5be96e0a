//! Milling.

use super::super::Fields;
use super::super::read::{self, Bounds};
use super::{length, length_or, pitch};
use crate::cutting::milling::{CleanUp, KeywayEnds};
use crate::cycle::{Entry, MillShape, MilledThread, MillingWork, PocketWork, Side, StraightWork, ThinChip};
use crate::diag::{Code, Diagnostic};
use crate::quantity::{Angle, Length, MassMoment};

/// Keys of this family.
pub(super) const KINDS: [&str; 5] = ["mill", "pocket", "keyway", "thread_mill", "balance"];

/// Angle of a ramp where none is given: common practice for end mills in steel.
const RAMP_ANGLE: Angle = Angle::deg(3.0);

pub(super) fn work(kind: &str, fields: &mut Fields<'_, '_>) -> Option<MillingWork> {
    match kind {
        "mill" => straight(fields).map(MillingWork::Straight),
        "pocket" => pocket(fields).map(MillingWork::Pocket),
        "keyway" => keyway(fields),
        "thread_mill" => thread(fields).map(MillingWork::Thread),
        _ => balance(fields),
    }
}

fn thin_chip(fields: &mut Fields<'_, '_>) -> ThinChip {
    let given = fields.optional("thin_chip", read::choice(&ThinChip::NAMES));
    given.map_or_else(ThinChip::default, |given| given.value)
}

fn straight(fields: &mut Fields<'_, '_>) -> Option<StraightWork> {
    let shape = fields.required("shape", read::choice(&MillShape::NAMES));
    let along = length(fields, "length");
    let width = length(fields, "width");
    let depth = length(fields, "depth");
    let offset = length_or(fields, "offset", Length::ZERO);
    let clean_up = fields.optional("clean_up", read::choice(&CleanUp::NAMES));
    let thin_chip = thin_chip(fields);
    Some(StraightWork {
        shape: shape?.value,
        length: along?,
        width: width?,
        depth: depth?,
        offset,
        clean_up: clean_up.map_or_else(CleanUp::default, |given| given.value),
        thin_chip,
    })
}

fn pocket(fields: &mut Fields<'_, '_>) -> Option<PocketWork> {
    let long = fields.required("length", read::quantity::<Length>(Bounds::Positive));
    let wide = fields.required("width", read::quantity::<Length>(Bounds::Positive));
    let depth = length(fields, "depth");
    let step_over = fields.optional("step_over", read::quantity::<Length>(Bounds::Positive));
    let entry = fields.optional("entry", read::choice(&Entry::NAMES));
    let ramp_angle = fields.optional("ramp_angle", read::quantity::<Angle>(Bounds::Positive));
    let thin_chip = thin_chip(fields);
    let (long, wide) = (long?, wide?);
    if wide.value > long.value {
        fields.diagnostics().push(
            Diagnostic::new(Code::Geometry, "this pocket is wider than it is long")
                .at(wide.span, "expected at most `length`")
                .also(long.span, "`length` is here")
                .help("`length` is the longer side"),
        );
        return None;
    }
    if let Some(steep) = ramp_angle.as_ref().filter(|angle| angle.value > Angle::deg(90.0)) {
        fields.diagnostics().push(
            Diagnostic::new(Code::Geometry, "a ramp cannot be steeper than 90 deg")
                .at(steep.span, "expected at most 90 deg"),
        );
        return None;
    }
    Some(PocketWork {
        length: long.value,
        width: wide.value,
        depth: depth?,
        step_over: step_over.map(|step| step.value),
        entry: entry.map_or_else(Entry::default, |entry| entry.value),
        ramp_angle: ramp_angle.map_or(RAMP_ANGLE, |angle| angle.value),
        thin_chip,
    })
}

fn keyway(fields: &mut Fields<'_, '_>) -> Option<MillingWork> {
    let along = length(fields, "length");
    let depth = length(fields, "depth");
    let count = fields.optional("count", read::count).map_or(1, |count| count.value);
    let ends = fields.optional("ends", read::choice(&KeywayEnds::NAMES));
    let ends = ends.map_or_else(KeywayEnds::default, |ends| ends.value);
    Some(MillingWork::Keyway { length: along?, depth: depth?, count, ends })
}

fn thread(fields: &mut Fields<'_, '_>) -> Option<MilledThread> {
    let diameter = length(fields, "diameter");
    let pitch = fields.required("pitch", pitch).map(|pitch| pitch.value);
    let along = length(fields, "length");
    let internal = fields.optional("internal", read::flag).is_some_and(|internal| internal.value);
    let holes = fields.optional("holes", read::count).map_or(1, |holes| holes.value);
    let passes = fields.optional("passes", read::count).map_or(1, |passes| passes.value);
    let side = if internal { Side::Inside } else { Side::Outside };
    Some(MilledThread { side, diameter: diameter?, pitch: pitch?, length: along?, holes, passes })
}

fn balance(fields: &mut Fields<'_, '_>) -> Option<MillingWork> {
    let unbalance = fields.required("unbalance", read::quantity::<MassMoment>(Bounds::Positive));
    let radius = length(fields, "radius");
    let deepest = length(fields, "deepest");
    Some(MillingWork::Balance { unbalance: unbalance?.value, radius: radius?, deepest: deepest? })
}
