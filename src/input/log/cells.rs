//! From text to rows of cells, each with its place.

use crate::diag::{Code, Diagnostic, FileId, Span};
use std::borrow::Cow;

/// One cell without the blanks and quotes around it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Cell<'t> {
    /// Its text.
    pub(super) text: Cow<'t, str>,
    /// Its place, with its quotes.
    pub(super) span: Span,
}

/// One row; a quoted cell may run over several lines.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Row<'t> {
    /// Its cells, in the order of the head.
    pub(super) cells: Vec<Cell<'t>>,
    /// The line it begins on, from 1.
    pub(super) line: u32,
    /// All of it.
    pub(super) span: Span,
}

/// The rows of a text, the head first; remarks and empty rows are passed over.
#[derive(Debug, Clone)]
pub(super) struct Rows<'t> {
    file: FileId,
    text: &'t str,
    separator: u8,
    at: usize,
    line: u32,
}

impl<'t> Rows<'t> {
    /// Separated as the first line that is no remark is.
    pub(super) fn new(file: FileId, text: &'t str) -> Self {
        Self { file, text, separator: separator(text), at: 0, line: 1 }
    }

    /// What stands between cells.
    pub(super) fn separator(&self) -> char {
        char::from(self.separator)
    }

    /// The line that is read next, from 1.
    pub(super) fn line(&self) -> u32 {
        self.line
    }

    fn byte(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn span(&self, start: usize, end: usize) -> Span {
        Span::new(self.file, start, end)
    }

    fn line_end(&self) -> usize {
        self.text[self.at..].find('\n').map_or(self.text.len(), |length| self.at + length)
    }

    fn next_line(&mut self) {
        self.at = (self.line_end() + 1).min(self.text.len());
        self.line += 1;
    }

    fn row(&mut self) -> Result<Row<'t>, Box<Diagnostic>> {
        let (start, line) = (self.at, self.line);
        let mut cells = Vec::new();
        loop {
            cells.push(self.cell()?);
            if self.byte() != Some(self.separator) {
                break;
            }
            self.at += 1;
        }
        let end = start + self.text[start..self.at].trim_end().len();
        self.next_line();
        Ok(Row { cells, line, span: self.span(start, end) })
    }

    /// Reads up to the next separator or the end of the line.
    fn cell(&mut self) -> Result<Cell<'t>, Box<Diagnostic>> {
        self.skip_blanks();
        if self.byte() == Some(b'"') {
            return self.quoted();
        }
        let start = self.at;
        let rest = &self.text.as_bytes()[start..];
        let length = rest.iter().position(|byte| *byte == self.separator || *byte == b'\n');
        self.at = length.map_or(self.text.len(), |length| start + length);
        let text = self.text[start..self.at].trim();
        Ok(Cell { text: Cow::Borrowed(text), span: self.span(start, start + text.len()) })
    }

    /// A cell in quotes; a quote inside is written twice.
    fn quoted(&mut self) -> Result<Cell<'t>, Box<Diagnostic>> {
        let start = self.at;
        self.at += 1;
        let mut doubled = false;
        loop {
            let Some(length) = self.text[self.at..].find('"') else {
                self.at = self.text.len();
                let open = Diagnostic::new(Code::LogShape, "a cell is opened with a quote and never closed")
                    .at(self.span(start, start + 1), "opened here")
                    .help("close it, or write the cell without quotes");
                return Err(Box::new(open));
            };
            self.at += length + 1;
            if self.byte() != Some(b'"') {
                break;
            }
            doubled = true;
            self.at += 1;
        }
        let (inner, end) = (&self.text[start + 1..self.at - 1], self.at);
        self.line += u32::try_from(inner.matches('\n').count()).unwrap_or(u32::MAX);
        self.skip_blanks();
        if self.byte().is_some_and(|byte| byte != self.separator && byte != b'\n') {
            let closed = Diagnostic::new(Code::LogShape, "a cell goes on after its closing quote")
                .at(self.span(start, end), "closed here")
                .help("write a quote inside a cell twice");
            return Err(Box::new(closed));
        }
        let text =
            if doubled { Cow::Owned(inner.replace("\"\"", "\"")) } else { Cow::Borrowed(inner.trim()) };
        Ok(Cell { text, span: self.span(start, end) })
    }

    fn skip_blanks(&mut self) {
        while matches!(self.byte(), Some(b' ' | b'\t' | b'\r')) {
            self.at += 1;
        }
    }
}

