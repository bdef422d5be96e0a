//! The week as it goes: a status, the last plan, what changed, two plans side by side, a search cut short.

use crate::program::{project, run, stdout};
use serde_json::Value;
use std::path::PathBuf;
use std::sync::OnceLock;
use std::sync::atomic::AtomicBool;
use wearland::commands::{Advice, PlanRequest, Request, Speeds, Verdict, plan};
use wearland::input::Origin;
use wearland::schedule::Search;

/// A folder of its own for each test.
struct Desk(PathBuf);

impl Desk {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("wearland-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        Self(folder)
    }

    fn put(&self, name: &str, text: &str) -> String {
        let path = self.0.join(name);
        std::fs::write(&path, text).unwrap();
        path.to_str().unwrap().to_owned()
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// Monday's plan of the demo.
fn monday() -> &'static str {
    static MONDAY: OnceLock<String> = OnceLock::new();
    MONDAY.get_or_init(|| stdout(&["plan", "--format", "json"]))
}

fn planned(arguments: &[&str]) -> Value {
    let output = run(&[&["plan", "--format", "json"], arguments].concat());
    let code = output.status.code().unwrap();
    assert!(code < 2, "{arguments:?}: {code} {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

fn rows<'r>(report: &'r Value, table: &str) -> &'r Vec<Value> {
    report["tables"][table].as_array().unwrap()
}

const TUESDAY: &str = "now = \"2027-03-02 06:00\"\n";
const DOWN: &str = "[[down]]\nmachine = \"hobber-2\"\nuntil = \"2027-03-02 22:00\"\n";

#[test]
fn the_same_scenario_against_its_own_plan_changes_nothing() {
    let desk = Desk::new("unchanged");
    let last = desk.put("monday.json", monday());
    let report = planned(&["--last", &last]);
    let said = report["notes"]["against_last_plan"].as_array().unwrap();
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].as_str().unwrap().starts_with("Nothing changed"), "{said:?}");
    for table in ["changed_orders", "changed_lots", "changed_tools"] {
        assert!(rows(&report, table).is_empty(), "{table}");
    }
    assert_eq!(rows(&report, "lots"), rows(&serde_json::from_str(monday()).unwrap(), "lots"));
}

#[test]
fn a_machine_that_is_down_makes_nothing_until_it_is_back() {
    let desk = Desk::new("down");
    let last = desk.put("monday.json", monday());
    let status = desk.put("tuesday.toml", &format!("{TUESDAY}{DOWN}"));
    let arguments = ["--status", &status, "--last", &last];
    let report = planned(&arguments);
    let lots = rows(&report, "lots");
    assert!(lots.iter().all(|lot| lot["start"].as_str() >= Some("2027-03-02 06:00")));
    let hobber: Vec<&Value> = lots.iter().filter(|lot| lot["machine"] == "hobber-2").collect();
    assert!(!hobber.is_empty());
    assert!(hobber.iter().all(|lot| lot["start"].as_str() >= Some("2027-03-02 22:00")), "{hobber:?}");
    let changed = rows(&report, "changed_lots").iter().filter(|lot| lot["machine"] == "hobber-2");
    let lost: Vec<&Value> = changed.filter(|lot| lot["after_pieces"] == 0).collect();
    assert!(lost.iter().any(|lot| lot["shift"] == "Tue 2027-03-02 early"), "{lost:?}");
    // The same files give the same bytes.
    assert_eq!(report, planned(&arguments));
    // Without the last plan nothing is known to be made, but the plan is made all the same.
    assert!(rows(&planned(&["--status", &status]), "made_before").iter().all(|row| row["good_pieces"] == 0));
}

/// Good pieces of an operation in lots that end by a time.
fn made_by(report: &Value, item: &str, operation: &str, time: &str) -> u64 {
    let lots = rows(report, "lots").iter();
    lots.filter(|lot| {
        lot["item"] == item && lot["operation"] == operation && lot["end"].as_str() <= Some(time)
    })
    .map(|lot| lot["good_pieces"].as_u64().unwrap())
    .sum()
}

