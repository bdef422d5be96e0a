//! For programs, and for the next plan: lots by the clock, shipments, the horizon, and the floor at which a plan began.

use crate::quantity::{Duration, Money};
use crate::report::{Cell, Column, Faces, Holds, Section, Table};
use crate::schedule::{BuiltProblem, FloorState, Lot, Plan, Problem, Scenario};

/// Money of a lot: minutes run and set up, edges and other costs of its pieces.
pub(in crate::commands) fn lot_cost(problem: &Problem, lot: &Lot) -> f64 {
    let activity = &problem.activities[lot.activity];
    let minute = activity.machine.map_or(0.0, |machine| problem.resources[machine].cost[lot.slot]);
    let uses = activity.uses.iter();
    let used: f64 =
        uses.map(|(resource, minutes)| minutes * problem.resources[*resource].cost[lot.slot]).sum();
    f64::from(lot.pieces) * (used + activity.cost) + lot.setup * minute
}

/// What the next plan reads of this one.
pub(in crate::commands) fn kept(scenario: &Scenario, built: &BuiltProblem, plan: &Plan) -> Vec<Section> {
    vec![horizon(scenario).into(), lots(scenario, built, plan).into(), shipments(scenario, plan).into()]
}

fn horizon(scenario: &Scenario) -> Table {
    let calendar = &scenario.calendar;
    let mut table = Table::new("horizon", "From when to when is planned")
        .faces(Faces::DataOnly)
        .column(Column::new("from", "from", Holds::Stamp))
        .column(Column::new("until", "until", Holds::Stamp));
    if let (Some(first), Some(last)) = (calendar.buckets.first(), calendar.buckets.last()) {
        table.row(vec![Cell::stamp(calendar.stamp(first.start)), Cell::stamp(calendar.stamp(last.end))]);
    }
    table
}

fn lots(scenario: &Scenario, built: &BuiltProblem, plan: &Plan) -> Table {
    let (calendar, problem) = (&scenario.calendar, &built.problem);
    let mut table = Table::new("lots", "Lots by the clock")
        .faces(Faces::DataOnly)
        .column(Column::text("machine", "machine"))
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("shift", "shift"))
        .column(Column::new("shift_start", "shift begins", Holds::Stamp))
        .column(Column::new("start", "start", Holds::Stamp))
        .column(Column::new("end", "end", Holds::Stamp))
        .column(Column::quantity::<Duration>("setup", "setup").in_unit("min"))
        .column(Column::count("first", "first piece", "piece"))
        .column(Column::count("pieces", "pieces", "pieces"))
        .column(Column::count("good", "good", "pieces"))
        .column(Column::quantity::<Money>("cost", "cost"));
    for lot in &plan.lots {
        let activity = &problem.activities[lot.activity];
        let (item, operation) = built.step_of[activity.step];
        let item = &scenario.shop.items[item];
        let bucket = &calendar.buckets[lot.slot];
        table.row(vec![
            activity.machine.map(|machine| problem.resources[machine].name.as_str()).into(),
            item.key.as_str().into(),
            item.operations[operation].id.to_string().into(),
            calendar.shift_name(bucket).into(),
            Cell::stamp(calendar.stamp(bucket.start)),
            Cell::stamp(calendar.stamp(lot.start)),
            Cell::stamp(calendar.stamp(lot.end)),
            Duration::min(lot.setup).into(),
            lot.first_piece.into(),
            lot.pieces.into(),
            lot.good.into(),
            Money::of(lot_cost(problem, lot)).into(),
        ]);
    }
    table
}

fn shipments(scenario: &Scenario, plan: &Plan) -> Table {
    let mut table = Table::new("shipments", "Shipments")
        .faces(Faces::DataOnly)
        .column(Column::text("order", "order"))
        .column(Column::new("at", "at", Holds::Stamp))
        .column(Column::count("pieces", "pieces", "pieces"));
    for shipment in &plan.shipments {
        table.row(vec![
            scenario.orders[shipment.demand].id.as_str().into(),
            Cell::stamp(scenario.calendar.stamp(shipment.at)),
            shipment.pieces.into(),
        ]);
    }
    table
}

