//! Arguments to command to exit code. Only this file prints.
//!
//! Exit codes: 0 done; 1 done and the answer is no (orders late; the report is written); 2 wrong command line;
//! 3 wrong input; 4 files; 5 a limit was hit or the search was cut short; 70 a fault of this program.

mod arguments;
mod search;

use arguments::{
    By, Cli, Command, Effort, Fit, Format, Output, Plan, Scenario, SpeedChoice, UnitSystem, columns,
};
use clap::Parser;
use search::searched;
use std::io::{IsTerminal, Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use wearland::commands::{
    self, ActualRequest, Advice, Answer, Compared, CycleView, Failure, FitRequest, Method, PlanRequest,
    Request, Speeds, WearView,
};
use wearland::diag::{Color, render};
use wearland::input::{FileError, Origin};
use wearland::quantity::System;
use wearland::report::{save, write_csv, write_json, write_svg, write_text};

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
        Command::Plan(plan) => plan_answer(plan, of(&plan.scenario)?, &cli.output),
        Command::Compare { one, other, effort } => compared(one, other, effort, &cli.output),
        Command::Wear { scenario, item, op, machine } => {
            let view = WearView { item: item.clone(), operation: *op, machine: machine.clone() };
            commands::wear(&of(scenario)?, &view)
        }
        Command::Fit(fit) => commands::fit(&fit_request(fit, &cli.output)?),
        Command::Actual { counts, scenario, to } => {
            let request = of(scenario)?;
            for written in cli.output.output.iter().chain(to) {
                not_onto(counts, written)?;
                not_onto_inputs(&request, written)?;
            }
            not_one_file(&cli.output, to.as_ref())?;
            let counts = origin(Some(counts))?;
            commands::actual(&ActualRequest { counts, scenario: request, overlay: to.clone() })
        }
        Command::Propose { path, item } => {
            let scenario = Scenario {
                path: Some(path.clone()),
                coolant: None,
                overlay: Vec::new(),
                speeds: SpeedChoice::AsWritten,
            };
            commands::propose(&of(&scenario)?, item.as_deref())
        }
        Command::Catalog { kind, key } => commands::catalog(kind.as_deref(), key),
        Command::Code { code } => commands::code(code.as_deref()),
    }
}

fn plan_answer(plan: &Plan, scenario: Request, output: &Output) -> Result<Answer, Failure> {
    for written in output.output.iter().chain(&plan.model) {
        for read in plan.status.iter().chain(&plan.last) {
            not_onto(read, written)?;
        }
        not_onto_inputs(&scenario, written)?;
    }
    not_one_file(output, plan.model.as_ref())?;
    let advice = if plan.advice { Advice::WaysOut } else { Advice::Causes };
    searched(&plan.effort, |search| {
        let (status, last, model) = (plan.status.clone(), plan.last.clone(), plan.model.clone());
        commands::plan(&PlanRequest { scenario, status, last, search, advice, model })
    })
}

/// Two plans: what ends in .json is a report.
fn compared(one: &PathBuf, other: &PathBuf, effort: &Effort, output: &Output) -> Result<Answer, Failure> {
    if one.as_os_str() == "-" && other.as_os_str() == "-" {
        return Err(Failure::Usage("only one of two plans can come from standard input".to_owned()));
    }
    if let Some(written) = &output.output {
        not_onto(one, written)?;
        not_onto(other, written)?;
    }
    let origins = [one, other].map(|path| {
        let is_report = path.extension().is_some_and(|ending| ending == "json");
        if is_report { Ok(None) } else { origin(Some(path)).map(Some) }
    });
    let [first, second] = origins;
    let (first, second) = (first?, second?);
    searched(effort, |search| {
        let side = |path: &PathBuf, origin: Option<Origin>| match origin {
            None => Compared::Report(path.clone()),
            Some(origin) => {
                let scenario =
                    Request { origin, overlays: Vec::new(), coolant: None, speeds: Speeds::AsWritten };
                let request = PlanRequest {
                    scenario,
                    status: None,
                    last: None,
                    search,
                    advice: Advice::Causes,
                    model: None,
                };
                Compared::Plan { name: path.display().to_string(), request: Box::new(request) }
            }
        };
        commands::compare(&side(one, first), &side(other, second))
    })
}

fn fit_request(fit: &Fit, output: &Output) -> Result<FitRequest, Failure> {
    for written in output.output.iter().chain(&fit.to) {
        for read in std::iter::once(&fit.log).chain(&fit.scenario) {
            not_onto(read, written)?;
        }
    }
    not_one_file(output, fit.to.as_ref())?;
    Ok(FitRequest {
        log: origin(Some(&fit.log))?,
        scenario: origin(fit.scenario.as_ref())?,
        method: match fit.by {
            By::Weibull => Method::Weibull,
            By::Lognormal => Method::Lognormal,
            By::LeastSquares => Method::LeastSquares,
        },
        tool: fit.tool.clone(),
        material: fit.material.clone(),
        coolant: fit.coolant.clone(),
        hardness: fit.hardness,
        limit: fit.limit,
        prior: fit.prior,
        system: match fit.units {
            UnitSystem::Metric => System::Metric,
            UnitSystem::Inch => System::Inch,
        },
        overlay: fit.to.clone(),
    })
}

fn request(scenario: &Scenario) -> Result<Request, Failure> {
    let origin = origin(scenario.path.as_ref())?;
    Ok(Request {
        origin,
        overlays: scenario.overlay.clone(),
        coolant: scenario.coolant.clone(),
        speeds: scenario.speeds.into(),
    })
}

/// A file, a folder, standard input, or the demo.
fn origin(path: Option<&PathBuf>) -> Result<Origin, Failure> {
    Ok(match path {
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
    })
}

/// The report may not replace what it is made from.
fn not_onto_itself(request: &Request, output: &Output) -> Result<(), Failure> {
    output.output.iter().try_for_each(|output| not_onto_inputs(request, output))
}

fn not_onto_inputs(request: &Request, written: &Path) -> Result<(), Failure> {
    let own = match &request.origin {
        Origin::Path(path) => Some(path),
        Origin::Demo | Origin::Text { .. } => None,
    };
    own.into_iter().chain(&request.overlays).try_for_each(|input| not_onto(input, written))
}

fn not_one_file(output: &Output, further: Option<&PathBuf>) -> Result<(), Failure> {
    if output.output.is_some() && output.output.as_ref() == further {
        return Err(Failure::Usage("the report and a further file cannot be one file".to_owned()));
    }
    Ok(())
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
    let write = |path: &Path, text: &str| {
        save(path, text).map_err(|cause| FileError { action: "write", path: path.to_owned(), cause })
    };
    match &output.output {
        Some(path) => write(path, &text)?,
        None => match std::io::stdout().lock().write_all(text.as_bytes()) {
            // A reader that has seen enough is a normal end.
            Err(cause) if cause.kind() == std::io::ErrorKind::BrokenPipe => {}
            Err(cause) => {
                return Err(
                    FileError { action: "write", path: PathBuf::from("standard output"), cause }.into()
                );
            }
            Ok(()) => {}
        },
    }
    for beside in &answer.beside {
        write(&beside.path, &beside.text)?;
    }
    Ok(())
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
