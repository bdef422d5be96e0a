//! Files laid over a scenario: which figure holds, where a mistake is shown, what is compared, what is never written over.

use super::program_files::{Folder, number, report, row, rows, said};
use crate::families::workshop::assert_near;
use crate::program::{project, run};

const SCENARIO: &str = "scenarios/inch-shaft.toml";
/// Availability of its only lathe as written.
const WRITTEN: f64 = 0.85;

/// What the overlays change of the steady output; its only machine holds it back, so it goes with the machine's minutes.
fn change(overlays: &[&str]) -> f64 {
    let mut arguments = vec!["capacity", SCENARIO];
    for overlay in overlays {
        arguments.extend(["--overlay", overlay]);
    }
    let report = report(&arguments);
    number(&rows(&report, "output_against_written")[0], "difference_percent") / 100.0
}

#[test]
fn the_later_file_lies_on_top() {
    let folder = Folder::new("overlay-order");
    let half = folder.write("half.toml", "[machine.lathe]\navailability = \"50 %\"\n");
    let more = folder.write("more.toml", "[machine.lathe]\navailability = \"60 %\"\n");
    let pace = folder.write("pace.toml", "[machine.lathe]\nperformance = \"90 %\"\n");
    assert_near(change(&[&half]), 0.50 / WRITTEN - 1.0, 1e-6);
    assert_near(change(&[&half, &more]), 0.60 / WRITTEN - 1.0, 1e-6);
    assert_near(change(&[&more, &half]), 0.50 / WRITTEN - 1.0, 1e-6);
    // What a later file does not say stays as it is.
    assert_near(change(&[&half, &pace]), 0.50 * 0.90 / WRITTEN - 1.0, 1e-6);
    assert_near(change(&[&pace]), 0.90 - 1.0, 1e-6);
}

#[test]
fn a_list_takes_the_place_of_a_list() {
    let folder = Folder::new("overlay-list");
    let text = "[[order]]\nid = \"7\"\nitem = \"feed-shaft\"\nquantity = 40\ndue = \"2027-03-02 15:30\"\n\
        [[order]]\nid = \"8\"\nitem = \"feed-shaft\"\nquantity = 50\ndue = \"2027-03-03 15:30\"\n";
    let orders = folder.write("orders.toml", text);
    let report = report(&["plan", SCENARIO, "--overlay", &orders]);
    let ids: Vec<String> =
        rows(&report, "orders").iter().map(|row| row["order"].as_str().unwrap().to_owned()).collect();
    assert_eq!(ids, ["7", "8"]);
    let compared = rows(&report, "plan_against_written");
    let (before, after) = (row(&compared, &[("plan", "as written")]), row(&compared, &[("plan", "changed")]));
    assert!(number(&after, "tool_changes") < number(&before, "tool_changes"), "{compared:?}");
}

#[test]
fn a_mistake_is_shown_in_the_file_where_it_stands() {
    let folder = Folder::new("overlay-mistake");
    let right = folder.write("right.toml", "[machine.lathe]\nrate = \"70 USD/h\"\n");
    for (text, code, place) in [
        ("# by hand\n[machine.lathe]\navailability = \"150 %\"\n", "E106", "3:16"),
        ("[machine.lathe]\navailabilty = \"80 %\"\n", "E102", "2:1"),
        ("[tool.turn-80-08]\nprice = \"12 EUR\"\n", "E105", "2:9"),
        ("[machine.lathe\n", "E101", "1:15"),
    ] {
        let wrong = folder.write("wrong.toml", text);
        let output = run(&["check", SCENARIO, "--overlay", &right, "--overlay", &wrong]);
        let said = said(&output);
        assert_eq!(output.status.code(), Some(3), "{text}: {said}");
        assert!(said.contains(&format!("error[{code}]")), "{text}: {said}");
        assert!(said.contains(&format!("{wrong}:{place}")), "{text}: {said}");
        assert!(!said.contains("right.toml"), "{text}: {said}");
    }
    let output = run(&["check", SCENARIO, "--overlay", &folder.path("none.toml")]);
    assert_eq!(output.status.code(), Some(4), "{}", said(&output));
}

