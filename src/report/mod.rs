//! One neutral document and its writers: text for reading, CSV and JSON for other programs, SVG for its charts.
//!
//! A report is built once, as a document of tables, charts and notes, and each writer shows the same cells in its own way.
//! Nothing here knows machining, a scenario file or a terminal: numbers come with their kind, writers add the unit.

mod cell;
mod chart;
mod column;
mod csv;
mod document;
mod escape;
mod frame;
mod ink;
mod json;
mod number;
mod plot;
mod reach;
mod save;
mod svg;
mod table;
mod terminal;

pub use cell::Cell;
pub use chart::{Axis, Chart, Mark, Scale, Series, Shape};
pub use column::{Column, Holds};
pub use csv::{CsvError, write_csv};
pub use document::{Document, File, Notes, Section, UnknownTable};
pub use json::write_json;
pub use save::save;
pub use svg::{NoCharts, write_svg};
pub use table::{Faces, Table};
pub use terminal::write_text;
