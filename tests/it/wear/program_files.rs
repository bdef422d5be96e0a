//! Files that the program reads and writes in tests, and its tables.

use crate::program::run;
use serde_json::Value;
use std::path::PathBuf;
use std::process::Output;

/// A folder of its own for a test, taken away at its end.
pub(super) struct Folder(PathBuf);

impl Folder {
    pub(super) fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("wearland-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        Self(folder)
    }

    /// The path of a file in it.
    pub(super) fn path(&self, name: &str) -> String {
        self.0.join(name).to_str().unwrap().to_owned()
    }

    /// Writes a file and gives its path.
    pub(super) fn write(&self, name: &str, text: &str) -> String {
        std::fs::write(self.0.join(name), text).unwrap();
        self.path(name)
    }

    /// Reads a file.
    pub(super) fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.0.join(name)).unwrap()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // A folder left behind harms nobody.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// What it said to standard error.
pub(super) fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// The report of a run that ends well, as JSON.
pub(super) fn report(arguments: &[&str]) -> Value {
    let output = run(&[arguments, &["--format", "json"]].concat());
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", said(&output));
    serde_json::from_slice(&output.stdout).unwrap()
}

/// The rows of a table of it.
pub(super) fn rows(report: &Value, table: &str) -> Vec<Value> {
    let known: Vec<&String> = report["tables"].as_object().unwrap().keys().collect();
    assert!(report["tables"][table].is_array(), "no `{table}` in {known:?}");
    report["tables"][table].as_array().unwrap().clone()
}

/// The first row in which all these texts stand under their keys.
pub(super) fn row(rows: &[Value], wanted: &[(&str, &str)]) -> Value {
    let fits = |row: &&Value| wanted.iter().all(|(key, text)| row[*key] == *text);
    let found = rows.iter().find(fits);
    assert!(found.is_some(), "no row with {wanted:?} in {rows:#?}");
    found.unwrap().clone()
}

/// A number of a row.
pub(super) fn number(row: &Value, key: &str) -> f64 {
    assert!(row[key].is_number(), "no number `{key}` in {row}");
    row[key].as_f64().unwrap()
}