/// The floor when a plan from a moment on began; `scenario` and `built` are those from the start of the plan.
pub(in crate::commands) fn begun(
    scenario: &Scenario,
    built: &BuiltProblem,
    state: &FloorState,
) -> Vec<Section> {
    vec![
        made_before(scenario, built, state).into(),
        shipped_before(scenario, state).into(),
        edges_before(built, state).into(),
        set_up_before(scenario, built, state).into(),
        edges_taken_before(built, state).into(),
    ]
}

fn made_before(scenario: &Scenario, built: &BuiltProblem, state: &FloorState) -> Table {
    let mut table = Table::new("made_before", "Made before this plan begins")
        .remark("Since the start of the calendar; `lying` is what the plan finds there.")
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::count("started", "started", "pieces"))
        .column(Column::count("good", "good", "pieces"))
        .column(Column::count("found", "found", "pieces"))
        .column(Column::count("lying", "lying", "pieces"));
    for (step, (item, operation)) in built.step_of.iter().enumerate() {
        let item = &scenario.shop.items[*item];
        #[expect(clippy::cast_possible_truncation, reason = "counts are far below 2^53")]
        let lying = state.lying(&built.problem, step).max(0.0).round() as i64;
        table.row(vec![
            item.key.as_str().into(),
            item.operations[*operation].id.to_string().into(),
            state.started[step].into(),
            state.good[step].into(),
            state.found[step].into(),
            lying.into(),
        ]);
    }
    table
}

fn shipped_before(scenario: &Scenario, state: &FloorState) -> Table {
    let mut table = Table::new("shipped_before", "Shipped before this plan begins")
        .faces(Faces::DataOnly)
        .column(Column::text("order", "order"))
        .column(Column::count("pieces", "pieces", "pieces"));
    for (order, pieces) in scenario.orders.iter().zip(&state.shipped) {
        table.row(vec![order.id.as_str().into(), (*pieces).into()]);
    }
    table
}

fn edges_before(built: &BuiltProblem, state: &FloorState) -> Table {
    let mut table = Table::new("edges_before", "Edges when this plan begins")
        .faces(Faces::DataOnly)
        .column(Column::text("machine", "machine"))
        .column(Column::text("tool", "tool"))
        .column(Column::text("position", "position"))
        .column(Column::new("worn", "worn", Holds::Share));
    for (point, worn) in built.problem.points.iter().zip(&state.worn) {
        table.row(vec![
            built.problem.resources[point.resource].name.as_str().into(),
            point.name.split(" at ").next().into(),
            point.name.split_once(" at ").map(|(_, place)| place).into(),
            Cell::share(*worn),
        ]);
    }
    table
}

fn set_up_before(scenario: &Scenario, built: &BuiltProblem, state: &FloorState) -> Table {
    let mut table = Table::new("set_up_before", "Set-ups when this plan begins")
        .faces(Faces::DataOnly)
        .column(Column::text("machine", "machine"))
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::count("running", "still to be made", "pieces"));
    for (resource, set_up) in built.problem.resources.iter().zip(&state.set_up) {
        let Some(activity) = *set_up else { continue };
        let (item, operation) = built.step_of[built.problem.activities[activity].step];
        let item = &scenario.shop.items[item];
        let running = state.running.iter().find(|running| running.activity == activity);
        table.row(vec![
            resource.name.as_str().into(),
            item.key.as_str().into(),
            item.operations[operation].id.to_string().into(),
            running.map_or(0, |running| running.pieces).into(),
        ]);
    }
    table
}

fn edges_taken_before(built: &BuiltProblem, state: &FloorState) -> Table {
    let mut table = Table::new("edges_taken_before", "Edges taken before this plan begins")
        .faces(Faces::DataOnly)
        .column(Column::text("tool", "tool"))
        .column(Column::count("taken", "taken", "edges"));
    for (stock, taken) in built.problem.edge_stocks.iter().zip(&state.taken) {
        table.row(vec![stock.name.as_str().into(), (*taken).into()]);
    }
    table
}
