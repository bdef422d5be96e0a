//! Edges and tools by item over the horizon.

use crate::quantity::Money;
use crate::report::{Cell, Column, Table};
use crate::schedule::{BuiltProblem, Plan, Scenario};
use crate::tooling::edge_cost;

/// What a tool needs over the horizon.
struct Need {
    tool: usize,
    places: u32,
    changes: u32,
}

/// Edges put in and worn, tools to issue, money.
pub(in crate::commands) fn edges(scenario: &Scenario, built: &BuiltProblem, plan: &Plan) -> Table {
    let mut table = Table::new("edges", "Edges over the horizon")
        .remark(
            "Edges are those put in at the start, one for each place, and those put in at a change. \
             Tools are edges by edges of a tool, rounded up, and one for each place at least; packs likewise. \
             A sharpened tool is taken to be back when it is wanted. Lives are averages: see Tool life and the catalog for how far to trust them.",
        )
        .column(Column::text("tool", "tool"))
        .column(Column::text("designation", "designation"))
        .column(Column::count("places", "places", "places"))
        .column(Column::count("changes", "changes", "changes"))
        .column(Column::count("used", "edges", "edges"))
        .column(Column::count("of_a_tool", "edges of a tool", "edges"))
        .column(Column::count("needed", "tools", "tools"))
        .column(Column::count("needed", "packs", "packs"))
        .column(Column::quantity::<Money>("edge_cost", "an edge"))
        .column(Column::quantity::<Money>("cost", "all edges"));
    for need in needs(built, plan) {
        let tool = &scenario.shop.tools[need.tool];
        let used = need.places + need.changes;
        let of_a_tool = tool.edges.value.max(1);
        // A tool cannot sit in two places.
        let tools = used.div_ceil(of_a_tool).max(need.places);
        let cost = edge_cost(tool.price, tool.regrind, of_a_tool);
        table.row(vec![
            tool.key.as_str().into(),
            tool.designation.as_deref().into(),
            need.places.into(),
            need.changes.into(),
            used.into(),
            of_a_tool.into(),
            tools.into(),
            if tool.pack > 1 { tools.div_ceil(tool.pack).into() } else { Cell::Missing },
            cost.into(),
            cost.map(|cost| cost * f64::from(used)).into(),
        ]);
    }
    table
}

/// By tool, in the order of the machines that hold it. A place counts only if the plan uses it.
fn needs(built: &BuiltProblem, plan: &Plan) -> Vec<Need> {
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
        let changes = u32::try_from(changes).unwrap_or(u32::MAX);
        match needs.iter_mut().find(|need| need.tool == *tool) {
            Some(need) => {
                need.places += 1;
                need.changes += changes;
            }
            None => needs.push(Need { tool: *tool, places: 1, changes }),
        }
    }
    needs
}
