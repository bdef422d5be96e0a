//! Logs as they come: from a file or from text at hand.

use super::cells::Rows;
use super::changes::{self, ToolChange};
use super::counts::{CountRow, counts};
use super::readings::{self, WearTest};
use super::rows::Notation;
use crate::diag::{Diagnostic, Diagnostics, FileId, SourceMap};
use crate::input::files::read_one;
use crate::input::{FileError, Origin, Unreadable, decode};
use std::path::{Path, PathBuf};

/// What reading a log gave. Without rows, the diagnostics hold at least one error.
#[derive(Debug)]
pub struct ReadLog<T> {
    /// What the log says, if it has no mistake.
    pub rows: Option<T>,
    /// Its text.
    pub sources: SourceMap,
    /// Mistakes.
    pub diagnostics: Diagnostics,
    /// How it is written.
    pub notation: Notation,
}

/// A log of tools, told by its head line.
#[derive(Debug, Clone, PartialEq)]
pub enum Log {
    /// Edges taken out.
    Changes(Vec<ToolChange>),
    /// Edges looked at.
    Readings(Vec<WearTest>),
}

/// Reads a log of tool changes.
///
/// # Errors
/// A file that cannot be read. Mistakes in what was read are in [`ReadLog::diagnostics`].
///
/// # Example
/// ```
/// use wearland::input::Origin;
/// use wearland::input::log::{Outcome, read_tool_log};
/// let text = "speed_m_per_min,time_min,outcome\n220,14.5,worn\n180,30,early\n";
/// let origin = Origin::Text { name: "lathe.csv".into(), bytes: text.into() };
/// let changes = read_tool_log(&origin)?.rows.unwrap_or_default();
/// assert_eq!((changes.len(), changes[1].outcome, changes[1].line), (2, Outcome::Early, 3));
/// # Ok::<(), wearland::input::FileError>(())
/// ```
pub fn read_tool_log(origin: &Origin) -> Result<ReadLog<Vec<ToolChange>>, FileError> {
    read(origin, changes::changes)
}

/// Reads a log of wear readings.
///
/// # Errors
/// A file that cannot be read. Mistakes in what was read are in [`ReadLog::diagnostics`].
pub fn read_wear_readings(origin: &Origin) -> Result<ReadLog<Vec<WearTest>>, FileError> {
    read(origin, readings::readings)
}

/// Reads a log of tool changes, or of wear readings if its head line has a wear and no outcome.
///
/// # Errors
/// A file that cannot be read. Mistakes in what was read are in [`ReadLog::diagnostics`].
pub fn read_log(origin: &Origin) -> Result<ReadLog<Log>, FileError> {
    read(origin, |(file, text), diagnostics| {
        if has_wear_alone(file, text) {
            let (tests, notation) = readings::readings((file, text), diagnostics);
            (tests.map(Log::Readings), notation)
        } else {
            let (changes, notation) = changes::changes((file, text), diagnostics);
            (changes.map(Log::Changes), notation)
        }
    })
}

/// Reads the counts of shifts.
///
/// # Errors
/// A file that cannot be read. Mistakes in what was read are in [`ReadLog::diagnostics`].
pub fn read_counts(origin: &Origin) -> Result<ReadLog<Vec<CountRow>>, FileError> {
    read(origin, counts)
}

fn has_wear_alone(file: FileId, text: &str) -> bool {
    let Some(Ok(head)) = Rows::new(file, text).next() else { return false };
    let has = |name: &str| head.cells.iter().any(|cell| cell.text.starts_with(name));
    has("wear") && !has("outcome")
}

fn read<T>(
    origin: &Origin,
    rows: impl FnOnce((FileId, &str), &mut Diagnostics) -> (Option<T>, Notation),
) -> Result<ReadLog<T>, FileError> {
    let (name, bytes) = bytes(origin)?;
    let mut sources = SourceMap::default();
    let mut diagnostics = Diagnostics::default();
    let (rows, notation) = match decode(&bytes) {
        Ok(text) => {
            let file = sources.add(name, text.as_str());
            rows((file, &text), &mut diagnostics)
        }
        Err(unreadable) => {
            diagnostics.push(unreadable_log(unreadable, &name));
            (None, Notation { separator: ',', decimal: '.' })
        }
    };
    Ok(ReadLog { rows, sources, diagnostics, notation })
}

fn unreadable_log(unreadable: Unreadable, name: &str) -> Diagnostic {
    let mistake = unreadable.diagnostic(name);
    match unreadable {
        Unreadable::Empty => mistake.help("write a head line and rows into it, or leave the file out"),
        Unreadable::TooLarge { .. } => mistake.help("split it"),
        Unreadable::Utf16 | Unreadable::Nul { .. } | Unreadable::NotUtf8 { .. } => {
            mistake.help("save it as CSV in UTF-8")
        }
    }
}

fn bytes(origin: &Origin) -> Result<(String, Vec<u8>), FileError> {
    let fail = |path: &Path, cause| FileError { action: "read", path: path.to_owned(), cause };
    match origin {
        Origin::Path(path) => {
            let bytes = read_one(path).map_err(|cause| fail(path, cause))?;
            Ok((path.display().to_string(), bytes))
        }
        Origin::Text { name, bytes } => Ok((name.clone(), bytes.clone())),
        Origin::Demo => {
            let cause = std::io::Error::new(std::io::ErrorKind::NotFound, "the demo has no log");
            Err(fail(&PathBuf::from("vent-drive"), cause))
        }
    }
}
