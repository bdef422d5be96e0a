//! What most commands begin with: a scenario loaded and each operation worked out on each of its machines.
//!
//! input -> Scenario -> cutting, tooling -> cycle

use super::failure::Failure;
use super::tables;
use crate::cycle::{
    Cut, CutEstimate, LimitCheck, OperationEstimate, Remedy, Sense, added_worth, estimate_operation,
    stock_worth,
};
use crate::diag::{Code, Diagnostic, Diagnostics, SourceMap, nearest};
use crate::input::{Citation, CutPlaces, Origin, Places, Purpose, load, load_for};
use crate::quantity::{Limit, Units};
use crate::schedule::{FreedSpeeds, Scenario, SpeedSearch, free_speeds};
use std::path::PathBuf;

/// Which scenario, and what of it is changed.
#[derive(Debug, Clone)]
pub struct Request {
    /// The scenario.
    pub origin: Origin,
    /// Files laid over it, in their order.
    pub overlays: Vec<PathBuf>,
    /// Coolant that replaces every coolant of the scenario.
    pub coolant: Option<String>,
    /// Whose cutting speeds.
    pub speeds: Speeds,
}

/// Whose cutting speeds a plan takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Speeds {
    /// Those of the scenario.
    #[default]
    AsWritten,
    /// Those at which minutes and edges together cost least by the prices of the plan.
    Free,
}

/// A scenario and each of its operations on each machine.
pub(super) struct Worked {
    pub(super) scenario: Scenario,
    pub(super) estimates: Vec<OperationEstimate>,
}

impl Worked {
    /// Key of a tool.
    pub(super) fn tool(&self, id: usize) -> &str {
        &self.scenario.shop.tools[id].key
    }
}

/// What was asked for, worked out.
pub(super) struct Study {
    pub(super) worked: Worked,
    /// The scenario as written, if a request changed it.
    pub(super) as_written: Option<Worked>,
    /// Speeds chosen in the plan, and the estimates at the speeds of the scenario.
    pub(super) freed: Option<(FreedSpeeds, Vec<OperationEstimate>)>,
    pub(super) sources: SourceMap,
    pub(super) warnings: Diagnostics,
    pub(super) citations: Vec<Citation>,
}

impl Study {
    /// Loads and works out what is asked for.
    pub(super) fn new(request: &Request) -> Result<Self, Failure> {
        Self::for_purpose(request, Purpose::Run)
    }

    /// Loads for a purpose, and works out what is asked for.
    pub(super) fn for_purpose(request: &Request, purpose: Purpose) -> Result<Self, Failure> {
        let loaded = load_for(&request.origin, &request.overlays, purpose)?;
        let (places, sources, mut diagnostics) = (loaded.places, loaded.sources, loaded.diagnostics);
        let Some(mut scenario) = loaded.scenario else {
            return Err(Failure::Input(Box::new((diagnostics, sources))));
        };
        let as_written = if request.overlays.is_empty() && request.coolant.is_none() {
            None
        } else {
            as_written(&request.origin)?
        };
        if let Some(coolant) = &request.coolant {
            scenario = with_coolant(&scenario, coolant)?;
        }
        match estimate_all(&scenario, &places, &mut diagnostics) {
            Some(estimates) if !diagnostics.has_errors() => {
                let mut study = Self {
                    worked: Worked { scenario, estimates },
                    as_written,
                    freed: None,
                    sources,
                    warnings: diagnostics,
                    citations: loaded.citations,
                };
                if request.speeds == Speeds::Free {
                    study.free_speeds()?;
                }
                Ok(study)
            }
            _ => Err(Failure::Input(Box::new((diagnostics, sources)))),
        }
    }

    /// Lets the plan choose the speeds.
    fn free_speeds(&mut self) -> Result<(), Failure> {
        let Worked { scenario, estimates } = &mut self.worked;
        let freed = free_speeds(scenario, estimates, SpeedSearch::default())?;
        let written = std::mem::replace(estimates, freed.estimates.clone());
        if self.as_written.is_none() {
            self.as_written = Some(Worked { scenario: scenario.clone(), estimates: written.clone() });
        }
        self.freed = Some((freed, written));
        Ok(())
    }

