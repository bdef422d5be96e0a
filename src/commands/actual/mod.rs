//! `actual`: how far do the shop's counts lie from the model, where are the minutes lost, and what should the scenario say?
//!
//! counts -> input -> against cycles -> report, overlay

mod overlay;
mod tables;
mod turns;

use super::failure::{Answer, Beside, Failure, Verdict};
use super::study::{Request, Study};
use crate::diag::{Diagnostics, SourceMap};
use crate::input::Origin;
use crate::input::log::read_counts;
use crate::report::{Document, Notes};
use std::path::PathBuf;

/// What is compared.
#[derive(Debug, Clone)]
pub struct ActualRequest {
    /// The counts.
    pub counts: Origin,
    /// The scenario whose cycles they are held against.
    pub scenario: Request,
    /// Where to write availability and performance to lay over the scenario.
    pub overlay: Option<PathBuf>,
}

/// Model minutes against real minutes, by machine and by operation.
///
/// # Errors
/// [`Failure`]; a name that the scenario does not know is a mistake at its cell.
pub fn actual(request: &ActualRequest) -> Result<Answer, Failure> {
    let study = Study::new(&request.scenario)?;
    let read = read_counts(&request.counts)?;
    let (mut diagnostics, sources): (Diagnostics, SourceMap) = (read.diagnostics, read.sources);
    let rows = read.rows.unwrap_or_default();
    let turns = turns::turns(&study.worked, &rows, &mut diagnostics);
    if diagnostics.has_errors() {
        return Err(Failure::Input(Box::new((diagnostics, sources))));
    }
    let machines = turns::by_machine(&study.worked, &turns);
    let beside = request
        .overlay
        .iter()
        .map(|path| Beside {
            path: path.clone(),
            text: overlay::overlay(&study.worked, &machines, &request.counts),
        })
        .collect();
    let mut document = Document::new(format!("{}: plan against actual", study.worked.scenario.title));
    document.push(tables::machines(&study.worked, &machines));
    document.push(tables::operations(&study.worked, &machines, &turns));
    document.push(tables::shifts(&study.worked, &machines, &turns));
    let lines = machines.iter().filter_map(|machine| tables::remark(&study.worked, machine)).collect();
    document.push(Notes { key: "remarks", heading: "What to read it with".to_owned(), lines });
    let units = study.units();
    // Counts are right or wrong; what there is to say of the scenario is said as by the other commands.
    Ok(Answer {
        document,
        units,
        verdict: Verdict::Yes,
        warnings: study.warnings,
        sources: study.sources,
        beside,
    })
}