fn row_of<'r>(report: &'r Value, item: &str, operation: &str) -> &'r Value {
    let mut rows = rows(report, "made_before").iter();
    rows.find(|row| row["item"] == item && row["operation"] == operation).unwrap()
}

#[test]
fn the_last_plan_counts_as_kept_unless_somebody_counted() {
    let desk = Desk::new("kept");
    let last = desk.put("monday.json", monday());
    let status = desk.put("tuesday.toml", TUESDAY);
    let report = planned(&["--status", &status, "--last", &last]);
    let before: Value = serde_json::from_str(monday()).unwrap();
    for (item, operation) in [("pinion", "20"), ("wheel", "20"), ("drive-shaft", "10"), ("vent-drive", "20")]
    {
        let made = made_by(&before, item, operation, "2027-03-02 06:00");
        assert_eq!(row_of(&report, item, operation)["good_pieces"], made, "{item} {operation}");
    }
    // 350 pinions lay hobbed on Monday.
    let pinions = row_of(&report, "pinion", "20")["lying_pieces"].as_i64().unwrap();
    let used = row_of(&report, "pinion", "30")["started_pieces"].as_i64().unwrap();
    assert_eq!(pinions, 350 + row_of(&report, "pinion", "20")["good_pieces"].as_i64().unwrap() - used);
    let counted = "[[done]]\nitem = \"pinion\"\noperation = 20\npieces = 700\n\
        [[stock]]\nitem = \"wheel\"\noperation = 20\npieces = 123\n\
        [[shipped]]\norder = \"A-101\"\npieces = 40\n\
        [[edge]]\nmachine = \"lathe-1\"\ntool = \"turn-80-08\"\nposition = \"T1\"\nworn = \"40 %\"\n";
    let status = desk.put("counted.toml", &format!("{TUESDAY}{counted}"));
    let report = planned(&["--status", &status, "--last", &last]);
    assert_eq!(row_of(&report, "pinion", "20")["good_pieces"], 700);
    assert_eq!(row_of(&report, "wheel", "20")["lying_pieces"], 123);
    let order = rows(&report, "orders").iter().find(|order| order["order"] == "A-101").unwrap();
    assert_eq!(order["wanted_pieces"], 1600);
    let edges = rows(&report, "edges_before");
    let edge =
        edges.iter().find(|edge| edge["tool"] == "turn-80-08" && edge["machine"] == "lathe-1").unwrap();
    assert_eq!(edge["worn_percent"], 40.0);
    // On Wednesday Tuesday's plan is the last one, and what it found is not forgotten.
    let tuesday = desk.put("tuesday.json", &serde_json::to_string(&report).unwrap());
    let status = desk.put("wednesday.toml", "now = \"2027-03-03 10:00\"\n");
    let wednesday = planned(&["--status", &status, "--last", &tuesday]);
    let made = |report| row_of(report, "pinion", "20")["good_pieces"].as_u64().unwrap();
    assert!(made(&wednesday) >= 700 + made_by(&report, "pinion", "20", "2027-03-03 10:00"));
    assert_eq!(
        row_of(&wednesday, "wheel", "20")["found_pieces"],
        row_of(&report, "wheel", "20")["found_pieces"]
    );
    assert!(rows(&wednesday, "lots").iter().all(|lot| lot["start"].as_str() >= Some("2027-03-03 10:00")));
}

