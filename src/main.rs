//! Arguments to command to exit code. Only this file prints.
//!
//! Exit codes: 0 done; 1 done and the answer is no (orders late; the report is written); 2 wrong command line;
//! 3 wrong input; 4 files; 5 a limit was hit; 70 a fault of this program.

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::io::{IsTerminal, Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use wearland::commands::{self, Answer, CycleView, Failure, Request};
use wearland::diag::{Color, render};
use wearland::input::{FileError, Origin};
use wearland::report::{save, write_csv, write_json, write_svg, write_text};

/// Plans machining: cutting data, cycle times, tool wear, tool changes, capacity and shift boards from one scenario.
#[derive(Debug, Parser)]
#[command(version, after_help = EXAMPLES)]
struct Cli {
    #[command(subcommand)]
    command: Command,
    #[command(flatten)]
    output: Output,
}

const EXAMPLES: &str = "Examples:
  wearland plan                               plan of the built-in demo, a maker of greenhouse vent drives
  wearland check my-shop/                     are these files right?
  wearland cycle my-shop/ --item drive-shaft  cutting data, tool life and cycle of one part
  wearland capacity my-shop/ --coolant dry    what if everything were cut dry?
  wearland plan my-shop/ --format json -o plan.json

Exit codes: 0 done; 1 done, and orders are late or wanted stock is missing; 2 wrong command line; 3 wrong input; 4 files; 5 a limit was hit;
70 a fault of this program.";

#[derive(Debug, Subcommand)]
enum Command {
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
    /// Who makes what on which machine in which shift, who is late, when does which tool come out.
    Plan(Scenario),
    /// What is built in - materials, tools, coolants, conditions, machines, sources - and where each figure comes from.
    Catalog {
        /// material, tool, coolant, condition, machine or source; insert or grade to decode a designation; left out, all kinds.
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
struct Scenario {
    /// A TOML file, a folder of TOML files, or - for standard input; left out, the built-in demo.
    #[arg(value_name = "SCENARIO")]
    path: Option<PathBuf>,
    /// Replace every coolant by this one and show what that changes: dry, soluble-flood, neat-oil ...
    #[arg(long, value_name = "STATE")]
    coolant: Option<String>,
    /// Lay a TOML file over the scenario and show what that changes; may be given several times, the last on top.
    #[arg(long, value_name = "FILE")]
    overlay: Vec<PathBuf>,
}

#[derive(Debug, Args)]
struct Output {
    /// How the report is written.
    #[arg(long, global = true, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Only this table or chart: orders, board, tool_changes, edges, capacity ...
    #[arg(long, global = true, value_name = "KEY")]
    table: Option<String>,
    /// Write the report to a file instead of standard output; whole or not at all.
    #[arg(short, long, global = true, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Width of the text report in columns; left out, that of the terminal, or 140.
    #[arg(long, global = true, value_name = "COLUMNS", value_parser = columns)]
    width: Option<usize>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Tables for people.
    Text,
    /// One object with all tables; keys carry units.
    Json,
    /// Table after table; keys carry units.
    Csv,
    /// The charts, as one SVG file.
    Svg,
}

/// A width that names and numbers fit into.
fn columns(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(columns) if (60..=1000).contains(&columns) => Ok(columns),
        _ => Err("expected a number of columns from 60 to 1000".to_owned()),
    }
}

fn main() -> ExitCode {
    let cli = Cli::parse();
    let color = color();
    let code = match answer(&cli).and_then(|answer| write(&answer, &cli.output, color).map(|()| answer)) {
        Ok(answer) => answer.verdict.exit_code(),
        Err(failure) => {
            talk(&failure.text(color));
            failure.exit_code()
        }
    };
    ExitCode::from(code)
}

fn answer(cli: &Cli) -> Result<Answer, Failure> {
    let of = |scenario: &Scenario| {
        let request = request(scenario)?;
        not_onto_itself(&request, &cli.output)?;
        Ok::<Request, Failure>(request)
    };
    match &cli.command {
        Command::Check(scenario) => commands::check(&of(scenario)?),
        Command::Cycle { scenario, item, workings } => {
            commands::cycle(&of(scenario)?, &CycleView { item: item.clone(), workings: *workings })
        }
        Command::Capacity(scenario) => commands::capacity(&of(scenario)?),
        Command::Plan(scenario) => commands::plan(&of(scenario)?),
        Command::Propose { path, item } => {
            let scenario = Scenario { path: Some(path.clone()), coolant: None, overlay: Vec::new() };
            commands::propose(&of(&scenario)?, item.as_deref())
        }
        Command::Catalog { kind, key } => commands::catalog(kind.as_deref(), key),
        Command::Code { code } => commands::code(code.as_deref()),
    }
}

fn request(scenario: &Scenario) -> Result<Request, Failure> {
    let origin = match &scenario.path {
        None => Origin::Demo,
        Some(path) if path.as_os_str() == "-" => {
            let mut bytes = Vec::new();
            let most = u64::try_from(wearland::input::LARGEST_FILE).unwrap_or(u64::MAX) + 1;
            std::io::stdin().take(most).read_to_end(&mut bytes).map_err(|cause| FileError {
                action: "read",
                path: path.clone(),
                cause,
            })?;
            Origin::Text { name: "standard input".to_owned(), bytes }
        }
        Some(path) => Origin::Path(path.clone()),
    };
    Ok(Request { origin, overlays: scenario.overlay.clone(), coolant: scenario.coolant.clone() })
}

/// The report may not replace what it is made from.
fn not_onto_itself(request: &Request, output: &Output) -> Result<(), Failure> {
    let Some(output) = &output.output else { return Ok(()) };
    let own = match &request.origin {
        Origin::Path(path) => Some(path),
        Origin::Demo | Origin::Text { .. } => None,
    };
    own.into_iter().chain(&request.overlays).try_for_each(|input| not_onto(input, output))
}

fn not_onto(input: &Path, output: &Path) -> Result<(), Failure> {
    let folder = output.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let same = |one: &Path, other: &Path| matches!((one.canonicalize(), other.canonicalize()), (Ok(one), Ok(other)) if one == other);
    // A new file among those of a folder would be read with them the next time.
    let joins =
        input.is_dir() && same(folder, input) && output.extension().is_some_and(|ending| ending == "toml");
    let replaces = same(output, input)
        || (input.is_dir()
            && output.canonicalize().is_ok_and(|file| {
                input.canonicalize().is_ok_and(|input| {
                    file.parent() == Some(&input) && file.extension().is_some_and(|e| e == "toml")
                })
            }));
    if joins || replaces {
        return Err(Failure::Usage(format!(
            "the output `{}` is, or would be, an input of this run",
            output.display()
        )));
    }
    Ok(())
}

fn write(answer: &Answer, output: &Output, color: Color) -> Result<(), Failure> {
    if !answer.warnings.is_empty() {
        talk(&render(&answer.warnings, &answer.sources, color));
    }
    let chosen = match &output.table {
        Some(key) => Some(answer.document.only(key).map_err(|error| Failure::Usage(error.to_string()))?),
        None => None,
    };
    let document = chosen.as_ref().unwrap_or(&answer.document);
    let text = match output.format {
        Format::Text => write_text(document, &answer.units, output.width.unwrap_or_else(width)),
        Format::Json => write_json(document, &answer.units),
        Format::Csv => write_csv(document, &answer.units, output.table.as_deref())
            .map_err(|error| Failure::Usage(error.to_string()))?,
        Format::Svg => {
            write_svg(document, &answer.units).map_err(|error| Failure::Usage(error.to_string()))?
        }
    };
    match &output.output {
        Some(path) => {
            save(path, &text).map_err(|cause| FileError { action: "write", path: path.clone(), cause }.into())
        }
        None => match std::io::stdout().lock().write_all(text.as_bytes()) {
            // A reader that has seen enough is a normal end.
            Err(cause) if cause.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
            Err(cause) => {
                Err(FileError { action: "write", path: PathBuf::from("standard output"), cause }.into())
            }
            Ok(()) => Ok(()),
        },
    }
}

/// Words go to standard error; if nobody listens there, nothing is lost.
fn talk(text: &str) {
    let _ = std::io::stderr().lock().write_all(text.as_bytes());
}

fn color() -> Color {
    let refused = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty())
        || std::env::var_os("TERM").is_some_and(|term| term == "dumb");
    if std::io::stderr().is_terminal() && !refused { Color::Styled } else { Color::Plain }
}

/// Width of the terminal as the shell tells it; 140 columns otherwise.
fn width() -> usize {
    std::env::var("COLUMNS").ok().and_then(|text| columns(&text).ok()).unwrap_or(140)
}
