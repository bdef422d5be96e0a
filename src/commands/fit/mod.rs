//! `fit`: which life constants do the shop's own changes tell, how sure are they, and what may be laid over a scenario?
//!
//! log -> input -> calibrate -> constants -> report, overlay

mod chart;
mod constants;
mod gather;
mod group;
mod known;
mod overlay;
mod refusal;
mod residuals;
mod worked;

use super::failure::{Answer, Beside, Failure, Verdict};
use crate::calibrate::refuse_pasted_rows;
use crate::diag::{Diagnostics, SourceMap};
use crate::input::Origin;
use crate::input::log::read_log;
use crate::quantity::{Hardness, Length, System, Units};
use crate::report::{Document, Notes};
use gather::groups;
use known::Known;
use std::path::PathBuf;
use worked::Worked;

/// How the constants are found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Censored Weibull regression.
    Weibull,
    /// Censored lognormal regression.
    Lognormal,
    /// Plain least squares of the logarithms, edges changed early left out.
    LeastSquares,
}

/// What is to be fitted, and how.
#[derive(Debug, Clone)]
pub struct FitRequest {
    /// The log.
    pub log: Origin,
    /// Where tools and materials of its names stand.
    pub scenario: Origin,
    /// How.
    pub method: Method,
    /// Tool, material and coolant where the log has no column for them.
    pub tool: Option<String>,
    /// Material.
    pub material: Option<String>,
    /// Coolant.
    pub coolant: Option<String>,
    /// Hardness of what was cut, if other than usual for the material.
    pub hardness: Option<Hardness>,
    /// Wear land at which readings end a life.
    pub limit: Option<Length>,
    /// Join what the catalog says with the log.
    pub prior: bool,
    /// Units of the report.
    pub system: System,
    /// Where to write the constants to lay over a scenario.
    pub overlay: Option<PathBuf>,
}

/// Constants with intervals from a log, for each tool, material and coolant in it.
///
/// # Errors
/// [`Failure`]; what the log cannot tell is a mistake at its rows.
pub fn fit(request: &FitRequest) -> Result<Answer, Failure> {
    if request.prior && request.method == Method::LeastSquares {
        return Err(Failure::Usage("--prior joins a censored fit: leave out --by least-squares".to_owned()));
    }
    let read = read_log(&request.log)?;
    let (mut diagnostics, sources, notation) = (read.diagnostics, read.sources, read.notation);
    let Some(log) = read.rows.filter(|_| !diagnostics.has_errors()) else {
        return Err(Failure::Input(Box::new((diagnostics, sources))));
    };
    let groups = groups(request, log)?;
    let mut worked = Vec::new();
    for group in &groups {
        let known = Known::of(request, group)?;
        // Rows with ids of their own are different edges however equal they are.
        let pasted = if group.named { Ok(()) } else { refuse_pasted_rows(&group.rows()) };
        match pasted.and_then(|()| Worked::new(request, group, known)) {
            Ok(fit) => worked.push(fit),
            Err(error) => diagnostics.push(refusal::diagnostic(group, &error)),
        }
    }
    if diagnostics.has_errors() {
        return Err(Failure::Input(Box::new((diagnostics, sources))));
    }
    let mut beside = Vec::new();
    if let Some(path) = &request.overlay {
        match overlay::overlay(request, &worked) {
            Ok(text) => beside.push(Beside { path: path.clone(), text }),
            Err(mistakes) => {
                diagnostics.extend(mistakes);
                return Err(Failure::Input(Box::new((diagnostics, sources))));
            }
        }
    }
    let mut answer = answer(request, &worked, beside, (diagnostics, sources));
    if notation.decimal == ',' {
        answer.document.push(Notes {
            key: "notation",
            heading: "How the log was read".to_owned(),
            lines: vec![
                "Cells are parted by `;`, so that a comma in a number is its decimal sign.".to_owned(),
            ],
        });
    }
    Ok(answer)
}

fn answer(
    request: &FitRequest,
    worked: &[Worked<'_>],
    beside: Vec<Beside>,
    (warnings, sources): (Diagnostics, SourceMap),
) -> Answer {
    let mut document = Document::new("Life constants from a log");
    document.push(constants::constants(request, worked));
    document.push(constants::quality(worked));
    if let Some(table) = constants::read_lives(worked) {
        document.push(table);
    }
    document.push(residuals::residuals(worked));
    for fit in worked {
        for chart in chart::charts(fit) {
            document.push(chart);
        }
    }
    let lines: Vec<String> = worked.iter().flat_map(|fit| residuals::remarks(request, fit)).collect();
    document.push(Notes { key: "remarks", heading: "What to read it with".to_owned(), lines });
    Answer {
        document,
        units: Units { system: request.system, currency: String::new() },
        verdict: Verdict::Yes,
        warnings,
        sources,
        beside,
    }
}
