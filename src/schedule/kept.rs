//! An earlier plan taken as having been kept up to a moment: what it has made, shipped and worn by then, and what runs.

use super::now::{FloorState, f64_of, open_seconds};
use super::problem::{Problem, ResourceKind, Running};

/// A lot of an earlier plan. What the problem of today does not know any more is `None`.
#[derive(Debug, Clone, PartialEq)]
pub struct PastLot {
    /// The step it made.
    pub step: usize,
    /// The machine.
    pub machine: Option<usize>,
    /// The activity.
    pub activity: Option<usize>,
    /// When the machine turned to it, seconds from the start of the plan.
    pub start: i64,
    /// When its last piece left.
    pub end: i64,
    /// Minutes of setup at its start.
    pub setup: f64,
    /// Number of its first piece, as that plan counted.
    pub first_piece: u32,
    /// Pieces started.
    pub pieces: u32,
    /// Good pieces among them.
    pub good: u32,
}

/// A change of an edge in an earlier plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PastChange {
    /// The edge place.
    pub point: usize,
    /// The activity during which it was to happen.
    pub activity: usize,
    /// When.
    pub at: i64,
    /// Before which piece, as that plan counted.
    pub before_piece: u32,
}

/// Pieces shipped in an earlier plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PastShipment {
    /// The demand.
    pub demand: usize,
    /// When.
    pub at: i64,
    /// Pieces.
    pub pieces: u32,
}

/// An earlier plan.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PastPlan {
    /// The floor when it began.
    pub begun: FloorState,
    /// Its lots, in order of time on each machine.
    pub lots: Vec<PastLot>,
    /// Its changes of edges.
    pub changes: Vec<PastChange>,
    /// Its shipments.
    pub shipments: Vec<PastShipment>,
}

/// How far a lot has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stage {
    Ahead,
    Setting,
    Running,
    Over,
}

impl PastLot {
    /// Pieces made by a moment if the plan is kept: in proportion to the open time after the setup, in whole loads.
    #[must_use]
    pub fn made_by(&self, problem: &Problem, now: i64) -> u32 {
        match self.stage(problem, now) {
            Stage::Over => self.pieces,
            Stage::Running if self.is_outside(problem) => 0,
            Stage::Ahead | Stage::Setting => 0,
            Stage::Running => {
                let setting = self.setting(problem);
                let work = (f64_of(self.open(problem, self.end)) - setting).max(1.0);
                let share = (f64_of(self.open(problem, now)) - setting) / work;
                let load = self.activity.map_or(1, |activity| problem.activities[activity].load.max(1));
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "a share of a u32"
                )]
                let pieces = (f64::from(self.pieces) * share.clamp(0.0, 1.0) + 1e-9).floor() as u32;
                pieces - pieces % load
            }
        }
    }

    fn is_outside(&self, problem: &Problem) -> bool {
        self.machine.is_some_and(|machine| problem.resources[machine].kind == ResourceKind::Outside)
    }

    fn stage(&self, problem: &Problem, now: i64) -> Stage {
        if self.end <= now {
            Stage::Over
        } else if now < self.start {
            Stage::Ahead
        } else if f64_of(self.open(problem, now)) + 1e-9 < self.setting(problem) {
            Stage::Setting
        } else {
            Stage::Running
        }
    }

    /// Seconds of open time that the setup takes: minutes spread over the windows of the slot.
    fn setting(&self, problem: &Problem) -> f64 {
        let slot = problem.slots.iter().position(|slot| slot.start <= self.start && self.start < slot.end);
        let paced = self.machine.zip(slot).and_then(|(machine, slot)| {
            let of = &problem.resources[machine];
            let minutes = of.minutes[slot];
            (minutes > 0.0).then(|| f64_of(open_seconds(&of.windows[slot])) / minutes)
        });
        self.setup * paced.unwrap_or(60.0)
    }

    /// Open seconds of its machine from its start to a moment; by the bare clock if the machine has no windows there.
    fn open(&self, problem: &Problem, to: i64) -> i64 {
        let windows = self.machine.map_or(&[][..], |machine| &problem.resources[machine].windows);
        let open = |to: i64| -> i64 {
            let windows = windows.iter().flatten();
            windows.map(|(from, until)| (to.min(*until) - self.start.max(*from)).max(0)).sum()
        };
        if open(self.end) > 0 { open(to) } else { to - self.start }
    }

    /// Good pieces among so many of it.
    fn good_among(&self, pieces: u32) -> u32 {
        let good = u64::from(self.good) * u64::from(pieces) / u64::from(self.pieces.max(1));
        u32::try_from(good).unwrap_or(u32::MAX)
    }
}

