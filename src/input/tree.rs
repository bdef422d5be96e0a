//! TOML as a tree in which every key and value knows its place.

use super::depth::{DEEPEST, too_deep_at};
use super::syntax::report_breaches;
use crate::diag::{Code, Diagnostic, Diagnostics, FileId, Span};
use std::collections::BTreeMap;
use toml::de::{DeTable, DeValue};

/// A value and its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// Its place; of a table, that of its header.
    pub span: Span,
    /// What it is.
    pub value: Value,
}

/// A value of TOML.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A text in quotes.
    Text(String),
    /// A whole number.
    Integer(i64),
    /// A number with a decimal point or exponent; may be infinite or not a number.
    Number(f64),
    /// `true` or `false`.
    Flag(bool),
    /// A date, a time of day, or both, without quotes.
    Stamp(String),
    /// A list, or tables with a double-bracket header.
    List(Vec<Node>),
    /// A table.
    Table(Table),
}

/// Keys and values in the order of the file.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its header `[tool.drill-8]`, or all of it if written inline.
    pub span: Span,
    /// Its entries; no key stands twice.
    pub entries: Vec<Entry>,
}

/// One key and its value.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// The key, without quotes.
    pub key: String,
    /// Its place.
    pub key_span: Span,
    /// Its value.
    pub node: Node,
}

impl Table {
    /// The entry of a key.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.key == key)
    }
}

/// Reads TOML. Breaches of its rules are collected, one a line; then there is no tree, since what it lacks would only
/// lead to mistakes that are none.
///
/// # Example
/// ```
/// use wearland::diag::{Diagnostics, SourceMap};
/// use wearland::input::{Value, parse};
/// let mut sources = SourceMap::default();
/// let text = "speed = \"220 m/min\"\n";
/// let file = sources.add("cut.toml", text);
/// let mut diagnostics = Diagnostics::default();
/// let Some(tree) = parse(file, text, &mut diagnostics) else { panic!("this is TOML") };
/// let Value::Table(table) = tree.value else { panic!("the top is a table") };
/// assert_eq!(table.entries[0].key, "speed");
/// assert_eq!(sources.text(table.entries[0].node.span), Some("\"220 m/min\""));
/// ```
pub fn parse(file: FileId, text: &str, diagnostics: &mut Diagnostics) -> Option<Node> {
    if let Some(at) = too_deep_at(text) {
        diagnostics.push(
            Diagnostic::new(Code::TooLarge, format!("brackets and dots nest more than {DEEPEST} deep"))
                .at(Span::new(file, at, at + 1), "too deep from here on"),
        );
        return None;
    }
    let (root, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        report_breaches(file, text, &errors, diagnostics);
        return None;
    }
    let mut reader = Reader { file, mistakes: Vec::new() };
    let table = reader.table(Span::new(file, 0, 0), root.into_inner());
    if reader.mistakes.is_empty() {
        return Some(Node { span: table.span, value: Value::Table(table) });
    }
    diagnostics.extend(reader.mistakes);
    None
}

/// Lays one table over another key by key. Tables are merged in turn; anything else, and a figure given with its own
/// `value` and source, replaces what was there. Every place is that of the winner.
#[must_use]
pub fn merge(base: &Table, over: &Table) -> Table {
    let mut entries = base.entries.clone();
    let known: BTreeMap<&str, usize> =
        base.entries.iter().enumerate().map(|(index, entry)| (entry.key.as_str(), index)).collect();
    for entry in &over.entries {
        let Some(&index) = known.get(entry.key.as_str()) else {
            entries.push(entry.clone());
            continue;
        };
        entries[index] = match (&entries[index].node.value, &entry.node.value) {
            (Value::Table(below), Value::Table(above)) if above.get("value").is_none() => {
                let value = Value::Table(merge(below, above));
                Entry { node: Node { span: entry.node.span, value }, ..entry.clone() }
            }
            _ => entry.clone(),
        };
    }
    Table { span: over.span, entries }
}

struct Reader {
    file: FileId,
    mistakes: Vec<Diagnostic>,
}

