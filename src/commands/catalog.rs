//! `catalog`: what is built in, and where does each figure come from?
//!
//! input, tooling -> report

use super::failure::{Answer, Failure};
use crate::diag::{Code, Diagnostic, Diagnostics, SourceMap, Span, nearest};
use crate::input::{CATALOG_KINDS, CatalogEntry, catalog_entries};
use crate::quantity::{Length, Quantity, Units};
use crate::report::{Cell, Column, Document, Table};
use crate::tooling::{DesignationError, decode_grade, decode_insert};

/// Kinds, the entries of a kind, the figures of an entry, or a designation decoded.
///
/// # Errors
/// [`Failure::Usage`] for a kind or key that is not there, [`Failure::Input`] for a designation that does not decode.
pub fn catalog(kind: Option<&str>, key: &[String]) -> Result<Answer, Failure> {
    let joined = key.join(" ");
    let key = (!joined.is_empty()).then_some(joined.as_str());
    let document = match (kind, key) {
        (None, _) => kinds(),
        (Some("insert"), Some(code)) => insert(code)?,
        (Some("grade"), Some(code)) => grade(code)?,
        (Some(coded @ ("insert" | "grade")), None) => {
            return Err(Failure::Usage(format!(
                "`catalog {coded}` takes a designation, such as {}",
                example(coded)
            )));
        }
        (Some(kind), None) => entries(kind, &of_kind(kind)?),
        (Some(kind), Some(key)) => figures(kind, key, &of_kind(kind)?)?,
    };
    Ok(Answer::plain(document))
}

fn of_kind(kind: &str) -> Result<Vec<CatalogEntry>, Failure> {
    if CATALOG_KINDS.contains(&kind) {
        return Ok(catalog_entries(kind));
    }
    Err(Failure::Usage(format!(
        "no kind `{kind}` in the catalogs: expected one of {}, insert, grade",
        CATALOG_KINDS.join(", ")
    )))
}

fn kinds() -> Document {
    let mut table = Table::new("kinds", "What is built in")
        .remark(
            "List the entries of a kind with `wearland catalog KIND`, an entry with `wearland catalog KIND KEY`; decode a \
             designation with `wearland catalog insert CNMG120408` or `wearland catalog grade P20`.",
        )
        .column(Column::text("kind", "kind"))
        .column(Column::count("entries", "entries", "entries"))
        .column(Column::count("figures", "figures", "figures"));
    for kind in CATALOG_KINDS {
        let entries = catalog_entries(kind);
        let figures: usize = entries.iter().map(|entry| entry.figures.len()).sum();
        table.row(vec![kind.into(), entries.len().into(), figures.into()]);
    }
    let mut document = Document::new("Catalogs");
    document.push(table);
    document
}

fn entries(kind: &str, entries: &[CatalogEntry]) -> Document {
    let mut table = Table::new("entries", format!("The {kind}s built in"))
        .column(Column::text("key", "key"))
        .column(Column::prose("title", "title"));
    for entry in entries {
        table.row(vec![entry.key.as_str().into(), entry.title.as_str().into()]);
    }
    let mut document = Document::new(format!("Catalog of {kind}s"));
    document.push(table);
    document
}

fn figures(kind: &str, key: &str, entries: &[CatalogEntry]) -> Result<Document, Failure> {
    let Some(entry) = entries.iter().find(|entry| entry.key == key) else {
        let near = nearest(key, entries.iter().map(|entry| entry.key.as_str())).map_or_else(
            || format!("list them with `wearland catalog {kind}`"),
            |near| format!("did you mean `{near}`?"),
        );
        return Err(Failure::Usage(format!("no {kind} is called `{key}`: {near}")));
    };
    let given = |text: &str| if text.is_empty() { Cell::Missing } else { text.into() };
    let mut table = Table::new("figures", entry.title.clone()).column(Column::text("figure", "figure"));
    if kind == "tool" {
        table = table
            .remark("Symbols are those of ISO 13399 for tool data, where it has one.")
            .column(Column::text("symbol", "symbol"));
    }
    let mut table = table
        .column(Column::prose("value", "value"))
        .column(Column::text("standing", "standing"))
        .column(Column::text("source", "source"))
        .column(Column::prose("at", "at"))
        .column(Column::prose("note", "note"));
    for figure in &entry.figures {
        let mut row = vec![Cell::from(figure.name.as_str())];
        if kind == "tool" {
            row.push(symbol(&figure.name).map_or(Cell::Missing, Cell::from));
        }
        row.extend([
            given(&figure.value),
            given(&figure.standing),
            given(&figure.source),
            given(&figure.at),
            given(&figure.note),
        ]);
        table.row(row);
    }
    let mut document = Document::new(format!("{kind} {key}"));
    document.push(table);
    Ok(document)
}

