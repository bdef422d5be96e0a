//! The tables of a document as CSV, for spreadsheets. Units stand in the head row.

use super::column::Shown;
use super::number::stable;
use super::{Cell, Column, Document};
use crate::quantity::Units;
use thiserror::Error;

/// Why there is no CSV.
#[derive(Debug, Error)]
pub enum CsvError {
    /// The table asked for is not in this report.
    #[error("no table `{name}` in this report: expected {}", one_of(known))]
    UnknownTable {
        /// The name given.
        name: String,
        /// Names that would do.
        known: Vec<&'static str>,
    },
    /// The rows could not be put into CSV.
    #[error("the table could not be written as CSV")]
    Write(#[from] ::csv::Error),
}

/// Writes the tables of a document as CSV: for each a head row and its rows, an empty line between two of them, and the
/// name of the table in a first column `table`. With `only`, that table alone and without its name.
///
/// What is missing is empty. A text that a spreadsheet would take for a formula gets an apostrophe in front.
///
/// # Errors
/// [`CsvError::UnknownTable`] lists the tables there are.
pub fn write_csv(document: &Document, units: &Units, only: Option<&str>) -> Result<String, CsvError> {
    let blocks = blocks(document, units);
    let Some(name) = only else {
        let parts = blocks.iter().map(|block| written(block, Some(block.key)));
        return Ok(parts.collect::<Result<Vec<_>, _>>()?.join("\n"));
    };
    let chosen: Vec<_> = blocks.iter().filter(|block| block.key == name).collect();
    if chosen.is_empty() {
        let mut known = Vec::new();
        for block in &blocks {
            if !known.contains(&block.key) {
                known.push(block.key);
            }
        }
        return Err(CsvError::UnknownTable { name: name.to_owned(), known });
    }
    let parts = chosen.into_iter().map(|block| written(block, None));
    Ok(parts.collect::<Result<Vec<_>, _>>()?.join("\n"))
}

/// Tables that share key and head, put together.
struct Block {
    key: &'static str,
    head: Vec<String>,
    rows: Vec<Vec<String>>,
}

fn blocks(document: &Document, units: &Units) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    for table in document.data_tables() {
        let head: Vec<_> = table.columns().iter().map(|column| column.data_key(units)).collect();
        let entries = |row: &Vec<Cell>| {
            row.iter().zip(table.columns()).map(|(cell, column)| entry(cell, column, units)).collect()
        };
        let rows = table.rows().iter().map(entries);
        match blocks.iter_mut().find(|block| block.key == table.key && block.head == head) {
            Some(block) => block.rows.extend(rows),
            None => blocks.push(Block { key: table.key, head, rows: rows.collect() }),
        }
    }
    blocks
}

fn written(block: &Block, name: Option<&str>) -> Result<String, ::csv::Error> {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    let line = |first: Option<&str>, rest: &[String]| {
        first.map(str::to_owned).into_iter().chain(rest.iter().cloned()).collect::<Vec<_>>()
    };
    writer.write_record(line(name.map(|_| "table"), &block.head))?;
    for row in &block.rows {
        writer.write_record(line(name, row))?;
    }
    let bytes = writer.into_inner().map_err(::csv::IntoInnerError::into_error)?;
    String::from_utf8(bytes).map_err(|error| std::io::Error::other(error).into())
}

fn entry(cell: &Cell, column: &Column, units: &Units) -> String {
    match column.shown(cell, units) {
        Shown::Missing => String::new(),
        Shown::Text(text) if is_formula(text) => format!("'{text}"),
        Shown::Text(text) => text.to_owned(),
        Shown::Whole(count) => count.to_string(),
        Shown::Real(value, _) => stable(value).to_string(),
    }
}

/// Whether a spreadsheet might work a text out instead of showing it.
fn is_formula(text: &str) -> bool {
    let starts = text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '\0', '＝', '＋', '－', '＠']);
    let is_number = text.bytes().any(|byte| byte.is_ascii_digit()) && text.parse::<f64>().is_ok();
    starts && !is_number
}

fn one_of(known: &[&str]) -> String {
    if known.is_empty() {
        "none, it has no tables".to_owned()
    } else {
        format!("one of `{}`", known.join("`, `"))
    }
}

#[cfg(test)]
mod tests {
    use super::{is_formula, write_csv};
    use crate::quantity::{Duration, Length, System, Units};
    use crate::report::{Cell, Column, Document, Faces, Table};

    fn sample() -> Document {
        let mut cuts = Table::new("cuts", "Cutting data")
            .column(Column::text("cut", "Cut"))
            .column(Column::quantity::<Length>("diameter", "d"));
        cuts.row(vec!["=1+1, \"face\"".into(), Length::mm(25.4).into()]);
        cuts.row(vec!["-5.5".into(), Cell::Missing]);
        let mut times = Table::new("times", "Times").column(Column::quantity::<Duration>("cut_time", "t"));
        times.row(vec![Duration::s(0.1 + 0.2).into()]);
        let mut document = Document::new("Plan");
        document.push(cuts);
        document.push(times.clone());
        document.push(times);
        document.push(Table::new("summary", "Summary").faces(Faces::TextOnly));
        document
    }

    #[test]
    fn tables_follow_each_other_with_their_names() {
        let metric = "table,cut,diameter_mm\ncuts,\"'=1+1, \"\"face\"\"\",25.4\ncuts,-5.5,\n\n\
            table,cut_time_s\ntimes,0.3\ntimes,0.3\n";
        assert_eq!(write_csv(&sample(), &Units::default(), None).unwrap(), metric);
    }

    #[test]
    fn one_table_stands_alone() {
        let inch = Units { system: System::Inch, currency: "USD".into() };
        let cuts = "cut,diameter_in\n\"'=1+1, \"\"face\"\"\",1\n-5.5,\n";
        assert_eq!(write_csv(&sample(), &inch, Some("cuts")).unwrap(), cuts);
        let error = write_csv(&sample(), &inch, Some("summary")).unwrap_err().to_string();
        assert_eq!(error, "no table `summary` in this report: expected one of `cuts`, `times`");
    }

    #[test]
    fn only_what_a_spreadsheet_would_work_out_is_a_formula() {
        for text in ["=A1", "+A1", "-2+3", "@sum", "\t=A1", "\r", "\n=", "\0=", "-inf", "＝A1"] {
            assert!(is_formula(text), "{text:?}");
        }
        for text in ["", "-5", "+2.5e3", "face = 1", "6-8 H7"] {
            assert!(!is_formula(text), "{text:?}");
        }
    }
}
