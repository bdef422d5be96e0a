//! One lathe, one press, one measuring machine, one pin: what a test changes of them, worked out and built.

use crate::program::run;
use std::path::PathBuf;
use std::process::Output;
use wearland::cycle::{OperationEstimate, estimate_operation, stock_worth};
use wearland::input::{Origin, load};
use wearland::schedule::{BuiltProblem, Problem, Scenario, build_problem};

/// Keys that a test adds to a table, or a table of its own for `second`.
#[derive(Clone, Copy)]
pub(super) struct Pins<'a> {
    pub(super) lathe: &'a str,
    pub(super) tool: &'a str,
    pub(super) operation: &'a str,
    /// What the second operation is done by.
    pub(super) second: &'a str,
    pub(super) pieces: u32,
    pub(super) due: &'a str,
    pub(super) order: &'a str,
    pub(super) end: &'a str,
}

/// As they are where a test changes nothing.
pub(super) const PINS: Pins<'_> = Pins {
    lathe: "",
    tool: "",
    operation: "",
    second: "machines = [\"press\"]\nfixed = { time = \"60 s\" }",
    pieces: 100,
    due: "2027-03-05 14:00",
    order: "",
    end: "",
};

/// A built scenario.
pub(super) struct Built {
    pub(super) scenario: Scenario,
    pub(super) estimates: Vec<OperationEstimate>,
    pub(super) built: BuiltProblem,
}

impl Built {
    pub(super) fn problem(&self) -> &Problem {
        &self.built.problem
    }
}

impl Pins<'_> {
    /// The scenario as text.
    pub(super) fn text(&self) -> String {
        let Self { lathe, tool, operation, second, pieces, due, order, end } = self;
        format!(
            r#"[scenario]
title = "pins"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 5
[shift.early]
from = "06:00"
to = "14:00"
breaks = ["09:00-09:30"]
[crew.operator]
early = 2
[machine.lathe]
like = "bar-lathe-42"
availability = "80 %"
coolant = "soluble-flood"
rate = "60 EUR/h"
{lathe}
[machine.press]
like = "press-bench"
availability = "100 %"
rate = "30 EUR/h"
[machine.gauging]
like = "measuring-machine"
availability = "100 %"
[tool.turn-80-08]
price = "9.80 EUR"
{tool}
[part.pin]
material = "C45"
[part.pin.blank]
price = "1 EUR"
[[part.pin.operation]]
id = 10
machines = ["lathe"]
setup = "30 min"
{operation}
[[part.pin.operation.cut]]
id = "turn"
tool = "turn-80-08"
speed = "200 m/min"
feed = "0.25 mm/rev"
depth = "2 mm"
turn = {{ from = "30 mm", to = "26 mm", length = "38 mm" }}
[[part.pin.operation]]
id = 20
{second}
[[order]]
id = "A"
item = "pin"
quantity = {pieces}
due = "{due}"
{order}
{end}
"#
        )
    }

    /// Worked out and built.
    pub(super) fn built(&self) -> Built {
        let loaded =
            load(&Origin::Text { name: "pins.toml".into(), bytes: self.text().into_bytes() }).unwrap();
        let scenario = loaded.scenario.unwrap();
        let mut estimates = Vec::new();
        for (item, of) in scenario.shop.items.iter().enumerate() {
            for (operation, work) in of.operations.iter().enumerate() {
                for machine in &work.machines {
                    let worth = stock_worth(&scenario.shop, of);
                    estimates.push(
                        estimate_operation(&scenario.shop, (item, operation, *machine), worth).unwrap(),
                    );
                }
            }
        }
        let built = build_problem(&scenario, &estimates);
        Built { scenario, estimates, built }
    }

    /// What a command of the program makes of them; `name` keeps the files of tests apart.
    pub(super) fn run(&self, name: &str, arguments: &[&str]) -> Output {
        let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("pins-{name}.toml"));
        std::fs::write(&file, self.text()).unwrap();
        let mut all = vec![arguments[0], file.to_str().unwrap()];
        all.extend(&arguments[1..]);
        run(&all)
    }

    /// The rows of a table as CSV, head line first.
    pub(super) fn table(&self, name: &str, command: &str, table: &str) -> Vec<Vec<String>> {
        let output = self.run(name, &[command, "--table", table, "--format", "csv"]);
        let text = String::from_utf8(output.stdout).unwrap();
        assert!(!text.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
        text.lines().map(|line| line.split(',').map(str::to_owned).collect()).collect()
    }
}

/// A column of a table by its head.
pub(super) fn column(rows: &[Vec<String>], head: &str) -> Vec<String> {
    let at = rows[0].iter().position(|name| name == head).unwrap();
    rows[1..].iter().map(|row| row[at].clone()).collect()
}
