//! `propose`: which cuts make the part that this drawing shows, with which tools, how fast, and why?
//!
//! input -> Drawing -> cycle -> TOML

use super::failure::{Answer, Failure, Verdict};
use super::proposal::write;
use super::study::Request;
use crate::cycle::{Making, ProposeError, propose as proposed};
use crate::diag::{Code, Diagnostic, Diagnostics, nearest};
use crate::input::{Loaded, Purpose, load_for};
use crate::report::{Document, File};
use crate::schedule::Scenario;

/// Proposes the operations of the parts that have a drawing.
///
/// # Errors
/// [`Failure`]; a feature that no tool makes is a mistake at its place in the drawing.
pub fn propose(request: &Request, item: Option<&str>) -> Result<Answer, Failure> {
    let Loaded { scenario, places, sources, mut diagnostics, .. } =
        load_for(&request.origin, &request.overlays, Purpose::Propose)?;
    let Some(scenario) = scenario else {
        return Err(Failure::Input(Box::new((diagnostics, sources))));
    };
    let mut lines = Vec::new();
    let mut found = Diagnostics::default();
    for id in wanted(&scenario, item)? {
        match proposed(&scenario.shop, id) {
            Ok(proposal) if proposal.machines.is_empty() => {
                found.push(
                    Diagnostic::new(
                        Code::NoMachine,
                        "no lathe of this scenario makes all cuts within its limits",
                    )
                    .at(places.items[id], "this part"),
                );
            }
            Ok(proposal) => lines.extend(write(&scenario, &proposal)),
            Err(error) => found.push(mistake(&scenario, error, (&places, id))),
        }
    }
    if found.has_errors() {
        diagnostics.extend(found.into_vec());
        return Err(Failure::Input(Box::new((diagnostics, sources))));
    }
    let mut document = Document::new(format!("{}: proposed operations", scenario.title));
    document.push(File { key: "proposal", lines });
    Ok(Answer {
        document,
        units: scenario.units.clone(),
        verdict: Verdict::Yes,
        warnings: diagnostics,
        sources,
        beside: Vec::new(),
    })
}

/// The parts asked for: one by name, or all that have a drawing and no operation.
fn wanted(scenario: &Scenario, item: Option<&str>) -> Result<Vec<usize>, Failure> {
    let items = &scenario.shop.items;
    let drawn = |id: &usize| matches!(items[*id].making, Making::Part { drawing: Some(_), .. });
    let Some(name) = item else {
        let all: Vec<usize> =
            (0..items.len()).filter(|id| drawn(id) && items[*id].operations.is_empty()).collect();
        if all.is_empty() {
            return Err(Failure::Usage(
                "no part of this scenario has a `drawing` and no operation: add [part.NAME.drawing]"
                    .to_owned(),
            ));
        }
        return Ok(all);
    };
    let keys = || items.iter().map(|item| item.key.as_str());
    let Some(id) = keys().position(|key| key == name) else {
        let help = nearest(name, keys())
            .map_or_else(|| keys().collect::<Vec<_>>().join(", "), |near| format!("did you mean `{near}`?"));
        return Err(Failure::Usage(format!("no part is called `{name}`: {help}")));
    };
    if drawn(&id) {
        Ok(vec![id])
    } else {
        Err(Failure::Usage(format!("part `{name}` has no `drawing`: add [part.{name}.drawing]")))
    }
}

fn mistake(scenario: &Scenario, error: ProposeError, at: (&crate::input::Places, usize)) -> Diagnostic {
    let (places, id) = at;
    let drawing = places.drawings[id].as_ref();
    let place = |feature| drawing.map_or(places.items[id], |drawing| drawing.of(feature));
    match error {
        ProposeError::NoDrawing => {
            Diagnostic::new(Code::MissingKey, error.to_string()).at(places.items[id], "this part")
        }
        ProposeError::NoLathe => Diagnostic::new(Code::NoMachine, error.to_string())
            .at(places.items[id], "nothing turns it")
            .help("list what there is: wearland catalog machine"),
        ProposeError::Recess { step } => Diagnostic::new(Code::Geometry, error.to_string())
            .at(place(crate::cycle::Feature::Step(step)), "thicker than the next")
            .help("give the thinner step as a groove, or write the operation yourself"),
        ProposeError::NoTool { feature, limit, .. } => {
            let group = match scenario.shop.items[id].making {
                Making::Part { material, .. } => scenario.shop.materials[material].group.letter(),
                Making::Product { .. } => "",
            };
            let label = limit.map_or_else(
                || format!("no tool of this size has life data for ISO group {group}"),
                |limit| format!("tools that would fit break a limit: {limit}"),
            );
            Diagnostic::new(Code::NoMachine, error.to_string())
                .at(place(feature), label)
                .help("list the tools there are with `wearland catalog tool`, or add one to the scenario")
        }
    }
}
