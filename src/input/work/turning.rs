//! Turning and single-point threads.

use super::super::Fields;
use super::super::read::{self, Bounds};
use super::{APPROACH, diameters, length, length_or};
use crate::cycle::{Side, ThreadWork, TurningWork, Work};
use crate::quantity::Length;

/// Keys of this family.
pub(super) const KINDS: [&str; 6] = ["turn", "bore", "face", "part", "groove", "thread"];

pub(super) fn work(kind: &str, fields: &mut Fields<'_, '_>) -> Option<Work> {
    match kind {
        "turn" => along(Side::Outside, fields).map(Work::Turning),
        "bore" => along(Side::Inside, fields).map(Work::Turning),
        "thread" => thread(fields).map(Work::Thread),
        _ => across(kind, fields).map(Work::Turning),
    }
}

fn along(side: Side, fields: &mut Fields<'_, '_>) -> Option<TurningWork> {
    let diameters = diameters(fields, side);
    let length = length(fields, "length");
    let approach = length_or(fields, "approach", APPROACH);
    Some(TurningWork::Along { side, diameters: diameters?, length: length?, approach })
}

fn across(kind: &str, fields: &mut Fields<'_, '_>) -> Option<TurningWork> {
    let diameters = diameters(fields, Side::Outside);
    match kind {
        "face" => {
            let depth = length(fields, "depth");
            Some(TurningWork::Face { diameters: diameters?, depth: depth? })
        }
        "groove" => {
            let width = length(fields, "width");
            let dwell = fields.optional("dwell", read::number(Bounds::NotNegative));
            let dwell = dwell.map_or(0.0, |dwell| dwell.value);
            Some(TurningWork::Groove { diameters: diameters?, width: width?, dwell })
        }
        _ => Some(TurningWork::Part { diameters: diameters? }),
    }
}

fn thread(fields: &mut Fields<'_, '_>) -> Option<ThreadWork> {
    let diameter = length(fields, "diameter");
    let pitch = length(fields, "pitch");
    let along = length(fields, "length");
    let passes = fields.optional("passes", read::count).map(|passes| passes.value);
    let run_in = fields.optional("run_in", read::quantity::<Length>(Bounds::NotNegative));
    let run_out = fields.optional("run_out", read::quantity::<Length>(Bounds::NotNegative));
    let internal = fields.optional("internal", read::flag).is_some_and(|internal| internal.value);
    let pitch = pitch?;
    Some(ThreadWork {
        diameter: diameter?,
        pitch,
        length: along?,
        passes,
        // The axis must be up to speed before the thread and may stop only behind it.
        run_in: run_in.map_or(pitch * 3.0, |path| path.value),
        run_out: run_out.map_or(pitch, |path| path.value),
        side: if internal { Side::Inside } else { Side::Outside },
    })
}
