//! A table: columns that say what they hold, rows of typed cells.

use super::{Cell, Column};
use crate::quantity::Units;

/// Which writers show a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Faces {
    /// All writers.
    #[default]
    Both,
    /// Text alone: a summary of what stands elsewhere in full.
    TextOnly,
    /// CSV and JSON alone: too long to read.
    DataOnly,
}

impl Faces {
    /// Whether text shows it.
    pub(super) const fn in_text(self) -> bool {
        matches!(self, Self::Both | Self::TextOnly)
    }

    /// Whether CSV and JSON show it.
    pub(super) const fn in_data(self) -> bool {
        matches!(self, Self::Both | Self::DataOnly)
    }
}

/// A table. Each row has as many cells as there are columns.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Name in CSV and JSON: `cuts`.
    pub key: &'static str,
    /// Heading in text.
    pub heading: String,
    /// Which writers show it.
    pub faces: Faces,
    /// A line under the table in text.
    pub remark: Option<String>,
    columns: Vec<Column>,
    rows: Vec<Vec<Cell>>,
}

impl Table {
    /// A table without columns, shown by all writers.
    #[must_use]
    pub fn new(key: &'static str, heading: impl Into<String>) -> Self {
        Self {
            key,
            heading: heading.into(),
            faces: Faces::Both,
            remark: None,
            columns: Vec::new(),
            rows: Vec::new(),
        }
    }

    /// With one more column at the right. All columns come before the first row.
    #[must_use]
    pub fn column(mut self, column: Column) -> Self {
        let key = column.data_key(&Units::default());
        debug_assert!(
            self.columns.iter().all(|known| known.data_key(&Units::default()) != key),
            "table `{}` has two columns `{key}`",
            self.key
        );
        for row in &mut self.rows {
            row.push(Cell::Missing);
        }
        self.columns.push(column);
        self
    }

    /// With other faces.
    #[must_use]
    pub fn faces(mut self, faces: Faces) -> Self {
        self.faces = faces;
        self
    }

    /// With a line under the table in text.
    #[must_use]
    pub fn remark(mut self, remark: impl Into<String>) -> Self {
        self.remark = Some(remark.into());
        self
    }

    /// Adds a row: one cell for each column, of what the column holds.
    ///
    /// A row that does not fit is a mistake of the caller and stops a debug build; a release build shows a cell
    /// of the wrong sort, and one that is not there, as missing.
    pub fn row(&mut self, mut cells: Vec<Cell>) {
        debug_assert!(
            cells.len() == self.columns.len(),
            "a row of table `{}` has {} cells for {} columns",
            self.key,
            cells.len(),
            self.columns.len()
        );
        cells.resize(self.columns.len(), Cell::Missing);
        for (cell, column) in cells.iter_mut().zip(&self.columns) {
            let fits = column.takes(cell);
            debug_assert!(fits, "column `{}` of table `{}` does not take {cell:?}", column.key(), self.key);
            if !fits {
                *cell = Cell::Missing;
            }
        }
        self.rows.push(cells);
    }

    /// The columns from left to right.
    #[must_use]
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// The rows from top to bottom.
    #[must_use]
    pub fn rows(&self) -> &[Vec<Cell>] {
        &self.rows
    }
}

#[cfg(test)]
mod tests {
    use super::{Cell, Column, Table};
    use crate::quantity::{Duration, Length};

    fn cuts() -> Table {
        Table::new("cuts", "Cutting data")
            .column(Column::text("cut", "Cut"))
            .column(Column::quantity::<Length>("diameter", "Diameter"))
    }

    #[test]
    #[cfg_attr(debug_assertions, should_panic(expected = "has 1 cells for 2 columns"))]
    fn a_short_row_is_refused_or_filled_up() {
        let mut table = cuts();
        table.row(vec!["face".into()]);
        assert_eq!(table.rows(), [vec![Cell::from("face"), Cell::Missing]]);
    }

    #[test]
    #[cfg_attr(debug_assertions, should_panic(expected = "does not take"))]
    fn a_time_is_no_diameter() {
        let mut table = cuts();
        table.row(vec!["face".into(), Duration::s(5.0).into()]);
        assert_eq!(table.rows()[0][1], Cell::Missing);
    }

    #[test]
    #[cfg_attr(debug_assertions, should_panic(expected = "two columns `cut`"))]
    fn a_column_comes_once() {
        let table = cuts().column(Column::text("cut", "Cut again"));
        assert_eq!(table.columns().len(), 3);
    }
}