    pub(super) fn units(&self) -> Units {
        self.worked.scenario.units.clone()
    }
}

/// The scenario without what the request changes; `None` if it has mistakes of its own, which the changes may mend.
fn as_written(origin: &Origin) -> Result<Option<Worked>, Failure> {
    let loaded = load(origin)?;
    let Some(scenario) = loaded.scenario else { return Ok(None) };
    let mut mistakes = Diagnostics::default();
    let estimates = estimate_all(&scenario, &loaded.places, &mut mistakes);
    Ok(estimates.filter(|_| !mistakes.has_errors()).map(|estimates| Worked { scenario, estimates }))
}

/// The same scenario with one coolant everywhere that something is cut.
fn with_coolant(scenario: &Scenario, key: &str) -> Result<Scenario, Failure> {
    let keys = || scenario.shop.coolants.iter().map(|coolant| coolant.key.as_str());
    let Some(coolant) = keys().position(|known| known == key) else {
        let near = nearest(key, keys()).map_or_else(
            || format!("expected one of {}", keys().collect::<Vec<_>>().join(", ")),
            |near| format!("did you mean `{near}`?"),
        );
        return Err(Failure::Usage(format!("no coolant is called `{key}`: {near}")));
    };
    let mut changed = scenario.clone();
    for machine in &mut changed.shop.machines {
        machine.coolant = machine.coolant.map(|_| coolant);
    }
    for item in &mut changed.shop.items {
        for cut in item.operations.iter_mut().flat_map(|operation| &mut operation.cuts) {
            cut.coolant = cut.coolant.map(|_| coolant);
        }
    }
    Ok(changed)
}

/// Works out every operation on every machine that may do it.
fn estimate_all(
    scenario: &Scenario,
    places: &Places,
    diagnostics: &mut Diagnostics,
) -> Option<Vec<OperationEstimate>> {
    let mut estimates = Vec::new();
    let mut whole = true;
    for (item_id, item) in scenario.shop.items.iter().enumerate() {
        let mut worth = stock_worth(&scenario.shop, item);
        for (operation_id, operation) in item.operations.iter().enumerate() {
            let at = &places.operations[item_id][operation_id];
            let first = estimates.len();
            for machine in &operation.machines {
                match estimate_operation(&scenario.shop, (item_id, operation_id, *machine), worth) {
                    Ok(estimate) => {
                        judge(scenario, &estimate, &at.cuts, diagnostics);
                        estimates.push(estimate);
                    }
                    Err((cut, error)) => {
                        let code = match error {
                            crate::cycle::CutError::NoLifeData { .. } => Code::NoLifeData,
                            crate::cycle::CutError::NoSpindle => Code::NoMachine,
                            crate::cycle::CutError::TooManyPasses { .. } => Code::OutOfRange,
                            crate::cycle::CutError::DoesNotFit { .. } => Code::Geometry,
                            _ => Code::MissingKey,
                        };
                        let machine = &scenario.shop.machines[*machine].key;
                        let span =
                            if code == Code::NoLifeData { at.cuts[cut].tool } else { at.cuts[cut].header };
                        diagnostics.push(
                            Diagnostic::new(code, error.to_string()).at(span, format!("on `{machine}`")),
                        );
                        whole = false;
                    }
                }
            }
            worth += if operation.machines.is_empty() {
                operation.lots.least_price().unwrap_or_default()
            } else {
                added_worth(&scenario.shop, &estimates[first..])
            };
        }
    }
    whole.then_some(estimates)
}

