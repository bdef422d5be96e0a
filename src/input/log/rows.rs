//! The cells of one row by the names of their columns, each mistake at its cell.

use super::cells::{Cell, Row, Rows};
use super::head::{Head, Layout};
use crate::diag::{Code, Diagnostic, Diagnostics, FileId, Severity, Span};
use crate::input::read::{self, Reading, short};
use crate::input::{Node, Spanned, Value};
use crate::quantity::Unit;

/// Most rows of a log that are read.
const MOST_ROWS: usize = 1_000_000;

/// After so many mistakes the rest of a log is not read.
const MOST_MISTAKES: usize = 100;

/// How a log is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Notation {
    /// What stands between cells: a comma or a semicolon.
    pub separator: char,
    /// The decimal sign: a comma only if a number of the log has one.
    pub decimal: char,
}

/// Where numbers first showed each decimal sign.
#[derive(Debug, Default)]
struct DecimalSigns {
    comma: Option<Span>,
    point: Option<Span>,
}

/// The row being read.
#[derive(Debug)]
pub(super) struct Fields<'t, 'd> {
    row: Row<'t>,
    head: &'d Head,
    separator: char,
    signs: &'d mut DecimalSigns,
    diagnostics: &'d mut Diagnostics,
}

/// Reads the rows of a log one by one. `None` without a usable head line; mistakes are in the diagnostics.
pub(super) fn read_rows<T>(
    (file, text): (FileId, &str),
    layout: &Layout,
    diagnostics: &mut Diagnostics,
    mut read: impl FnMut(&mut Fields<'_, '_>) -> Option<T>,
) -> (Option<Vec<T>>, Notation) {
    let mut rows = Rows::new(file, text);
    let separator = rows.separator();
    let mut signs = DecimalSigns::default();
    let mut values = Vec::new();
    let head = match rows.next() {
        Some(Ok(row)) => Head::new(&row, layout, diagnostics),
        Some(Err(mistake)) => {
            diagnostics.push(*mistake);
            return (None, Notation { separator, decimal: '.' });
        }
        None => {
            diagnostics.push(Diagnostic::new(Code::LogShape, "the log has remarks and no head line"));
            return (None, Notation { separator, decimal: '.' });
        }
    };
    let mut count = 0;
    while let Some(row) = rows.next() {
        count += 1;
        match row.and_then(|row| head.fits(&row).map(|()| row)) {
            Ok(row) => {
                let (head, signs) = (&head, &mut signs);
                let mut fields = Fields { row, head, separator, signs, diagnostics: &mut *diagnostics };
                values.extend(read(&mut fields));
            }
            Err(mistake) => diagnostics.push(*mistake),
        }
        if let Some(mistake) = too_many(count, rows.line(), diagnostics) {
            diagnostics.push(mistake);
            break;
        }
    }
    if count == 0 {
        let empty = Diagnostic::new(Code::LogShape, "the log has a head line and no rows");
        diagnostics.push(empty.at(head.span(), "nothing below it"));
    }
    let decimal = if signs.comma.is_some() { ',' } else { '.' };
    (Some(values).filter(|_| !diagnostics.has_errors()), Notation { separator, decimal })
}

/// Why the rows from a line on are not read.
fn too_many(count: usize, line: u32, diagnostics: &Diagnostics) -> Option<Diagnostic> {
    if MOST_ROWS < count {
        let message = format!("the log has more than {MOST_ROWS} rows");
        Some(Diagnostic::new(Code::TooLarge, message).help("split it"))
    } else if MOST_MISTAKES <= diagnostics.count(Severity::Error) {
        let message =
            format!("{MOST_MISTAKES} mistakes are enough: what follows line {} is not read", line - 1);
        Some(Diagnostic::new(Code::LogShape, message).help("mend the log from its top"))
    } else {
        None
    }
}

