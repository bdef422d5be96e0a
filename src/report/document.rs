//! A whole report: a title and what stands under it, in reading order.

use super::Table;

/// A whole report.
///
/// Sections may share a key, such as one table of cuts for each part: the data writers put their rows together.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// What the report is about.
    pub title: String,
    /// Tables and notes in reading order.
    pub sections: Vec<Section>,
}

impl Document {
    /// A report without sections.
    #[must_use]
    pub fn new(title: impl Into<String>) -> Self {
        Self { title: title.into(), sections: Vec::new() }
    }

    /// Puts a table or notes at the end.
    pub fn push(&mut self, section: impl Into<Section>) {
        self.sections.push(section.into());
    }

    /// The tables that go to other programs.
    pub(super) fn data_tables(&self) -> impl Iterator<Item = &Table> {
        self.sections.iter().filter_map(|section| match section {
            Section::Table(table) if table.faces.in_data() => Some(table),
            Section::Table(_) | Section::Notes(_) => None,
        })
    }

    /// The notes.
    pub(super) fn notes(&self) -> impl Iterator<Item = &Notes> {
        self.sections.iter().filter_map(|section| match section {
            Section::Notes(notes) => Some(notes),
            Section::Table(_) => None,
        })
    }
}

/// A part of a report.
#[derive(Debug, Clone, PartialEq)]
pub enum Section {
    /// Rows of figures.
    Table(Table),
    /// Lines of prose.
    Notes(Notes),
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
