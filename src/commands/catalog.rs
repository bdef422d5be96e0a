//! `catalog`: what is built in, and where does each figure come from?
//!
//! input -> report

use super::failure::{Answer, Failure};
use crate::diag::nearest;
use crate::input::{CATALOG_KINDS, CatalogEntry, catalog_entries};
use crate::report::{Cell, Column, Document, Table};

/// Kinds, the entries of a kind, or the figures of an entry.
///
/// # Errors
/// [`Failure::Usage`] for a kind or key that is not there.
pub fn catalog(kind: Option<&str>, key: Option<&str>) -> Result<Answer, Failure> {
    let document = match (kind, key) {
        (None, _) => kinds(),
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
        "no kind `{kind}` in the catalogs: expected one of {}",
        CATALOG_KINDS.join(", ")
    )))
}

fn kinds() -> Document {
    let mut table = Table::new("kinds", "What is built in")
        .remark("List the entries of a kind with `wearland catalog KIND`, an entry with `wearland catalog KIND KEY`.")
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
    let mut table = Table::new("figures", entry.title.clone())
        .column(Column::text("figure", "figure"))
        .column(Column::prose("value", "value"))
        .column(Column::text("standing", "standing"))
        .column(Column::text("source", "source"))
        .column(Column::prose("at", "at"))
        .column(Column::prose("note", "note"));
    for figure in &entry.figures {
        table.row(vec![
            figure.name.as_str().into(),
            given(&figure.value),
            given(&figure.standing),
            given(&figure.source),
            given(&figure.at),
            given(&figure.note),
        ]);
    }
    let mut document = Document::new(format!("{kind} {key}"));
    document.push(table);
    Ok(document)
}
