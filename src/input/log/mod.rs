//! The shop's own logs: tool changes, wear readings and counts of a shift, as tables of cells separated by commas or
//! semicolons.
//!
//! The head line names the columns and their units, `speed_m_per_min`; without a unit in the head each cell has its own,
//! `220 m/min`. Lines that begin with `#` are passed over, and so are columns called `note` or `x_...`. A decimal comma
//! is read where cells are separated by semicolons. All mistakes of a file are found in one run, up to a hundred.

mod cells;
mod head;
mod rows;

mod setting;

mod changes;
mod counts;
mod readings;

mod open;

pub use changes::{Outcome, ToolChange};
pub use counts::CountRow;
pub use open::{Log, ReadLog, read_counts, read_log, read_tool_log, read_wear_readings};
pub use readings::{WearReading, WearTest};
pub use rows::Notation;
pub use setting::Setting;