impl<'t> Fields<'t, '_> {
    /// The row.
    pub(super) fn span(&self) -> Span {
        self.row.span
    }

    /// Its line, from 1.
    pub(super) fn line(&self) -> u32 {
        self.row.line
    }

    /// Where mistakes go.
    pub(super) fn diagnostics(&mut self) -> &mut Diagnostics {
        self.diagnostics
    }

    /// Whether the log has a column.
    pub(super) fn has(&self, name: &str) -> bool {
        self.head.place(name).is_some()
    }

    fn cell(&self, name: &str) -> Option<Cell<'t>> {
        self.row.cells.get(self.head.place(name)?).cloned()
    }

    /// A text, or what is read from one; nothing if the cell is empty.
    pub(super) fn text<T>(&mut self, name: &str, read: impl Fn(&Node) -> Reading<T>) -> Option<Spanned<T>> {
        let cell = self.cell(name).filter(|cell| !cell.text.is_empty())?;
        let span = cell.span;
        self.kept(span, read(&Node { span, value: Value::Text(cell.text.into_owned()) }))
    }

    /// A quantity; nothing if the cell is empty.
    pub(super) fn quantity<T>(
        &mut self,
        name: &str,
        read: impl Fn(&Node) -> Reading<T>,
    ) -> Option<Spanned<T>> {
        let unit = self.head.column(name)?.unit;
        let cell = self.cell(name).filter(|cell| !cell.text.is_empty())?;
        let reading = self.pointed(&cell).and_then(|text| {
            let text = match unit {
                Some(unit) => with_unit(&text, unit, cell.span)?,
                None => text,
            };
            read(&Node { span: cell.span, value: Value::Text(text) })
        });
        self.kept(cell.span, reading)
    }

    /// A bare number; nothing if the cell is empty.
    pub(super) fn number<T>(&mut self, name: &str, read: impl Fn(&Node) -> Reading<T>) -> Option<Spanned<T>> {
        let cell = self.cell(name).filter(|cell| !cell.text.is_empty())?;
        let reading = self.pointed(&cell).and_then(|text| {
            let whole = text.parse().map(Value::Integer).ok();
            let value = whole.or_else(|| text.parse().map(Value::Number).ok()).unwrap_or(Value::Text(text));
            read(&Node { span: cell.span, value })
        });
        self.kept(cell.span, reading)
    }

    /// Reports a cell that is empty and may not be.
    pub(super) fn require(&mut self, name: &str) {
        if let Some(cell) = self.cell(name).filter(|cell| cell.text.is_empty()) {
            let message = format!("expected a value for `{name}`, found an empty cell");
            self.diagnostics.push(Diagnostic::new(Code::WrongKind, message).at(cell.span, "empty"));
        }
    }

    fn kept<T>(&mut self, span: Span, reading: Reading<T>) -> Option<Spanned<T>> {
        match reading {
            Ok(value) => Some(Spanned { value, span }),
            Err(mistakes) => {
                self.diagnostics.extend(mistakes);
                None
            }
        }
    }

    /// The text of a number with a decimal point. A comma is turned into one where cells are separated by semicolons.
    fn pointed(&mut self, cell: &Cell<'_>) -> Reading<String> {
        let text = cell.text.as_ref();
        let wrong = |message: String| Diagnostic::new(Code::NotAQuantity, message).at(cell.span, "");
        let (commas, points) = (text.matches(',').count(), text.matches('.').count());
        if commas == 0 {
            if 0 < points {
                self.signs.point.get_or_insert(cell.span);
            }
        } else if self.separator == ',' {
            let message = format!("`{}` has a comma: write the decimal sign as a point", short(text));
            return Err(vec![
                wrong(message).help("or separate the cells by `;`, then a decimal comma is read"),
            ]);
        } else if 1 < commas || 0 < points {
            let message = format!("`{}` has more than one decimal sign", short(text));
            return Err(vec![wrong(message).help("write no thousands sign")]);
        } else {
            self.signs.comma.get_or_insert(cell.span);
        }
        if 0 < commas + points
            && let (Some(comma), Some(point)) = (self.signs.comma, self.signs.point)
        {
            let (other, sign) = if commas == 0 { (comma, "a comma") } else { (point, "a point") };
            let message = format!("`{}` has another decimal sign than a number before it", short(text));
            return Err(vec![wrong(message).also(other, sign)]);
        }
        Ok(text.replace(',', "."))
    }
}

/// A bare number with the unit of its column.
fn with_unit(text: &str, unit: &Unit, span: Span) -> Reading<String> {
    let wrong = |code, message: String| vec![Diagnostic::new(code, message).at(span, "")];
    match text.parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(format!("{text} {}", unit.symbol)),
        Ok(_) => Err(wrong(Code::OutOfRange, format!("expected a finite number, found `{}`", short(text)))),
        Err(_) => {
            let message = format!("expected a bare number of {}, found `{}`", unit.symbol, short(text));
            Err(wrong(Code::NotAQuantity, message))
        }
    }
}

/// Some other text, kept as it is.
pub(super) fn words(fields: &mut Fields<'_, '_>, name: &str) -> Option<Spanned<String>> {
    fields.text(name, read::text)
}
