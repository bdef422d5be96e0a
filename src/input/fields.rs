//! The fields of one table: every key that is asked for, and every mistake in it.

use super::figure::{Figured, figure};
use super::read::{self, Reading};
use super::{Node, Table};
use crate::diag::{Code, Diagnostic, Diagnostics, Span, nearest};

/// A value and the place where it is written, so that later checks can point at it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Its place.
    pub span: Span,
}

/// Reads one table key by key. What is wrong with a value is reported at once and the key gives `None`; missing and
/// unknown keys are reported by [`Fields::finish`], which must be called last.
///
/// # Example
/// ```
/// use wearland::diag::{Color, Diagnostics, SourceMap, render};
/// use wearland::input::{Fields, Value, parse, read};
/// use wearland::quantity::{CuttingSpeed, FeedPerRev};
///
/// let text = "[cut]\nspeed = \"220 m/min\"\nfed = \"0.25 mm/rev\"\n";
/// let mut sources = SourceMap::default();
/// let file = sources.add("plant.toml", text);
/// let mut diagnostics = Diagnostics::default();
/// let tree = parse(file, text, &mut diagnostics);
/// if let Some(Value::Table(top)) = tree.map(|node| node.value)
///     && let Some(Value::Table(cut)) = top.get("cut").map(|entry| &entry.node.value)
/// {
///     let mut fields = Fields::new(cut, "cut", &mut diagnostics);
///     let speed = fields.required("speed", read::quantity::<CuttingSpeed>(read::Bounds::Positive));
///     let feed = fields.required("feed", read::quantity::<FeedPerRev>(read::Bounds::Positive));
///     fields.finish();
///     assert!(speed.is_some_and(|speed| speed.value == CuttingSpeed::m_per_min(220.0)));
///     assert!(feed.is_none());
/// }
/// let shown = render(&diagnostics, &sources, Color::Plain);
/// assert!(shown.contains("did you mean `feed`?") && shown.ends_with("1 error\n"), "{shown}");
/// ```
#[must_use = "unknown and missing keys are only reported by `finish`"]
#[derive(Debug)]
pub struct Fields<'t, 'd> {
    table: &'t Table,
    what: &'static str,
    diagnostics: &'d mut Diagnostics,
    asked: Vec<&'static str>,
    /// Groups of keys of which one must be given and none is.
    missing: Vec<Vec<&'static str>>,
}

impl<'t, 'd> Fields<'t, 'd> {
    /// The fields of a table; `what` it describes is named in messages: `cut`, `machine`.
    pub fn new(table: &'t Table, what: &'static str, diagnostics: &'d mut Diagnostics) -> Self {
        Self { table, what, diagnostics, asked: Vec::new(), missing: Vec::new() }
    }

