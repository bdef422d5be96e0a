//! Edges and tools by item over the horizon.

use crate::cycle::{OperationEstimate, Rule};
use crate::quantity::Money;
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::{BuiltProblem, Plan, Scenario};
use crate::tooling::edge_cost;
use crate::tooling::replacement::{PieceChange, edges_for};

/// What a tool needs over the horizon.
struct Need {
    tool: usize,
    places: u32,
    changes: u32,
    worn: Worn,
}

/// Edges that the pieces of the plan wear.
#[derive(Clone, Copy, Default)]
struct Worn {
    /// On average, and the square of the deviation.
    mean: f64,
    variance: f64,
    /// Enough with a chance of 95 in 100, at a single place.
    enough: u32,
    /// Edges that fail before their change.
    failed: f64,
}

impl Need {
    /// Edges that are enough with a chance of 95 in 100, those that lie in the places at the end included.
    fn enough(&self) -> u32 {
        if self.places == 1 {
            return self.worn.enough.max(self.places + self.changes);
        }
        // Half an edge less: whole numbers up to the quantile.
        let edges = self.worn.mean + NORMAL_95 * self.worn.variance.sqrt() - 0.5;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to the range of u32"
        )]
        let whole = edges.ceil().clamp(0.0, f64::from(u32::MAX)) as u32;
        whole.max(self.places + self.changes)
    }
}

/// Value that a normal distribution stays below with a chance of 95 in 100.
const NORMAL_95: f64 = 1.644_853_627;
/// The same chance.
const LEVEL: f64 = 0.95;

/// Edges put in and worn, tools to issue, money.
pub(in crate::commands) fn edges(
    scenario: &Scenario,
    estimates: &[OperationEstimate],
    built: &BuiltProblem,
    plan: &Plan,
) -> Table {
    let mut table = Table::new("edges", "Edges over the horizon")
        .remark(
            "Planned edges are those put in at the start, one for each place, and those put in at a planned change. Expected are the edges that \
             the pieces of the plan wear on average, those that fail before their change among them. With a chance of 95 in 100 the edges of \
             `enough` do, as far as lives scatter as the tools say; what is not known of the average life comes on top: `wearland \
             fit`. Tools and packs are for these: edges by edges of a tool, rounded up, one tool for each place at least; `all edges` is what \
             the edges are worth, `tools to buy` what whole packs cost. A sharpened tool is taken to be back when it is wanted.",
        )
        .column(Column::text("tool", "tool"))
        .column(Column::text("designation", "designation"))
        .column(Column::count("places", "places", "places"))
        .column(Column::count("changes", "changes", "changes"))
        .column(Column::count("planned", "planned", "edges"))
        .column(Column::new("expected", "expected", Holds::Number { unit: "edges", key: "edges" }).decimals(1))
        .column(Column::new("fail_early", "fail early", Holds::Number { unit: "edges", key: "edges" }).decimals(1))
        .column(Column::count("enough", "enough, 95 % sure", "edges"))
        .column(Column::count("of_a_tool", "edges of a tool", "edges"))
        .column(Column::count("needed", "tools", "tools"))
        .column(Column::count("needed", "packs", "packs"))
        .column(Column::quantity::<Money>("edge_cost", "an edge"))
        .column(Column::quantity::<Money>("cost", "all edges"))
        .column(Column::quantity::<Money>("to_buy", "tools to buy"));
    for need in needs(estimates, built, plan) {
        let tool = &scenario.shop.tools[need.tool];
        let used = need.places + need.changes;
        let enough = need.enough();
        let of_a_tool = tool.edges.value.max(1);
        // A tool cannot sit in two places.
        let tools = enough.div_ceil(of_a_tool).max(need.places);
        let cost = edge_cost(tool.price, tool.regrind, of_a_tool);
        table.row(vec![
            tool.key.as_str().into(),
            tool.designation.as_deref().into(),
            need.places.into(),
            need.changes.into(),
            used.into(),
            need.worn.mean.into(),
            need.worn.failed.into(),
            enough.into(),
            of_a_tool.into(),
            tools.into(),
            if tool.pack > 1 { tools.div_ceil(tool.pack).into() } else { Cell::Missing },
            cost.into(),
            cost.map(|cost| cost * f64::from(enough)).into(),
            tool.price.map(|price| price * f64::from(tools.next_multiple_of(tool.pack.max(1)))).into(),
        ]);
    }
    table
}

