//! Lives of `tests/data` by name.

use wearland::calibrate::{Outcome, Row};

use crate::program::project;

/// A table of text cells with its head.
struct Table {
    head: Vec<String>,
    lines: Vec<Vec<String>>,
}

impl Table {
    fn read(file: &str) -> Self {
        let text = std::fs::read_to_string(project(&format!("tests/data/{file}.csv"))).unwrap();
        let cells = |line: &str| line.split(',').map(str::to_owned).collect::<Vec<_>>();
        let mut lines = text.lines().map(cells);
        Self { head: lines.next().unwrap(), lines: lines.collect() }
    }

    fn cell<'t>(&self, line: &'t [String], column: &str) -> Option<&'t str> {
        let at = self.head.iter().position(|head| head == column)?;
        line.get(at).map(String::as_str)
    }

    fn number(&self, line: &[String], column: &str) -> Option<f64> {
        self.cell(line, column).map(|cell| cell.parse().unwrap())
    }

    /// Rows with the life in the column whose head starts with `life`; covariates made by `x`; lines kept by `keep`.
    fn rows(&self, keep: impl Fn(&[String]) -> bool, x: impl Fn(&[String]) -> Vec<f64>) -> Vec<Row> {
        let life = self.head.iter().find(|head| head.starts_with("life")).unwrap();
        self.lines
            .iter()
            .filter(|line| keep(line))
            .map(|line| {
                let failed = self.number(line, "failed").is_none_or(|failed| failed > 0.5);
                Row {
                    x: x(line),
                    life: self.number(line, life).unwrap(),
                    outcome: if failed { Outcome::Failed } else { Outcome::RightCensored },
                    weight: self.number(line, "count").unwrap_or(1.0),
                }
            })
            .collect()
    }

    fn logs(&self, columns: &[&str]) -> Vec<Row> {
        let x = |line: &[String]| columns.iter().map(|name| self.number(line, name).unwrap().ln()).collect();
        self.rows(|_| true, x)
    }
}

/// Lives with the logarithms of what they were run at.
pub(crate) fn lives(name: &str) -> Option<Vec<Row>> {
    Some(match name {
        "diesel-fans" | "bearing-cages" | "drill-bits" | "router-bits" | "twenty-lives" | "ball-bearings"
        | "handbook-units" => Table::read(name).logs(&[]),
        "turning-36" | "lathe-20" => Table::read(name).logs(&["speed_ft_per_min", "feed_in_per_rev"]),
        "turning-36-cut" => {
            cut_short(Table::read("turning-36").logs(&["speed_ft_per_min", "feed_in_per_rev"]), 10.0)
        }
        "three-tests" => Table::read(name).logs(&["speed", "feed"]),
        "generated-a" | "generated-b" => Table::read(name).logs(&["speed_m_per_min"]),
        "generated-vf" => Table::read(name).logs(&["speed_m_per_min", "feed_mm_per_rev"]),
        "insulating-fluid" => Table::read(name).logs(&["voltage_kv"]),
        "insulating-fluid-34" => {
            let table = Table::read("insulating-fluid");
            table.rows(|line| table.cell(line, "voltage_kv") == Some("34"), |_| Vec::new())
        }
        "milling-cast-iron" => {
            let table = Table::read("milling-wear");
            let iron = |line: &[String]| {
                table.cell(line, "steel") == Some("0") && table.cell(line, "wear_limit_mm") == Some("0.45")
            };
            table.rows(iron, |_| Vec::new())
        }
        "milling-30" => milled("0.3"),
        "milling-45" => milled("0.45"),
        "factorial-24" => {
            let table = Table::read(name);
            let coded = |line: &[String]| {
                let [a, b, c] = ["speed_coded", "geometry_coded", "angle_coded"]
                    .map(|column| table.number(line, column).unwrap());
                vec![a, b, c, a * b, a * c, b * c, a * b * c]
            };
            table.rows(|_| true, coded)
        }
        _ => return speed_life_series(name),
    })
}

/// All lives longer than `limit` become lives cut short there.
pub(crate) fn cut_short(mut rows: Vec<Row>, limit: f64) -> Vec<Row> {
    for row in rows.iter_mut().filter(|row| row.life > limit) {
        (row.life, row.outcome) = (limit, Outcome::RightCensored);
    }
    rows
}

fn milled(limit: &str) -> Vec<Row> {
    let table = Table::read("milling-wear");
    let x = |line: &[String]| {
        let log = |column| table.number(line, column).unwrap().ln();
        vec![log("feed_mm_per_rev"), log("depth_mm"), table.number(line, "steel").unwrap()]
    };
    table.rows(|line| table.cell(line, "wear_limit_mm") == Some(limit), x)
}

fn speed_life_series(name: &str) -> Option<Vec<Row>> {
    let table = Table::read("speed-life-series");
    let rows = table.rows(
        |line| table.cell(line, "series") == Some(name),
        |line| vec![table.number(line, "speed").unwrap().ln()],
    );
    (!rows.is_empty()).then_some(rows)
}

/// Points (x, y) of `file`, or of one case of it.
pub(crate) fn points(file: &str, columns: [&str; 2], case: Option<&str>) -> Vec<(f64, f64)> {
    let table = Table::read(file);
    let lines = table.lines.iter().filter(|line| case.is_none() || table.cell(line, "case") == case);
    lines
        .map(|line| (table.number(line, columns[0]).unwrap(), table.number(line, columns[1]).unwrap()))
        .collect()
}

/// Names of all sets without covariates, then of all with.
pub(crate) const NAMES: [&str; 17] = [
    "diesel-fans",
    "bearing-cages",
    "drill-bits",
    "router-bits",
    "twenty-lives",
    "ball-bearings",
    "handbook-units",
    "insulating-fluid-34",
    "milling-cast-iron",
    "turning-36",
    "turning-36-cut",
    "lathe-20",
    "generated-a",
    "generated-b",
    "generated-vf",
    "insulating-fluid",
    "milling-45",
];
