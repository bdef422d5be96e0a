//! `compare`: two plans side by side, each made on the spot or read back from its report.
//!
//! input -> plan -> report -> facts; saved report -> facts; facts -> report

use super::failure::{Answer, Failure, Verdict};
use super::plan::{PlanRequest, plan};
use super::tables::{Side, side_by_side};
use crate::diag::{Diagnostics, SourceMap};
use crate::input::{SavedFault, SavedReport, saved_report};
use crate::report::{Document, write_json};
use std::collections::BTreeMap;
use std::path::PathBuf;

/// One of two plans.
pub enum Compared<'s> {
    /// To be made.
    Plan {
        /// What it is called.
        name: String,
        /// From what.
        request: Box<PlanRequest<'s>>,
    },
    /// A report written as JSON.
    Report(PathBuf),
}

/// Sets a day, orders, hours by machine, edges by tool and money of two plans, and how they differ.
///
/// # Errors
/// [`Failure`].
pub fn compare(one: &Compared<'_>, other: &Compared<'_>) -> Result<Answer, Failure> {
    let (one, other) = (facts(one)?, facts(other)?);
    let mut answer = Answer::plain(Document::new(format!("{} against {}", one.name, other.name)));
    answer.document.sections = side_by_side(&one, &other);
    answer.units.currency.clone_from(&one.currency);
    answer.verdict = if one.cut_short || other.cut_short { Verdict::CutShort } else { Verdict::Yes };
    Ok(answer)
}

/// A plan made is read as its report would be, so that both ways tell the same.
fn facts(of: &Compared<'_>) -> Result<Side, Failure> {
    let (mut sources, mut found) = (SourceMap::default(), Diagnostics::default());
    let (name, report, cut_short) = match of {
        Compared::Plan { name, request } => {
            let answer = plan(request)?;
            let text = write_json(&answer.document, &answer.units);
            let report = SavedReport::parse(name, &text, (&mut sources, &mut found));
            (name.clone(), report, answer.verdict == Verdict::CutShort)
        }
        Compared::Report(path) => {
            (path.display().to_string(), saved_report(path, &mut sources, &mut found)?, false)
        }
    };
    let side = report.map(|report| side(&name, &report)).transpose();
    match side {
        Ok(Some(side)) => return Ok(Side { cut_short, ..side }),
        Ok(None) => {}
        Err(fault) => found.push(fault.diagnostic()),
    }
    Err(Failure::Input(Box::new((found, sources))))
}

fn side(name: &str, report: &SavedReport) -> Result<Side, SavedFault> {
    let mut side = Side { name: name.to_owned(), currency: report.currency().to_owned(), ..Side::default() };
    for row in report.rows("plan")? {
        side.orders = row.count("orders")?;
        side.late = row.count("late_orders")?;
        side.lateness = row.number("lateness_piece_h")?;
        side.cost = row.money("cost")?;
        side.setups = row.number("setups_h")?;
        side.changes = row.count("tool_changes")?;
    }
    for row in report.rows("capacity")? {
        side.output = row.number_if_any("output_sets_per_day")?;
    }
    let mut machines: BTreeMap<String, f64> = BTreeMap::new();
    for row in report.rows("board")? {
        let Some(machine) = row.text_if_any("machine")? else { continue };
        let minutes =
            row.number("setup_min")? + row.number("running_min")? + row.number("tool_changes_min")?;
        *machines.entry(machine.to_owned()).or_default() += minutes / 60.0;
    }
    side.machines = machines;
    for row in report.rows("edges")? {
        side.edges.insert(row.text("tool")?.to_owned(), row.count("planned_edges")?);
    }
    Ok(side)
}
