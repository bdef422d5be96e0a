//! What may stand on the command line.

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;
use wearland::commands::Speeds;
use wearland::quantity::{Duration, Hardness, Length, parse};

/// Plans machining: cutting data, cycle times, tool wear, tool changes, capacity and shift boards from one scenario.
#[derive(Debug, Parser)]
#[command(version, after_help = EXAMPLES)]
pub(crate) struct Cli {
    #[command(subcommand)]
    pub(crate) command: Command,
    #[command(flatten)]
    pub(crate) output: Output,
}

const EXAMPLES: &str = "Examples:
  wearland plan                               plan of the built-in demo, a maker of greenhouse vent drives
  wearland check my-shop/                     are these files right?
  wearland cycle my-shop/ --item drive-shaft  cutting data, tool life and cycle of one part
  wearland capacity my-shop/ --coolant dry    what if everything were cut dry?
  wearland wear my-shop/ --item drive-shaft --op 10   when does each edge come out, and why then?
  wearland fit changes.csv --tool turn-80-08 --material C45 --to own.toml   constants from your own log
  wearland plan my-shop/ --overlay own.toml   the plan with them, against the plan without
  wearland plan my-shop/ --format json -o monday.json   a plan to keep
  wearland plan my-shop/ --status tuesday.toml --last monday.json   from now on, and what changed
  wearland compare my-shop/ monday.json   two plans side by side

Exit codes: 0 done; 1 done, and orders are late or wanted stock is missing; 2 wrong command line; 3 wrong input; 4 files; 5 a limit was hit, or
the search was cut short and a better plan may be there; 70 a fault of this program.";

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Find the mistakes of a scenario, those of all its tables in one run.
    Check(Scenario),
    /// Cutting data, load on the machine, tool life and cycle, and why.
    Cycle {
        #[command(flatten)]
        scenario: Scenario,
        /// Only this part or product.
        #[arg(long, value_name = "NAME")]
        item: Option<String>,
        /// Show every formula with the numbers put in and its source.
        #[arg(long)]
        workings: bool,
    },
    /// Matched sets a day, and what holds the plant back.
    Capacity(Scenario),
    /// When each edge comes out, why then, what it costs to be earlier or later; with --item and --op also cost curves and what-ifs.
    Wear {
        #[command(flatten)]
        scenario: Scenario,
        /// Only this part.
        #[arg(long, value_name = "NAME")]
        item: Option<String>,
        /// Only the operation of this number.
        #[arg(long, value_name = "NUMBER")]
        op: Option<u32>,
        /// Only on this machine.
        #[arg(long, value_name = "NAME")]
        machine: Option<String>,
    },
    /// Life constants from a log of tool changes or wear readings, with intervals, and as TOML to lay over a scenario.
    Fit(Fit),
    /// The shop's counts against the model: lost minutes, and availability and performance as TOML to lay over the scenario.
    Actual {
        /// A CSV file of pieces by date, shift, machine, item and operation, or - for standard input.
        #[arg(value_name = "COUNTS")]
        counts: PathBuf,
        #[command(flatten)]
        scenario: Scenario,
        /// Write availability and performance as TOML to lay over the scenario.
        #[arg(long, value_name = "FILE")]
        to: Option<PathBuf>,
    },
    /// Who makes what on which machine in which shift, who is late, when does which tool come out.
    Plan(Box<Plan>),
    /// Two plans side by side: sets a day, late orders, hours by machine, edges by tool, money.
    Compare {
        /// A scenario, which is planned, or a report of `plan` in JSON, whose name ends in .json.
        #[arg(value_name = "ONE")]
        one: PathBuf,
        /// The other, likewise.
        #[arg(value_name = "OTHER")]
        other: PathBuf,
        #[command(flatten)]
        effort: Effort,
    },
    /// What is built in - materials, tools, coolants, conditions, scatter, machines, sources - and where each figure comes from.
    Catalog {
        /// material, tool, coolant, condition, scatter, machine or source; insert or grade to decode a designation; left out, all kinds.
        kind: Option<String>,
        /// An entry of that kind, or a designation such as CNMG120408 or P20.
        key: Vec<String>,
    },
    /// From a drawing to cuts: order, tools, passes, speeds and feeds of a turned part, as TOML to paste and change.
    Propose {
        /// A TOML file, a folder of TOML files, or - for standard input.
        #[arg(value_name = "SCENARIO")]
        path: PathBuf,
        /// Only this part; left out, every part that has a drawing and no operation.
        #[arg(long, value_name = "PART")]
        item: Option<String>,
    },
    /// Explain a code such as E106.
    Code {
        /// The code; left out, all are listed.
        code: Option<String>,
    },
}

