//! The texts that diagnostics point into.

use super::Span;

/// One text and the name it is shown under.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SourceFile {
    /// As the user gave it, such as `plant/machines.toml`.
    pub name: String,
    /// Its text, without byte order mark.
    pub text: String,
}

/// A file of a [`SourceMap`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(pub u32);

/// A place as an editor counts it, both from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Line.
    pub line: usize,
    /// Column in characters.
    pub column: usize,
}

impl SourceFile {
    /// Line and column of a byte; a byte past the end counts as the end.
    #[must_use]
    pub fn place(&self, byte: usize) -> Place {
        let byte = self.boundary(byte);
        let start = self.line_start(byte);
        Place {
            line: self.text[..start].matches('\n').count() + 1,
            column: self.text[start..byte].chars().count() + 1,
        }
    }

    /// The byte, or the first of the character it lies in, or the end.
    pub(super) fn boundary(&self, byte: usize) -> usize {
        let mut byte = byte.min(self.text.len());
        while !self.text.is_char_boundary(byte) {
            byte -= 1;
        }
        byte
    }

    /// First byte of the line that holds a byte.
    pub(super) fn line_start(&self, byte: usize) -> usize {
        let byte = self.boundary(byte);
        self.text[..byte].rfind('\n').map_or(0, |newline| newline + 1)
    }

    /// End of the line that holds a byte, without its line break.
    pub(super) fn line_end(&self, byte: usize) -> usize {
        let byte = self.boundary(byte);
        self.text[byte..].find('\n').map_or(self.text.len(), |length| byte + length)
    }
}

/// All texts read in one run.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SourceMap(Vec<SourceFile>);

impl SourceMap {
    /// Keeps a text and says how to point into it.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<String>) -> FileId {
        let id = FileId(u32::try_from(self.0.len()).unwrap_or(u32::MAX));
        self.0.push(SourceFile { name: name.into(), text: text.into() });
        id
    }

    /// A file that was added.
    #[must_use]
    pub fn file(&self, id: FileId) -> Option<&SourceFile> {
        self.0.get(usize::try_from(id.0).ok()?)
    }

    /// The text of a span; `None` if it does not lie in its file.
    #[must_use]
    pub fn text(&self, span: Span) -> Option<&str> {
        self.file(span.file)?.text.get(span.start..span.end)
    }

    /// Line and column where a span starts.
    #[must_use]
    pub fn place(&self, span: Span) -> Option<Place> {
        Some(self.file(span.file)?.place(span.start))
    }
}

#[cfg(test)]
mod tests {
    use super::{Place, SourceMap};
    use crate::diag::Span;

    #[test]
    fn columns_count_characters() {
        let mut map = SourceMap::default();
        let file = map.add("a.toml", "x = 1\r\nmü = \"é\"\n");
        let at = |byte| map.place(Span::new(file, byte, byte)).unwrap();
        assert_eq!(at(0), Place { line: 1, column: 1 });
        assert_eq!(at(7), Place { line: 2, column: 1 });
        assert_eq!(at(13), Place { line: 2, column: 6 });
        assert_eq!(map.text(Span::new(file, 13, 17)), Some("\"é\""));
        assert_eq!(at(999), Place { line: 3, column: 1 });
    }
}
