//! A report written as JSON earlier, read back: its tables row by row, each mistake with its place.

use super::decode;
use super::files::{FileError, read_one};
use crate::diag::{Code, Diagnostic, Diagnostics, SourceMap, Span};
use crate::plant::seconds_from;
use jiff::civil::{Date, DateTime};
use serde_json::{Map, Value};
use std::path::Path;
use thiserror::Error;

/// A report read back.
#[derive(Debug, Clone, PartialEq)]
pub struct SavedReport {
    /// The file it comes from.
    pub name: String,
    root: Value,
}

/// Something in a report that is not as it was written, with its path: `tables.lots[3].pieces`.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("`{file}`: {path}: {what}")]
pub struct SavedFault {
    /// The file.
    pub file: String,
    /// Where in it.
    pub path: String,
    /// What was expected.
    pub what: String,
}

impl SavedFault {
    /// The same as a mistake of the input.
    #[must_use]
    pub fn diagnostic(&self) -> Diagnostic {
        Diagnostic::new(Code::SavedReport, self.to_string())
            .help("write the report anew: wearland plan --format json -o FILE, without --table")
    }
}

/// Reads a report; `None` if it is no JSON, which is then among the diagnostics.
///
/// # Errors
/// A file that cannot be read.
pub fn saved_report(
    path: &Path,
    sources: &mut SourceMap,
    diagnostics: &mut Diagnostics,
) -> Result<Option<SavedReport>, FileError> {
    let bytes = read_one(path).map_err(|cause| FileError { action: "read", path: path.to_owned(), cause })?;
    let name = path.display().to_string();
    match decode(&bytes) {
        Ok(text) => Ok(SavedReport::parse(&name, &text, (sources, diagnostics))),
        Err(unreadable) => {
            diagnostics.push(unreadable.diagnostic(&name));
            Ok(None)
        }
    }
}

impl SavedReport {
    /// A report from its text; `None` if it is no JSON.
    pub fn parse(name: &str, text: &str, found: (&mut SourceMap, &mut Diagnostics)) -> Option<Self> {
        match serde_json::from_str(text) {
            Ok(root) => Some(Self { name: name.to_owned(), root }),
            Err(error) => {
                let (sources, diagnostics) = found;
                let file = sources.add(name, text);
                let before: usize =
                    text.split_inclusive('\n').take(error.line().saturating_sub(1)).map(str::len).sum();
                let at = (before + error.column().saturating_sub(1)).min(text.len());
                let what = error.to_string();
                let what = what.split(" at line ").next().unwrap_or_default().to_owned();
                let mistake = Diagnostic::new(Code::SavedReport, format!("this is no JSON: {what}"));
                diagnostics.push(mistake.at(Span::new(file, at, (at + 1).min(text.len())), "here"));
                None
            }
        }
    }

    /// Title of the report.
    #[must_use]
    pub fn title(&self) -> &str {
        self.root.get("title").and_then(Value::as_str).unwrap_or(&self.name)
    }

    /// Currency of its money.
    #[must_use]
    pub fn currency(&self) -> &str {
        self.root.get("currency").and_then(Value::as_str).unwrap_or_default()
    }

    /// Rows of a table that must be there.
    ///
    /// # Errors
    /// [`SavedFault`].
    pub fn rows(&self, table: &str) -> Result<Vec<SavedRow<'_>>, SavedFault> {
        match self.root.get("tables").and_then(|tables| tables.get(table)) {
            Some(Value::Array(rows)) => {
                rows.iter().enumerate().map(|(at, row)| self.row(table, at, row)).collect()
            }
            found => Err(self.fault(
                format!("tables.{table}"),
                if found.is_some() { "expected a list of rows" } else { "expected this table, found none" },
            )),
        }
    }

    /// Rows of a table that only some reports have.
    ///
    /// # Errors
    /// [`SavedFault`].
    pub fn rows_if_any(&self, table: &str) -> Result<Vec<SavedRow<'_>>, SavedFault> {
        let there = self.root.get("tables").is_some_and(|tables| tables.get(table).is_some());
        if there { self.rows(table) } else { Ok(Vec::new()) }
    }

    fn row<'r>(&'r self, table: &str, at: usize, row: &'r Value) -> Result<SavedRow<'r>, SavedFault> {
        let path = format!("tables.{table}[{at}]");
        match row {
            Value::Object(cells) => Ok(SavedRow { report: self, path, cells }),
            _ => Err(self.fault(path, "expected a row with keys")),
        }
    }

    fn fault(&self, path: String, what: &str) -> SavedFault {
        SavedFault { file: self.name.clone(), path, what: what.to_owned() }
    }
}

/// A row of a table.
#[derive(Debug, Clone)]
pub struct SavedRow<'r> {
    report: &'r SavedReport,
    path: String,
    cells: &'r Map<String, Value>,
}

impl<'r> SavedRow<'r> {
    /// Something wrong with a cell.
    #[must_use]
    pub fn fault(&self, key: &str, expected: &str) -> SavedFault {
        let found = self.cells.get(key).map_or_else(|| "nothing".to_owned(), Value::to_string);
        let found: String = found.chars().take(40).collect();
        let path = format!("{}.{key}", self.path);
        self.report.fault(path, &format!("expected {expected}, found {found}"))
    }