#[test]
fn work_that_runs_is_kept_and_needs_no_setup() {
    let desk = Desk::new("running");
    let last = desk.put("monday.json", monday());
    // lathe-1 turns shafts from six in the morning on.
    let status = desk.put("tuesday.toml", "now = \"2027-03-02 09:00\"\n");
    let report = planned(&["--status", &status, "--last", &last]);
    let set_up = rows(&report, "set_up_before").iter().find(|row| row["machine"] == "lathe-1").unwrap();
    assert_eq!((set_up["item"].as_str(), set_up["operation"].as_str()), (Some("drive-shaft"), Some("10")));
    assert!(set_up["running_pieces"].as_u64() > Some(100), "{set_up}");
    let first = rows(&report, "lots").iter().find(|lot| lot["machine"] == "lathe-1").unwrap();
    assert_eq!((first["item"].as_str(), first["setup_min"].as_f64()), (Some("drive-shaft"), Some(0.0)));
    assert_eq!(first["start"], "2027-03-02 09:00");
    let stopped = desk.put("stopped.toml", "now = \"2027-03-02 09:00\"\nkeep_running = false\n");
    let report = planned(&["--status", &stopped, "--last", &last]);
    assert!(rows(&report, "set_up_before").iter().all(|row| row["running_pieces"] == 0));
    let told = "now = \"2027-03-02 09:00\"\n[[running]]\nmachine = \"hobber-1\"\nitem = \"pinion\"\noperation = 20\npieces = 30\n";
    let report = planned(&["--status", &desk.put("told.toml", told)]);
    let set_up = rows(&report, "set_up_before").iter().find(|row| row["machine"] == "hobber-1").unwrap();
    assert_eq!((set_up["item"].as_str(), set_up["running_pieces"].as_u64()), (Some("pinion"), Some(30)));
}

#[test]
fn a_machine_that_is_gone_is_said_and_does_not_stop_the_plan() {
    let desk = Desk::new("gone");
    let last = desk.put("monday.json", &monday().replace("\"hobber-2\"", "\"hobber-9\""));
    let report = planned(&["--last", &last]);
    let said = report["notes"]["against_last_plan"].to_string();
    assert!(said.contains("machine hobber-9 is not known any more"), "{said}");
    assert!(
        rows(&report, "changed_lots")
            .iter()
            .any(|lot| lot["machine"] == "hobber-9" && lot["after_pieces"] == 0)
    );
}

#[test]
fn an_earlier_report_that_lacks_something_is_refused_with_its_path() {
    let desk = Desk::new("lacking");
    let mut report: Value = serde_json::from_str(monday()).unwrap();
    report["tables"]["lots"][3]["pieces"] = Value::from("many");
    let last = desk.put("monday.json", &report.to_string());
    let output = run(&["plan", "--last", &last]);
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(3), "{said}");
    assert!(said.contains("E111") && said.contains("tables.lots[3].pieces"), "{said}");
    let orders = desk.put("orders.json", &stdout(&["plan", "--format", "json", "--table", "orders"]));
    let output = run(&["compare", &orders, &last]);
    assert_eq!(output.status.code(), Some(3));
    assert!(String::from_utf8(output.stderr).unwrap().contains("tables.plan"));
    assert_eq!(run(&["plan", "--last", &last, "-o", &last]).status.code(), Some(2));
}

#[test]
fn two_plans_stand_side_by_side() {
    let desk = Desk::new("compare");
    let monday = desk.put("monday.json", monday());
    let compared = |one: &str, other: &str| -> Value {
        serde_json::from_str(&stdout(&["compare", one, other, "--format", "json"])).unwrap()
    };
    // A scenario planned on the spot is its own report.
    let same = compared("scenarios/vent-drive", &monday);
    let difference = &rows(&same, "plans_compared")[2];
    for key in ["late_orders", "cost_eur", "setups_h", "tool_changes", "output_sets_per_day"] {
        assert_eq!(difference[key].as_f64(), Some(0.0), "{key}");
    }
    assert!(rows(&same, "machines_compared").iter().all(|row| row["difference_h"] == 0.0));
    assert!(rows(&same, "machines_compared").len() > 8 && rows(&same, "edges_compared").len() > 10);
    let other = compared(&monday, "scenarios/too-much.toml");
    assert_eq!(rows(&other, "plans_compared")[2]["late_orders"], 1);
    assert!(rows(&other, "machines_compared").iter().any(|row| row["one_h"] == 0.0));
    // Dollars and euros are not subtracted.
    let inch = compared(&monday, "scenarios/inch-shaft.toml");
    assert!(rows(&inch, "plans_compared")[2]["cost_eur"].is_null());
}

