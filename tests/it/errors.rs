//! Wrong files: each says in its head what must be found where, `# expect: E102 at 6:8`, and nothing else may be.

use crate::program::{project, run};
use std::collections::BTreeSet;
use wearland::diag::{Code, Color, Diagnostics, SourceMap, render};
use wearland::input::Origin;
use wearland::input::log::{read_counts, read_log};

fn files() -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(project("tests/errors"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// `E102 at 6:8` for each expectation; codes without a place are written `E107`.
fn expected(text: &str) -> BTreeSet<String> {
    text.lines()
        .filter_map(|line| line.strip_prefix("# expect: "))
        .map(|line| line.trim().to_owned())
        .collect()
}

/// The same from what the program printed.
pub(crate) fn found(printed: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let mut lines = printed.lines().peekable();
    while let Some(line) = lines.next() {
        let Some((_, rest)) = line.split_once('[').filter(|(kind, _)| matches!(*kind, "error" | "warning"))
        else {
            continue;
        };
        let code = rest.split(']').next().unwrap_or_default();
        let place = lines.peek().and_then(|next| next.trim().strip_prefix("--> ")).map(|place| {
            let mut parts = place.rsplitn(3, ':');
            let column = parts.next().unwrap_or_default().to_owned();
            format!("{}:{column}", parts.next().unwrap_or_default())
        });
        found.insert(place.map_or_else(|| code.to_owned(), |place| format!("{code} at {place}")));
    }
    found
}

/// What is wrong with a log, and whether it is read all the same. The name tells a log of counts.
fn read_as_log(name: &str) -> (Diagnostics, SourceMap, bool) {
    let origin = Origin::Path(project(&format!("tests/errors/{name}")));
    if name.contains("counts") {
        let log = read_counts(&origin).unwrap();
        (log.diagnostics, log.sources, log.rows.is_some())
    } else {
        let log = read_log(&origin).unwrap();
        (log.diagnostics, log.sources, log.rows.is_some())
    }
}

#[test]
fn every_mistake_is_found_where_it_is() {
    for name in files() {
        let path = format!("tests/errors/{name}");
        let bytes = std::fs::read(project(&path)).unwrap();
        let expected = expected(&String::from_utf8_lossy(&bytes));
        assert!(!expected.is_empty(), "{name} expects nothing");
        if name.ends_with(".csv") {
            let (diagnostics, sources, whole) = read_as_log(&name);
            let printed = if whole {
                // Read without a mistake: what is wrong shows when constants are fitted.
                let output = run(&["fit", &path]);
                assert_eq!(output.status.code(), Some(3), "{name}");
                String::from_utf8(output.stderr).unwrap()
            } else {
                render(&diagnostics, &sources, Color::Plain)
            };
            assert_eq!(found(&printed), expected, "{name}\n{printed}");
            continue;
        }
        // A status and an earlier report are read with the demo.
        let status = name.contains("status");
        let output = match name.rsplit('.').next() {
            Some("json") => run(&["plan", "--last", &path]),
            _ if status => run(&["plan", "--status", &path, "--rounds", "1"]),
            _ => run(&["check", &path]),
        };
        let printed = String::from_utf8(output.stderr).unwrap();
        assert_eq!(found(&printed), expected, "{name}\n{printed}");
        let errors = expected.iter().any(|expectation| expectation.starts_with('E'));
        let code = output.status.code();
        // A plan may be late.
        assert!(code == Some(if errors { 3 } else { 0 }) || (status && !errors && code == Some(1)), "{name}");
    }
}

#[test]
fn seven_mistakes_are_found_in_one_run() {
    let text = std::fs::read_to_string(project("tests/errors/seven-mistakes.toml")).unwrap();
    assert_eq!(expected(&text).len(), 7);
}

#[test]
fn every_code_has_a_file_that_shows_it() {
    let shown: BTreeSet<String> = files()
        .iter()
        .flat_map(|name| {
            expected(&String::from_utf8_lossy(
                &std::fs::read(project(&format!("tests/errors/{name}"))).unwrap(),
            ))
        })
        .map(|expectation| expectation.split(' ').next().unwrap_or_default().to_owned())
        .collect();
    let missing: Vec<&str> = Code::all().map(Code::as_str).filter(|code| !shown.contains(*code)).collect();
    assert!(missing.is_empty(), "no file in tests/errors shows {missing:?}");
}
