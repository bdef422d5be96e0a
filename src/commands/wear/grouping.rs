//! Changing each edge by itself against changing several at one stop, and against stops that are there anyway.

use super::points::floor;
use crate::commands::tables::{alike, operation};
use crate::cycle::{OperationEstimate, grouped};
use crate::plant::{AtBreaks, Machine};
use crate::quantity::{Duration, Money, MoneyRate};
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::Scenario;
use crate::tooling::replacement::{GroupedTool, Grouping, at_common_stops, at_given_stops, each_by_itself};

/// What comes of a way to lay the changes.
struct Way {
    name: &'static str,
    every: Option<u32>,
    pieces: Vec<u32>,
    stops: f64,
    time: Duration,
    cost: Money,
}

/// Ways to lay the changes of each operation that wears several edges.
pub(super) fn grouping(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let per_thousand = Holds::Number { unit: "stops/1000", key: "stops_per_1000_pieces" };
    let mut table = Table::new("grouping", "Changing edges together")
        .remark(
            "Changes at fixed pieces; an edge that fails before is replaced at once and still changed at its stop. The stop itself, the \
             machine's `stop`, counts once for all edges changed at it, and not at all in a break or at the start of a shift while the \
             machine stands. `edge_changes = \"together\"` in the operation plans by common stops. An edge that is `left in` is changed when it fails. Machines that state no `stop` are left out.",
        )
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("machines", "machines"))
        .column(Column::text("way", "changes"))
        .column(Column::count("every", "a stop every", "pieces"))
        .column(Column::prose("change_after", "edges come out after pieces"))
        .column(Column::new("stops", "stops", per_thousand).decimals(1))
        .column(Column::quantity::<Duration>("standing", "standing a piece").decimals(3))
        .column(Column::quantity::<Money>("cost", "costs a piece").decimals(4));
    for (estimate, machines) in alike(scenario, estimates) {
        let machine = &scenario.shop.machines[estimate.machine];
        if estimate.tools.len() < 2 || machine.stop <= Duration::ZERO {
            continue;
        }
        let (item, number) = operation(scenario, estimate);
        let priced = machine.rate.is_some();
        for way in ways(scenario, estimate) {
            table.row(vec![
                item.as_str().into(),
                number.as_str().into(),
                machines.as_str().into(),
                way.name.into(),
                way.every.into(),
                listed(&way.pieces, estimate).into(),
                way.stops.into(),
                way.time.into(),
                if priced { way.cost.into() } else { Cell::Missing },
            ]);
        }
    }
    table
}

/// Mean lives beyond which a change is none: the edge is left in until it fails.
const NEVER: f64 = 3.9;

/// Pieces of each edge, or a word where it is left in.
fn listed(pieces: &[u32], estimate: &OperationEstimate) -> String {
    let word = |(pieces, used): (&u32, &crate::cycle::ToolUse)| {
        if f64::from(*pieces) > NEVER * used.point.average {
            "left in".to_owned()
        } else {
            pieces.to_string()
        }
    };
    pieces.iter().zip(&estimate.tools).map(word).collect::<Vec<_>>().join(", ")
}

fn ways(scenario: &Scenario, estimate: &OperationEstimate) -> Vec<Way> {
    let machine = &scenario.shop.machines[estimate.machine];
    let rate = machine.rate.unwrap_or(MoneyRate::per_h(1.0));
    let tools: Vec<GroupedTool> = estimate.tools.iter().map(|used| grouped(used, machine.stop)).collect();
    let mut ways = Vec::new();
    ways.extend(each_by_itself(&tools, machine.stop, rate).map(|own| Way {
        name: "each by itself",
        every: None,
        pieces: own.pieces,
        stops: own.stops_per_thousand,
        time: own.time_per_piece,
        cost: own.cost_per_piece,
    }));
    let of = |name, grouping: Grouping| Way {
        name,
        every: Some(grouping.every),
        pieces: grouping.multiples.iter().map(|multiple| multiple.saturating_mul(grouping.every)).collect(),
        stops: grouping.stops_per_thousand,
        time: grouping.time_per_piece,
        cost: grouping.cost_per_piece,
    };
    ways.extend(at_common_stops(&tools, machine.stop, rate).map(|grouping| of("at common stops", grouping)));
    let between = pieces_between_stops(scenario, machine, estimate);
    let standing = between.and_then(|pieces| at_given_stops(&tools, pieces, rate));
    ways.extend(standing.map(|grouping| of("in breaks and at shift starts", grouping)));
    ways
}

/// Pieces from one time that the machine stands anyway to the next, on average; `None` where it runs through.
fn pieces_between_stops(scenario: &Scenario, machine: &Machine, estimate: &OperationEstimate) -> Option<u32> {
    if machine.at_breaks == AtBreaks::Run {
        return None;
    }
    let buckets = scenario.calendar.buckets.iter().filter(|bucket| machine.shifts.contains(&bucket.shift));
    let (mut minutes, mut windows) = (0.0, 0.0);
    for bucket in buckets {
        minutes += bucket.working_time(machine.at_breaks).to_min();
        windows += 1.0 + f64::from(u32::try_from(bucket.breaks.len()).unwrap_or(0));
    }
    let running = minutes * machine.availability.value() * machine.performance.value();
    let pieces = floor(running / windows / estimate.cycle.to_min());
    (pieces > 0).then_some(pieces)
}
