//! Changing each edge by itself against changing several at one stop, and against stops that are there anyway.

use super::points::floor;
use crate::commands::tables::{alike, operation};
use crate::cycle::{CommonStops, OperationEstimate, Rule, Stops, ToolUse, common_stops};
use crate::plant::{AtBreaks, Bucket, Machine};
use crate::quantity::{Duration, Money};
use crate::report::{Column, Holds, Table};
use crate::schedule::Scenario;

/// What comes of a way to lay the changes.
struct Way {
    name: &'static str,
    every: Option<u32>,
    pieces: Vec<Option<u32>>,
    stops: f64,
    time: Duration,
    cost: Option<Money>,
}

/// Ways to lay the changes of each operation that wears several edges.
pub(super) fn grouping(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let per_thousand = Holds::Number { unit: "stops/1000", key: "stops_per_1000_pieces" };
    let mut table = Table::new("grouping", "Changing edges together")
        .remark(
            "By itself, an edge comes out at its own change point, counted from its last change. At common stops edges come out at fixed pieces: \
             one that fails before is replaced at once and still changed at its stop. The stop itself, the machine's `stop`, counts once for all edges changed at it, and not at all in a break or at the start of a shift while the \
             machine stands. `edge_changes = \"together\"` in the operation plans by common stops. An edge that costs less by itself stays so. Machines that state no `stop` are left out.",
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
        for way in ways(scenario, estimate) {
            table.row(vec![
                item.as_str().into(),
                number.as_str().into(),
                machines.as_str().into(),
                way.name.into(),
                way.every.into(),
                listed(&way.pieces, if way.every.is_some() { "by itself" } else { "left in" }).into(),
                way.stops.into(),
                way.time.into(),
                way.cost.into(),
            ]);
        }
    }
    table
}

/// Pieces of each edge, or words where it stays by itself.
fn listed(pieces: &[Option<u32>], apart: &str) -> String {
    let word = |pieces: &Option<u32>| pieces.map_or_else(|| apart.to_owned(), |pieces| pieces.to_string());
    pieces.iter().map(word).collect::<Vec<_>>().join(", ")
}

fn ways(scenario: &Scenario, estimate: &OperationEstimate) -> Vec<Way> {
    let machine = &scenario.shop.machines[estimate.machine];
    let alone: Vec<ToolUse> = estimate.tools.iter().map(ToolUse::alone).collect();
    let priced = alone.iter().all(ToolUse::is_priced);
    let mut ways = vec![Way {
        name: "each by itself",
        every: None,
        pieces: alone
            .iter()
            .map(|used| (used.point.rule != Rule::ToFailure).then_some(used.pieces))
            .collect(),
        stops: 1000.0 * alone.iter().map(ToolUse::planned_stops).sum::<f64>(),
        time: alone.iter().map(ToolUse::standing_time).sum(),
        cost: priced.then(|| alone.iter().map(|used| used.wearing_cost(used.point.change.rate)).sum()),
    }];
    let of = |name, stops: CommonStops| Way {
        name,
        every: Some(stops.every),
        pieces: stops.pieces,
        stops: stops.stops_per_thousand,
        time: stops.time_per_piece,
        cost: stops.cost_per_piece,
    };
    let at = |stops| common_stops(&estimate.tools, machine.stop, stops);
    ways.extend(at(Stops::Made).map(|stops| of("at common stops", stops)));
    let between = pieces_between_stops(scenario, machine, estimate);
    let standing = between.and_then(|pieces| at(Stops::Given(pieces)));
    ways.extend(standing.map(|stops| of("in breaks and at shift starts", stops)));
    ways
}

/// Pieces from one time that the machine stands anyway to the next, on average; `None` where it runs through.
fn pieces_between_stops(scenario: &Scenario, machine: &Machine, estimate: &OperationEstimate) -> Option<u32> {
    if machine.at_breaks == AtBreaks::Run {
        return None;
    }
    let open = |bucket: &&Bucket| machine.shifts.iter().any(|shift| bucket.is_shift(*shift));
    let buckets = scenario.calendar.buckets.iter().filter(open);
    let (mut minutes, mut windows) = (0.0, 0.0);
    let mut end = i64::MIN;
    for bucket in buckets {
        minutes += bucket.working_time(machine.at_breaks).to_min();
        // A shift that follows at once on another does not stop the machine.
        windows += f64::from(u8::from(bucket.start > end));
        windows += f64::from(u32::try_from(bucket.breaks.len()).unwrap_or(0));
        end = bucket.end;
    }
    let running = minutes * machine.availability.value() * machine.performance.value();
    let pieces = floor(running / windows / estimate.cycle.to_min());
    (pieces > 0).then_some(pieces)
}
