//! `capacity`: how many matched sets a day leave the plant, and what holds it back?
//!
//! input -> Scenario -> cycle -> schedule::capacity -> report

use super::failure::{Answer, Failure, Verdict};
use super::study::{Request, Study, Worked};
use super::tables;
use crate::report::{Document, Section};
use crate::schedule::{BuiltProblem, Capacity, Scenario, build_problem, capacity as steady_state, output};

/// Steady output of the mix that the orders ask for.
///
/// # Errors
/// [`Failure`].
pub fn capacity(request: &Request) -> Result<Answer, Failure> {
    let study = Study::new(request)?;
    let (scenario, estimates) = (&study.worked.scenario, &study.worked.estimates);
    let mut document = Document::new(format!("{}: capacity", scenario.title));
    for section in capacity_sections(&study)? {
        document.push(section);
    }
    document.push(tables::cycles(scenario, estimates));
    if let Some(table) = tables::slowed(scenario, estimates) {
        document.push(table);
    }
    document.push(tables::cautions(scenario, estimates));
    document.push(tables::sources(&tables::used_sources(scenario, estimates), &study.citations));
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

/// The tables of a capacity, with the comparison if the scenario was changed.
pub(super) fn capacity_sections(study: &Study) -> Result<Vec<Section>, Failure> {
    let scenario = &study.worked.scenario;
    let built = steady(&study.worked);
    let mix = mix(scenario);
    let state = steady_state(&built.problem, &steps(&built, &mix))?;
    let mut sections: Vec<Section> = Vec::new();
    if let Some(written) = &study.as_written {
        let old = steady(written);
        let old: Capacity = steady_state(&old.problem, &steps(&old, &self::mix(&written.scenario)))?;
        sections.push(tables::output_comparison((&written.scenario, &old), (scenario, &state)).into());
        sections.push(tables::machine_comparison(written, &study.worked).into());
        sections.push(tables::operation_comparison(written, &study.worked).into());
        sections.push(tables::edge_comparison(written, &study.worked).into());
    }
    sections.push(tables::capacity_summary(scenario, &built, &state, &mix).into());
    sections.push(tables::outputs(scenario, &built, &state).into());
    sections.push(tables::resources(scenario, &built, &state).into());
    sections.extend(tables::sent_a_day(scenario, &built, &state).map(Section::from));
    Ok(sections)
}

/// The problem of a plant as it works week by week: without overtime.
fn steady(worked: &Worked) -> BuiltProblem {
    let scenario =
        Scenario { calendar: worked.scenario.calendar.without_overtime(), ..worked.scenario.clone() };
    build_problem(&scenario, &worked.estimates)
}

/// Sets a day in the steady state.
pub(super) fn sets_per_day(worked: &Worked) -> Result<f64, Failure> {
    let built = steady(worked);
    let state = output(&built.problem, &steps(&built, &mix(&worked.scenario)))?;
    Ok(state / tables::days(&worked.scenario))
}

/// Items and their share in one set: as the orders ask, products before parts; without orders, each item that goes into
/// no other.
fn mix(scenario: &Scenario) -> Vec<(usize, f64)> {
    use crate::cycle::Making;
    let items = &scenario.shop.items;
    let is_product = |item: usize| matches!(items[item].making, Making::Product { .. });
    let mut wanted: Vec<(usize, f64)> = Vec::new();
    let products = scenario.orders.iter().any(|order| is_product(order.item) && order.quantity > 0);
    for order in
        scenario.orders.iter().filter(|order| order.quantity > 0 && (!products || is_product(order.item)))
    {
        match wanted.iter_mut().find(|(item, _)| *item == order.item) {
            Some((_, pieces)) => *pieces += f64::from(order.quantity),
            None => wanted.push((order.item, f64::from(order.quantity))),
        }
    }
    if wanted.is_empty() {
        let used = |id: usize| {
            items.iter().any(|item| {
                matches!(&item.making, Making::Product { parts } if parts.iter().any(|(part, _)| *part == id))
            })
        };
        wanted = (0..items.len()).filter(|id| !used(*id)).map(|id| (id, 1.0)).collect();
    }
    let total: f64 = wanted.iter().map(|(_, pieces)| pieces).sum();
    wanted.into_iter().map(|(item, pieces)| (item, pieces / total)).collect()
}

fn steps(built: &BuiltProblem, mix: &[(usize, f64)]) -> Vec<(usize, f64)> {
    mix.iter().map(|(item, pieces)| (built.last_step[*item], *pieces)).collect()
}
