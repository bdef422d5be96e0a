//! `actual`: a week of counts of the demo, its figures worked again by hand, and what is laid over the scenario.

use super::program_files::{Folder, number, report, row, rows, said};
use crate::families::workshop::assert_near;
use crate::program::run;
use serde_json::Value;

const COUNTS: &str = "tests/logs/counts-vent-drive.csv";
const HEAD: &str = "date,shift,machine,item,operation,pieces,good,stopped_min\n";

/// Seconds from piece to piece, as `cycle` shows them.
fn cycle(item: &str, machine: &str) -> f64 {
    let cycles = rows(&report(&["cycle", "--table", "cycles"]), "cycles");
    let of = |row: &&Value| {
        row["item"] == item && row["operation"] == "10" && row["machines"].as_str().unwrap().contains(machine)
    };
    number(cycles.iter().find(of).unwrap(), "cycle_s")
}

fn machine(name: &str) -> Value {
    row(&rows(&report(&["actual", COUNTS]), "machine_losses"), &[("machine", name)])
}

/// Ten shifts of eight hours: the lathe runs through the breaks.
const LATHE_OPEN: f64 = 10.0 * 480.0;
const LATHE_STOPPED: f64 = 62.0 + 88.0 + 45.0 + 70.0 + 140.0 + 55.0 + 52.0 + 71.0 + 66.0 + 480.0;
const LATHE_PIECES: f64 = 455.0 + 428.0 + 478.0 + 450.0 + 372.0 + 470.0 + 473.0 + 447.0 + 456.0;
/// Six shifts less two breaks of 45 min in all: the mill stands in them.
const MILL_OPEN: f64 = 6.0 * (480.0 - 45.0);
const HOUSINGS: f64 = 210.0 + 196.0 + 110.0 + 215.0;
const COVERS: f64 = 150.0 + 590.0 + 545.0;
/// Housings to covers within a shift.
const MILL_SETUP: f64 = 50.0;

fn lathe() -> (f64, f64) {
    let availability = 1.0 - LATHE_STOPPED / LATHE_OPEN;
    let model = LATHE_PIECES * cycle("drive-shaft", "lathe-1") / 60.0;
    (availability, model / (LATHE_OPEN - LATHE_STOPPED))
}

fn mill() -> f64 {
    let model =
        (HOUSINGS * cycle("housing", "mill-2") + COVERS * cycle("cover", "mill-2")) / 60.0 + MILL_SETUP;
    // Nobody wrote down stops: those of the scenario are taken.
    model / (MILL_OPEN * 0.87)
}

#[test]
fn losses_are_those_of_the_counts() {
    let (availability, performance) = lathe();
    let row = machine("lathe-1");
    assert_near(number(&row, "open_h"), LATHE_OPEN / 60.0, 1e-9);
    assert_near(number(&row, "stopped_h"), LATHE_STOPPED / 60.0, 1e-9);
    assert_near(number(&row, "availability_percent"), 100.0 * availability, 1e-8);
    assert_near(number(&row, "performance_percent"), 100.0 * performance, 1e-8);
    let hidden = (LATHE_OPEN - LATHE_STOPPED) / 60.0 * (1.0 - performance);
    assert_near(number(&row, "hidden_loss_h"), hidden, 1e-6);
    let row = machine("mill-2");
    assert!(row["availability_percent"].is_null() && row["stopped_h"].is_null(), "{row}");
    assert_near(number(&row, "availability_planned_percent"), 87.0, 1e-9);
    assert_near(number(&row, "open_h"), MILL_OPEN / 60.0, 1e-9);
    assert_near(number(&row, "performance_percent"), 100.0 * mill(), 1e-8);
}

#[test]
fn each_operation_and_each_shift_is_told() {
    let report = report(&["actual", COUNTS]);
    let shaft = row(&rows(&report, "operation_losses"), &[("item", "drive-shaft"), ("operation", "10")]);
    assert_near(number(&shaft, "made_pieces"), LATHE_PIECES, 1e-12);
    let good = 451.0 + 420.0 + 474.0 + 445.0 + 366.0 + 464.0 + 467.0 + 443.0 + 449.0;
    assert_near(number(&shaft, "yield_percent"), 100.0 * good / LATHE_PIECES, 1e-8);
    let spent = LATHE_OPEN - LATHE_STOPPED;
    assert_near(number(&shaft, "actual_min"), spent / LATHE_PIECES, 1e-8);
    assert_near(number(&shaft, "model_min"), cycle("drive-shaft", "lathe-1") / 60.0, 1e-8);
    let cover = row(&rows(&report, "operation_losses"), &[("item", "cover"), ("operation", "10")]);
    // Two shifts that the covers had for themselves, of which the mill stood as the scenario says.
    assert_near(number(&cover, "shifts_alone_shifts"), 2.0, 1e-12);
    assert_near(number(&cover, "actual_alone_min"), 0.87 * 2.0 * 435.0 / (590.0 + 545.0), 1e-8);
    let shifts = rows(&report, "shift_losses");
    // Seventeen rows, two of them in one shift.
    assert_eq!(shifts.len(), 16);
    let changed = row(&shifts, &[("date", "2027-02-23"), ("shift", "early"), ("machine", "mill-2")]);
    let model = (110.0 * cycle("housing", "mill-2") + 150.0 * cycle("cover", "mill-2")) / 60.0 + MILL_SETUP;
    assert_near(number(&changed, "model_min"), model, 1e-8);
}