#[test]
fn the_program_is_written_for_other_solvers() {
    let desk = Desk::new("model");
    let file = desk.0.join("demo.mps");
    let path = file.to_str().unwrap();
    assert!(run(&["plan", "--rounds", "1", "--model", path]).status.success());
    let text = std::fs::read_to_string(&file).unwrap();
    assert!(text.starts_with("NAME least-cost\nROWS\n") && text.ends_with("ENDATA\n"));
    assert!(text.lines().count() > 1000);
    assert_eq!(run(&["plan", "--model", path, "-o", path]).status.code(), Some(2));
}

fn demo(search: Search<'_>) -> PlanRequest<'_> {
    let scenario =
        Request { origin: Origin::Demo, overlays: Vec::new(), coolant: None, speeds: Speeds::AsWritten };
    PlanRequest { scenario, status: None, last: None, search, advice: Advice::Causes, model: None }
}

#[test]
fn a_search_that_is_stopped_gives_the_best_plan_so_far() {
    let stop = AtomicBool::new(true);
    let answer = plan(&demo(Search { stop: Some(&stop), ..Search::default() })).unwrap();
    assert_eq!(answer.verdict, Verdict::CutShort);
    assert_eq!(answer.verdict.exit_code(), 5);
    // Nor is the advice waited for.
    assert!(answer.document.only("worth").is_err() && answer.document.only("orders").is_ok());
    // What is near enough to the bound is not cut short.
    let answer = plan(&demo(Search { stop: Some(&stop), gap: 1.0, ..Search::default() })).unwrap();
    assert_eq!(answer.verdict, Verdict::Yes);
}

#[test]
fn a_time_limit_is_said_and_a_terminal_alone_sees_progress() {
    let output = run(&["plan", "--time-limit", "1 ms"]);
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(5), "{said}");
    assert!(said.contains("came to its time limit"), "{said}");
    assert!(String::from_utf8(output.stdout).unwrap().contains("The plan, verified"));
    let quiet = run(&["plan"]);
    assert!(quiet.stderr.is_empty(), "{}", String::from_utf8_lossy(&quiet.stderr));
    let told = run(&["plan", "--progress"]);
    assert!(String::from_utf8_lossy(&told.stderr).contains("round 2: "));
    assert_eq!(told.stdout, quiet.stdout);
    for wrong in [["--rounds", "0"], ["--gap", "2"], ["--time-limit", "5 mm"], ["--time-limit", "0 s"]] {
        assert_eq!(run(&[&["plan"], &wrong[..]].concat()).status.code(), Some(2), "{wrong:?}");
    }
}

#[cfg(unix)]
#[test]
fn ctrl_c_ends_the_search_and_not_the_program() {
    use std::io::{BufRead, BufReader, Read};
    use std::process::{Command, Stdio};
    let mut child = Command::new(env!("CARGO_BIN_EXE_wearland"))
        .args(["plan", "--progress", "--table", "plan"])
        .current_dir(project(""))
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut errors = BufReader::new(child.stderr.take().unwrap());
    let mut line = String::new();
    errors.read_line(&mut line).unwrap();
    assert!(line.starts_with("round 1: "), "{line}");
    let pid = child.id().to_string();
    assert!(Command::new("kill").args(["-INT", &pid]).status().unwrap().success());
    let mut said = String::new();
    errors.read_to_string(&mut said).unwrap();
    let output = child.wait_with_output().unwrap();
    // The search may have ended by itself just before.
    assert!(matches!(output.status.code(), Some(0 | 5)), "{:?}: {said}", output.status);
    assert_eq!(output.status.code() == Some(5), said.contains("was interrupted"), "{said}");
    assert!(String::from_utf8(output.stdout).unwrap().contains("The plan, verified"));
}