/// The floor at a moment if an earlier plan was kept up to it.
///
/// A setup that is not finished counts as not begun. Pieces at a firm outside count as not sent
/// until they are back.
#[must_use]
pub fn kept_until(problem: &Problem, past: &PastPlan, now: i64) -> FloorState {
    let mut state = FloorState { now, ..past.begun.clone() };
    // Work that went on when that plan began is in its lots.
    state.running.clear();
    let mut made = vec![0; problem.activities.len()];
    let mut pieces_of = vec![0; past.lots.len()];
    for (id, lot) in past.lots.iter().enumerate() {
        let pieces = lot.made_by(problem, now);
        pieces_of[id] = pieces;
        state.started[lot.step] += pieces;
        state.good[lot.step] += lot.good_among(pieces);
        if let Some(activity) = lot.activity.filter(|_| pieces > 0) {
            made[activity] = lot.first_piece + pieces - 1;
        }
        let Some(machine) = lot.machine.filter(|_| !lot.is_outside(problem)) else { continue };
        let before = state.set_up[machine];
        match lot.stage(problem, now) {
            Stage::Over => state.set_up[machine] = lot.activity,
            Stage::Setting if lot.start < now => state.set_up[machine] = None,
            Stage::Running if lot.start < now || (lot.setup <= 0.0 && before == lot.activity) => {
                state.set_up[machine] = lot.activity;
                let left = lot.pieces - pieces;
                state.running.extend(lot.activity.map(|activity| Running { activity, pieces: left }));
            }
            Stage::Setting | Stage::Running | Stage::Ahead => {}
        }
    }
    for shipment in past.shipments.iter().filter(|shipment| shipment.at <= now) {
        state.shipped[shipment.demand] += shipment.pieces;
    }
    for point in 0..problem.points.len() {
        let begun = past.begun.worn[point];
        state.worn[point] = worn(problem, past, (point, begun), (&made, &pieces_of));
    }
    for change in past.changes.iter().filter(|change| change.before_piece <= made[change.activity]) {
        let point = &problem.points[change.point];
        if let Some(stock) = point.stock {
            state.taken[stock] += i64::from(point.edges);
        }
    }
    state
}

/// Share of an edge that is worn: the pieces made since its last change, or since the plan began.
fn worn(problem: &Problem, past: &PastPlan, edge: (usize, f64), by_now: (&[u32], &[u32])) -> f64 {
    let (point, begun) = edge;
    let (made, pieces_of) = by_now;
    let share = |activity: usize| {
        problem.activities[activity].wear.iter().find(|wear| wear.point == point).map(|wear| wear.share)
    };
    let changes = past.changes.iter().filter(|change| change.point == point);
    let last = changes
        .filter(|change| change.before_piece <= made[change.activity])
        .max_by_key(|change| (change.at, change.before_piece));
    let mut worn = if last.is_some() { 0.0 } else { begun };
    for (lot, pieces) in past.lots.iter().zip(pieces_of) {
        let Some((share, activity)) = lot.activity.and_then(|activity| Some((share(activity)?, activity)))
        else {
            continue;
        };
        let counted = match last {
            None => *pieces,
            Some(change) if change.activity == activity => {
                (lot.first_piece + pieces).saturating_sub(change.before_piece.max(lot.first_piece))
            }
            Some(change) if lot.start >= change.at => *pieces,
            Some(_) => 0,
        };
        worn += share * f64::from(counted);
    }
    worn.min(1.0)
}

