//! The list of works that figures cite.

use super::Fields;
use super::built_in::BuiltIn;
use super::read;
use crate::diag::Diagnostics;
use crate::tooling::Standing;

/// A work that figures cite.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Citation {
    /// Key by which it is cited.
    pub key: String,
    /// Who wrote or issued it.
    pub author: Option<String>,
    /// Its title.
    pub title: String,
    /// Who published it.
    pub publisher: Option<String>,
    /// When.
    pub year: Option<i64>,
    /// How well it was seen.
    pub standing: Standing,
}

impl Citation {
    /// In one line: author, title, publisher, year, standing.
    #[must_use]
    pub fn line(&self) -> String {
        let year = self.year.map(|year| year.to_string());
        let parts = [self.author.as_deref(), Some(&self.title), self.publisher.as_deref(), year.as_deref()];
        let text: Vec<&str> = parts.into_iter().flatten().collect();
        format!("{}: {} ({})", self.key, text.join(", "), self.standing.text())
    }
}

/// Reads the list.
pub(super) fn citations(catalogs: &BuiltIn, diagnostics: &mut Diagnostics) -> Vec<Citation> {
    let mut list = Vec::new();
    for name in catalogs.keys("source") {
        let Some(table) = catalogs.entry("source", &name.value, diagnostics) else { continue };
        let mut fields = Fields::new(&table, "source", diagnostics);
        let author = fields.optional("author", read::text);
        let title = fields.required("title", read::text);
        let publisher = fields.optional("publisher", read::text);
        let year = fields.optional("year", read::integer);
        let standing = fields.required("standing", read::choice(&Standing::WORDS));
        fields.optional("note", read::text);
        fields.finish();
        if let (Some(title), Some(standing)) = (title, standing) {
            list.push(Citation {
                key: name.value,
                author: author.map(|text| text.value),
                title: title.value,
                publisher: publisher.map(|text| text.value),
                year: year.map(|year| year.value),
                standing: standing.value,
            });
        }
    }
    list
}
