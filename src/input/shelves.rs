//! The catalogs as a reader of them sees them: entries, figures, sources - without a scenario.

use super::built_in::BuiltIn;
use super::catalog::Shelf;
use super::tree::{Node, Table, Value};
use crate::diag::{Diagnostics, SourceMap};

/// An entry of the catalogs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CatalogEntry {
    /// Its key.
    pub key: String,
    /// In words.
    pub title: String,
    /// Its figures in the order of the file.
    pub figures: Vec<CatalogFigure>,
}

/// A figure of an entry. Empty texts are what the entry does not state.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CatalogFigure {
    /// Name, with the names of the tables it stands in: `life.P.speed`.
    pub name: String,
    /// Its value as written.
    pub value: String,
    /// Key of its source.
    pub source: String,
    /// Place in the source.
    pub at: String,
    /// How well it is backed.
    pub standing: String,
    /// A remark.
    pub note: String,
}

/// Kinds of entries in the catalogs.
pub const CATALOG_KINDS: [&str; 7] =
    ["material", "tool", "coolant", "condition", "scatter", "machine", "source"];

/// The built-in entries of a kind of [`CATALOG_KINDS`].
#[must_use]
pub fn catalog_entries(kind: &str) -> Vec<CatalogEntry> {
    let mut sources = SourceMap::default();
    let mut diagnostics = Diagnostics::default();
    let catalogs = BuiltIn::open(&mut sources);
    let Some(kind) = CATALOG_KINDS.iter().find(|known| **known == kind) else { return Vec::new() };
    let shelf = Shelf::built_in(kind, &catalogs);
    catalogs
        .keys(kind)
        .into_iter()
        .filter_map(|name| {
            // With all that it is like.
            let table = shelf.entry(&name.value, name.span, &mut diagnostics)?;
            let mut figures = Vec::new();
            collect("", &table, &mut figures);
            let title = table.get("title").map_or_else(String::new, |title| written(&title.node));
            figures.retain(|figure| figure.name != "title");
            Some(CatalogEntry { key: name.value, title, figures })
        })
        .collect()
}

fn collect(prefix: &str, table: &Table, figures: &mut Vec<CatalogFigure>) {
    for entry in &table.entries {
        let name = if prefix.is_empty() { entry.key.clone() } else { format!("{prefix}.{}", entry.key) };
        gather(&name, &entry.node, figures);
    }
}

fn gather(name: &str, node: &Node, figures: &mut Vec<CatalogFigure>) {
    match &node.value {
        Value::Table(inner)
            if inner.get("value").is_some_and(|value| !matches!(value.node.value, Value::Table(_))) =>
        {
            let part = |key: &str| inner.get(key).map_or_else(String::new, |entry| written(&entry.node));
            figures.push(CatalogFigure {
                name: name.to_owned(),
                value: part("value"),
                source: part("source"),
                at: part("at"),
                standing: part("standing"),
                note: part("note"),
            });
        }
        Value::Table(inner) => collect(name, inner, figures),
        Value::List(items) if items.iter().any(|item| matches!(item.value, Value::Table(_))) => {
            for (at, item) in items.iter().enumerate() {
                gather(&format!("{name}.{}", at + 1), item, figures);
            }
        }
        _ => figures.push(CatalogFigure {
            name: name.to_owned(),
            value: written(node),
            source: String::new(),
            at: String::new(),
            standing: String::new(),
            note: String::new(),
        }),
    }
}

/// A value as it may be written.
fn written(node: &Node) -> String {
    match &node.value {
        Value::Text(text) | Value::Stamp(text) => text.clone(),
        Value::Integer(number) => number.to_string(),
        Value::Number(number) => number.to_string(),
        Value::Flag(flag) => flag.to_string(),
        Value::List(items) => items.iter().map(written).collect::<Vec<_>>().join(", "),
        Value::Table(_) => String::new(),
    }
}
