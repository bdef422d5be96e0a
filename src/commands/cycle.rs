//! `cycle`: how fast does each tool run, how long does a piece take, how many pieces does an edge make, and why?
//!
//! input -> Scenario -> cutting, tooling -> cycle -> report

use super::failure::{Answer, Failure, Verdict};
use super::study::{Request, Study};
use super::tables;
use crate::cycle::OperationEstimate;
use crate::diag::nearest;
use crate::report::{Document, Faces};

/// What of the cycle is asked for.
#[derive(Debug, Clone, Default)]
pub struct CycleView {
    /// Only this part or product.
    pub item: Option<String>,
    /// With every formula and the numbers put in.
    pub workings: bool,
}

/// Cutting data, loads, tool life and cycle of every operation.
///
/// # Errors
/// [`Failure`].
pub fn cycle(request: &Request, view: &CycleView) -> Result<Answer, Failure> {
    let mut study = Study::new(request)?;
    if let Some(wanted) = &view.item {
        let items = &study.worked.scenario.shop.items;
        let Some(place) = items.iter().position(|item| item.key == *wanted) else {
            let keys = || items.iter().map(|item| item.key.as_str());
            let help = nearest(wanted, keys()).map_or_else(
                || format!("expected one of {}", keys().collect::<Vec<_>>().join(", ")),
                |near| format!("did you mean `{near}`?"),
            );
            return Err(Failure::Usage(format!("no part or product is called `{wanted}`: {help}")));
        };
        study.worked.estimates.retain(|estimate| estimate.item == place);
        if let Some(written) = &mut study.as_written {
            let items = &written.scenario.shop.items;
            written.estimates.retain(|estimate| items[estimate.item].key == *wanted);
        }
    }
    let (scenario, estimates) = (&study.worked.scenario, &study.worked.estimates);
    let mut document = Document::new(format!("{}: cutting data and cycles", scenario.title));
    document.push(tables::cutting_data(scenario, estimates));
    document.push(tables::loads(scenario, estimates));
    if let Some(table) = tables::slowed(scenario, estimates) {
        document.push(table);
    }
    document.push(tables::limits(scenario, estimates));
    document.push(tables::wear(scenario, estimates));
    document.push(tables::cycles(scenario, estimates));
    if let Some(table) = tables::roll_tests(scenario, estimates) {
        document.push(table);
    }
    document.push(tables::elements(scenario, estimates, Faces::Both));
    document.push(tables::stations(scenario, estimates));
    if let Some(written) = &study.as_written {
        document.push(tables::operation_comparison(written, &study.worked));
        document.push(tables::edge_comparison(written, &study.worked));
    }
    if view.workings {
        document.push(tables::workings(scenario, estimates));
    }
    document.push(tables::cautions(scenario, estimates));
    let mut sources = tables::used_sources(scenario, estimates);
    sources.extend(limit_sources(estimates));
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

/// Keys of the sources of the limits shown.
fn limit_sources(estimates: &[OperationEstimate]) -> impl Iterator<Item = String> {
    let cuts = estimates.iter().flat_map(|estimate| &estimate.cuts);
    let limits = cuts.flat_map(|(cut, _)| &cut.limits);
    limits.map(|limit| limit.source.to_owned()).filter(|source| source != "scenario")
}