#[test]
fn a_file_may_mend_the_scenario_below() {
    let folder = Folder::new("overlay-mends");
    let text = std::fs::read_to_string(project(SCENARIO)).unwrap();
    let mends = folder.write("mends.toml", "[machine.lathe]\navailability = \"85 %\"\n");
    let good = report(&["capacity", SCENARIO]);
    for wrong in ["", "availability = \"150 %\"", "availability = \"often\""] {
        let broken = folder.write("broken.toml", &text.replace("availability = \"85 %\"", wrong));
        assert_eq!(run(&["capacity", &broken]).status.code(), Some(3), "{wrong}");
        let mended = report(&["capacity", &broken, "--overlay", &mends]);
        assert_eq!(rows(&mended, "capacity"), rows(&good, "capacity"), "{wrong}");
        // There is nothing to hold it against.
        let tables = mended["tables"].as_object().unwrap();
        assert!(tables.keys().all(|key| !key.ends_with("_against_written")), "{wrong}: {:?}", tables.keys());
    }
    // An overlay that changes nothing is still compared.
    let same = report(&["capacity", SCENARIO, "--overlay", &mends]);
    assert_near(1.0 + number(&rows(&same, "output_against_written")[0], "difference_percent"), 1.0, 1e-9);
    assert!(rows(&same, "operations_against_written").is_empty());
}

#[test]
fn what_is_read_is_not_written_over() {
    let folder = Folder::new("overlay-output");
    let text = "[machine.lathe]\navailability = \"50 %\"\n";
    let first = folder.write("first.toml", text);
    let second = folder.write("second.toml", text);
    let scenario = folder.write("shaft.toml", &std::fs::read_to_string(project(SCENARIO)).unwrap());
    let counts = folder.write(
        "counts.csv",
        "date,shift,machine,item,operation,pieces\n2027-03-01,day,lathe,feed-shaft,10,300\n",
    );
    let log = std::fs::read_to_string(project("tests/logs/generated-a.csv")).unwrap();
    let log = folder.write("log.csv", &log);
    let over = ["--overlay", &first, "--overlay", &second];
    let fit = ["fit", &log, "--tool", "turn-80-08", "--material", "C45", "--scenario", &scenario];
    for (arguments, target) in [
        ([&["capacity", &scenario, "-o", &first][..], &over].concat(), &first),
        ([&["capacity", &scenario, "-o", &second][..], &over].concat(), &second),
        ([&["capacity", &scenario, "-o", &scenario][..], &over].concat(), &scenario),
        ([&["actual", &counts, &scenario, "-o", &second][..], &over].concat(), &second),
        ([&["actual", &counts, &scenario, "--to", &counts][..], &over].concat(), &counts),
        ([&["actual", &counts, &scenario, "--to", &second][..], &over].concat(), &second),
        ([&["actual", &counts, &scenario, "--to", &scenario][..], &over].concat(), &scenario),
        ([&fit[..], &["--to", &log]].concat(), &log),
        ([&fit[..], &["-o", &log]].concat(), &log),
        ([&fit[..], &["--to", &scenario]].concat(), &scenario),
    ] {
        let before = std::fs::read(target).unwrap();
        let output = run(&arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {}", said(&output));
        assert_eq!(std::fs::read(target).unwrap(), before, "{arguments:?}");
    }
    let new = folder.path("new.toml");
    for arguments in [
        [&["actual", &counts, &scenario][..], &["--to", &new, "-o", &new]].concat(),
        [&fit[..], &["--to", &new, "-o", &new]].concat(),
    ] {
        let output = run(&arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {}", said(&output));
        assert!(!std::path::Path::new(&new).exists(), "{arguments:?}");
    }
}
