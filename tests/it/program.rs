//! The program as a user runs it: exit codes, formats, repeatability.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A path within the project.
pub(crate) fn project(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

/// Runs the program in the project's folder.
pub(crate) fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_wearland"))
        .args(arguments)
        .current_dir(project(""))
        .env("NO_COLOR", "1")
        .env_remove("COLUMNS")
        .output()
        .unwrap()
}

/// What it wrote to standard output.
pub(crate) fn stdout(arguments: &[&str]) -> String {
    let output = run(arguments);
    String::from_utf8(output.stdout).unwrap()
}

const COMMANDS: [&[&str]; 14] = [
    &["check"],
    &["cycle", "--workings"],
    &["cycle", "--item", "drive-shaft", "--coolant", "dry"],
    &["capacity"],
    &["plan"],
    &["wear"],
    &["wear", "--item", "drive-shaft", "--op", "10"],
    &["fit", "tests/logs/lathe1.csv"],
    &["fit", "tests/logs/milling-wear.csv", "--limit", "0.3 mm"],
    &["actual", "tests/logs/counts-vent-drive.csv"],
    &["catalog"],
    &["catalog", "material"],
    &["catalog", "tool", "turn-80-08"],
    &["code", "E106"],
];

/// Units that the key of a number may end in.
const UNITS: [&str; 33] = [
    "_s",
    "_min",
    "_h",
    "_mm",
    "_in",
    "_m_per_min",
    "_ft_per_min",
    "_rpm",
    "_mm_per_rev",
    "_in_per_rev",
    "_mm_per_tooth",
    "_in_per_tooth",
    "_mm_per_min",
    "_in_per_min",
    "_kw",
    "_hp",
    "_n_m",
    "_lbf_ft",
    "_n",
    "_lbf",
    "_cm3_per_min",
    "_in3_per_min",
    "_um",
    "_uin",
    "_percent",
    "_ratio",
    "_eur",
    "_usd",
    "_per_h",
    "_per_day",
    "_piece_h",
    "_edges_per_1000_pieces",
    "_stops_per_1000_pieces",
];

/// Things that are counted: the key is, or ends in, the thing.
const COUNTED: [&str; 26] = [
    "days",
    "shifts",
    "machines",
    "items",
    "operations",
    "cuts",
    "tools",
    "orders",
    "passes",
    "pieces",
    "piece",
    "edges",
    "places",
    "changes",
    "packs",
    "rounds",
    "sets",
    "entries",
    "corrections",
    "edges_per_shift",
    // Rows of constants: the unit stands in the column `unit`.
    "value",
    "low",
    "high",
    "prior",
    // Logarithms have none.
    "log_likelihood",
    "other_family",
];

fn names_its_unit(key: &str) -> bool {
    UNITS.iter().any(|unit| key.ends_with(unit))
        || COUNTED.iter().any(|thing| key == *thing || key.ends_with(&format!("_{thing}")))
        || key == "figures"
}

#[test]
fn every_command_gives_json_whose_numbers_name_their_unit() {
    let inch: &[&str] = &["plan", "scenarios/inch-shaft.toml"];
    for command in COMMANDS.iter().copied().chain([inch]) {
        let text = stdout(&[command, &["--format", "json"]].concat());
        let json: serde_json::Value =
            serde_json::from_str(&text).unwrap_or_else(|error| panic!("{command:?}: {error}"));
        let mut numbers = 0;
        for (table, rows) in json["tables"].as_object().unwrap() {
            for row in rows.as_array().unwrap() {
                for (key, value) in row.as_object().unwrap() {
                    if value.is_number() {
                        numbers += 1;
                        assert!(
                            names_its_unit(key),
                            "{command:?}: `{key}` of `{table}` is a number without a unit"
                        );
                    }
                }
            }
        }
        if command[0] == "plan" {
            assert!(numbers > 100, "{command:?} gave {numbers} numbers");
        }
    }
}

#[test]
fn the_same_run_gives_the_same_bytes() {
    for format in ["text", "json", "csv"] {
        for command in COMMANDS {
            let arguments = [command, &["--format", format]].concat();
            assert_eq!(run(&arguments).stdout, run(&arguments).stdout, "{arguments:?}");
        }
    }
}

