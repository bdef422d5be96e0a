//! A whole report: a title and what stands under it, in reading order.

use super::{Chart, Table};
use std::borrow::Cow;
use thiserror::Error;

/// A whole report.
///
/// Sections may share a key, such as one table of cuts for each part: the data writers put their rows together.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// What the report is about.
    pub title: String,
    /// Tables, charts and notes in reading order.
    pub sections: Vec<Section>,
}

impl Document {
    /// A report without sections.
    #[must_use]
    pub fn new(title: impl Into<String>) -> Self {
        Self { title: title.into(), sections: Vec::new() }
    }

    /// Puts a table, a chart or notes at the end.
    pub fn push(&mut self, section: impl Into<Section>) {
        self.sections.push(section.into());
    }

    /// The same report with one of its tables or charts alone.
    ///
    /// # Errors
    /// [`UnknownTable`] lists the tables and charts there are.
    pub fn only(&self, key: &str) -> Result<Self, UnknownTable> {
        let of_key = |section: &&Section| section.data_key() == Some(key);
        let sections: Vec<Section> = self.sections.iter().filter(of_key).cloned().collect();
        if !sections.is_empty() {
            return Ok(Self { title: self.title.clone(), sections });
        }
        let mut known: Vec<&'static str> = Vec::new();
        for key in self.sections.iter().filter_map(Section::data_key) {
            if !known.contains(&key) {
                known.push(key);
            }
        }
        Err(UnknownTable { name: key.to_owned(), known })
    }

    /// The tables that go to other programs, charts among them.
    pub(super) fn data_tables(&self) -> impl Iterator<Item = Cow<'_, Table>> {
        self.sections.iter().filter_map(|section| match section {
            Section::Table(table) if table.faces.in_data() => Some(Cow::Borrowed(table)),
            Section::Chart(chart) => Some(Cow::Owned(chart.table())),
            Section::Table(_) | Section::Notes(_) | Section::File(_) => None,
        })
    }

    /// The charts.
    pub(super) fn charts(&self) -> impl Iterator<Item = &Chart> {
        self.sections.iter().filter_map(|section| match section {
            Section::Chart(chart) => Some(chart.as_ref()),
            Section::Table(_) | Section::Notes(_) | Section::File(_) => None,
        })
    }

    /// The notes.
    pub(super) fn notes(&self) -> impl Iterator<Item = &Notes> {
        self.sections.iter().filter_map(|section| match section {
            Section::Notes(notes) => Some(notes),
            Section::Table(_) | Section::Chart(_) | Section::File(_) => None,
        })
    }

    /// The texts for other files.
    pub(super) fn files(&self) -> impl Iterator<Item = &File> {
        self.sections.iter().filter_map(|section| match section {
            Section::File(file) => Some(file),
            Section::Table(_) | Section::Chart(_) | Section::Notes(_) => None,
        })
    }
}

/// A table asked for that the report does not have.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("no table `{name}` in this report: expected one of {}", known.join(", "))]
pub struct UnknownTable {
    /// The name given.
    pub name: String,
    /// Names that would do.
    pub known: Vec<&'static str>,
}

/// A part of a report.
#[derive(Debug, Clone, PartialEq)]
pub enum Section {
    /// Rows of figures.
    Table(Table),
    /// Series over two axes.
    Chart(Box<Chart>),
    /// Lines of prose.
    Notes(Notes),
    /// Text for another file, written as it stands: a document of nothing else has no title in text.
    File(File),
}

impl Section {
    /// The name under which it can be asked for alone.
    fn data_key(&self) -> Option<&'static str> {
        match self {
            Self::Table(table) => Some(table.key),
            Self::Chart(chart) => Some(chart.key),
            Self::Notes(_) | Self::File(_) => None,
        }
    }
}

impl From<Chart> for Section {
    fn from(chart: Chart) -> Self {
        Self::Chart(Box::new(chart))
    }
}

impl From<Table> for Section {
    fn from(table: Table) -> Self {
        Self::Table(table)
    }
}

impl From<Notes> for Section {
    fn from(notes: Notes) -> Self {
        Self::Notes(notes)
    }
}

impl From<File> for Section {
    fn from(file: File) -> Self {
        Self::File(file)
    }
}

/// Text for another file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct File {
    /// Name in JSON: `proposal`.
    pub key: &'static str,
    /// Its lines.
    pub lines: Vec<String>,
}

/// Lines of prose under a heading: cautions, sources, assumptions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notes {
    /// Name in JSON: `cautions`.
    pub key: &'static str,
    /// Heading in text.
    pub heading: String,
    /// One statement each.
    pub lines: Vec<String>,
}

impl Notes {
    /// Notes from their lines.
    #[must_use]
    pub fn new(key: &'static str, heading: impl Into<String>, lines: Vec<String>) -> Self {
        Self { key, heading: heading.into(), lines }
    }
}
