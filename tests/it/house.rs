//! The house as it is meant to stand: street order, file size, formula docs, source keys, README and guide in step.

use crate::program::{project, stdout};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Modules in the order of `src/lib.rs`.
fn street() -> Vec<String> {
    let text = std::fs::read_to_string(project("src/lib.rs")).unwrap();
    text.lines()
        .filter_map(|line| line.strip_prefix("pub mod "))
        .map(|line| line.trim_end_matches(';').to_owned())
        .collect()
}

fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(rust_files(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            files.push(path);
        }
    }
    files.sort();
    files
}

/// Code without comments, up to the tests in the file.
fn code(path: &Path) -> String {
    let text = std::fs::read_to_string(path).unwrap();
    let text = text.split("#[cfg(test)]").next().unwrap_or_default();
    text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_street_runs_one_way() {
    let street = street();
    assert_eq!(street.len(), 11, "{street:?}");
    for (at, module) in street.iter().enumerate() {
        for file in rust_files(&project(&format!("src/{module}"))) {
            let code = code(&file);
            for (place, other) in street.iter().enumerate() {
                let uses = code.contains(&format!("crate::{other}"));
                assert!(!uses || place <= at, "{} uses `{other}`, which stands below it", file.display());
            }
        }
    }
}

#[test]
fn the_report_knows_no_input_and_the_verifier_no_solver() {
    for file in rust_files(&project("src/report")) {
        assert!(!code(&file).contains("crate::input"), "{} uses input", file.display());
    }
    // The verifier shares nothing with what makes plans, and no sum of a plan with the plan itself.
    let others = [
        "advice", "build", "capacity", "cause", "floor", "lots", "lp", "ordering", "planner", "program",
        "rollback",
    ];
    let sums = [
        ".changing(",
        ".cost(",
        ".lateness(",
        ".lateness_of(",
        ".minutes_used(",
        ".running(",
        ".setup_after(",
    ];
    let rooms = rust_files(&project("src/schedule/verify"));
    assert!(rooms.len() > 8, "{rooms:?}");
    for file in rooms {
        let code = code(&file);
        for other in others {
            let used =
                code.contains(&format!("super::{other}")) || code.contains(&format!("schedule::{other}"));
            assert!(!used, "{} uses {other}", file.display());
        }
        for sum in sums {
            assert!(!code.contains(sum), "{} uses {sum}", file.display());
        }
    }
}

#[test]
fn nothing_above_the_diagnostics_knows_wire_forms_or_terminals() {
    for module in street().iter().take_while(|module| *module != "diag") {
        for file in rust_files(&project(&format!("src/{module}"))) {
            let code = code(&file);
            for word in ["Serialize", "serde", "toml::", "std::fs", "println", "comfy_table"] {
                assert!(!code.contains(word), "{} uses {word}", file.display());
            }
        }
    }
}

#[test]
fn files_are_short_and_well_named() {
    for folder in ["src", "tests", "benches"] {
        if !project(folder).exists() {
            continue;
        }
        for file in rust_files(&project(folder)) {
            let lines = std::fs::read_to_string(&file).unwrap().lines().count();
            assert!(lines <= 400, "{} has {lines} lines", file.display());
            let stem = file.file_stem().unwrap().to_str().unwrap();
            for drawer in ["utils", "util", "common", "helpers", "types", "misc", "prelude"] {
                assert_ne!(stem, drawer, "{} is a drawer", file.display());
            }
        }
    }
}

/// Quantities whose formulas must be documented.
const QUANTITIES: [&str; 24] = [
    "Length",
    "Area",
    "CuttingSpeed",
    "SpindleSpeed",
    "FeedPerRev",
    "FeedPerTooth",
    "FeedRate",
    "Duration",
    "Power",
    "Torque",
    "Force",
    "SpecificForce",
    "RemovalRate",
    "Roughness",
    "Mass",
    "Angle",
    "Money",
    "Volume",
    "SpecificRemovalRate",
    "SpecificVolume",
    "SawingRate",
    "MassMoment",
    "StrokeRate",
    "FeedPerStroke",
];

#[test]
fn formulas_say_symbols_range_source_and_example() {
    let mut seen = 0;
    let known = known_sources();
    for module in ["cutting", "tooling"] {
        for file in rust_files(&project(&format!("src/{module}"))) {
            let text = std::fs::read_to_string(&file).unwrap();
            let mut docs = String::new();
            for line in text.lines() {
                if let Some(doc) = line.strip_prefix("///") {
                    docs.push_str(doc);
                    docs.push('\n');
                } else if line.starts_with("pub fn ") {
                    let result = text[text.find(line).unwrap()..].split('{').next().unwrap_or_default();
                    let result = result.rsplit("->").next().unwrap_or_default();
                    if QUANTITIES.iter().any(|quantity| result.contains(quantity)) {
                        seen += 1;
                        for heading in ["# Symbols", "# Range", "# Source", "# Example"] {
                            assert!(docs.contains(heading), "{}: `{line}` lacks {heading}", file.display());
                        }
                        let cited = docs.split("# Source").nth(1).unwrap().split("# Example").next().unwrap();
                        let keys: Vec<String> = cited
                            .split('[')
                            .skip(1)
                            .map(|rest| rest.split(']').next().unwrap().trim_end_matches('\\').to_owned())
                            .collect();
                        assert!(!keys.is_empty(), "{}: `{line}` cites nothing", file.display());
                        for key in keys {
                            assert!(known.contains(&key), "{}: `{line}` cites `{key}`", file.display());
                        }
                    }
                    docs.clear();
                } else if !line.starts_with("#[") {
                    docs.clear();
                }
            }
        }
    }
    assert!(seen > 40, "only {seen} formulas seen");
}

/// Keys of `catalogs/sources.toml`.
fn known_sources() -> BTreeSet<String> {
    let text = std::fs::read_to_string(project("catalogs/sources.toml")).unwrap();
    text.parse::<toml::Table>().unwrap()["source"].as_table().unwrap().keys().cloned().collect()
}

/// Every `source = "key"` of the data files, and `source: "key"` of the formulas.
fn cited_sources() -> BTreeSet<(String, String)> {
    let mut cited = BTreeSet::new();
    let mut files = rust_files(&project("src"));
    for folder in ["catalogs", "tests/published", "tests/published/plans", "tests/schedules/models"] {
        let entries = std::fs::read_dir(project(folder)).into_iter().flatten();
        files.extend(
            entries
                .map(|entry| entry.unwrap().path())
                .filter(|path| path.extension().is_some_and(|e| e == "toml")),
        );
    }
    for file in files.iter().filter(|file| file.file_name().is_some_and(|name| name != "sources.toml")) {
        let text = std::fs::read_to_string(file).unwrap();
        // The third is what the program writes itself.
        for mark in ["source = \"", "source: \"", "source = \\\""] {
            for rest in text.split(mark).skip(1) {
                let key = rest.split(['"', '\\']).next().unwrap_or_default();
                cited.insert((key.to_owned(), file.display().to_string()));
            }
        }
    }
    cited
}

#[test]
fn every_source_exists_and_is_cited() {
    let known = known_sources();
    let cited = cited_sources();
    for (key, file) in &cited {
        // Examples in comments and messages name keys that stand for any.
        let example = ["key", "scenario", "..."].contains(&key.as_str()) || file.ends_with("explanation.rs");
        let input = file.contains("/src/input/") || file.contains("/src/diag/");
        assert!(
            example || input || known.contains(key),
            "{file} cites `{key}`, which is not in sources.toml"
        );
    }
    let used: BTreeSet<&str> = cited.iter().map(|(key, _)| key.as_str()).collect();
    // A note may cite in words.
    let catalogs: String = ["materials", "tools", "coolants", "conditions", "scatter", "machines"]
        .map(|name| std::fs::read_to_string(project(&format!("catalogs/{name}.toml"))).unwrap())
        .concat();
    let idle: Vec<&String> =
        known.iter().filter(|key| !used.contains(key.as_str()) && !catalogs.contains(key.as_str())).collect();
    assert!(idle.is_empty(), "sources that nothing cites: {idle:?}");
}

#[test]
fn the_readme_shows_what_the_program_prints() {
    let readme = std::fs::read_to_string(project("README.md")).unwrap();
    let mut shown = 0;
    for block in readme.split("<!-- output of: wearland ").skip(1) {
        let (arguments, rest) = block.split_once(" -->").unwrap();
        let body = rest.split("```text\n").nth(1).unwrap().split("\n```").next().unwrap();
        let arguments: Vec<&str> = arguments.split(' ').collect();
        let output = crate::program::run(&arguments);
        let printed =
            format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
        // Pieces between `...` stand in the output as they are, line after line.
        let mut rest = printed.as_str();
        for piece in body.split("\n...\n") {
            let line = piece.trim_start_matches("...\n").trim_end_matches("\n...");
            let at = rest.find(line).unwrap_or_else(|| {
                panic!("README shows a line that `wearland {arguments:?}` does not print (there):\n{line}")
            });
            rest = &rest[at + line.len()..];
        }
        shown += 1;
    }
    assert!(shown >= 3, "README shows {shown} outputs");
}

#[test]
fn the_readme_and_the_help_name_the_same_commands() {
    let readme = std::fs::read_to_string(project("README.md")).unwrap();
    let help = stdout(&["--help"]);
    for command in ["check", "cycle", "capacity", "plan", "catalog", "code"] {
        assert!(help.contains(&format!("  {command} ")), "--help lacks {command}");
        assert!(readme.contains(&format!("`{command}`")), "README lacks {command}");
    }
}

#[test]
fn the_guide_lists_the_rooms_there_are() {
    let guide = std::fs::read_to_string(project("DEVELOPERS.md")).unwrap();
    let listed: Vec<String> = guide
        .lines()
        .filter_map(|line| line.strip_prefix("| `src/"))
        .filter_map(|line| line.split("/`").next())
        .map(str::to_owned)
        .collect();
    assert_eq!(listed, street(), "the table of rooms in DEVELOPERS.md");
}

#[test]
fn the_ci_runs_the_test_command_of_the_readme() {
    let readme = std::fs::read_to_string(project("README.md")).unwrap();
    let ci = std::fs::read_to_string(project(".ci/run")).unwrap();
    let command = "cargo test --release --locked";
    assert!(readme.contains(command) && ci.contains(command), "`{command}` in README and .ci/run");
}
