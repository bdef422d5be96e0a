//! Files: a scenario is one TOML file or a folder whose TOML files are read together; catalogs and demo are built in.

use super::decode::decode;
use super::tree::{Entry, Node, Table, Value, parse};
use crate::diag::{Code, Diagnostic, Diagnostics, FileId, SourceMap, Span};
use std::io::Read;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// A file that could not be read or written.
#[derive(Debug, Error)]
#[error("cannot {action} `{}`: {cause}", path.display())]
pub struct FileError {
    /// What was tried: `read` or `write`.
    pub action: &'static str,
    /// The file or folder.
    pub path: PathBuf,
    /// What the system says.
    #[source]
    pub cause: std::io::Error,
}

/// The built-in catalogs, by name.
pub(super) const CATALOGS: [(&str, &str); 8] = [
    ("catalogs/sources.toml", include_str!("../../catalogs/sources.toml")),
    ("catalogs/materials.toml", include_str!("../../catalogs/materials.toml")),
    ("catalogs/tools.toml", include_str!("../../catalogs/tools.toml")),
    ("catalogs/sizes.toml", include_str!("../../catalogs/sizes.toml")),
    ("catalogs/coolants.toml", include_str!("../../catalogs/coolants.toml")),
    ("catalogs/conditions.toml", include_str!("../../catalogs/conditions.toml")),
    ("catalogs/scatter.toml", include_str!("../../catalogs/scatter.toml")),
    ("catalogs/machines.toml", include_str!("../../catalogs/machines.toml")),
];

/// The built-in demo: a maker of greenhouse vent drives.
pub(super) const DEMO: [(&str, &str); 7] = [
    ("vent-drive/castings.toml", include_str!("../../scenarios/vent-drive/castings.toml")),
    ("vent-drive/gears.toml", include_str!("../../scenarios/vent-drive/gears.toml")),
    ("vent-drive/orders.toml", include_str!("../../scenarios/vent-drive/orders.toml")),
    ("vent-drive/plant.toml", include_str!("../../scenarios/vent-drive/plant.toml")),
    ("vent-drive/product.toml", include_str!("../../scenarios/vent-drive/product.toml")),
    ("vent-drive/shaft.toml", include_str!("../../scenarios/vent-drive/shaft.toml")),
    ("vent-drive/tools.toml", include_str!("../../scenarios/vent-drive/tools.toml")),
];

/// Reads a file, or the TOML files of a folder in the order of their names, as bytes.
pub(super) fn read_all(path: &Path) -> Result<Vec<(String, Vec<u8>)>, FileError> {
    let fail = |path: &Path| {
        let path = path.to_owned();
        move |cause| FileError { action: "read", path, cause }
    };
    if !path.is_dir() {
        return Ok(vec![(path.display().to_string(), read_one(path).map_err(fail(path))?)]);
    }
    let mut files = Vec::new();
    for entry in std::fs::read_dir(path).map_err(fail(path))? {
        let file = entry.map_err(fail(path))?.path();
        if file.extension().is_some_and(|extension| extension == "toml") && file.is_file() {
            files.push(file);
        }
    }
    files.sort();
    if files.is_empty() {
        let cause =
            std::io::Error::new(std::io::ErrorKind::NotFound, "the folder holds no file that ends in .toml");
        return Err(fail(path)(cause));
    }
    files.iter().map(|file| Ok((file.display().to_string(), read_one(file).map_err(fail(file))?))).collect()
}

/// Reads at most a byte more than is accepted, so that an endless stream ends.
pub(super) fn read_one(path: &Path) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let most = u64::try_from(super::LARGEST_FILE).unwrap_or(u64::MAX);
    std::fs::File::open(path)?.take(most + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// Turns bytes into one tree. Tables of one name in several files are joined; an entry given twice is a mistake.
pub(super) fn join(
    files: Vec<(String, Vec<u8>)>,
    sources: &mut SourceMap,
    diagnostics: &mut Diagnostics,
) -> Option<Table> {
    let mut joined: Option<Table> = None;
    let mut whole = true;
    for (name, bytes) in files {
        let text = match decode(&bytes) {
            Ok(text) => text,
            Err(unreadable) => {
                diagnostics.push(unreadable.diagnostic(&name));
                whole = false;
                continue;
            }
        };
        let file = sources.add(name, text.as_str());
        match parse(file, &text, diagnostics) {
            Some(Node { value: Value::Table(table), .. }) => {
                joined = Some(match joined {
                    Some(below) => lay_beside(below, table, diagnostics),
                    None => table,
                });
            }
            _ => whole = false,
        }
    }
    joined.filter(|_| whole)
}

/// Built-in text as a tree; a fault in it is a fault of this program and shows as one of its files.
pub(super) fn built_in(
    files: &[(&str, &str)],
    sources: &mut SourceMap,
    diagnostics: &mut Diagnostics,
) -> Table {
    let files = files.iter().map(|(name, text)| ((*name).to_owned(), text.as_bytes().to_vec())).collect();
    join(files, sources, diagnostics)
        .unwrap_or_else(|| Table { span: Span::new(FileId(0), 0, 0), entries: Vec::new() })
}

fn lay_beside(mut below: Table, above: Table, diagnostics: &mut Diagnostics) -> Table {
    for entry in above.entries {
        let Some(known) = below.entries.iter_mut().find(|known| known.key == entry.key) else {
            below.entries.push(entry);
            continue;
        };
        join_entry(known, entry, diagnostics);
    }
    below
}

fn join_entry(known: &mut Entry, entry: Entry, diagnostics: &mut Diagnostics) {
    match (&mut known.node.value, entry.node.value) {
        (Value::Table(below), Value::Table(above)) => {
            for inner in above.entries {
                match below.entries.iter().find(|other| other.key == inner.key) {
                    Some(other) => diagnostics.push(twice(other, &inner)),
                    None => below.entries.push(inner),
                }
            }
        }
        (Value::List(below), Value::List(above)) => below.extend(above),
        _ => diagnostics.push(
            Diagnostic::new(Code::GivenTwice, format!("`{}` is given twice", entry.key))
                .at(entry.key_span, "here again")
                .also(known.key_span, "first here"),
        ),
    }
}

fn twice(first: &Entry, second: &Entry) -> Diagnostic {
    Diagnostic::new(Code::GivenTwice, format!("`{}` is given twice", second.key))
        .at(second.key_span, "here again")
        .also(first.key_span, "first here")
        .help("rename one of them, or leave one out")
}
