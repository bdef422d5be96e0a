//! A status file applied to the floor: what somebody counted overrides what the last plan expected.

use crate::commands::tables;
use crate::diag::{Code, Diagnostic, Diagnostics};
use crate::input::{EdgeSeen, EdgeWorn, Status};
use crate::schedule::{BuiltProblem, FloorState, Outage, Running, Scenario, first_slot};

/// Machines down and people missing.
pub(super) fn outages(status: &Status, scenario: &Scenario) -> Vec<Outage> {
    let down = status.down.iter().map(|down| Outage {
        resource: down.machine,
        from: down.from,
        until: down.until,
        people: 0,
    });
    let missing = status.missing.iter().map(|missing| Outage {
        // Skills come after the machines.
        resource: scenario.shop.machines.len() + missing.skill,
        from: missing.from,
        until: missing.until,
        people: missing.people,
    });
    down.chain(missing).collect()
}

/// Puts the counts of a status onto the floor.
pub(super) fn apply(
    status: &Status,
    state: &mut FloorState,
    (scenario, built): (&Scenario, &BuiltProblem),
    diagnostics: &mut Diagnostics,
) {
    let problem = &built.problem;
    for done in &status.done {
        let Some(step) = built.step(done.item, done.operation) else { continue };
        state.good[step] = done.pieces;
        let started = f64::from(done.pieces) / problem.steps[step].good.max(1e-9);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to the range of u32"
        )]
        let started = (started - 1e-9).ceil().clamp(0.0, f64::from(u32::MAX)) as u32;
        state.started[step] = started;
    }
    for (order, pieces) in &status.shipped {
        state.shipped[order.value] = *pieces;
    }
    for stock in &status.stock {
        if let Some(step) = built.step(stock.item, stock.operation) {
            #[expect(clippy::cast_possible_truncation, reason = "counts are far below 2^53")]
            let more = (f64::from(stock.pieces) - state.lying(problem, step)).round() as i64;
            state.found[step] += more;
        }
    }
    for runs in &status.running {
        let step = built.step(runs.work.item, runs.work.operation);
        let activity = step.and_then(|step| {
            problem.makers(step).find(|maker| problem.activities[*maker].machine == Some(runs.machine))
        });
        let Some(activity) = activity else { continue };
        state.running.retain(|running| problem.activities[running.activity].machine != Some(runs.machine));
        state.running.push(Running { activity, pieces: runs.work.pieces });
        state.set_up[runs.machine] = Some(activity);
    }
    if !status.keep_running {
        state.running.clear();
    }
    let down_now = |machine: Option<usize>| {
        status.down.iter().any(|down| Some(down.machine) == machine && down.from <= state.now)
    };
    // Work on a machine that is down may go elsewhere.
    state.running.retain(|running| !down_now(problem.activities[running.activity].machine));
    for seen in &status.edges {
        edge(seen, state, (scenario, built), diagnostics);
    }
    for (tool, edges) in &status.on_hand {
        let of_tool = (0..problem.points.len()).filter(|point| built.tool_of[*point].1 == tool.value);
        match of_tool.filter_map(|point| problem.points[point].stock).next() {
            Some(stock) => {
                let first = first_slot(problem, state.now).unwrap_or(0);
                state.taken[stock] = problem.edge_stocks[stock].come_by(first) - i64::from(*edges);
            }
            None => {
                let key = &scenario.shop.tools[tool.value].key;
                let message = format!("no edge of `{key}` is used by this scenario");
                diagnostics.push(Diagnostic::new(Code::NeverUsed, message).at(tool.span, "of no account"));
            }
        }
    }
}

fn edge(
    seen: &EdgeSeen,
    state: &mut FloorState,
    (scenario, built): (&Scenario, &BuiltProblem),
    diagnostics: &mut Diagnostics,
) {
    let problem = &built.problem;
    let tool = &scenario.shop.tools[seen.tool].key;
    let name = tables::placed(tool, seen.position.as_deref().unwrap_or_default());
    let here = || (0..problem.points.len()).filter(|point| problem.points[*point].resource == seen.machine);
    let Some(point) = here().find(|point| problem.points[*point].name == name) else {
        let machine = &scenario.shop.machines[seen.machine].key;
        let known: Vec<&str> = here()
            .filter(|point| built.tool_of[*point].1 == seen.tool)
            .map(|point| problem.points[point].name.as_str())
            .collect();
        let mistake = Diagnostic::new(Code::UnknownName, format!("`{machine}` has no edge `{name}`"));
        let mistake = mistake.at(seen.span, "not found");
        diagnostics.push(if known.is_empty() {
            mistake.help(format!("nothing on `{machine}` is cut with `{tool}`"))
        } else {
            mistake.help(format!("there it has {}", known.join(", ")))
        });
        return;
    };
    state.worn[point] = match seen.worn {
        EdgeWorn::Share(share) => share.value(),
        EdgeWorn::Left(pieces) => {
            let share_of = |activity: usize| {
                let wear = problem.activities[activity].wear.iter().find(|wear| wear.point == point);
                wear.map(|wear| wear.share)
            };
            let stands = state.set_up[seen.machine].and_then(share_of);
            let any = || (0..problem.activities.len()).find_map(share_of);
            let share = stands.or_else(any).unwrap_or(0.0);
            (1.0 - share * f64::from(pieces)).clamp(0.0, 1.0)
        }
    };
}

/// Steps whose counts do not agree: more used and shipped than there can be.
pub(super) fn disagreements(
    state: &FloorState,
    built: &BuiltProblem,
    status: Option<&Status>,
    diagnostics: &mut Diagnostics,
) {
    for step in 0..built.problem.steps.len() {
        let lying = state.lying(&built.problem, step);
        if lying > -0.5 {
            continue;
        }
        let name = &built.problem.steps[step].name;
        let message =
            format!("{:.0} pieces of {name} were used or shipped that nobody counted as made", -lying);
        let mistake = Diagnostic::new(Code::FigureMissing, message)
            .help("count them under [[done]], or what lies there under [[stock]]; until then none are taken to lie there");
        diagnostics.push(match status {
            Some(status) => mistake.at(status.now.span, "counts at this time"),
            None => mistake,
        });
    }
}
