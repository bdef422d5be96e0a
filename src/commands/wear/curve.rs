//! What it costs to change earlier or later, edge by edge.

use super::points::{each_edge, edge_share, edges, floor};
use crate::cycle::{OperationEstimate, Rule};
use crate::quantity::Money;
use crate::report::{Axis, Cell, Chart, Column, Faces, Holds, Section, Series, Shape};
use crate::schedule::Scenario;

/// Points of a curve.
const POINTS: u32 = 60;

/// Cost over the least at which a curve begins.
const STEEP: f64 = 4.0;

/// A chart for each edge of an operation, and all their points as one table for other programs.
pub(super) fn curves(scenario: &Scenario, estimates: &[OperationEstimate]) -> Vec<Section> {
    let mut sections = Vec::new();
    let mut all = edges("cost_curve_points", "What a change point costs")
        .faces(Faces::DataOnly)
        .column(Column::count("change_after", "change after", "pieces"))
        .column(Column::new("fail_before", "fail before", Holds::Share))
        .column(Column::quantity::<Money>("cost", "costs a piece"))
        .column(Column::new("good", "good an hour", Holds::Number { unit: "1/h", key: "per_h" }));
    each_edge(scenario, estimates, |row, _, used| {
        let point = &used.point;
        let priced = used.is_priced();
        let heading = format!("When to change {} on {}", named(&row, 3), named(&row, 2));
        let y = if priced {
            Column::quantity::<Money>("cost", "the edge costs a good piece")
        } else {
            Column::new("good", "good pieces an hour", Holds::Number { unit: "1/h", key: "per_h" })
        };
        let x = Column::count("change_after", "changed after", "pieces");
        let mut chart = Chart::new("cost_curve", heading, Axis::linear(x), Axis::linear(y));
        let mut series = Series::new(if priced { "cost" } else { "output" }, Shape::Line);
        let outcomes = point.change.curve(POINTS);
        let least = outcomes
            .iter()
            .filter_map(|outcome| edge_share(used, outcome))
            .map(Money::amount)
            .fold(f64::INFINITY, f64::min);
        for outcome in outcomes {
            let cost = edge_share(used, &outcome);
            let mut row = row.clone();
            row.extend([
                outcome.pieces.into(),
                Cell::share(outcome.failed),
                cost.into(),
                outcome.good_per_hour.into(),
            ]);
            all.row(row);
            // Far too early costs many times as much: it would flatten the rest of the curve.
            if cost.is_some_and(|cost| cost.amount() > STEEP * least) {
                continue;
            }
            let value: Cell = if priced { cost.into() } else { outcome.good_per_hour.into() };
            series.point(outcome.pieces, value);
        }
        chart.add_series(series);
        if point.rule != Rule::ToFailure {
            chart.add_mark(format!("change point, {}", point.rule.name()), used.pieces);
        }
        chart.add_mark("average life", floor(point.average + 0.5));
        sections.push(Section::from(chart));
    });
    sections.push(all.into());
    sections
}

/// A name among the cells of a row.
fn named(row: &[Cell], place: usize) -> String {
    match row.get(place) {
        Some(Cell::Text(name)) => name.clone(),
        _ => String::new(),
    }
}
