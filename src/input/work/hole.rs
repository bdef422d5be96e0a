//! Holes.

use super::super::Fields;
use super::super::read;
use super::{APPROACH, length, length_or};
use crate::cycle::{HoleKind, HoleWork};
use crate::quantity::Length;

/// Keys of this family.
pub(super) const KINDS: [&str; 3] = ["drill", "ream", "tap"];

pub(super) fn work(kind: &str, fields: &mut Fields<'_, '_>) -> Option<HoleWork> {
    let depth = length(fields, "depth");
    let holes = fields.optional("holes", read::count).map_or(1, |holes| holes.value);
    let approach = length_or(fields, "approach", APPROACH);
    let kind = match kind {
        "drill" => {
            let through = length_or(fields, "through", Length::ZERO);
            HoleKind::Drill { depth: depth?, through }
        }
        "ream" => HoleKind::Ream { depth: depth? },
        _ => {
            let pitch = length(fields, "pitch");
            HoleKind::Tap { depth: depth?, pitch: pitch? }
        }
    };
    Some(HoleWork { holes, approach, kind })
}
