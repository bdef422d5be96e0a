//! The foot of a report: cautions, and the sources its numbers used.

use super::limits::limit_words;
use super::names::{alike, operation};
use crate::cycle::{LimitOf, Making, OperationEstimate};
use crate::input::Citation;
use crate::quantity::{Caution, Limit, Units};
use crate::report::Notes;
use crate::schedule::Scenario;
use crate::tooling::LifeShape;
use std::collections::BTreeSet;

/// What stands under every report that gives cutting data.
const ESTIMATES: &str = "Speeds, feeds, forces and tool lives are planning estimates, never a safety release: the machine's \
     manual, local codes and licensed practice come first, for workholding speed and grip, bar stock and its guards, \
     fire, mist and dust.";

/// Figures outside their range, missing prices, and what can hurt.
pub(in crate::commands) fn cautions(scenario: &Scenario, estimates: &[OperationEstimate]) -> Notes {
    let mut lines = Vec::new();
    for (estimate, machines) in alike(scenario, estimates) {
        let (item, number) = operation(scenario, estimate);
        let cuts = &scenario.shop.items[estimate.item].operations[estimate.operation].cuts;
        for (cut, (one, _)) in cuts.iter().zip(&estimate.cuts) {
            let passed = one.limits.iter().filter(|limit| limit.of == LimitOf::Rule && limit.passed());
            let cautions = one.cautions.iter().map(|caution| words(caution, &scenario.units));
            let rules = passed.map(|limit| limit_words(limit, &scenario.units));
            for text in cautions.chain(rules) {
                lines.push(format!("{item} {number} {} on {machines}: {text}", cut.id));
            }
        }
    }
    lines.extend(missing_prices(scenario, estimates));
    lines.extend(dangers(scenario, estimates));
    if estimates.iter().any(|estimate| !estimate.cuts.is_empty()) {
        lines.push(ESTIMATES.to_owned());
    }
    Notes::new("cautions", "Cautions", lines)
}

fn words(caution: &Caution, units: &Units) -> String {
    let limit = match caution.limit {
        Limit::AtMost(most) => format!("at most {}", most.text(units)),
        Limit::AtLeast(least) => format!("at least {}", least.text(units)),
        Limit::Within(low, high) => format!("{} to {}", low.text(units), high.text(units)),
    };
    format!(
        "{} {}, {limit}: {} [{}]",
        caution.subject,
        caution.value.text(units),
        caution.remark,
        caution.source
    )
}

/// Tools without a price and machines without a rate count as nothing in the money, so they are named.
fn missing_prices(scenario: &Scenario, estimates: &[OperationEstimate]) -> Vec<String> {
    let mut tools = BTreeSet::new();
    let mut machines = BTreeSet::new();
    for estimate in estimates {
        let machine = &scenario.shop.machines[estimate.machine];
        if machine.rate.is_none() {
            machines.insert(machine.key.as_str());
        }
        for tool in estimate.tools.iter().filter(|tool| tool.edge_cost.is_none()) {
            tools.insert(scenario.shop.tools[tool.tool].key.as_str());
        }
    }
    let named = |what: &str, names: BTreeSet<&str>| {
        let list: Vec<&str> = names.into_iter().collect();
        (!list.is_empty()).then(|| format!("{what}, left out of the money: {}", list.join(", ")))
    };
    [named("tools without a price", tools), named("machines without a rate", machines)]
        .into_iter()
        .flatten()
        .collect()
}

/// What the catalog says can hurt, for the materials, coolants and machines in use; the same text once.
fn dangers(scenario: &Scenario, estimates: &[OperationEstimate]) -> Vec<String> {
    let mut told: Vec<(String, Vec<String>)> = Vec::new();
    let mut tell = |who: &str, text: Option<&String>| {
        let Some(text) = text else { return };
        match told.iter_mut().find(|(known, _)| known == text) {
            Some((_, names)) if names.iter().any(|name| name == who) => {}
            Some((_, names)) => names.push(who.to_owned()),
            None => told.push((text.clone(), vec![who.to_owned()])),
        }
    };
    for estimate in estimates.iter().filter(|estimate| !estimate.cuts.is_empty()) {
        let item = &scenario.shop.items[estimate.item];
        if let Making::Part { material, .. } = item.making {
            let material = &scenario.shop.materials[material];
            tell(&material.key, material.caution.as_ref());
        }
        let machine = &scenario.shop.machines[estimate.machine];
        tell(&machine.key, machine.caution.as_ref());
        for cut in &item.operations[estimate.operation].cuts {
            if let Some(coolant) = cut.coolant.or(machine.coolant) {
                let coolant = &scenario.shop.coolants[coolant];
                tell(&coolant.key, coolant.caution.as_ref());
            }
        }
    }
    told.into_iter().map(|(text, names)| format!("{}: {text}", names.join(", "))).collect()
}

/// Keys of the sources behind the estimates: formulas, materials, life laws, coolants, conditions.
pub(in crate::commands) fn used_sources(
    scenario: &Scenario,
    estimates: &[OperationEstimate],
) -> BTreeSet<String> {
    let mut keys = BTreeSet::new();
    for estimate in estimates {
        let item = &scenario.shop.items[estimate.item];
        let steps = estimate.cuts.iter().flat_map(|(_, workings)| &workings.0).chain(&estimate.workings.0);
        keys.extend(steps.map(|step| step.formula.source.to_owned()));
        let Making::Part { material, .. } = item.making else { continue };
        let material = &scenario.shop.materials[material];
        let machine = &scenario.shop.machines[estimate.machine];
        for cut in &item.operations[estimate.operation].cuts {
            let tool = &scenario.shop.tools[cut.tool];
            for source in
                [&material.kc11.source, &material.mc.source, &material.speed_index.source, &tool.edges.source]
            {
                keys.insert(source.clone());
            }
            if let Some(law) = tool.life_in(material.group) {
                keys.extend([law.speed.source.clone(), law.life.source.clone()]);
                keys.insert(match &law.shape {
                    LifeShape::Taylor(taylor) => taylor.n.source.clone(),
                    LifeShape::Colding(colding) => colding.constants.source.clone(),
                });
                keys.extend(cut.wear.map(|_| law.curve.source.clone()));
            }
            let coolant = cut.coolant.or(machine.coolant).map(|id| &scenario.shop.coolants[id]);
            if let Some(factor) = coolant.and_then(|coolant| coolant.factor(tool.substrate, material.group)) {
                keys.insert(factor.value.source.clone());
            }
            if let Some(condition) = &cut.condition {
                keys.insert(condition.speed_factor.source.clone());
            }
        }
    }
    keys.remove("scenario");
    keys
}

/// The works behind the keys.
pub(in crate::commands) fn sources(keys: &BTreeSet<String>, citations: &[Citation]) -> Notes {
    let lines = citations.iter().filter(|work| keys.contains(&work.key)).map(Citation::line).collect();
    Notes::new("sources", "Sources used", lines)
}
