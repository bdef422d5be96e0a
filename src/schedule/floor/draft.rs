//! How many pieces of a lot fit into what is left of a shift, and before which of them edges are changed.
//!
//! An edge comes out before the piece that would outlive it. While the machine stands anyway - after a setup, when a break
//! begins, at the start of a shift after a time without work - an edge that would not last until the next such time comes out
//! early if what it could still have made is worth no more than a stop of its own.

use super::super::plan::Standing;
use super::super::problem::{Activity, Problem};
use super::shift::{Floor, whole};

/// A lot as far as it has been thought through.
pub(super) struct Draft {
    pub(super) setup: f64,
    pub(super) pieces: u32,
    pub(super) minutes: f64,
    pub(super) changes: Vec<Drafted>,
    pub(super) wear: Vec<f64>,
    /// Loads made before each stop for changes, and minutes for setup and changes until it ends.
    stops: Vec<(u32, f64)>,
}

impl Draft {
    /// Minutes from the start of the lot at which so many loads are done and the next can start.
    pub(super) fn after(&self, loads: u32, of: &Activity) -> f64 {
        let made = |stop: &&(u32, f64)| stop.0 <= loads;
        let standing = self.stops.iter().rev().find(made).map_or(self.setup, |stop| stop.1);
        standing + f64::from(loads) * f64::from(of.load.max(1)) * of.run
    }

    /// Minutes from the start of the lot at which its first so many pieces are done.
    pub(super) fn done(&self, pieces: u32, of: &Activity) -> f64 {
        let load = of.load.max(1);
        let before = pieces.div_ceil(load).saturating_sub(1);
        self.after(before, of) + f64::from(load) * of.run
    }
}

/// A change within a lot.
pub(super) struct Drafted {
    pub(super) point: usize,
    /// Minutes from the start of the lot.
    pub(super) minutes: f64,
    /// Pieces of the lot made before.
    pub(super) pieces: u32,
    pub(super) worn: f64,
    pub(super) standing: Standing,
}

/// What is left of a shift on a machine.
#[derive(Clone, Copy)]
pub(super) struct Shift {
    pub(super) slot: usize,
    /// Minutes used before.
    pub(super) used: f64,
    /// Minutes left.
    pub(super) open: f64,
}

impl Floor<'_> {
    /// How many pieces fit, and when edges are changed among them.
    pub(super) fn draft(&self, activity: usize, most: u32, setup: f64, shift: Shift) -> Draft {
        let of = &self.problem.activities[activity];
        let rests = self.rests(of, shift.slot);
        let mut draft = Draft {
            setup,
            pieces: 0,
            minutes: setup,
            changes: Vec::new(),
            wear: self.wear.clone(),
            stops: Vec::new(),
        };
        let mut edges = self.edges.clone();
        let mut standing = setup;
        while draft.pieces < most {
            let at = shift.used + standing + of.running(draft.pieces);
            let next = next_rest(&rests, at, of);
            let stands = stands(&rests, at, of) || (setup > 0.0 && draft.pieces == 0);
            let now = if stands { Standing::Anyway } else { Standing::Stopped };
            let lasting = of.whole_loads(whole((next - at) / of.pace().max(1e-9) + 1e-9));
            let ahead = lasting.min(most - draft.pieces);
            let Some(due) = self.due(of, &draft.wear, stands.then_some(ahead), &edges) else { break };
            let change = self.standing_for(&due, now);
            let mut run = of.lasting(&draft.wear, &due).min(most - draft.pieces);
            if next.is_finite() && lasting > 0 {
                run = run.min(lasting);
            }
            run = run.min(of.fitting(shift.open - standing - change).saturating_sub(draft.pieces));
            if run == 0 {
                break;
            }
            for point in due {
                draft.changes.push(Drafted {
                    point,
                    minutes: standing + of.running(draft.pieces),
                    pieces: draft.pieces,
                    worn: draft.wear[point],
                    standing: now,
                });
                draft.wear[point] = 0.0;
                if let Some(stock) = self.problem.points[point].stock {
                    edges[stock] -= self.problem.points[point].edges;
                }
            }
            standing += change;
            if change > 0.0 {
                draft.stops.push((draft.pieces.div_ceil(of.load.max(1)), standing));
            }
            for wear in &of.wear {
                draft.wear[wear.point] += wear.share * f64::from(run);
            }
            draft.pieces += run;
            draft.minutes = standing + of.running(draft.pieces);
        }
        draft
    }

    /// Edges that come out before the next piece: those it would outlive and, while the machine stands, those that are worth
    /// no more than a stop and spare one of the pieces until it stands again. `None`: one must come out and there is no other.
    fn due(&self, of: &Activity, worn: &[f64], until_next: Option<u32>, edges: &[u32]) -> Option<Vec<usize>> {
        let there = |point: usize| {
            let point = &self.problem.points[point];
            point.stock.is_none_or(|stock| edges[stock] >= point.edges)
        };
        let must = |point: usize, share: f64| worn[point] > 0.0 && worn[point] + share > 1.0 + 1e-9;
        let may = |point: usize, share: f64| {
            until_next.is_some_and(|pieces| {
                worn[point] > 0.0
                    && worn[point] >= self.problem.points[point].early
                    && stops(1.0, share, pieces) < stops(1.0 - worn[point], share, pieces)
            })
        };
        let mut due = Vec::new();
        for wear in &of.wear {
            let must = must(wear.point, wear.share);
            if must && !there(wear.point) {
                return None;
            }
            if must || (may(wear.point, wear.share) && there(wear.point)) {
                due.push(wear.point);
            }
        }
        Some(due)
    }

    /// Minutes the machine stands for edges changed before the same piece: the stop counts once, and not at all if the machine
    /// stands anyway.
    fn standing_for(&self, due: &[usize], standing: Standing) -> f64 {
        let points = || due.iter().map(|point| &self.problem.points[*point]);
        let apart: f64 = points().map(|point| point.change - point.stop).sum();
        let stop = points().map(|point| point.stop).fold(0.0, f64::max);
        if standing == Standing::Anyway { apart } else { apart + stop }
    }

    /// Minutes of the shift at which the machine stands anyway; empty where no edge would come out early.
    fn rests(&self, of: &Activity, slot: usize) -> Vec<f64> {
        let Some(machine) = of.machine else { return Vec::new() };
        if of.wear.iter().all(|wear| self.problem.points[wear.point].early > 1.0) {
            return Vec::new();
        }
        rests(self.problem, machine, slot)
    }
}