#[cfg(test)]
mod tests {
    use super::{PastChange, PastLot, PastPlan, PastShipment, kept_until};
    use crate::schedule::{
        Activity, Demand, FloorState, Problem, Resource, Running, Slot, Step, Wear, WearPoint,
    };

    /// A machine of availability 1/2 with one step, an edge of 40 pieces.
    fn problem() -> Problem {
        Problem {
            slots: vec![Slot { start: 0, end: 7200 }, Slot { start: 7200, end: 14_400 }],
            resources: vec![Resource {
                minutes: vec![60.0, 60.0],
                cost: vec![1.0; 2],
                windows: vec![vec![(0, 7200)], vec![(7200, 14_400)]],
                ..Resource::default()
            }],
            steps: vec![Step { good: 0.5, ..Step::default() }],
            activities: vec![Activity {
                machine: Some(0),
                uses: vec![(0, 1.0)],
                run: 1.0,
                load: 1,
                wear: vec![Wear { point: 0, share: 1.0 / 40.0 }],
                ..Activity::default()
            }],
            points: vec![WearPoint::default()],
            demands: vec![Demand { quantity: 40.0, ..Demand::default() }],
            ..Problem::default()
        }
    }

    fn lot(start: i64, end: i64, setup: f64, first_piece: u32, pieces: u32) -> PastLot {
        let good = pieces / 2;
        PastLot { step: 0, machine: Some(0), activity: Some(0), start, end, setup, first_piece, pieces, good }
    }

    fn past() -> PastPlan {
        PastPlan {
            begun: FloorState { worn: vec![0.5], ..FloorState::at_start(&problem()) },
            lots: vec![lot(0, 7200, 10.0, 1, 50), lot(7200, 12_000, 0.0, 51, 40)],
            changes: vec![PastChange { point: 0, activity: 0, at: 3600, before_piece: 21 }],
            shipments: vec![PastShipment { demand: 0, at: 7200, pieces: 25 }],
        }
    }

    #[test]
    fn pieces_count_in_proportion_once_the_setup_is_over() {
        let problem = problem();
        // The setup takes 10 of 60 min: 1200 s by the clock.
        let setting = kept_until(&problem, &past(), 600);
        assert_eq!((setting.started[0], setting.set_up[0], setting.running.len()), (0, None, 0));
        let under_way = kept_until(&problem, &past(), 3600);
        assert_eq!((under_way.started[0], under_way.good[0]), (20, 10));
        assert_eq!(under_way.running, [Running { activity: 0, pieces: 30 }]);
        assert!((under_way.worn[0] - 1.0).abs() < 1e-9, "half worn, and 20 of 40 more");
        assert_eq!(under_way.shipped, [0]);
    }

    #[test]
    fn an_edge_is_worn_by_the_pieces_since_its_change() {
        let state = kept_until(&problem(), &past(), 7200);
        assert_eq!((state.started[0], state.good[0], state.shipped[0]), (50, 25, 25));
        assert!((state.worn[0] - 30.0 / 40.0).abs() < 1e-9, "{:?}", state.worn);
        // The next lot begins at this very moment, and its machine stands set up for it.
        assert_eq!(
            (state.set_up[0], &state.running[..]),
            (Some(0), &[Running { activity: 0, pieces: 40 }][..])
        );
    }

    #[test]
    fn pieces_of_a_machine_that_is_gone_were_made_all_the_same() {
        let mut past = past();
        (past.lots[0].machine, past.lots[0].activity) = (None, None);
        past.changes.clear();
        let state = kept_until(&problem(), &past, 7200);
        assert_eq!((state.started[0], state.set_up[0]), (50, None));
        assert!((state.worn[0] - 0.5).abs() < 1e-9);
    }
}
