//! Tools from their tables.

use super::life::{TurningEdge, laws};
use super::material::sourced;
use super::read::{self, Bounds};
use super::tree::Table;
use super::{Fields, Node, Spanned, read::Reading};
use crate::diag::{Code, Diagnostic, Diagnostics, Span};
use crate::quantity::{Angle, Duration, Length, SpindleSpeed};
use crate::tooling::{BoringBar, Geometry, Insert, Substrate, Tool, ToolKind, decode_insert};

/// Reads a tool; prices are in the scenario's currency.
pub(super) fn tool(key: &str, table: &Table, currency: &str, diagnostics: &mut Diagnostics) -> Option<Tool> {
    let mut fields = Fields::new(table, "tool", diagnostics);
    let title = fields.required("title", read::text);
    let kind = fields.required("kind", read::choice(&ToolKind::NAMES));
    let designation = fields.optional("designation", designation);
    let substrate = fields.required("substrate", read::choice(&Substrate::NAMES));
    let edges = fields.required_figure("edges", read::count);
    let geometry = geometry(&mut fields);
    if let (Some(insert), Some(edges)) = (&designation, &edges) {
        agrees(insert, edges.value, geometry.corner_radius, &mut fields);
    }
    let price = fields.optional("price", read::money(currency));
    let regrind = fields.optional("regrind", read::money(currency));
    let change = fields.optional_figure("change", read::quantity::<Duration>(Bounds::NotNegative));
    let pack = fields.optional("pack", read::count);
    let on_hand = fields.optional("on_hand", read::count_or_zero);
    let policy = fields.optional("replacement", read::table);
    let policy = policy.map(|table| super::replacement::policy(table.value, currency, fields.diagnostics()));
    let worn_finish = fields.optional("worn_finish", read::number_between(1.0, 10.0));
    fields.optional("note", read::text);
    let lives = fields.optional("life", read::table);
    let edge =
        kind.as_ref().filter(|kind| kind.value == ToolKind::Insert).map(|_| TurningEdge::of(&geometry));
    let lives = lives.map_or_else(|| Some(Vec::new()), |life| laws(life.value, edge, fields.diagnostics()));
    fields.finish();
    Some(Tool {
        key: key.to_owned(),
        title: title?.value,
        kind: kind?.value,
        designation: designation.map(|insert| insert.value.0),
        substrate: substrate?.value,
        edges: sourced(edges?),
        geometry,
        lives: lives?,
        price: price.map(|price| price.value),
        regrind: regrind.map(|price| price.value),
        change: change.map(|change| change.value),
        pack: pack.map_or(1, |pack| pack.value),
        on_hand: on_hand.map(|edges| edges.value),
        policy: policy.unwrap_or_default(),
        worn_finish: worn_finish.map(|ratio| ratio.value),
    })
}

/// An angle of an edge or a point: less than half a turn, a flat point being 180 degrees.
fn below_half_turn(node: &Node) -> Reading<Angle> {
    let angle = read::quantity::<Angle>(Bounds::Positive)(node)?;
    if angle.to_deg() <= 180.0 {
        return Ok(angle);
    }
    let message = format!("an angle of {} deg", angle.to_deg());
    Err(vec![Diagnostic::new(Code::OutOfRange, message).at(node.span, "expected above 0 to 180 deg")])
}

/// A clearance: none for an insert that sits flat, never half a right angle or more.
fn clearance(node: &Node) -> Reading<Angle> {
    let angle = read::quantity::<Angle>(Bounds::NotNegative)(node)?;
    if angle.to_deg() <= 45.0 {
        return Ok(angle);
    }
    let message = format!("a clearance of {} deg", angle.to_deg());
    Err(vec![Diagnostic::new(Code::OutOfRange, message).at(node.span, "expected 0 to 45 deg")])
}

/// A designation of ISO 1832 as written, and decoded.
fn designation(node: &Node) -> Reading<(String, Insert)> {
    let text = read::text(node)?;
    decode_insert(&text).map(|insert| (text.clone(), insert)).map_err(|error| {
        // The text stands behind its opening quote, character by character unless it is written with escapes.
        let start = node.span.start + 1;
        let plain = node.span.end - node.span.start == text.len() + 2;
        let at = if plain {
            Span::new(node.span.file, start + error.at.start, start + error.at.end)
        } else {
            node.span
        };
        vec![
            Diagnostic::new(Code::Designation, error.to_string())
                .at(at, format!("expected {}", error.expected))
                .help("every position explained: wearland catalog insert CNMG120408"),
        ]
    })
}

/// A designation and the tool's own figures say the same.
fn agrees(
    insert: &Spanned<(String, Insert)>,
    edges: u32,
    corner: Option<Length>,
    fields: &mut Fields<'_, '_>,
) {
    let (text, decoded) = &insert.value;
    let mut contradiction = |message: String| {
        fields.diagnostics().push(
            Diagnostic::new(Code::Designation, message).at(insert.span, "this designation").help(
                "correct the figure or the designation; leave the designation out if the insert is none of the standard",
            ),
        );
    };
    if let (Some(own), Some(told)) = (corner, decoded.corner_radius)
        && (own.to_mm() - told.to_mm()).abs() > 1e-6
    {
        contradiction(format!(
            "`{text}` has a corner of {} mm, `corner_radius` says {} mm",
            told.to_mm(),
            own.to_mm()
        ));
    }
    if let Some(told) = decoded.edges
        && edges > told
    {
        contradiction(format!("`{text}` has {told} edges at most, `edges` says {edges}"));
    }
}

fn geometry(fields: &mut Fields<'_, '_>) -> Geometry {
    let mut length =
        |key| fields.optional_figure(key, read::quantity::<Length>(Bounds::Positive)).map(|is| is.value);
    let width = length("width");
    let diameter = length("diameter");
    let useful_length = length("useful_length");
    let most_chip = length("most_chip");
    let edge_radius = length("edge_radius");
    let bar_diameter = length("bar_diameter");
    let most_depth = length("most_depth");
    let usable_length = length("usable_length");
    let corner_radius = fields
        .optional_figure("corner_radius", read::quantity::<Length>(Bounds::NotNegative))
        .map(|is| is.value);
    let mut angle = |key| fields.optional(key, below_half_turn).map(|is| is.value);
    let edge_angle = angle("edge_angle");
    let point_angle = angle("point_angle");
    let cross_angle = angle("cross_angle");
    let clearance = fields.optional("clearance", clearance).map(|is| is.value);
    let mut count = |key| fields.optional(key, read::count).map(|is| is.value);
    let teeth = count("teeth");
    let starts = count("starts");
    let gashes = count("gashes");
    let bar = fields.optional("bar", read::choice(&BoringBar::NAMES)).map(|bar| bar.value);
    let fastest = fields.optional("fastest", read::quantity::<SpindleSpeed>(Bounds::Positive));
    Geometry {
        corner_radius,
        edge_angle,
        clearance,
        width,
        diameter,
        teeth,
        point_angle,
        starts,
        gashes,
        useful_length,
        most_chip,
        cross_angle,
        edge_radius,
        bar,
        bar_diameter,
        most_depth,
        usable_length,
        fastest: fastest.map(|speed| speed.value),
    }
}