/// Minutes of a shift at which a machine stands anyway: its start after a time without work, each beginning of a break, and its end
/// where no other shift follows at once.
fn rests(problem: &Problem, machine: usize, slot: usize) -> Vec<f64> {
    let resource = &problem.resources[machine];
    let windows = &resource.windows[slot];
    let Some((first, _)) = windows.first() else { return Vec::new() };
    let before = (0..slot).rev().find(|slot| resource.minutes[*slot] > 0.0);
    let worked_until = before.and_then(|slot| resource.windows[slot].last()).map(|(_, to)| *to);
    let mut rests = Vec::new();
    if worked_until.is_none_or(|to| to < *first) {
        rests.push(0.0);
    }
    let ends = windows.last().map_or(0, |(_, to)| *to);
    let after = (slot + 1..problem.slots.len()).find(|slot| resource.minutes[*slot] > 0.0);
    let goes_on =
        after.and_then(|slot| resource.windows[slot].first()).is_some_and(|(from, _)| *from <= ends);
    let seconds = |window: &(i64, i64)| {
        #[expect(clippy::cast_precision_loss, reason = "a slot has far fewer than 2^52 seconds")]
        let seconds = (window.1 - window.0) as f64;
        seconds
    };
    let open: f64 = windows.iter().map(seconds).sum();
    let mut ahead = 0.0;
    for window in windows.iter().take(windows.len() - 1) {
        ahead += seconds(window);
        rests.push(ahead / open * resource.minutes[slot]);
    }
    if !goes_on {
        rests.push(resource.minutes[slot]);
    }
    rests
}

/// Stops for an edge in so many pieces, if so much of its life is left before the first.
fn stops(left: f64, share: f64, pieces: u32) -> u32 {
    let first = whole(left / share + 1e-9);
    let whole_life = whole(1.0 / share + 1e-9).max(1);
    pieces.saturating_sub(first).div_ceil(whole_life)
}

/// Whether the machine stands before the next load: no further load ends before the rest.
fn stands(rests: &[f64], at: f64, of: &Activity) -> bool {
    rests.iter().any(|rest| at <= rest + 1e-9 && at + of.running(1) > rest + 1e-9)
}

/// The next time at which the machine stands after at least one load; endless if it does not.
fn next_rest(rests: &[f64], at: f64, of: &Activity) -> f64 {
    rests.iter().copied().find(|rest| at + of.running(1) <= rest + 1e-9).unwrap_or(f64::INFINITY)
}

impl Activity {
    /// Pieces until the first edge is worn, with those that are due new.
    fn lasting(&self, worn: &[f64], due: &[usize]) -> u32 {
        let lasting = self.wear.iter().filter(|wear| wear.share > 0.0).map(|wear| {
            let used = if due.contains(&wear.point) { 0.0 } else { worn[wear.point] };
            whole((1.0 - used) / wear.share + 1e-9).max(1)
        });
        lasting.min().unwrap_or(u32::MAX)
    }

    /// Minutes on the machine for a piece with its share of changes and failures.
    fn pace(&self) -> f64 {
        let own = self.uses.iter().find(|(resource, _)| Some(*resource) == self.machine);
        own.map_or(self.run, |(_, minutes)| minutes.max(self.run))
    }

    /// So many pieces, down to whole loads.
    fn whole_loads(&self, pieces: u32) -> u32 {
        pieces - pieces % self.load.max(1)
    }

    /// Pieces, in whole loads, that fit into so many minutes.
    fn fitting(&self, minutes: f64) -> u32 {
        if self.run <= 0.0 {
            return u32::MAX;
        }
        let load = self.load.max(1);
        whole(minutes / (self.run * f64::from(load)) + 1e-9).saturating_mul(load)
    }
}