#[derive(Debug, Args)]
pub(crate) struct Scenario {
    /// A TOML file, a folder of TOML files, or - for standard input; left out, the built-in demo.
    #[arg(value_name = "SCENARIO")]
    pub(crate) path: Option<PathBuf>,
    /// Replace every coolant by this one and show what that changes: dry, soluble-flood, neat-oil ...
    #[arg(long, value_name = "STATE")]
    pub(crate) coolant: Option<String>,
    /// Lay a TOML file over the scenario: tables are joined key by key, lists replaced. May be given several times, the last on
    /// top; cycle, capacity, plan and wear show what it changes.
    #[arg(long, value_name = "FILE")]
    pub(crate) overlay: Vec<PathBuf>,
    /// Cutting speeds: those of the scenario, or chosen by the plan, each by what an hour of its machine is worth there.
    #[arg(long, value_enum, default_value_t = SpeedChoice::AsWritten)]
    pub(crate) speeds: SpeedChoice,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum SpeedChoice {
    /// Those of the scenario.
    AsWritten,
    /// Chosen by the plan.
    Free,
}

impl From<SpeedChoice> for Speeds {
    fn from(choice: SpeedChoice) -> Self {
        match choice {
            SpeedChoice::AsWritten => Self::AsWritten,
            SpeedChoice::Free => Self::Free,
        }
    }
}

#[derive(Debug, Args)]
pub(crate) struct Plan {
    #[command(flatten)]
    pub(crate) scenario: Scenario,
    /// A TOML file with what is known of the floor - counts, machines down, people missing, edges: plan from its `now` on.
    #[arg(long, value_name = "FILE")]
    pub(crate) status: Option<PathBuf>,
    /// The last plan, a report in JSON: taken as kept up to now, and what changed against it is shown.
    #[arg(long, value_name = "FILE")]
    pub(crate) last: Option<PathBuf>,
    /// Write the linear program behind the plan as free MPS: its optimum, by any solver, is the least cost shown.
    #[arg(long, value_name = "FILE")]
    pub(crate) model: Option<PathBuf>,
    /// Also say what one more hour, person, edge or day of grace is worth, and what would bring late orders in time: each is
    /// tried, which takes as long as some dozen plans.
    #[arg(long)]
    pub(crate) advice: bool,
    #[command(flatten)]
    pub(crate) effort: Effort,
}

#[derive(Debug, Args)]
pub(crate) struct Effort {
    /// Most rounds of the search for a better plan.
    #[arg(long, value_name = "NUMBER", value_parser = rounds)]
    pub(crate) rounds: Option<usize>,
    /// End the search this near to the bound, such as "1 %".
    #[arg(long, value_name = "SHARE", value_parser = gap)]
    pub(crate) gap: Option<f64>,
    /// End the search after so long, such as "10 s", as Ctrl-C does. What is found by then hangs on the speed of the machine: the
    /// same files may give another plan; rounds and gap do not have that flaw.
    #[arg(long, value_name = "TIME", value_parser = time_limit)]
    pub(crate) time_limit: Option<std::time::Duration>,
    /// Tell the rounds of the search on standard error, also where that is no terminal.
    #[arg(long)]
    pub(crate) progress: bool,
}

/// Rounds of a search.
fn rounds(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(rounds) if (1..=1000).contains(&rounds) => Ok(rounds),
        _ => Err("expected a number of rounds from 1 to 1000".to_owned()),
    }
}

/// A share of the bound: `1 %` or `0.01`.
fn gap(text: &str) -> Result<f64, String> {
    let share = match text.trim().strip_suffix('%') {
        Some(percent) => percent.trim().parse::<f64>().map(|percent| percent / 100.0),
        None => text.trim().parse::<f64>(),
    };
    match share {
        Ok(share) if (0.0..=1.0).contains(&share) => Ok(share),
        _ => Err("expected a share such as \"1 %\" or 0.01".to_owned()),
    }
}