/// Broken limits and edges that do not last are mistakes of the cut.
fn judge(
    scenario: &Scenario,
    estimate: &OperationEstimate,
    places: &[CutPlaces],
    diagnostics: &mut Diagnostics,
) {
    let machine = &scenario.shop.machines[estimate.machine].key;
    let units = &scenario.units;
    let cuts = &scenario.shop.items[estimate.item].operations[estimate.operation].cuts;
    for (((cut, _), place), of) in estimate.cuts.iter().zip(places).zip(cuts) {
        warn(scenario, (cut, of), place, diagnostics);
        for limit in cut.limits.iter().filter(|limit| limit.broken()) {
            diagnostics.push(beyond(machine, limit, (units, of, place)));
        }
        if cut.edge.pieces == 0 {
            let life = cut.edge.life.to_min();
            let needed = cut.cut_time.to_min();
            diagnostics.push(
                Diagnostic::new(
                    Code::EdgeTooShort,
                    format!("an edge lasts {life:.3} min on `{machine}` and one piece takes {needed:.3} min"),
                )
                .at(place.speed, "at this speed")
                .help("lower the speed, or choose a tool or coolant that lasts longer"),
            );
        }
    }
}

/// A broken limit: what is asked, what is allowed, what would help, at the figure that would have to change.
fn beyond(machine: &str, limit: &LimitCheck, of: (&Units, &Cut, &CutPlaces)) -> Diagnostic {
    let (units, cut, place) = of;
    let (asked, allowed) = (tables::term(limit.asked, units), tables::term(limit.allowed, units));
    let percent = (limit.used() - 1.0) * 100.0;
    let side = match limit.sense {
        Sense::AtMost => format!("at most {allowed}: {percent:.0} % too much"),
        Sense::AtLeast => format!("at least {allowed}: {percent:.0} % short of it"),
    };
    let (at, cure) = match limit.remedy {
        Remedy::SpindleSpeed => (place.speed, "state a lower `fastest` for this cut"),
        Remedy::CuttingSpeed => (place.speed, "lower the speed"),
        Remedy::Feed => (place.feed, "lower the feed"),
        Remedy::Other(cure) => (place.header, cure),
    };
    let may_slow = !matches!(limit.remedy, Remedy::Other(_)) && cut.repair.is_none();
    let help = if may_slow {
        format!("{cure}, or let the program do it: repair = \"slow down\"")
    } else {
        cure.to_owned()
    };
    Diagnostic::new(Code::MachineLimit, format!("{} of {asked} on `{machine}`", limit.limit))
        .at(at, side)
        .help(help)
}

/// Life beyond its law, and tools that the money leaves out.
fn warn(scenario: &Scenario, cut: (&CutEstimate, &Cut), place: &CutPlaces, diagnostics: &mut Diagnostics) {
    let (estimate, cut) = cut;
    for caution in estimate.cautions.iter().filter(|caution| matches!(caution.limit, Limit::Within(..))) {
        let Limit::Within(low, high) = caution.limit else { continue };
        let (low, high) = (low.text(&scenario.units), high.text(&scenario.units));
        let message =
            format!("{} {}: {}", caution.subject, caution.value.text(&scenario.units), caution.remark);
        let at = match caution.subject {
            "feed" => place.feed,
            "depth of cut" | "hardness of the part" => place.header,
            _ => place.speed,
        };
        diagnostics.push(
            Diagnostic::new(Code::OutsideLaw, message)
                .at(at, format!("the law is trusted from {low} to {high}")),
        );
    }
    let tool = &scenario.shop.tools[cut.tool];
    if tool.price.is_none() && first_use(scenario, cut) {
        diagnostics.push(
            Diagnostic::new(
                Code::FigureMissing,
                format!("`{}` has no price and is left out of the money", tool.key),
            )
            .at(place.tool, "no price")
            .help(format!("add [tool.{}] with a price", tool.key)),
        );
    }
}

/// Whether no cut before this one has its tool: what is missing in a tool is said once.
fn first_use(scenario: &Scenario, cut: &Cut) -> bool {
    let operations = scenario.shop.items.iter().flat_map(|item| &item.operations);
    let mut cuts = operations.flat_map(|operation| &operation.cuts);
    cuts.find(|other| other.tool == cut.tool).is_some_and(|first| std::ptr::eq(first, cut))
}
