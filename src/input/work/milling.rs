//! Milling.

use super::super::Fields;
use super::super::read;
use super::{length, length_or};
use crate::cycle::{MillShape, MillingWork};
use crate::quantity::Length;

/// Keys of this family.
pub(super) const KINDS: [&str; 1] = ["mill"];

pub(super) fn work(_kind: &str, fields: &mut Fields<'_, '_>) -> Option<MillingWork> {
    let shape = fields.required("shape", read::choice(&MillShape::NAMES));
    let along = length(fields, "length");
    let width = length(fields, "width");
    let depth = length(fields, "depth");
    let offset = length_or(fields, "offset", Length::ZERO);
    Some(MillingWork::Straight { shape: shape?.value, length: along?, width: width?, depth: depth?, offset })
}