/// Symbol of ISO 13399 for a figure of a tool.
fn symbol(figure: &str) -> Option<&'static str> {
    const SYMBOLS: [(&str, &str); 16] = [
        ("corner_radius", "RE"),
        ("edge_angle", "KAPR"),
        ("width", "CW"),
        ("diameter", "DC"),
        ("teeth", "ZEFP"),
        ("point_angle", "SIG"),
        ("most_depth", "APMX"),
        ("usable_length", "LU"),
        ("fastest", "RPMX"),
        ("bar_diameter", "DMM"),
        ("flute_length", "LCF"),
        ("helix", "FHA"),
        ("overall_length", "OAL"),
        ("functional_length", "LF"),
        ("least_bore", "DMIN"),
        ("overhang", "LPR"),
    ];
    SYMBOLS.iter().find(|(known, _)| *known == figure).map(|(_, symbol)| *symbol)
}

fn example(coded: &str) -> &'static str {
    if coded == "insert" { "CNMG120408" } else { "P20" }
}

/// A designation of ISO 1832, position by position.
fn insert(code: &str) -> Result<Document, Failure> {
    let insert = decode_insert(code).map_err(|error| undecoded("insert designation", code, &error))?;
    let units = Units::default();
    let mut table = Table::new("positions", "Positions of ISO 1832")
        .column(Column::count("position_number", "position", ""))
        .column(Column::text("characters", "characters"))
        .column(Column::text("tells", "tells"))
        .column(Column::prose("meaning", "meaning"))
        .column(Column::text("value", "value"))
        .column(Column::text("source", "source"));
    for position in &insert.positions {
        table.row(vec![
            position.number.into(),
            position.characters.as_str().into(),
            position.name.into(),
            position.meaning.as_str().into(),
            position.value.map(|value| value.text(&units)).into(),
            "iso-1832".into(),
        ]);
    }
    let length = |length: Option<Length>| length.map(|length| length.measure().text(&units));
    let mut sizes = Table::new("insert", "The insert")
        .remark("Symbols are those of ISO 13399. Usable edges follow from shape and faces; a round insert is turned as often as its user finds.")
        .column(Column::text("figure", "figure"))
        .column(Column::text("symbol", "symbol"))
        .column(Column::text("value", "value"));
    let rows = [
        ("usable edges", None, insert.edges.map(|edges| edges.to_string())),
        ("inscribed circle", Some("IC"), length(insert.inscribed_circle)),
        ("edge length", Some("L"), length(Some(insert.edge_length))),
        ("thickness", Some("S"), length(Some(insert.thickness))),
        ("corner radius", Some("RE"), length(insert.corner_radius)),
        ("edge angle", Some("KAPR"), insert.edge_angle.map(|angle| angle.measure().text(&units))),
        ("inch code", None, insert.inch_code.clone()),
    ];
    for (figure, symbol, value) in rows {
        sizes.row(vec![figure.into(), symbol.into(), value.into()]);
    }
    let mut document = Document::new(format!("insert {code}"));
    document.push(table);
    document.push(sizes);
    Ok(document)
}

/// An application group of ISO 513.
fn grade(code: &str) -> Result<Document, Failure> {
    let positions = decode_grade(code).map_err(|error| undecoded("grade", code, &error))?;
    let mut table = Table::new("positions", "Parts of an ISO 513 application group")
        .column(Column::text("characters", "characters"))
        .column(Column::text("tells", "tells"))
        .column(Column::prose("meaning", "meaning"))
        .column(Column::text("source", "source"));
    for position in positions {
        table.row(vec![
            position.characters.into(),
            position.name.into(),
            position.meaning.into(),
            "iso-513".into(),
        ]);
    }
    let mut document = Document::new(format!("grade {code}"));
    document.push(table);
    Ok(document)
}

/// A designation that does not decode, shown with the place where it goes wrong.
fn undecoded(what: &str, code: &str, error: &DesignationError) -> Failure {
    let mut sources = SourceMap::default();
    let file = sources.add(what, code);
    let mut diagnostics = Diagnostics::default();
    diagnostics.push(
        Diagnostic::new(Code::Designation, error.to_string())
            .at(Span::new(file, error.at.start, error.at.end), "here")
            .help(format!("expected {}", error.expected)),
    );
    Failure::Input(Box::new((diagnostics, sources)))
}
