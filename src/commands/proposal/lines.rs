//! The operation and its cuts, line by line.

use super::work::work;
use crate::commands::tables::term;
use crate::cycle::{Cut, Feature, Making, Proposal, Proposed, Reason};
use crate::quantity::{Quantity, Units};
use crate::schedule::Scenario;

/// The tables of a proposal.
pub(in crate::commands) fn write(scenario: &Scenario, proposal: &Proposal) -> Vec<String> {
    let key = &scenario.shop.items[proposal.item].key;
    let machines: Vec<String> =
        proposal.machines.iter().map(|id| quoted(&scenario.shop.machines[*id].key)).collect();
    let mut lines = vec![
        format!(
            "# Proposed from the drawing of {key}. Figures are planning estimates: change what your shop knows better."
        ),
        "# Rules of thumb - slenderness, least depth, grade of the process - are held by `wearland cycle --table limits`.".to_owned(),
        format!("[[part.{key}.operation]]"),
        "id = 10".to_owned(),
        "title = \"turn complete\"".to_owned(),
        format!(
            "machines = [{}]          # why: lathes that make every cut within their limits",
            machines.join(", ")
        ),
        "setup = \"60 min\"          # why: a guess, common practice for a lathe of many tools".to_owned(),
        "load = { time = \"0 s\", by = \"bar\" }          # why: the machine's own bar feed is counted"
            .to_owned(),
    ];
    if let Making::Part { length: Some(length), .. } = scenario.shop.items[proposal.item].making {
        lines.push(format!(
            "hold = {{ support = \"chuck\", overhang = {} }}          # why: the whole part stands out of the spindle; with a centre or guide bush, say so",
            value(length, &scenario.units)
        ));
    }
    if proposal.second_end {
        lines.push("transfer = \"3 s\"          # why: to the second spindle, 2 to 4 s in common practice; both spindles cut at once".to_owned());
    }
    for proposed in &proposal.cuts {
        lines.push(String::new());
        lines.extend(cut(scenario, key, proposed));
    }
    lines
}

fn cut(scenario: &Scenario, part: &str, proposed: &Proposed) -> Vec<String> {
    let (units, cut) = (&scenario.units, &proposed.cut);
    let tool = &scenario.shop.tools[cut.tool];
    let mut lines = vec![format!("# {}", made(proposed.feature))];
    lines.extend(proposed.reasons.iter().map(|reason| format!("# why: {}", why(reason, units))));
    lines.push(format!("[[part.{part}.operation.cut]]"));
    lines.push(format!("id = {}", quoted(&cut.id)));
    lines.push(format!("tool = {}          # {}", quoted(&tool.key), tool.title));
    lines.push(format!("position = {}", quoted(&cut.position)));
    if cut.channel != 1 {
        lines.push(format!("channel = {}", cut.channel));
    }
    lines.push(format!("speed = {}", value(cut.speed, units)));
    if let Some(feed) = cut.feed {
        lines.push(format!("feed = {}", quoted(&term(feed.term(), units))));
    }
    if let Some(depth) = cut.depth {
        lines.push(format!(
            "depth = {}          # most depth of a pass: that of the tool's reference cut",
            value(depth, units)
        ));
    }
    if let Some(fastest) = cut.fastest {
        lines.push(format!("fastest = {}", value(fastest, units)));
    }
    lines.extend(asked(cut, units));
    lines.push(work(&cut.work, units));
    lines
}

fn asked(cut: &Cut, units: &Units) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(roughness) = cut.asked.roughness {
        lines.push(format!("roughness = {}", value(roughness, units)));
    }
    if let Some(grade) = cut.asked.grade {
        lines.push(format!("tolerance = \"IT{grade}\""));
    }
    lines
}

/// What of the drawing a cut makes.
fn made(feature: Feature) -> String {
    match feature {
        Feature::Ends => "The ends of the part.".to_owned(),
        Feature::Step(id) => format!("Step {} of the drawing.", id + 1),
        Feature::Bore(id) => format!("Bore {} of the drawing.", id + 1),
        Feature::Thread(id) => format!("Thread {} of the drawing.", id + 1),
        Feature::Groove(id) => format!("Groove {} of the drawing.", id + 1),
        Feature::CrossHole(id) => format!("Cross hole {} of the drawing, with a driven tool.", id + 1),
    }
}

fn why(reason: &Reason, units: &Units) -> String {
    match reason {
        Reason::Quickest { of: 1 } => {
            "the only tool that makes it within the limits of machine, tool and drawing".to_owned()
        }
        Reason::Quickest { of } => {
            format!("the quickest of {of} tools that make it within the limits of machine, tool and drawing")
        }
        Reason::EqualLife { reference, factor } => format!(
            "speed at which the edge lasts as in its reference cut: {} times {} for material, hardness and coolant",
            reference.measure().text(units),
            crate::quantity::significant(*factor, 3)
        ),
        Reason::ReferenceFeed => "feed of the tool's reference cut".to_owned(),
        Reason::CornerFeed => "feed no more than half the corner radius".to_owned(),
        Reason::FinishFeed(roughness) => {
            format!("feed whose marks take four fifths of the {} asked", roughness.measure().text(units))
        }
        Reason::Slowed(slowed) => format!(
            "{} lowered from {} to {} to keep the limit: {}",
            slowed.figure,
            term(slowed.from, units),
            term(slowed.to, units),
            slowed.limit
        ),
    }
}

/// A quantity as a scenario has it.
pub(super) fn value<Q: Quantity>(quantity: Q, units: &Units) -> String {
    quoted(&quantity.measure().text(units))
}

/// A text as TOML has it.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}