/// By tool, in the order of the machines that hold it. A place counts only if the plan uses it.
fn needs(estimates: &[OperationEstimate], built: &BuiltProblem, plan: &Plan) -> Vec<Need> {
    let mut needs: Vec<Need> = Vec::new();
    for (point, (_, tool)) in built.tool_of.iter().enumerate() {
        let cuts = plan
            .lots
            .iter()
            .any(|lot| built.problem.activities[lot.activity].wear.iter().any(|wear| wear.point == point));
        if !cuts {
            continue;
        }
        let changes = plan.changes.iter().filter(|change| change.point == point).count();
        // A place holds all its sisters, and a change replaces them all.
        let sisters = built.sisters_of[point];
        let changes = u32::try_from(changes).unwrap_or(u32::MAX).saturating_mul(sisters);
        let worn = worn(estimates, built, plan, point);
        match needs.iter_mut().find(|need| need.tool == *tool) {
            Some(need) => {
                need.places += sisters;
                need.changes += changes;
                need.worn.mean += worn.mean;
                need.worn.variance += worn.variance;
                need.worn.failed += worn.failed;
            }
            None => needs.push(Need { tool: *tool, places: sisters, changes, worn }),
        }
    }
    needs
}

/// Edges worn at a place by the pieces of the plan. Pieces of several operations wear one edge after the other: together they
/// count as pieces of their average wear and interval.
fn worn(estimates: &[OperationEstimate], built: &BuiltProblem, plan: &Plan, point: usize) -> Worn {
    let (mut all, mut good, mut wear, mut intervals, mut failing, mut sooner) =
        (0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
    let mut change: Option<PieceChange> = None;
    for (id, (activity, estimate)) in built.problem.activities.iter().zip(estimates).enumerate() {
        let pieces: u32 = plan.lots.iter().filter(|lot| lot.activity == id).map(|lot| lot.pieces).sum();
        let at = activity.wear.iter().position(|wear| wear.point == point).filter(|_| pieces > 0);
        let Some(used) = at.map(|at| &estimate.tools[at]) else { continue };
        let (pieces, of) = (f64::from(pieces), &used.point);
        // Edges that somebody watches are used to their own end.
        let until = match of.rule {
            Rule::AverageLife => of.change.run_to_failure().pieces,
            _ => used.pieces,
        };
        all += pieces;
        good += pieces * of.outcome.good / (of.outcome.good + of.outcome.failed);
        wear += pieces * of.change.wear;
        intervals += pieces / f64::from(until);
        failing += pieces * of.failed();
        // At common stops edges go by blocks, and wear out a little sooner than by age.
        sooner += pieces * (of.outcome.good + of.outcome.failed) / of.made();
        change = Some(of.change);
    }
    let Some(change) = change else { return Worn::default() };
    let change = PieceChange { wear: wear / all, ..change };
    let until = rounded(all / intervals).max(1);
    let demand = edges_for(&change, until, rounded(good * sooner / all), LEVEL);
    let (share, kept) = (failing / all, 1.0 - failing / all);
    // Planned changes are those of edges begun early enough to get there; all other edges but the last have failed.
    let early = (demand.mean - f64::from(until) / change.outcome(until).good.max(1.0)).max(0.0);
    let failed = if share > 0.0 { (demand.mean - 1.0 - kept * early).max(0.0) } else { 0.0 };
    Worn { mean: demand.mean, variance: demand.deviation * demand.deviation, enough: demand.at_level, failed }
}

/// Nearest whole number.
fn rounded(number: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the range of u32"
    )]
    let whole = number.round().clamp(0.0, f64::from(u32::MAX)) as u32;
    whole
}
