//! Tool changes: how long each edge cut, and what ended it.

use super::head::{Column, Layout};
use super::rows::{Fields, Notation, read_rows};
use super::setting::{COOLANT, DEPTH, FEED, MACHINE, MATERIAL, ReadSetting, SPEED, Setting, TOOL};
use crate::cycle::Feed;
use crate::diag::{Code, Diagnostic, Diagnostics, FileId, Span};
use crate::input::Spanned;
use crate::input::read::{self, Bounds, choice, quantity, short};
use crate::quantity::{CuttingSpeed, Duration, Length, Quantity};
use std::collections::BTreeMap;

/// What ended the use of an edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Worn to its limit.
    Worn,
    /// Broken or chipped.
    Broken,
    /// Changed before it was worn: its life is longer than the time it cut.
    Early,
}

/// One edge taken out.
#[derive(Debug, Clone, PartialEq)]
pub struct ToolChange {
    /// Cutting speed.
    pub speed: CuttingSpeed,
    /// Feed, as its unit says for each turn, tooth or stroke.
    pub feed: Option<Feed>,
    /// Depth of cut.
    pub depth: Option<Length>,
    /// Time in cut.
    pub life: Duration,
    /// Pieces cut, if counted.
    pub pieces: Option<f64>,
    /// What ended it.
    pub outcome: Outcome,
    /// Tool, as the log calls it.
    pub tool: Option<String>,
    /// Material cut, as the log calls it.
    pub material: Option<String>,
    /// Coolant, as the log calls it.
    pub coolant: Option<String>,
    /// Machine, as the log calls it.
    pub machine: Option<String>,
    /// Edges that went just so: one unless the log says otherwise.
    pub count: u32,
    /// Name of the change, that no other bears.
    pub id: Option<String>,
    /// Line of the log.
    pub line: u32,
    /// The row.
    pub span: Span,
}

pub(super) const LAYOUT: Layout = Layout {
    what: "tool log",
    columns: &[
        Column { name: "outcome", kinds: &[] },
        SPEED,
        Column { name: "time", kinds: &[Duration::KIND] },
        Column { name: "pieces", kinds: &[] },
        Column { name: "cut_time", kinds: &[Duration::KIND] },
        FEED,
        DEPTH,
        TOOL,
        MATERIAL,
        COOLANT,
        MACHINE,
        Column { name: "id", kinds: &[] },
        Column { name: "count", kinds: &[] },
    ],
    needed: &[&["outcome"], &["speed"], &["time", "cut_time"]],
};

const OUTCOMES: [(&str, Outcome); 3] =
    [("worn", Outcome::Worn), ("broken", Outcome::Broken), ("early", Outcome::Early)];

/// Reads the changes of a log.
pub(super) fn changes(
    text: (FileId, &str),
    diagnostics: &mut Diagnostics,
) -> (Option<Vec<ToolChange>>, Notation) {
    let mut ids = BTreeMap::new();
    read_rows(text, &LAYOUT, diagnostics, |fields| {
        let id = read_id(fields, &mut ids);
        change(fields, id)
    })
}

fn change(fields: &mut Fields<'_, '_>, id: Option<String>) -> Option<ToolChange> {
    fields.require("outcome");
    fields.require("speed");
    let outcome = fields.text("outcome", choice(&OUTCOMES));
    let setting = ReadSetting::new(fields);
    let pieces = fields.number("pieces", read::number(Bounds::NotNegative));
    let life = life(fields, pieces);
    let count = fields.number("count", read::count);
    let Setting { speed, feed, depth, tool, material, coolant, machine } = setting.setting();
    Some(ToolChange {
        speed: speed?,
        feed,
        depth,
        life: life?,
        pieces: pieces.map(|pieces| pieces.value),
        outcome: outcome?.value,
        tool,
        material,
        coolant,
        machine,
        id,
        count: count.map_or(1, |count| count.value),
        line: fields.line(),
        span: fields.span(),
    })
}

/// Time in cut: given, or the pieces times the time of one.
fn life(fields: &mut Fields<'_, '_>, pieces: Option<Spanned<f64>>) -> Option<Duration> {
    if !fields.has("cut_time") {
        fields.require("time");
        return fields.quantity("time", quantity(Bounds::Positive)).map(|time| time.value);
    }
    fields.require("cut_time");
    fields.require("pieces");
    let each: Option<Spanned<Duration>> = fields.quantity("cut_time", quantity(Bounds::Positive));
    let pieces = pieces?;
    if pieces.value <= 0.0 {
        let message = "expected pieces above zero, found 0: without a piece there is no life";
        fields.diagnostics().push(
            Diagnostic::new(Code::OutOfRange, message)
                .at(pieces.span, "")
                .help("write a share of a piece, such as 0.5"),
        );
        return None;
    }
    Some(each?.value * pieces.value)
}

fn read_id(fields: &mut Fields<'_, '_>, ids: &mut BTreeMap<String, (u32, Span)>) -> Option<String> {
    let id = fields.text("id", read::text)?;
    let line = fields.line();
    if let Some((first, span)) = ids.get(&id.value) {
        let message = format!("`{}` of line {line} is given in line {first}", short(&id.value));
        fields.diagnostics().push(
            Diagnostic::new(Code::GivenTwice, message)
                .at(id.span, "here again")
                .also(*span, "first here")
                .help("take the row out if it was entered twice"),
        );
    } else {
        ids.insert(id.value.clone(), (line, id.span));
    }
    Some(id.value)
}
