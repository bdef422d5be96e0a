//! The plan as it is read: lots in order of time on each machine, the changes of each lot, when each piece starts and is done.

use super::super::plan::{Change, Lot, Plan, Standing};
use super::super::problem::{Activity, Problem, ResourceKind};
use super::clock::Clock;

/// A plan and what follows from it.
pub(super) struct Sheet<'a> {
    pub(super) problem: &'a Problem,
    pub(super) plan: &'a Plan,
    /// Lots of each resource in order of time.
    pub(super) rows: Vec<Vec<usize>>,
    /// Each lot piece by piece.
    pub(super) courses: Vec<Course<'a>>,
}

/// How a lot runs.
pub(super) struct Course<'a> {
    pub(super) lot: &'a Lot,
    pub(super) activity: &'a Activity,
    /// The machine, or the firm outside.
    pub(super) machine: usize,
    pub(super) outside: bool,
    pub(super) clock: Clock<'a>,
    /// Its changes in order of their pieces.
    pub(super) changes: Vec<&'a Change>,
    stops: Vec<Stop>,
}

/// All changes before one piece.
struct Stop {
    piece: u32,
    /// Loads done before it.
    loads: u32,
    /// Minutes for setup and earlier changes.
    before: f64,
    /// The same with these changes.
    after: f64,
}

impl<'a> Sheet<'a> {
    pub(super) fn read(problem: &'a Problem, plan: &'a Plan) -> Self {
        let mut changes: Vec<Vec<&Change>> = vec![Vec::new(); plan.lots.len()];
        for change in &plan.changes {
            changes[change.lot].push(change);
        }
        let mut rows: Vec<Vec<usize>> = vec![Vec::new(); problem.resources.len()];
        let mut courses = Vec::with_capacity(plan.lots.len());
        for (id, (lot, changes)) in plan.lots.iter().zip(changes).enumerate() {
            let activity = &problem.activities[lot.activity];
            // Lots without a machine are refused before.
            let machine = activity.machine.unwrap_or(0);
            rows[machine].push(id);
            courses.push(Course::of(problem, (lot, machine), changes));
        }
        for row in &mut rows {
            row.sort_by_key(|id| (plan.lots[*id].start, plan.lots[*id].end, *id));
        }
        Self { problem, plan, rows, courses }
    }

    /// Courses of a machine in order of time.
    pub(super) fn row(&self, machine: usize) -> impl Iterator<Item = &Course<'a>> {
        self.rows[machine].iter().map(|id| &self.courses[*id])
    }

    /// Name of the machine or firm of a lot.
    pub(super) fn on(&self, course: &Course<'_>) -> &'a str {
        &self.problem.resources[course.machine].name
    }

    /// Name of the step of a lot.
    pub(super) fn makes(&self, course: &Course<'_>) -> &'a str {
        &self.problem.steps[course.activity.step].name
    }
}

impl<'a> Course<'a> {
    fn of(problem: &'a Problem, at: (&'a Lot, usize), mut changes: Vec<&'a Change>) -> Self {
        let (lot, machine) = at;
        let activity = &problem.activities[lot.activity];
        changes.sort_by_key(|change| change.before_piece);
        let mut stops: Vec<Stop> = Vec::new();
        let mut standing = lot.setup;
        for group in changes.chunk_by(|one, other| one.before_piece == other.before_piece) {
            let piece = group[0].before_piece;
            let before = standing;
            standing += minutes(problem, group);
            let loads = (piece - lot.first_piece).div_ceil(activity.load.max(1));
            stops.push(Stop { piece, loads, before, after: standing });
        }
        Self {
            lot,
            activity,
            machine,
            outside: problem.resources[machine].kind == ResourceKind::Outside,
            clock: Clock::of(problem, machine, lot.slot),
            changes,
            stops,
        }
    }

    /// Minutes from the start of the lot until a load starts; loads are counted from 0.
    fn load_starts(&self, load: u32) -> f64 {
        let made = self.stops.partition_point(|stop| stop.loads <= load);
        let standing = if made == 0 { self.lot.setup } else { self.stops[made - 1].after };
        standing + self.run(load)
    }

    /// Minutes that the machine runs for so many loads; one that is not full takes as long as a full one.
    fn run(&self, loads: u32) -> f64 {
        f64::from(loads) * f64::from(self.activity.load.max(1)) * self.activity.run
    }

    /// Minutes of the lot: setup, loads, changes.
    pub(super) fn minutes(&self) -> f64 {
        let standing = self.stops.last().map_or(self.lot.setup, |stop| stop.after);
        standing + self.run(self.lot.pieces.div_ceil(self.activity.load.max(1)))
    }

    /// Working seconds of the slot at a minute of the lot.
    pub(super) fn worked(&self, minutes: f64) -> f64 {
        self.clock.worked(self.lot.start) + minutes * self.clock.pace
    }

    /// Working seconds of the slot when the machine comes to the changes before a piece.
    pub(super) fn stop(&self, piece: u32) -> f64 {
        let stop = self.stops.iter().find(|stop| stop.piece == piece);
        self.worked(stop.map_or(0.0, |stop| stop.before + self.run(stop.loads)))
    }

    /// Latest time at which a load may start.
    pub(super) fn starts(&self, load: u32) -> f64 {
        if self.outside {
            super::clock::f64_of(self.lot.start)
        } else {
            self.clock.begun(self.worked(self.load_starts(load)))
        }
    }

    /// Soonest time by which the first so many pieces may be done: the start of the lot is rounded up to a second.
    pub(super) fn done(&self, pieces: u32) -> f64 {
        if self.outside {
            return super::clock::f64_of(self.lot.end);
        }
        let load = pieces.div_ceil(self.activity.load.max(1)).saturating_sub(1);
        self.clock.ended(self.worked(self.load_starts(load) + self.run(1)) - 1.0)
    }

    /// Good pieces among the first so many of the lot.
    pub(super) fn good(&self, pieces: u32) -> f64 {
        (f64::from(self.lot.good) * f64::from(pieces) / f64::from(self.lot.pieces) + 1e-9).floor()
    }
}

/// Minutes that the machine stands for changes before the same piece: the stop counts once, and not at all if it stands anyway.
fn minutes(problem: &Problem, group: &[&Change]) -> f64 {
    let points = || group.iter().map(|change| &problem.points[change.point]);
    let apart: f64 = points().map(|point| point.change - point.stop).sum();
    let stopped = group.iter().filter(|change| change.standing == Standing::Stopped);
    apart + stopped.map(|change| problem.points[change.point].stop).fold(0.0, f64::max)
}
