//! What a plan does otherwise than the last one, from now on.

use super::last::LastPlan;
use super::stage::Stage;
use crate::commands::tables::{ChangedEdge, ChangedLot, ChangedOrder, ChangedPlan, lot_cost};
use crate::plant::Calendar;
use crate::schedule::Plan;
use std::collections::BTreeMap;

/// Everything that differs.
pub(in crate::commands) fn changed(
    stage: &Stage,
    last: &LastPlan,
    whole: &Calendar,
    plan: &Plan,
) -> ChangedPlan {
    let from = stage.state.as_ref().map_or(last.from, |state| state.now);
    let (before, after) = money(stage, last, from, plan);
    ChangedPlan {
        orders: orders(stage, last, plan),
        lots: lots(stage, last, (from, whole), plan),
        edges: edges(stage, last, (from, whole), plan),
        money: (before, after),
        unknown: last.unknown.clone(),
    }
}

/// Orders that finish at another time, are late otherwise, or are new or gone. Those shipped in full are no matter any more.
fn orders(stage: &Stage, last: &LastPlan, plan: &Plan) -> Vec<ChangedOrder> {
    let mut changed = Vec::new();
    for (id, order) in stage.scenario.orders.iter().enumerate() {
        let finish = plan.finish(&stage.built.problem, id);
        let after = (
            finish.map(|at| stage.scenario.calendar.stamp(at)),
            finish.map(|at| seconds((at - order.due).max(0)) / 3600.0),
        );
        let before = last.orders.iter().find(|before| before.id == order.id);
        let before = before.map_or((None, None), |before| (before.finish.clone(), before.late));
        let late = |late: Option<f64>| late.unwrap_or(f64::INFINITY);
        let same_late = before.1 == after.1 || (late(before.1) - late(after.1)).abs() < 0.02;
        if before.0 != after.0 || !same_late {
            changed.push(ChangedOrder { order: order.id.clone(), before, after });
        }
    }
    changed
}

/// Where a shift begins and what it is called.
type Shift = (i64, String);

/// A machine in a shift.
type Turn = (Shift, String);

/// Name of the shift that a moment falls into, with where it begins so that shifts can be ordered.
fn shift(calendar: &Calendar, at: i64) -> Shift {
    match calendar.buckets.iter().find(|bucket| bucket.start <= at && at < bucket.end) {
        Some(bucket) => {
            let name = format!("{} {}", calendar.day_name(bucket.day), calendar.shift_name(bucket));
            (bucket.start, name)
        }
        None => (at, calendar.stamp(at)),
    }
}

/// Pieces by shift, machine and operation that differ.
fn lots(stage: &Stage, last: &LastPlan, (from, whole): (i64, &Calendar), plan: &Plan) -> Vec<ChangedLot> {
    let mut pieces: BTreeMap<(Turn, String, String), (u32, u32)> = BTreeMap::new();
    for of in &last.lots {
        let left = of.lot.pieces - of.lot.made_by(&stage.whole.problem, from);
        if left > 0 && of.lot.end > from {
            let shift = shift(whole, of.lot.start.max(from));
            let key = ((shift, of.machine.clone()), of.item.clone(), of.operation.clone());
            pieces.entry(key).or_default().0 += left;
        }
    }
    let problem = &stage.built.problem;
    for lot in &plan.lots {
        let activity = &problem.activities[lot.activity];
        let (item, operation) = stage.built.step_of[activity.step];
        let item = &stage.scenario.shop.items[item];
        let machine = activity.machine.map_or_else(String::new, |id| problem.resources[id].name.clone());
        let operation = item.operations[operation].id.to_string();
        let key = ((shift(whole, lot.start), machine), item.key.clone(), operation);
        pieces.entry(key).or_default().1 += lot.pieces;
    }
    let differs = pieces.into_iter().filter(|(_, (before, after))| before != after);
    differs
        .map(|((((_, shift), machine), item, operation), (before, after))| ChangedLot {
            shift,
            machine,
            item,
            operation,
            before,
            after,
        })
        .collect()
}

/// Edges changed at other times, by shift and machine.
fn edges(stage: &Stage, last: &LastPlan, (from, whole): (i64, &Calendar), plan: &Plan) -> Vec<ChangedEdge> {
    let mut times: BTreeMap<(Turn, String), (Vec<i64>, Vec<i64>)> = BTreeMap::new();
    // Reports tell minutes.
    let minute = |at: i64| at - at.rem_euclid(60);
    for change in last.changes.iter().filter(|change| change.at >= minute(from)) {
        let key = ((shift(whole, change.at), change.machine.clone()), change.edge.clone());
        times.entry(key).or_default().0.push(change.at);
    }
    let problem = &stage.built.problem;
    for change in &plan.changes {
        let point = &problem.points[change.point];
        let machine = problem.resources[point.resource].name.clone();
        let key = ((shift(whole, change.at), machine), point.name.clone());
        times.entry(key).or_default().1.push(minute(change.at));
    }
    for (before, after) in times.values_mut() {
        before.sort_unstable();
        after.sort_unstable();
    }
    let clock = |times: &[i64]| times.iter().map(|at| whole.clock(*at)).collect::<Vec<_>>().join(", ");
    let differs = times.into_iter().filter(|(_, (before, after))| before != after);
    differs
        .map(|((((_, shift), machine), edge), (before, after))| ChangedEdge {
            shift,
            machine,
            edge,
            before: clock(&before),
            after: clock(&after),
        })
        .collect()
}

/// Money of the work from now on, before and after.
fn money(stage: &Stage, last: &LastPlan, from: i64, plan: &Plan) -> (f64, f64) {
    let before = last.lots.iter().map(|of| {
        let made = of.lot.made_by(&stage.whole.problem, from);
        of.cost * f64::from(of.lot.pieces - made) / f64::from(of.lot.pieces.max(1))
    });
    let after = plan.lots.iter().map(|lot| lot_cost(&stage.built.problem, lot));
    (before.sum(), after.sum())
}

fn seconds(seconds: i64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a horizon has far fewer than 2^52 seconds")]
    let seconds = seconds as f64;
    seconds
}
