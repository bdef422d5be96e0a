//! The built-in catalogs, cut into entries by their headers and parsed entry by entry when one is named: a scenario uses
//! a few dozen of some hundred and fifty, and parsing all of them would take most of the time of a short command.

use super::Spanned;
use super::files::CATALOGS;
use super::tree::{Node, Table, Value, parse};
use crate::diag::{Diagnostics, FileId, SourceMap, Span};

/// An entry: kind, key and the place of its text.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Slice {
    kind: &'static str,
    key: &'static str,
    key_span: Span,
    text: &'static str,
}

/// All entries of the built-in catalogs, in the order of the files.
#[derive(Debug, Clone, Default)]
pub(super) struct BuiltIn {
    slices: Vec<Slice>,
}

impl BuiltIn {
    /// Cuts the catalogs into entries and makes their files known.
    pub(super) fn open(sources: &mut SourceMap) -> Self {
        let mut slices = Vec::new();
        for (name, text) in CATALOGS {
            let file = sources.add(name, text);
            cut(file, text, &mut slices);
        }
        Self { slices }
    }

    /// The keys of a kind, with their places.
    pub(super) fn keys(&self, kind: &str) -> Vec<Spanned<String>> {
        let of_kind = self.slices.iter().filter(|slice| slice.kind == kind);
        of_kind.map(|slice| Spanned { value: slice.key.to_owned(), span: slice.key_span }).collect()
    }

    /// An entry, parsed. What is wrong with it is a fault of the catalog and is reported as such.
    pub(super) fn entry(&self, kind: &str, key: &str, diagnostics: &mut Diagnostics) -> Option<Table> {
        let slice = self.slices.iter().find(|slice| slice.kind == kind && slice.key == key)?;
        let file = slice.key_span.file;
        let Some(Node { value: Value::Table(root), .. }) = parse(file, slice.text, diagnostics) else {
            return None;
        };
        let kinds = inner(root, kind)?;
        let mut table = inner(kinds, key)?;
        shift(&mut table, offset(slice));
        Some(table)
    }
}

/// Bytes from the start of the file to the start of the slice.
fn offset(slice: &Slice) -> usize {
    let whole = CATALOGS.iter().find(|(_, text)| {
        let (start, end) = (text.as_ptr() as usize, text.as_ptr() as usize + text.len());
        (start..end).contains(&(slice.text.as_ptr() as usize))
    });
    whole.map_or(0, |(_, text)| slice.text.as_ptr() as usize - text.as_ptr() as usize)
}

fn inner(table: Table, key: &str) -> Option<Table> {
    table.entries.into_iter().find(|entry| entry.key == key).and_then(|entry| match entry.node.value {
        Value::Table(inner) => Some(inner),
        _ => None,
    })
}

/// Places in a slice become places in its file.
fn shift(table: &mut Table, by: usize) {
    move_on(&mut table.span, by);
    for entry in &mut table.entries {
        move_on(&mut entry.key_span, by);
        shift_node(&mut entry.node, by);
    }
}

fn shift_node(node: &mut Node, by: usize) {
    move_on(&mut node.span, by);
    match &mut node.value {
        Value::Table(inner) => shift(inner, by),
        Value::List(items) => items.iter_mut().for_each(|item| shift_node(item, by)),
        Value::Text(_) | Value::Integer(_) | Value::Number(_) | Value::Flag(_) | Value::Stamp(_) => {}
    }
}

fn move_on(span: &mut Span, by: usize) {
    span.start += by;
    span.end += by;
}

/// Cuts a text before each header that begins another entry.
fn cut(file: FileId, text: &'static str, slices: &mut Vec<Slice>) {
    let mut start = 0;
    let mut open: Option<(&'static str, &'static str, Span)> = None;
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        if let Some((kind, key)) = header(line) {
            let same =
                open.as_ref().is_some_and(|(known_kind, known, _)| (*known_kind, *known) == (kind, key));
            if !same {
                if let Some((kind, key, key_span)) = open.take() {
                    slices.push(Slice { kind, key, key_span, text: &text[start..at] });
                }
                start = at;
                let from = at + line.find(key).unwrap_or(0);
                open = Some((kind, key, Span::new(file, from, from + key.len())));
            }
        }
        at += line.len();
    }
    if let Some((kind, key, key_span)) = open {
        slices.push(Slice { kind, key, key_span, text: &text[start..] });
    }
}

/// Kind and key of `[tool.drill-8.life.P]` or `[[coolant.dry.factor]]`. Keys of the catalogs stand without quotes.
fn header(line: &'static str) -> Option<(&'static str, &'static str)> {
    let inside = line.trim_end().strip_prefix('[')?;
    let inside = inside.strip_prefix('[').unwrap_or(inside);
    let (kind, rest) = inside.split_once('.')?;
    let key = rest.split(['.', ']']).next()?;
    Some((kind, key))
}

#[cfg(test)]
mod tests {
    use super::super::catalog::{keys, sub_table};
    use super::super::files::{CATALOGS, built_in};
    use super::BuiltIn;
    use crate::diag::{Diagnostics, SourceMap};
    use crate::input::shelves::CATALOG_KINDS;

    #[test]
    fn entry_by_entry_is_the_same_as_all_at_once() {
        let (mut sources, mut again) = (SourceMap::default(), SourceMap::default());
        let mut diagnostics = Diagnostics::default();
        let whole = built_in(&CATALOGS, &mut sources, &mut diagnostics);
        let cut = BuiltIn::open(&mut again);
        for kind in CATALOG_KINDS {
            let all = sub_table(&whole, kind);
            assert_eq!(cut.keys(kind), keys(all), "{kind}");
            for key in keys(all) {
                let table = cut.entry(kind, &key.value, &mut diagnostics).unwrap();
                assert_eq!(
                    &table.entries,
                    &sub_table(all.unwrap(), &key.value).unwrap().entries,
                    "{}",
                    key.value
                );
            }
        }
        assert!(diagnostics.is_empty());
    }
}
