//! A document as JSON, for other programs. Units stand in the keys.

use super::column::Shown;
use super::escape::hides;
use super::number::stable;
use super::{Cell, Column, Document};
use crate::quantity::{System, Units};
use serde_json::{Map, Value};
use std::fmt::Write;

/// Writes a document as JSON: `title`, `units`, `currency`, `tables` (rows by table key) `notes` (lines by key) and, where there are any, `files` (lines by key).
///
/// Numbers have ten significant digits, what is missing is `null`.
#[must_use]
pub fn write_json(document: &Document, units: &Units) -> String {
    let mut tables = Map::new();
    for table in document.data_tables() {
        let rows = table.rows().iter().map(|row| object(row, table.columns(), units));
        extend(&mut tables, table.key, rows);
    }
    let mut notes = Map::new();
    for note in document.notes() {
        extend(&mut notes, note.key, note.lines.iter().map(|line| Value::from(line.as_str())));
    }
    let mut files = Map::new();
    for file in document.files() {
        extend(&mut files, file.key, file.lines.iter().map(|line| Value::from(line.as_str())));
    }
    let system = match units.system {
        System::Metric => "metric",
        System::Inch => "inch",
    };
    let mut root = Map::new();
    root.insert("title".to_owned(), Value::from(document.title.as_str()));
    root.insert("units".to_owned(), Value::from(system));
    root.insert("currency".to_owned(), Value::from(units.currency.as_str()));
    root.insert("tables".to_owned(), Value::Object(tables));
    root.insert("notes".to_owned(), Value::Object(notes));
    if !files.is_empty() {
        root.insert("files".to_owned(), Value::Object(files));
    }
    spelt_out(&format!("{:#}\n", Value::Object(root)))
}

fn object(row: &[Cell], columns: &[Column], units: &Units) -> Value {
    let entries = row.iter().zip(columns);
    Value::Object(
        entries.map(|(cell, column)| (column.data_key(units), value(cell, column, units))).collect(),
    )
}

fn value(cell: &Cell, column: &Column, units: &Units) -> Value {
    match column.shown(cell, units) {
        Shown::Missing => Value::Null,
        Shown::Text(text) => Value::from(text),
        Shown::Whole(count) => Value::from(count),
        Shown::Real(value, _) => Value::from(stable(value)),
    }
}

/// Adds to the list under a key: sections that share a key stand together.
fn extend(lists: &mut Map<String, Value>, key: &str, more: impl Iterator<Item = Value>) {
    if let Value::Array(list) = lists.entry(key).or_insert_with(|| Value::Array(Vec::new())) {
        list.extend(more);
    }
}

/// The same JSON with hidden characters in its strings as `\u` escapes: safe on a terminal, equal when read.
fn spelt_out(json: &str) -> String {
    let mut safe = String::with_capacity(json.len());
    for sign in json.chars() {
        if sign == '\n' || !hides(sign) {
            safe.push(sign);
            continue;
        }
        for part in sign.encode_utf16(&mut [0; 2]) {
            // Writing to a `String` cannot fail.
            let _ = write!(safe, "\\u{part:04x}");
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::write_json;
    use crate::quantity::{Length, Money, System, Units};
    use crate::report::{Cell, Column, Document, Faces, Holds, Notes, Table};

    #[test]
    fn a_report_is_read_back_with_units_in_its_keys() {
        let mut table = Table::new("cuts", "Cutting data")
            .column(Column::text("cut", "Cut"))
            .column(Column::quantity::<Length>("diameter", "d"))
            .column(Column::quantity::<Money>("cost", "Cost"))
            .column(Column::count("made", "Made", "pieces"))
            .column(Column::new("ratio", "Ratio", Holds::Ratio));
        let name = "bore\u{9b}\u{202e}\u{e0041}";
        table.row(vec![
            name.into(),
            Length::inch(0.1 + 0.2).into(),
            Cell::Missing,
            5_u32.into(),
            f64::NAN.into(),
        ]);
        let mut document = Document::new("Plan");
        document.push(table.clone());
        document.push(table);
        document.push(Table::new("summary", "Summary").faces(Faces::TextOnly));
        document.push(Notes::new("cautions", "Cautions", vec!["beware".into()]));
        let units = Units { system: System::Inch, currency: "USD".into() };
        let json = write_json(&document, &units);
        assert!(json.contains(r"bore\u009b\u202e\udb40\udc41"), "{json}");
        let row = serde_json::json!({
            "cut": name, "diameter_in": 0.3, "cost_usd": null, "made_pieces": 5, "ratio": null
        });
        let expected = serde_json::json!({
            "title": "Plan", "units": "inch", "currency": "USD",
            "tables": { "cuts": [row.clone(), row] }, "notes": { "cautions": ["beware"] }
        });
        assert_eq!(serde_json::from_str::<serde_json::Value>(&json).unwrap(), expected);
    }
}
