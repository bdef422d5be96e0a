//! Which edges go in on which day: those for a place when it is first used, and those of planned changes.

use crate::report::{Cell, Column, Faces, Holds, Section, Table};
use crate::schedule::{BuiltProblem, Plan, Scenario};
use std::collections::BTreeMap;

/// Edges put in by tool and day: for people a line a tool, for data a row a day with the sum so far.
pub(in crate::commands) fn edges_by_day(
    scenario: &Scenario,
    built: &BuiltProblem,
    plan: &Plan,
) -> Vec<Section> {
    let mut people = Table::new("edges_by_day", "Edges put in, day by day")
        .remark("Planned edges, by the day on which a shift begins; edges that fail early come on top, as the list of edges says.")
        .faces(Faces::TextOnly)
        .column(Column::text("tool", "tool"))
        .column(Column::prose("days", "edges"));
    let mut data = Table::new("edges_by_day", "Edges put in, day by day")
        .faces(Faces::DataOnly)
        .column(Column::text("tool", "tool"))
        .column(Column::new("day", "day", Holds::Stamp))
        .column(Column::count("put_in", "put in", "edges"))
        .column(Column::count("so_far", "so far", "edges"));
    for (tool, days) in by_tool(scenario, built, plan) {
        let key = scenario.shop.tools[tool].key.as_str();
        let (mut so_far, mut words) = (0_u32, Vec::new());
        for (slot_day, edges) in days {
            so_far += edges;
            let day = scenario.calendar.date(slot_day).map(|date| date.to_string()).unwrap_or_default();
            words.push(format!("{day}: {edges}"));
            data.row(vec![key.into(), Cell::stamp(day), edges.into(), so_far.into()]);
        }
        people.row(vec![key.into(), words.join("; ").into()]);
    }
    vec![people.into(), data.into()]
}

/// Edges by tool, in the order of the tools, and day of the plan.
fn by_tool(scenario: &Scenario, built: &BuiltProblem, plan: &Plan) -> BTreeMap<usize, BTreeMap<usize, u32>> {
    let mut tools: BTreeMap<usize, BTreeMap<usize, u32>> = BTreeMap::new();
    let mut put = |point: usize, day: usize| {
        *tools.entry(built.tool_of[point].1).or_default().entry(day).or_default() += built.sisters_of[point];
    };
    for point in 0..built.problem.points.len() {
        let uses =
            |activity: usize| built.problem.activities[activity].wear.iter().any(|wear| wear.point == point);
        if let Some(first) = plan.lots.iter().filter(|lot| uses(lot.activity)).min_by_key(|lot| lot.start) {
            put(point, scenario.calendar.buckets[first.slot].day);
        }
    }
    for change in &plan.changes {
        put(change.point, scenario.calendar.buckets[plan.lots[change.lot].slot].day);
    }
    tools
}