#[test]
fn the_plan_does_not_hang_on_the_order_of_files_and_comments() {
    let folder = std::env::temp_dir().join(format!("wearland-shuffled-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    for (at, file) in ["tools", "product", "orders", "gears", "castings", "shaft", "plant"].iter().enumerate()
    {
        let from = project(&format!("scenarios/vent-drive/{file}.toml"));
        std::fs::copy(&from, folder.join(format!("{at}.toml"))).unwrap();
        let mut copy =
            std::fs::OpenOptions::new().append(true).open(folder.join(format!("{at}.toml"))).unwrap();
        writeln!(copy, "\n# a remark at the end").unwrap();
    }
    // Parts stand in another order now, so rows may; the figures of the plan may not.
    let key = |text: &str| {
        let json: serde_json::Value = serde_json::from_str(text).unwrap();
        json["tables"]["capacity"].clone()
    };
    let shuffled = stdout(&["capacity", folder.to_str().unwrap(), "--format", "json"]);
    let straight = stdout(&["capacity", "--format", "json"]);
    std::fs::remove_dir_all(&folder).unwrap();
    let (shuffled, straight) = (key(&shuffled), key(&straight));
    let sets = |table: &serde_json::Value| table[0]["output_sets_per_day"].as_f64().unwrap();
    approx::assert_relative_eq!(sets(&shuffled), sets(&straight), max_relative = 1e-6);
}

#[test]
fn exit_codes_say_how_it_went() {
    let code = |arguments: &[&str]| run(arguments).status.code().unwrap();
    assert_eq!(code(&["plan"]), 0);
    assert_eq!(code(&["plan", "scenarios/too-much.toml"]), 1);
    assert_eq!(code(&["plan", "--formatt", "json"]), 2);
    assert_eq!(code(&["cycle", "--item", "no-such-part"]), 2);
    assert_eq!(code(&["plan", "--coolant", "driy"]), 2);
    assert_eq!(code(&["plan", "--format", "csv", "--table", "bord"]), 2);
    assert_eq!(code(&["code", "E106", "--format", "svg"]), 2);
    assert_eq!(code(&["check", "tests/errors/E101-not-toml.toml"]), 3);
    assert_eq!(code(&["check", "no/such/file.toml"]), 4);
    assert_eq!(code(&["plan", "-o", "no/such/folder/plan.txt"]), 4);
    assert_eq!(code(&["plan", "scenarios/inch-shaft.toml", "-o", "scenarios/inch-shaft.toml"]), 2);
}

#[test]
fn a_late_plan_is_still_written_and_names_the_cause() {
    let output = run(&["plan", "scenarios/too-much.toml", "--format", "json"]);
    assert_eq!(output.status.code(), Some(1));
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let late: Vec<_> = json["tables"]["orders"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|order| order["late_h"].as_f64() > Some(0.0))
        .collect();
    assert_eq!(late.len(), 1, "{late:?}");
    assert!(late[0]["cause"].as_str().unwrap().contains("of lathe"), "{late:?}");
}

#[test]
fn a_scenario_may_come_from_standard_input() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_wearland"))
        .args(["check", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let text = std::fs::read(project("scenarios/inch-shaft.toml")).unwrap();
    child.stdin.take().unwrap().write_all(&text).unwrap();
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
}

#[test]
fn a_report_is_written_whole_to_a_file() {
    let file = std::env::temp_dir().join(format!("wearland-report-{}.json", std::process::id()));
    let path = file.to_str().unwrap();
    let output = run(&["plan", "--format", "json", "-o", path]);
    assert_eq!((output.status.code(), output.stdout.len()), (Some(0), 0));
    let written = std::fs::read_to_string(&file).unwrap();
    std::fs::remove_file(&file).unwrap();
    assert_eq!(written, stdout(&["plan", "--format", "json"]));
}

#[test]
fn dry_cutting_costs_output_and_edges_and_says_where() {
    let text = stdout(&["plan", "--coolant", "dry", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&text).unwrap();
    let output = &json["tables"]["output_against_written"][0];
    assert!(output["changed_sets_per_day"].as_f64() < output["as_written_sets_per_day"].as_f64(), "{output}");
    let edges = json["tables"]["edges_against_written"].as_array().unwrap();
    assert!(edges.len() > 10, "only {} tools differ", edges.len());
    assert!(edges.iter().all(|row| row["times_ratio"].as_f64().unwrap() >= 1.0));
    let cycles = json["tables"]["operations_against_written"].as_array().unwrap();
    assert!(cycles.iter().all(|row| row["cycle_changed_s"].as_f64() > row["cycle_as_written_s"].as_f64()));
}

/// The demo with one figure changed: a plan is always found, late or not.
#[test]
fn a_plan_is_found_for_any_order_book_and_any_machine() {
    let orders = std::fs::read_to_string(project("scenarios/vent-drive/orders.toml")).unwrap();
    let plant = std::fs::read_to_string(project("scenarios/vent-drive/plant.toml")).unwrap();
    let after = |text: &str, mark: &str, key: &str, value: &str| {
        let from = text.find(mark).unwrap();
        let start = from + text[from..].find(key).unwrap() + key.len();
        let end = start + text[start..].find('\n').unwrap();
        format!("{}{value}{}", &text[..start], &text[end..])
    };
    let mut variants: Vec<(String, String, String)> = Vec::new();
    for share in ["50 %", "60 %", "65 %"] {
        let plant = after(&plant, "[machine.hobber-2]", "availability = ", &format!("\"{share}\""));
        variants.push((format!("hobber-2 at {share}"), orders.clone(), plant));
    }
    let stands =
        plant.replace("[machine.hobber-2]", "[machine.hobber-2]\nclosed = [\"2027-03-02\", \"2027-03-03\"]");
    variants.push(("hobber-2 closed for two days".to_owned(), orders.clone(), stands));
    for (order, quantity) in [("A-101", "1000"), ("A-101", "2000"), ("A-103", "100"), ("A-103", "900")] {
        let orders = after(&orders, &format!("id = \"{order}\""), "quantity = ", quantity);
        variants.push((format!("{order}: {quantity}"), orders, plant.clone()));
    }
    variants.push(("four days".to_owned(), orders.clone(), after(&plant, "[calendar]", "days = ", "4")));
    let folder = std::env::temp_dir().join(format!("wearland-variants-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    for entry in std::fs::read_dir(project("scenarios/vent-drive")).unwrap() {
        let path = entry.unwrap().path();
        std::fs::copy(&path, folder.join(path.file_name().unwrap())).unwrap();
    }
    for (name, orders, plant) in variants {
        std::fs::write(folder.join("orders.toml"), orders).unwrap();
        std::fs::write(folder.join("plant.toml"), plant).unwrap();
        let output = run(&["plan", folder.to_str().unwrap(), "--table", "orders"]);
        let code = output.status.code().unwrap();
        assert!(code == 0 || code == 1, "{name}: {code} {}", String::from_utf8_lossy(&output.stderr));
    }
    std::fs::remove_dir_all(&folder).unwrap();
}
