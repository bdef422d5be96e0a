//! Broaching and sawing.

use super::super::Fields;
use super::super::read::{self, Bounds};
use super::length;
use crate::cutting::bar::Section;
use crate::cycle::LinearWork;
use crate::diag::{Code, Diagnostic};
use crate::quantity::{FeedRate, Length, SawingRate};

/// Keys of this family.
pub(super) const KINDS: [&str; 2] = ["broach", "saw"];

pub(super) fn work(kind: &str, fields: &mut Fields<'_, '_>) -> Option<LinearWork> {
    if kind == "saw" { saw(fields) } else { broach(fields) }
}

fn broach(fields: &mut Fields<'_, '_>) -> Option<LinearWork> {
    let stroke = length(fields, "stroke");
    let back = fields.required("back", read::quantity::<FeedRate>(Bounds::Positive));
    let mut optional =
        |key| fields.optional(key, read::quantity::<Length>(Bounds::Positive)).map(|length| length.value);
    let (width, along, pitch) = (optional("width"), optional("length"), optional("pitch"));
    Some(LinearWork::Broach { stroke: stroke?, back: back?.value, width, length: along, pitch })
}

fn saw(fields: &mut Fields<'_, '_>) -> Option<LinearWork> {
    let section = fields.optional("section", read::choice(&Section::NAMES));
    let size = fields.optional("size", read::quantity::<Length>(Bounds::Positive));
    let rate = fields.required("rate", read::quantity::<SawingRate>(Bounds::Positive));
    let bar = match (section, size) {
        (Some(section), Some(size)) => Some((section.value, size.value)),
        (None, None) => None,
        (Some(section), None) => return lone(("section", "size"), section.span, fields),
        (None, Some(size)) => return lone(("size", "section"), size.span, fields),
    };
    Some(LinearWork::Saw { bar, rate: rate?.value })
}

fn lone(
    keys: (&'static str, &'static str),
    span: crate::diag::Span,
    fields: &mut Fields<'_, '_>,
) -> Option<LinearWork> {
    let (given, missing) = keys;
    fields.diagnostics().push(
        Diagnostic::new(Code::MissingKey, format!("`{given}` is given and `{missing}` is not"))
            .at(span, format!("expected `{missing}` beside it"))
            .help("give both for the bar that is sawn, or neither for the bar of the part"),
    );
    None
}