impl Reader {
    fn node(&mut self, spanned: toml::Spanned<DeValue<'_>>) -> Node {
        let span = self.span(spanned.span());
        let value = match spanned.into_inner() {
            DeValue::String(text) => Value::Text(text.into_owned()),
            DeValue::Boolean(flag) => Value::Flag(flag),
            DeValue::Datetime(stamp) => Value::Stamp(stamp.to_string()),
            DeValue::Array(list) => Value::List(list.into_iter().map(|item| self.node(item)).collect()),
            DeValue::Table(table) => Value::Table(self.table(span, table)),
            DeValue::Integer(number) => match i64::from_str_radix(number.as_str(), number.radix()) {
                Ok(number) => Value::Integer(number),
                Err(_) => Value::Integer(self.too_long(span)),
            },
            DeValue::Float(number) => match number.as_str().parse() {
                Ok(number) => Value::Number(number),
                Err(_) => Value::Integer(self.too_long(span)),
            },
        };
        Node { span, value }
    }

    fn table(&mut self, span: Span, table: DeTable<'_>) -> Table {
        let mut entries: Vec<Entry> = table
            .into_iter()
            .map(|(key, value)| Entry {
                key_span: self.span(key.span()),
                key: key.into_inner().into_owned(),
                node: self.node(value),
            })
            .collect();
        entries.sort_by_key(|entry| entry.key_span);
        Table { span, entries }
    }

    fn span(&self, range: std::ops::Range<usize>) -> Span {
        Span::new(self.file, range.start, range.end)
    }

    fn too_long(&mut self, span: Span) -> i64 {
        let mistake = Diagnostic::new(Code::OutOfRange, "the number has too many digits");
        self.mistakes.push(mistake.at(span, "cannot be held"));
        0
    }
}

#[cfg(test)]
mod tests {
    use super::{Value, merge, parse};
    use crate::diag::{Code, Diagnostics, FileId};
    use crate::input::fields::sample::table;

    fn codes(text: &str) -> Vec<Code> {
        let mut diagnostics = Diagnostics::default();
        let tree = parse(FileId(0), text, &mut diagnostics);
        assert_eq!(tree.is_none(), diagnostics.has_errors());
        diagnostics.sorted().iter().map(|found| found.code).collect()
    }

    #[test]
    fn the_order_of_the_file_and_places_are_kept() {
        let text = "z = 1\na = 0x1F\n[m.n]\nb = 2027-03-01\n[k]\n[m]\nc = [1.5, true]\n[[l]]\n[[l]]\n";
        let table = table(text);
        let keys: Vec<&str> = table.entries.iter().map(|entry| entry.key.as_str()).collect();
        assert_eq!(keys, ["z", "a", "k", "m", "l"]);
        let inner = table.get("m").map(|entry| &entry.node).unwrap();
        assert_eq!(&text[inner.span.start..inner.span.end], "[m]");
        assert_eq!(table.get("a").unwrap().node.value, Value::Integer(31));
        let Value::List(list) = &table.get("l").unwrap().node.value else { panic!("a list") };
        assert_eq!(&text[list[1].span.start..list[1].span.end], "[[l]]");
    }

    #[test]
    fn without_errors_there_is_a_tree_and_only_then() {
        assert_eq!(codes("a = "), [Code::NotToml]);
        assert_eq!(codes("a = 99999999999999999999"), [Code::OutOfRange]);
        assert_eq!(codes("\u{feff}a = 1"), []);
    }

    #[test]
    fn no_nesting_exhausts_the_stack() {
        assert_eq!(codes(&"[".repeat(10_000)), [Code::TooLarge]);
        assert_eq!(codes(&format!("a{} = 1", ".a".repeat(10_000))), [Code::TooLarge]);
        assert_eq!(codes(&format!("a = {}{}", "[".repeat(60), "]".repeat(60))), []);
    }

    #[test]
    fn a_table_is_laid_over_another() {
        let base = table("a = 1\nf = { value = 1, source = \"s\", at = \"p. 1\" }\n[t]\nx = 1\ny = 2\n");
        let over = table("b = 9\nf = { value = 2, source = \"r\" }\n[t]\ny = 3\n");
        let both = merge(&base, &over);
        let keys: Vec<&str> = both.entries.iter().map(|entry| entry.key.as_str()).collect();
        assert_eq!(keys, ["a", "f", "t", "b"]);
        let inner = |key: &str| match &both.get(key).unwrap().node.value {
            Value::Table(table) => table.clone(),
            other => panic!("{other:?}"),
        };
        assert_eq!(inner("t").get("x").unwrap().node.value, Value::Integer(1));
        assert_eq!(inner("t").get("y"), table_entry(&over, "t", "y").as_ref());
        assert!(inner("f").get("at").is_none(), "the old page must not stand beside the new source");
    }

    fn table_entry(table: &super::Table, key: &str, inner: &str) -> Option<super::Entry> {
        match &table.get(key)?.node.value {
            Value::Table(table) => table.get(inner).cloned(),
            _ => None,
        }
    }
}