    /// Words.
    ///
    /// # Errors
    /// [`SavedFault`].
    pub fn text(&self, key: &str) -> Result<&'r str, SavedFault> {
        self.cells.get(key).and_then(Value::as_str).ok_or_else(|| self.fault(key, "a text"))
    }

    /// Words, if there are any.
    ///
    /// # Errors
    /// [`SavedFault`].
    pub fn text_if_any(&self, key: &str) -> Result<Option<&'r str>, SavedFault> {
        if matches!(self.cells.get(key), Some(Value::Null)) { Ok(None) } else { self.text(key).map(Some) }
    }

    /// A whole number.
    ///
    /// # Errors
    /// [`SavedFault`].
    pub fn count(&self, key: &str) -> Result<u32, SavedFault> {
        let number = self.cells.get(key).and_then(Value::as_u64);
        number.and_then(|number| u32::try_from(number).ok()).ok_or_else(|| self.fault(key, "a whole number"))
    }

    /// A whole number of either sign.
    ///
    /// # Errors
    /// [`SavedFault`].
    pub fn integer(&self, key: &str) -> Result<i64, SavedFault> {
        self.cells.get(key).and_then(Value::as_i64).ok_or_else(|| self.fault(key, "a whole number"))
    }

    /// A number.
    ///
    /// # Errors
    /// [`SavedFault`].
    pub fn number(&self, key: &str) -> Result<f64, SavedFault> {
        self.cells.get(key).and_then(Value::as_f64).ok_or_else(|| self.fault(key, "a number"))
    }

    /// A number, if there is one.
    ///
    /// # Errors
    /// [`SavedFault`].
    pub fn number_if_any(&self, key: &str) -> Result<Option<f64>, SavedFault> {
        if matches!(self.cells.get(key), Some(Value::Null)) { Ok(None) } else { self.number(key).map(Some) }
    }

    /// An amount of money, whose key ends in the currency of the report.
    ///
    /// # Errors
    /// [`SavedFault`].
    pub fn money(&self, name: &str) -> Result<f64, SavedFault> {
        let currency: String = self.report.currency().chars().filter(|c| c.is_alphanumeric()).collect();
        self.number(&format!("{name}_{}", currency.to_lowercase()))
    }

    /// A time of the calendar, in seconds from midnight of a day.
    ///
    /// # Errors
    /// [`SavedFault`].
    pub fn moment(&self, key: &str, start: Date) -> Result<i64, SavedFault> {
        let text = self.text(key)?;
        let moment = text.parse::<DateTime>().ok().filter(|_| text.len() == "2027-03-01 06:00".len());
        let expected = "a time such as \"2027-03-01 06:00\"";
        moment.map(|moment| seconds_from(start, moment)).ok_or_else(|| self.fault(key, expected))
    }
}

#[cfg(test)]
mod tests {
    use super::SavedReport;
    use crate::diag::{Color, Diagnostics, SourceMap, render};
    use jiff::civil::date;

    fn parse(text: &str) -> (Option<SavedReport>, String) {
        let (mut sources, mut diagnostics) = (SourceMap::default(), Diagnostics::default());
        let report = SavedReport::parse("monday.json", text, (&mut sources, &mut diagnostics));
        (report, render(&diagnostics, &sources, Color::Plain))
    }

    #[test]
    fn broken_json_is_shown_where_it_breaks() {
        let (report, said) = parse("{\n  \"tables\": {\n    \"lots\": [}\n");
        assert!(report.is_none() && said.contains("monday.json:3:14"), "{said}");
        assert!(parse("").1.contains("monday.json:1:1"), "{}", parse("").1);
    }

    #[test]
    fn what_is_wrong_with_a_table_is_said_by_its_path() {
        let text = r#"{"currency": "EUR", "tables": {"orders": 5, "lots": [
            {"machine": "m", "pieces": 5, "end": "2027-03-02 06:30", "cost_eur": 1.5, "good_pieces": 2.5, "start": "6:30"}, 7]}}"#;
        let report = parse(text).0.unwrap();
        let path = |what: &str| report.rows(what).unwrap_err().to_string();
        assert_eq!(path("orders"), "`monday.json`: tables.orders: expected a list of rows");
        assert_eq!(path("shipments"), "`monday.json`: tables.shipments: expected this table, found none");
        assert_eq!(path("lots"), "`monday.json`: tables.lots[1]: expected a row with keys");
        assert!(report.rows_if_any("shipments").unwrap().is_empty());
        let text = text.replace(", 7]", "]");
        let report = parse(&text).0.unwrap();
        let lot = &report.rows("lots").unwrap()[0];
        let start = date(2027, 3, 1);
        assert_eq!((lot.text("machine"), lot.count("pieces"), lot.money("cost")), (Ok("m"), Ok(5), Ok(1.5)));
        assert_eq!(lot.moment("end", start), Ok(86_400 + 23_400));
        let wrong = lot.count("good_pieces").unwrap_err().to_string();
        assert_eq!(wrong, "`monday.json`: tables.lots[0].good_pieces: expected a whole number, found 2.5");
        assert!(lot.moment("start", start).is_err() && lot.number("setup_min").is_err());
    }
}
