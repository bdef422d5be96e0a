//! The shift board, and tool changes by the clock.

use crate::quantity::Duration;
use crate::report::{Cell, Column, Faces, Holds, Section, Table};
use crate::schedule::{BuiltProblem, Change, Plan, ResourceKind, Scenario, Standing};

/// The board: for people a table for each day with the shifts beside each other, for data a row for each lot.
pub(in crate::commands) fn board(scenario: &Scenario, built: &BuiltProblem, plan: &Plan) -> Vec<Section> {
    let mut sections: Vec<Section> =
        days(scenario).into_iter().map(|day| board_of(scenario, built, plan, day).into()).collect();
    sections.push(lots(scenario, built, plan).into());
    sections
}

fn days(scenario: &Scenario) -> Vec<usize> {
    let mut days: Vec<usize> = scenario.calendar.buckets.iter().map(|bucket| bucket.day).collect();
    days.dedup();
    days
}

fn board_of(scenario: &Scenario, built: &BuiltProblem, plan: &Plan, day: usize) -> Table {
    let calendar = &scenario.calendar;
    let slots: Vec<usize> =
        (0..calendar.buckets.len()).filter(|slot| calendar.buckets[*slot].day == day).collect();
    let mut table = Table::new("board", format!("Board of {}", calendar.day_name(day)))
        .faces(Faces::TextOnly)
        .remark("Pieces started; in brackets the share of the open minutes used, setups and tool changes included.")
        .column(Column::text("machine", "machine"));
    for (at, slot) in slots.iter().enumerate() {
        // Keys of a table for people only need to differ.
        let key =
            ["first", "second", "third", "fourth", "fifth", "sixth"].get(at).copied().unwrap_or("later");
        let bucket = &calendar.buckets[*slot];
        let hours = format!("{} from {}", calendar.shift_name(bucket), calendar.clock(bucket.start));
        table = table.column(Column::prose(key, hours));
    }
    for (id, resource) in built.problem.resources.iter().enumerate() {
        if resource.kind != ResourceKind::Machine {
            continue;
        }
        let mut row: Vec<Cell> = vec![resource.name.as_str().into()];
        row.extend(slots.iter().map(|slot| shift_cell(built, plan, id, *slot)));
        table.row(row);
    }
    table
}

/// `drive-shaft 10: 412 | 96 %`.
fn shift_cell(built: &BuiltProblem, plan: &Plan, machine: usize, slot: usize) -> Cell {
    let problem = &built.problem;
    let open = problem.resources[machine].minutes[slot];
    if open <= 0.0 {
        return "closed".into();
    }
    let lots: Vec<String> = plan
        .lots
        .iter()
        .filter(|lot| lot.slot == slot && problem.activities[lot.activity].machine == Some(machine))
        .map(|lot| format!("{}: {}", problem.steps[problem.activities[lot.activity].step].name, lot.pieces))
        .collect();
    if lots.is_empty() {
        let attended = problem.activities.iter().filter(|activity| activity.machine == Some(machine));
        let mut crews = attended
            .flat_map(|activity| &activity.uses)
            .filter(|(of, minutes)| problem.resources[*of].kind == ResourceKind::Crew && *minutes > 0.0);
        let unmanned = crews.any(|(crew, _)| problem.resources[*crew].minutes[slot] <= 0.0);
        return if unmanned { "no crew".into() } else { Cell::Missing };
    }
    let used = plan.minutes_used(problem, machine, slot) / open * 100.0;
    format!("{} ({used:.0} %)", lots.join(", ")).into()
}

