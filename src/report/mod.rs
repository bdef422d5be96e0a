//! One neutral document and its writers: text for reading, CSV and JSON for other programs.
//!
//! A report is built once, as a document of tables and notes, and each writer shows the same cells in its own way.
//! Nothing here knows machining, a scenario file or a terminal: numbers come with their kind, writers add the unit.

mod cell;
mod column;
mod csv;
mod document;
mod escape;
mod json;
mod number;
mod save;
mod table;
mod terminal;

pub use cell::Cell;
pub use column::{Column, Holds};
pub use csv::{CsvError, write_csv};
pub use document::{Document, File, Notes, Section, UnknownTable};
pub use json::write_json;
pub use save::save;
pub use table::{Faces, Table};
pub use terminal::write_text;