    /// A key that must be given.
    pub fn required<T>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&'t Node) -> Reading<T>,
    ) -> Option<Spanned<T>> {
        if !self.has(key) {
            self.missing.push(vec![key]);
        }
        self.optional(key, read)
    }

    /// A key that may be left out.
    pub fn optional<T>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&'t Node) -> Reading<T>,
    ) -> Option<Spanned<T>> {
        self.asked.push(key);
        read::entry(self.table.get(key)?, read, self.diagnostics)
    }

    /// A key that must be given, with a figure.
    pub fn required_figure<T>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&'t Node) -> Reading<T>,
    ) -> Option<Figured<T>> {
        self.required(key, figure(read)).map(|figure| figure.value)
    }

    /// A key that may be left out, with a figure.
    pub fn optional_figure<T>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&'t Node) -> Reading<T>,
    ) -> Option<Figured<T>> {
        self.optional(key, figure(read)).map(|figure| figure.value)
    }

    /// The tables of a list with a double-bracket header; none if the key is left out.
    pub fn tables(&mut self, key: &'static str) -> Vec<&'t Table> {
        let tables = self.optional(key, read::list(read::table));
        tables.map_or_else(Vec::new, |list| list.value.into_iter().map(|item| item.value).collect())
    }

    /// Whether a key is given as a list with nothing in it.
    #[must_use]
    pub fn is_empty_list(&self, key: &str) -> bool {
        matches!(self.table.get(key).map(|entry| &entry.node.value), Some(super::Value::List(items)) if items.is_empty())
    }

    /// Which of several keys is given: exactly one must be. Its value is then read by [`Fields::optional`].
    pub fn exactly_one(&mut self, keys: &[&'static str]) -> Option<&'static str> {
        let given = self.at_most_one(keys);
        if !keys.iter().any(|key| self.has(key)) {
            self.missing.push(keys.to_vec());
        }
        given
    }

    /// Which of several keys that exclude each other is given, if any.
    pub fn at_most_one(&mut self, keys: &[&'static str]) -> Option<&'static str> {
        self.asked.extend(keys);
        let mut given = keys.iter().filter_map(|key| Some((*key, self.table.get(key)?)));
        let (first_key, first) = given.next()?;
        let mut others = given.peekable();
        if others.peek().is_none() {
            return Some(first_key);
        }
        for (key, other) in others {
            self.diagnostics.push(
                Diagnostic::new(
                    Code::ExactlyOne,
                    format!("`{first_key}` and `{key}` exclude each other in this {}", self.what),
                )
                .at(other.key_span, "and this")
                .also(first.key_span, "this is given"),
            );
        }
        None
    }

    /// A key looked at before it is asked for; nothing where it is wrong, which is reported when it is asked for.
    pub fn peek<T>(&self, key: &str, read: impl FnOnce(&'t Node) -> Reading<T>) -> Option<T> {
        read(&self.table.get(key)?.node).ok()
    }

    /// Whether a key is given.
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.table.get(key).is_some()
    }

    /// The header of the table.
    #[must_use]
    pub fn span(&self) -> Span {
        self.table.span
    }

    /// Where mistakes go: for the fields of a table inside this one, and for checks across keys.
    pub fn diagnostics(&mut self) -> &mut Diagnostics {
        self.diagnostics
    }

    /// Reports keys that were never asked for, and required keys that are not there. A misspelt key that is near a
    /// missing one is one mistake, not two.
    pub fn finish(mut self) {
        self.asked.sort_unstable();
        self.asked.dedup();
        let table = self.table;
        for entry in table.entries.iter().filter(|entry| !self.asked.contains(&entry.key.as_str())) {
            let wanted = nearest(&entry.key, self.missing.iter().flatten().copied());
            if let Some(wanted) = &wanted {
                self.missing.retain(|group| !group.contains(&wanted.as_str()));
            }
            let near = wanted.or_else(|| nearest(&entry.key, self.asked.iter().copied()));
            let help = match near {
                Some(key) => format!("did you mean `{key}`?"),
                None if self.asked.is_empty() => "take it out".to_owned(),
                None => format!("known here: {}", quoted(&self.asked)),
            };
            self.diagnostics.push(
                Diagnostic::new(
                    Code::UnknownKey,
                    format!("unknown key `{}` in this {}", entry.key, self.what),
                )
                .at(entry.key_span, "not known here")
                .help(help),
            );
        }
        for group in &self.missing {
            let missing = match group.as_slice() {
                [key] => {
                    Diagnostic::new(Code::MissingKey, format!("missing key `{key}` in this {}", self.what))
                        .at(table.span, format!("needs `{key}`"))
                }
                keys => Diagnostic::new(
                    Code::ExactlyOne,
                    format!("expected exactly one of {} in this {}, found none", quoted(keys), self.what),
                )
                .at(table.span, "needs one of them"),
            };
            self.diagnostics.push(missing);
        }
    }
}

fn quoted(keys: &[&str]) -> String {
    keys.iter().map(|key| format!("`{key}`")).collect::<Vec<_>>().join(", ")
}

/// Small inputs for tests.
#[cfg(test)]
pub(super) mod sample {
    use crate::diag::{Code, Diagnostic, Diagnostics, FileId};
    use crate::input::read::Reading;
    use crate::input::{Node, Table, Value, parse};

    /// A table from text.
    pub(in crate::input) fn table(text: &str) -> Table {
        let mut diagnostics = Diagnostics::default();
        match parse(FileId(0), text, &mut diagnostics).map(|node| node.value) {
            Some(Value::Table(table)) => table,
            _ => panic!("{diagnostics:?}"),
        }
    }

    /// A value from text.
    pub(in crate::input) fn node(text: &str) -> Node {
        table(&format!("x = {text}")).entries.remove(0).node
    }

    fn only<T>(reading: Reading<T>) -> Diagnostic {
        let mut mistakes = reading.err().unwrap();
        assert_eq!(mistakes.len(), 1, "{mistakes:?}");
        mistakes.remove(0)
    }

    /// The code of the one mistake.
    pub(in crate::input) fn code<T>(reading: Reading<T>) -> Code {
        only(reading).code
    }

    /// The message of the one mistake.
    pub(in crate::input) fn message<T>(reading: Reading<T>) -> String {
        only(reading).message
    }

    /// The help of the one mistake.
    pub(in crate::input) fn help<T>(reading: Reading<T>) -> String {
        only(reading).help.unwrap()
    }
}

#[cfg(test)]
mod tests {
    use super::{Fields, sample::table};
    use crate::diag::{Code, Diagnostics};
    use crate::input::read::{self, Bounds};
    use crate::quantity::Length;

    fn codes(diagnostics: &Diagnostics) -> Vec<Code> {
        diagnostics.sorted().iter().map(|found| found.code).collect()
    }

    #[test]
    fn every_mistake_in_file_order() {
        let table = table("width = 3\ndept = \"2 mm\"\nhollow = true\n");
        let mut diagnostics = Diagnostics::default();
        let mut fields = Fields::new(&table, "cut", &mut diagnostics);
        assert!(fields.required("width", read::quantity::<Length>(Bounds::Positive)).is_none());
        assert!(fields.required("depth", read::quantity::<Length>(Bounds::Positive)).is_none());
        assert!(fields.required("tool", read::name).is_none());
        fields.finish();
        let all = [Code::MissingKey, Code::NotAQuantity, Code::UnknownKey, Code::UnknownKey];
        assert_eq!(codes(&diagnostics), all);
        let helps: Vec<_> = diagnostics.sorted().iter().filter_map(|found| found.help.clone()).collect();
        assert_eq!(helps, ["did you mean `depth`?", "known here: `depth`, `tool`, `width`"]);
    }

    #[test]
    fn exactly_one_of_several() {
        let one_of = |text: &str| {
            let table = table(text);
            let mut diagnostics = Diagnostics::default();
            let mut fields = Fields::new(&table, "cut", &mut diagnostics);
            let given = fields.exactly_one(&["turn", "drill"]);
            fields.finish();
            (given, codes(&diagnostics))
        };
        assert_eq!(one_of("drill = 1"), (Some("drill"), vec![]));
        assert_eq!(one_of("drill = 1\nturn = 2"), (None, vec![Code::ExactlyOne]));
        assert_eq!(one_of(""), (None, vec![Code::ExactlyOne]));
        assert_eq!(one_of("dril = 1"), (None, vec![Code::UnknownKey]));
    }

    #[test]
    fn tables_inside_tables_share_the_collection() {
        let table = table("[[cut]]\n[[cut]]\nx = 1\n[bar]\n");
        let mut diagnostics = Diagnostics::default();
        let mut fields = Fields::new(&table, "operation", &mut diagnostics);
        let cuts = fields.tables("cut");
        for cut in &cuts {
            Fields::new(cut, "cut", fields.diagnostics()).finish();
        }
        assert!(fields.required("bar", read::table).is_some());
        fields.finish();
        assert_eq!((cuts.len(), codes(&diagnostics)), (2, vec![Code::UnknownKey]));
    }
}