fn lots(scenario: &Scenario, built: &BuiltProblem, plan: &Plan) -> Table {
    let calendar = &scenario.calendar;
    let problem = &built.problem;
    let mut table = Table::new("board", "Board, lot by lot")
        .faces(Faces::DataOnly)
        .column(Column::text("shift", "shift"))
        .column(Column::text("machine", "machine"))
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::new("start", "start", Holds::Stamp))
        .column(Column::new("end", "end", Holds::Stamp))
        .column(Column::quantity::<Duration>("setup", "setup").in_unit("min"))
        .column(Column::count("first", "first piece", "piece"))
        .column(Column::count("started", "started", "pieces"))
        .column(Column::count("good", "good", "pieces"))
        .column(Column::quantity::<Duration>("running", "running").in_unit("min"))
        .column(Column::quantity::<Duration>("tool_changes", "tool changes").in_unit("min"))
        .column(Column::quantity::<Duration>("attended", "attended").in_unit("min"));
    for (id, lot) in plan.lots.iter().enumerate() {
        let changing = plan.changing(problem, id);
        let activity = &problem.activities[lot.activity];
        let (item, operation) = built.step_of[activity.step];
        let item = &scenario.shop.items[item];
        let pieces = f64::from(lot.pieces);
        let attended: f64 = activity
            .uses
            .iter()
            .filter(|(resource, _)| problem.resources[*resource].kind == ResourceKind::Crew)
            .map(|(_, minutes)| minutes * pieces)
            .sum();
        table.row(vec![
            calendar.shift_name(&calendar.buckets[lot.slot]).into(),
            activity.machine.map(|machine| problem.resources[machine].name.as_str()).into(),
            item.key.as_str().into(),
            item.operations[operation].id.to_string().into(),
            Cell::stamp(calendar.stamp(lot.start)),
            Cell::stamp(calendar.stamp(lot.end)),
            Duration::min(lot.setup).into(),
            lot.first_piece.into(),
            lot.pieces.into(),
            lot.good.into(),
            Duration::min(activity.running(lot.pieces)).into(),
            Duration::min(changing).into(),
            Duration::min(attended).into(),
        ]);
    }
    table
}

/// When each edge comes out: for people by machine and shift, for data one by one.
pub(in crate::commands) fn changes(scenario: &Scenario, built: &BuiltProblem, plan: &Plan) -> Vec<Section> {
    let calendar = &scenario.calendar;
    let problem = &built.problem;
    let mut people = Table::new("tool_changes", "Tool changes by the clock")
        .faces(Faces::TextOnly)
        .remark("Each edge comes out before the piece named in brackets, counted for that operation on that machine from the start of the plan.")
        .column(Column::text("machine", "machine"))
        .column(Column::text("shift", "shift"))
        .column(Column::prose("changes", "changes"));
    let mut data = Table::new("tool_changes", "Tool changes, one by one")
        .faces(Faces::DataOnly)
        .column(Column::text("machine", "machine"))
        .column(Column::text("tool", "tool"))
        .column(Column::text("position", "position"))
        .column(Column::text("shift", "shift"))
        .column(Column::new("at", "at", Holds::Stamp))
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::count("before", "before piece", "piece"))
        .column(Column::text("machine_stands", "machine"))
        .column(Column::new("planned_used", "of its pieces", Holds::Share));
    for (id, resource) in problem.resources.iter().enumerate() {
        for (slot, bucket) in calendar.buckets.iter().enumerate() {
            let mut due: Vec<_> = plan
                .changes
                .iter()
                .filter(|change| {
                    problem.points[change.point].resource == id && plan.lots[change.lot].slot == slot
                })
                .collect();
            due.sort_by_key(|change| (change.at, change.point));
            for change in &due {
                data.row(change_cells(scenario, built, plan, change));
            }
            if !due.is_empty() {
                let shift = format!("{} {}", calendar.day_name(bucket.day), calendar.shift_name(bucket));
                let list: Vec<String> = due
                    .iter()
                    .map(|change| {
                        let name = &problem.points[change.point].name;
                        let step = problem.activities[plan.lots[change.lot].activity].step;
                        let item = &scenario.shop.items[built.step_of[step].0].key;
                        format!("{} {name} ({item} {})", calendar.clock(change.at), change.before_piece)
                    })
                    .collect();
                people.row(vec![resource.name.as_str().into(), shift.into(), list.join("; ").into()]);
            }
        }
    }
    vec![people.into(), data.into()]
}

/// One change as a row for data.
fn change_cells(scenario: &Scenario, built: &BuiltProblem, plan: &Plan, change: &Change) -> Vec<Cell> {
    let (calendar, problem) = (&scenario.calendar, &built.problem);
    let lot = &plan.lots[change.lot];
    let (item, operation) = built.step_of[problem.activities[lot.activity].step];
    let item = &scenario.shop.items[item];
    let point = &problem.points[change.point];
    vec![
        problem.resources[point.resource].name.as_str().into(),
        point.name.split(" at ").next().into(),
        point.name.split_once(" at ").map(|(_, place)| place).into(),
        calendar.shift_name(&calendar.buckets[lot.slot]).into(),
        Cell::stamp(calendar.stamp(change.at)),
        item.key.as_str().into(),
        item.operations[operation].id.to_string().into(),
        change.before_piece.into(),
        match change.standing {
            Standing::Stopped => "is stopped",
            Standing::Anyway => "stands anyway",
        }
        .into(),
        Cell::share(change.worn),
    ]
}
