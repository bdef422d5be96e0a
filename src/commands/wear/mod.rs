//! `wear`: when does each edge come out, why then, what would it cost to be earlier or later, and how sure is that?
//!
//! input -> Scenario -> cycle -> tooling::replacement -> report

mod curve;
mod grouping;
mod points;
mod variants;
mod what_if;

use super::failure::{Answer, Failure, Verdict};
use super::study::{Request, Study};
use super::tables;
use crate::cycle::OperationEstimate;
use crate::diag::nearest;
use crate::input::Purpose;
use crate::report::Document;
use crate::schedule::Scenario;

/// What of the wear is asked for.
#[derive(Debug, Clone, Default)]
pub struct WearView {
    /// Only this part.
    pub item: Option<String>,
    /// Only the operation of this number.
    pub operation: Option<u32>,
    /// Only on this machine.
    pub machine: Option<String>,
}

/// Lives, change points, offset corrections and grouped changes; for a single operation also cost curves and what-ifs.
///
/// # Errors
/// [`Failure`].
pub fn wear(request: &Request, view: &WearView) -> Result<Answer, Failure> {
    let study = Study::for_purpose(request, Purpose::Compare)?;
    let scenario = &study.worked.scenario;
    let chosen = chosen(scenario, &study.worked.estimates, view)?;
    let mut document = Document::new(format!("{}: wear and tool changes", scenario.title));
    document.push(points::lives(scenario, &chosen));
    document.push(points::change_points(scenario, &chosen));
    if let Some(written) = &study.as_written {
        document.push(tables::operation_comparison(written, &study.worked));
        document.push(tables::edge_comparison(written, &study.worked));
    }
    document.push(points::corrections(scenario, &chosen));
    document.push(grouping::grouping(scenario, &chosen));
    if view.operation.is_some() && view.item.is_some() {
        for section in curve::curves(scenario, &chosen) {
            document.push(section);
        }
        for section in what_if::what_if(&study.worked, &chosen)? {
            document.push(section);
        }
    }
    document.push(tables::cautions(scenario, &chosen));
    let mut sources = tables::used_sources(scenario, &chosen);
    sources.extend(points::scatter_sources(&chosen));
    document.push(tables::sources(&sources, &study.citations));
    let units = study.units();
    Ok(Answer {
        document,
        units,
        verdict: Verdict::Yes,
        warnings: study.warnings,
        sources: study.sources,
        beside: Vec::new(),
    })
}

/// Estimates of the operations asked for that wear edges.
fn chosen(
    scenario: &Scenario,
    estimates: &[OperationEstimate],
    view: &WearView,
) -> Result<Vec<OperationEstimate>, Failure> {
    let (items, machines) = (&scenario.shop.items, &scenario.shop.machines);
    if let Some(wanted) = &view.item
        && !items.iter().any(|item| item.key == *wanted)
    {
        let keys = || items.iter().map(|item| item.key.as_str());
        let help = nearest(wanted, keys()).map_or_else(
            || format!("expected one of {}", keys().collect::<Vec<_>>().join(", ")),
            |near| format!("did you mean `{near}`?"),
        );
        return Err(Failure::Usage(format!("no part or product is called `{wanted}`: {help}")));
    }
    let asked = |estimate: &&OperationEstimate| {
        let item = &items[estimate.item];
        view.item.as_ref().is_none_or(|wanted| item.key == *wanted)
            && view.operation.is_none_or(|number| item.operations[estimate.operation].id == number)
            && view.machine.as_ref().is_none_or(|key| machines[estimate.machine].key == *key)
    };
    let chosen: Vec<OperationEstimate> =
        estimates.iter().filter(asked).filter(|estimate| !estimate.tools.is_empty()).cloned().collect();
    if chosen.is_empty() {
        let cutting = estimates.iter().filter(|estimate| !estimate.tools.is_empty());
        let mut known: Vec<String> = cutting
            .map(|estimate| {
                let item = &items[estimate.item];
                format!(
                    "{} {} on {}",
                    item.key, item.operations[estimate.operation].id, machines[estimate.machine].key
                )
            })
            .collect();
        known.dedup();
        if known.is_empty() {
            return Err(Failure::Usage("no operation of this scenario wears an edge".to_owned()));
        }
        return Err(Failure::Usage(format!(
            "no edge is worn there: operations that wear edges are {}",
            known.join(", ")
        )));
    }
    Ok(chosen)
}