#[test]
fn what_was_counted_may_be_laid_over_the_scenario() {
    let folder = Folder::new("actual-overlay");
    let to = folder.path("counted.toml");
    report(&["actual", COUNTS, "--to", &to]);
    let text: toml::Table = folder.read("counted.toml").parse().unwrap();
    let share = |machine: &str, key: &str| -> f64 {
        let written = text["machine"][machine][key].as_str().unwrap();
        written.trim_end_matches(" %").parse::<f64>().unwrap() / 100.0
    };
    let (availability, performance) = lathe();
    assert!((share("lathe-1", "availability") - availability).abs() < 0.51e-4);
    assert!((share("lathe-1", "performance") - performance.min(1.0)).abs() < 0.51e-4);
    assert!((share("mill-2", "availability") - 0.87).abs() < 1e-9);
    assert!((share("mill-2", "performance") - mill().min(1.0)).abs() < 0.51e-4);
    // Minutes of the capacity fall as the shares do.
    let minutes = |arguments: &[&str], machine: &str| {
        let resources = rows(&report(arguments), "resources");
        number(&row(&resources, &[("resource", machine)]), "open_a_day_h")
    };
    for (machine, planned) in [("lathe-1", 0.85), ("mill-2", 0.87)] {
        let before = minutes(&["capacity"], machine);
        let after = minutes(&["capacity", "--overlay", &to], machine);
        let counted = share(machine, "availability") * share(machine, "performance");
        assert!(counted < planned - 0.01, "{machine}: {counted}");
        assert_near(after / before, counted / planned, 1e-6);
    }
    // The model times that the counts are held against do not move with the shares.
    let again = report(&["actual", COUNTS, "--overlay", &to]);
    let row = row(&rows(&again, "machine_losses"), &[("machine", "lathe-1")]);
    assert_near(number(&row, "performance_percent"), 100.0 * performance, 1e-8);
    assert!((number(&row, "performance_planned_percent") - 100.0 * performance).abs() < 0.01);
}

#[test]
fn names_that_nobody_knows_and_rows_counted_twice_are_refused() {
    let folder = Folder::new("actual-wrong");
    let first = "2027-02-22,early,lathe-1,drive-shaft,10,205,203,62\n";
    for (line, code, column) in [
        ("2027-02-22,late,lathe-7,drive-shaft,10,200,,\n", "E201", 17),
        ("2027-02-22,noon,lathe-1,drive-shaft,10,200,,\n", "E201", 12),
        ("2027-02-22,late,lathe-1,drive-shift,10,200,,\n", "E201", 25),
        ("2027-02-22,late,lathe-1,drive-shaft,15,200,,\n", "E201", 37),
        ("2027-02-22,late,lathe-1,housing,10,200,,\n", "E201", 33),
        ("2027-02-22,early,lathe-1,drive-shaft,10,200,,\n", "E202", 1),
        ("2027-02-22,night,lathe-1,drive-shaft,10,200,,\n", "E203", 12),
        ("2027-02-22,late,lathe-1,drive-shaft,10,200,,481\n", "E106", 1),
    ] {
        let counts = folder.write("counts.csv", &format!("{HEAD}{first}{line}"));
        let output = run(&["actual", &counts]);
        let said = said(&output);
        assert_eq!(output.status.code(), Some(3), "{line}{said}");
        assert!(said.contains(&format!("error[{code}]")), "{line}{said}");
        assert!(said.contains(&format!("{counts}:3:{column}\n")), "{line}{said}");
        assert!(said.ends_with("1 error\n"), "{line}{said}");
    }
}

#[test]
fn a_machine_that_stood_all_the_time_has_no_pace() {
    let folder = Folder::new("actual-stood");
    let counts =
        folder.write("counts.csv", &format!("{HEAD}2027-02-22,late,lathe-1,drive-shaft,10,0,,480\n"));
    let to = folder.path("counted.toml");
    let report = report(&["actual", &counts, "--to", &to]);
    let row = row(&rows(&report, "machine_losses"), &[("machine", "lathe-1")]);
    assert_near(1.0 + number(&row, "availability_percent"), 1.0, 1e-9);
    assert!(row["performance_percent"].is_null(), "{row}");
    let text: toml::Table = folder.read("counted.toml").parse().unwrap();
    assert!(text["machine"]["lathe-1"].get("performance").is_none(), "{text}");
    assert_eq!(run(&["check", "--overlay", &to]).status.code(), Some(0));
}