/// A time that is not nothing.
fn time_limit(text: &str) -> Result<std::time::Duration, String> {
    let time = parse::<Duration>(text).map_err(|error| error.to_string())?;
    match std::time::Duration::try_from_secs_f64(time.to_s()) {
        Ok(limit) if !limit.is_zero() => Ok(limit),
        _ => Err("expected a time above zero".to_owned()),
    }
}

#[derive(Debug, Args)]
pub(crate) struct Fit {
    /// A CSV file of tool changes or wear readings, or - for standard input.
    #[arg(value_name = "LOG")]
    pub(crate) log: PathBuf,
    /// How: by censored Weibull or lognormal regression, or by plain least squares of the logarithms.
    #[arg(long, value_enum, default_value_t = By::Weibull)]
    pub(crate) by: By,
    /// Tool of the log, where it has no such column.
    #[arg(long, value_name = "NAME")]
    pub(crate) tool: Option<String>,
    /// Material of the log, where it has no such column.
    #[arg(long, value_name = "NAME")]
    pub(crate) material: Option<String>,
    /// Coolant of the log, where it has no such column.
    #[arg(long, value_name = "STATE")]
    pub(crate) coolant: Option<String>,
    /// Hardness of what was cut, if other than usual for the material: "210 HB".
    #[arg(long, value_name = "HARDNESS", value_parser = hardness)]
    pub(crate) hardness: Option<Hardness>,
    /// Wear land at which an edge is worn, for wear readings: "0.3 mm".
    #[arg(long, value_name = "LAND", value_parser = land)]
    pub(crate) limit: Option<Length>,
    /// Join what catalog and scenario say of the tool with the log, each by its weight.
    #[arg(long)]
    pub(crate) prior: bool,
    /// Where tool and material stand, if not in the catalogs: a scenario.
    #[arg(long, value_name = "SCENARIO")]
    pub(crate) scenario: Option<PathBuf>,
    /// Write the constants as TOML to lay over a scenario.
    #[arg(long, value_name = "FILE")]
    pub(crate) to: Option<PathBuf>,
    /// Units of the report.
    #[arg(long, value_enum, default_value_t = UnitSystem::Metric)]
    pub(crate) units: UnitSystem,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum By {
    /// Censored Weibull regression.
    Weibull,
    /// Censored lognormal regression.
    Lognormal,
    /// Plain log-log least squares; edges changed early are left out.
    LeastSquares,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum UnitSystem {
    /// m/min, mm.
    Metric,
    /// ft/min, in.
    Inch,
}

/// A hardness.
fn hardness(text: &str) -> Result<Hardness, String> {
    match parse::<Hardness>(text) {
        Ok(hardness) if hardness > Hardness::ZERO => Ok(hardness),
        Ok(_) => Err("expected a hardness above zero".to_owned()),
        Err(error) => Err(error.to_string()),
    }
}

/// A wear land.
fn land(text: &str) -> Result<Length, String> {
    match parse::<Length>(text) {
        Ok(land) if land > Length::ZERO => Ok(land),
        Ok(_) => Err("expected a wear land above zero".to_owned()),
        Err(error) => Err(error.to_string()),
    }
}

#[derive(Debug, Args)]
pub(crate) struct Output {
    /// How the report is written.
    #[arg(long, global = true, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// Only this table or chart: orders, board, tool_changes, edges, capacity ...
    #[arg(long, global = true, value_name = "KEY")]
    pub(crate) table: Option<String>,
    /// Write the report to a file instead of standard output; whole or not at all.
    #[arg(short, long, global = true, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
    /// Width of the text report in columns; left out, that of the terminal, or 140.
    #[arg(long, global = true, value_name = "COLUMNS", value_parser = columns)]
    pub(crate) width: Option<usize>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// Tables for people.
    Text,
    /// One object with all tables; keys carry units.
    Json,
    /// Table after table; keys carry units.
    Csv,
    /// The charts, as one SVG file: those of `fit`, and of `wear` with --item and --op.
    Svg,
}

/// A width that names and numbers fit into.
pub(crate) fn columns(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(columns) if (60..=1000).contains(&columns) => Ok(columns),
        _ => Err("expected a number of columns from 60 to 1000".to_owned()),
    }
}