impl<'t> Iterator for Rows<'t> {
    type Item = Result<Row<'t>, Box<Diagnostic>>;

    fn next(&mut self) -> Option<Self::Item> {
        while self.at < self.text.len() {
            if is_remark(&self.text[self.at..self.line_end()]) {
                self.next_line();
                continue;
            }
            match self.row() {
                Ok(row) if row.cells.iter().all(|cell| cell.text.is_empty()) => {}
                Ok(row) => return Some(Ok(row)),
                Err(mistake) => {
                    self.next_line();
                    return Some(Err(mistake));
                }
            }
        }
        None
    }
}

/// Nothing but blanks, or a remark.
fn is_remark(line: &str) -> bool {
    let line = line.trim_start();
    line.is_empty() || line.starts_with('#')
}

/// The more frequent of comma and semicolon in the head line; of equals the comma.
fn separator(text: &str) -> u8 {
    let head = text.lines().find(|line| !is_remark(line)).unwrap_or_default();
    if head.matches(',').count() < head.matches(';').count() { b';' } else { b',' }
}

#[cfg(test)]
mod tests {
    use super::{Row, Rows};
    use crate::diag::{Code, FileId};

    fn rows(text: &str) -> Vec<Row<'_>> {
        Rows::new(FileId(0), text).map(Result::unwrap).collect()
    }

    fn texts(text: &str) -> Vec<Vec<String>> {
        rows(text)
            .iter()
            .map(|row| row.cells.iter().map(|cell| cell.text.clone().into_owned()).collect())
            .collect()
    }

    #[test]
    fn cells_are_those_of_another_reader() {
        for text in [
            "a,b,c\r\n1,\"x, y\",\"he said \"\"no\"\"\"\r\n,,3\r\n",
            "a;b\n# a remark; with \"quote\n1,5;\"two\nlines\"\n\n3;4",
            "one\n2\n",
            "a,b\n3\" bar,ü\n\"\",x",
        ] {
            let delimiter = if text.starts_with("a;") { b';' } else { b',' };
            let mut other = csv::ReaderBuilder::new()
                .has_headers(false)
                .flexible(true)
                .comment(Some(b'#'))
                .delimiter(delimiter)
                .from_reader(text.as_bytes());
            let other: Vec<Vec<String>> =
                other.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
            assert_eq!(texts(text), other, "{text}");
        }
    }

    #[test]
    fn places_and_lines() {
        let text = "a , b\r\n# x\r\n\" 1\n\" ,  zwölf \r\n;;\r\n,\r\n5,6";
        let rows = rows(text);
        let at = |row: usize, cell: usize| {
            let span = rows[row].cells[cell].span;
            &text[span.start..span.end]
        };
        assert_eq!((at(0, 0), at(0, 1), at(1, 0), at(1, 1)), ("a", "b", "\" 1\n\"", "zwölf"));
        assert_eq!(rows.iter().map(|row| row.line).collect::<Vec<_>>(), [1, 3, 5, 7]);
        assert_eq!(&text[rows[3].span.start..rows[3].span.end], "5,6");
    }

    #[test]
    fn broken_quotes_are_mistakes() {
        let found: Vec<_> = Rows::new(FileId(0), "a,b\n\"1\"2,3\n4,5\n6,\"7\n8,9\n").collect();
        let mistakes: Vec<_> = found.iter().filter_map(|row| row.as_ref().err()).collect();
        assert_eq!((found.len(), mistakes.len()), (4, 2));
        assert!(mistakes.iter().all(|mistake| mistake.code == Code::LogShape));
        assert_eq!(mistakes[1].primary.unwrap().start, 17);
    }
}
