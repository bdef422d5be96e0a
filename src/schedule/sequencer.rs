//! The plan of the linear program laid out in whole pieces, machine by machine and minute by minute.
//!
//! Slot by slot, each machine works towards the whole number of pieces that the program has reached by the end of the
//! slot; what did not fit is made up in the next. The operation a machine is set up for goes first. Wear is carried
//! from piece to piece, lot to lot and slot to slot; an edge is changed before the piece that would outlive it.

use super::plan::{Change, Lot, Plan, Shipment};
use super::problem::Problem;

/// Lays out the pieces started by activity and slot.
pub(super) fn sequence(problem: &Problem, started: &[Vec<f64>]) -> Plan {
    let mut floor = Floor::new(problem, started);
    for slot in 0..problem.slots.len() {
        floor.work(slot);
    }
    floor.plan
}

/// The shop floor as the slots pass.
struct Floor<'a> {
    problem: &'a Problem,
    /// Pieces the program has started by the end of each slot, by activity.
    targets: Vec<Vec<f64>>,
    started: Vec<u32>,
    step_started: Vec<u32>,
    step_good: Vec<u32>,
    stock: Vec<u32>,
    set_up: Vec<Option<usize>>,
    wear: Vec<f64>,
    plan: Plan,
}

/// What is left of a slot.
struct Left {
    minutes: Vec<f64>,
    used: Vec<f64>,
    arrivals: Vec<u32>,
    ready: Vec<i64>,
}

/// A lot as far as it has been thought through.
struct Draft {
    setup: f64,
    pieces: u32,
    minutes: f64,
    changes: Vec<(usize, f64, u32, f64)>,
    wear: Vec<f64>,
}

impl<'a> Floor<'a> {
    fn new(problem: &'a Problem, started: &[Vec<f64>]) -> Self {
        let targets = started
            .iter()
            .map(|slots| {
                slots
                    .iter()
                    .scan(0.0, |sum, pieces| {
                        *sum += pieces.max(0.0);
                        Some(*sum)
                    })
                    .collect()
            })
            .collect();
        let steps = problem.steps.len();
        Self {
            problem,
            targets,
            started: vec![0; problem.activities.len()],
            step_started: vec![0; steps],
            step_good: vec![0; steps],
            stock: problem.steps.iter().map(|step| whole(step.opening)).collect(),
            set_up: vec![None; problem.resources.len()],
            wear: vec![0.0; problem.points.len()],
            plan: Plan { stock: vec![Vec::new(); steps], ..Plan::default() },
        }
    }

    fn work(&mut self, slot: usize) {
        let problem = self.problem;
        let mut left = Left {
            minutes: problem.resources.iter().map(|resource| resource.minutes[slot]).collect(),
            used: vec![0.0; problem.resources.len()],
            arrivals: vec![0; problem.steps.len()],
            ready: vec![problem.slots[slot].start; problem.steps.len()],
        };
        let mut wanted = self.wanted(slot);
        for set_up_only in [true, false] {
            for (activity, wanted) in wanted.iter_mut().enumerate() {
                let Some(machine) = problem.activities[activity].machine else { continue };
                let standing = self.set_up[machine] == Some(activity);
                let wait = set_up_only || self.can_wait(activity, slot, *wanted);
                if *wanted > 0 && (standing || !wait) {
                    *wanted -= self.lay(activity, slot, *wanted, &mut left);
                }
            }
        }
        for (stock, arrived) in self.stock.iter_mut().zip(&left.arrivals) {
            *stock += arrived;
        }
        self.ship(slot, &left.ready);
        for (history, stock) in self.plan.stock.iter_mut().zip(&self.stock) {
            history.push(*stock);
        }
    }

    /// Whole pieces each activity is behind the program at the end of this slot.
    fn wanted(&self, slot: usize) -> Vec<u32> {
        let mut wanted = vec![0; self.problem.activities.len()];
        for step in 0..self.problem.steps.len() {
            let makers: Vec<usize> = self.problem.makers(step).collect();
            let target: f64 = makers.iter().map(|maker| self.targets[*maker][slot]).sum();
            let mut open = whole((target - 1e-6).ceil()).saturating_sub(self.step_started[step]);
            for maker in &makers {
                let behind = whole(self.targets[*maker][slot] + 1e-6).saturating_sub(self.started[*maker]);
                wanted[*maker] = behind.min(open);
                open -= wanted[*maker];
            }
            // The pieces that rounding left over go where the program has begun most of one.
            let most_begun = makers.iter().copied().max_by(|one, other| {
                let begun =
                    |maker: usize| self.targets[maker][slot] - f64::from(self.started[maker] + wanted[maker]);
                begun(*one).total_cmp(&begun(*other)).then(other.cmp(one))
            });
            if let Some(maker) = most_begun {
                wanted[maker] += open;
            }
        }
        wanted
    }

    /// A few pieces are not worth a setup now if the program comes back to the activity later.
    fn can_wait(&self, activity: usize, slot: usize, wanted: u32) -> bool {
        let of = &self.problem.activities[activity];
        let here =
            self.targets[activity][slot] - if slot == 0 { 0.0 } else { self.targets[activity][slot - 1] };
        let later = self.targets[activity].last().map_or(0.0, |end| end - self.targets[activity][slot]);
        here < 0.5 && later > 0.5 && f64::from(wanted) * of.run < of.setup
    }

    /// Lays a lot of at most so many pieces and returns how many it became.
    fn lay(&mut self, activity: usize, slot: usize, wanted: u32, left: &mut Left) -> u32 {
        let problem = self.problem;
        let of = &problem.activities[activity];
        let Some(machine) = of.machine else { return 0 };
        let setup = if self.set_up[machine] == Some(activity) { 0.0 } else { of.setup };
        if of.setter.is_some_and(|setter| left.minutes[setter] < setup) {
            return 0;
        }
        let mut most = wanted;
        for (input, pieces) in &problem.steps[of.step].inputs {
            most = most.min(whole(f64::from(self.stock[*input]) / pieces + 1e-9));
        }
        for (resource, minutes) in of.uses.iter().filter(|(resource, _)| *resource != machine) {
            let setting = if of.setter == Some(*resource) { setup } else { 0.0 };
            if *minutes > 0.0 {
                most = most.min(whole((left.minutes[*resource] - setting) / minutes + 1e-9));
            }
        }
        let draft = self.draft(activity, most, setup, left.minutes[machine]);
        if draft.pieces == 0 {
            return 0;
        }
        self.settle(activity, slot, draft, left)
    }

    /// How many pieces fit, and when edges are changed among them.
    fn draft(&self, activity: usize, most: u32, setup: f64, open: f64) -> Draft {
        let of = &self.problem.activities[activity];
        let mut draft =
            Draft { setup, pieces: 0, minutes: setup, changes: Vec::new(), wear: self.wear.clone() };
        while draft.pieces < most {
            let worn: Vec<usize> = of
                .wear
                .iter()
                .filter(|wear| {
                    draft.wear[wear.point] > 0.0 && draft.wear[wear.point] + wear.share > 1.0 + 1e-9
                })
                .map(|wear| wear.point)
                .collect();
            let change: f64 = worn.iter().map(|point| self.problem.points[*point].change).sum();
            let lasting = of.wear.iter().filter(|wear| wear.share > 0.0).map(|wear| {
                let used = if worn.contains(&wear.point) { 0.0 } else { draft.wear[wear.point] };
                whole((1.0 - used) / wear.share + 1e-9).max(1)
            });
            let run = lasting.min().unwrap_or(u32::MAX).min(most - draft.pieces);
            let fits =
                if of.run > 0.0 { whole((open - draft.minutes - change) / of.run + 1e-9) } else { run };
            let run = run.min(fits);
            if run == 0 {
                break;
            }
            for point in worn {
                draft.changes.push((point, draft.minutes, draft.pieces, draft.wear[point]));
                draft.minutes += self.problem.points[point].change;
                draft.wear[point] = 0.0;
            }
            for wear in &of.wear {
                draft.wear[wear.point] += wear.share * f64::from(run);
            }
            draft.minutes += of.run * f64::from(run);
            draft.pieces += run;
        }
        draft
    }

    fn settle(&mut self, activity: usize, slot: usize, draft: Draft, left: &mut Left) -> u32 {
        let problem = self.problem;
        let of = &problem.activities[activity];
        let Some(machine) = of.machine else { return 0 };
        let (before, setup) = (left.used[machine], draft.setup);
        let clock = |minutes: f64| clock(problem, machine, slot, minutes);
        let first_piece = self.started[activity] + 1;
        for (point, minutes, pieces, worn) in draft.changes {
            self.plan.changes.push(Change {
                point,
                lot: self.plan.lots.len(),
                at: clock(before + minutes),
                before_piece: first_piece + pieces,
                worn,
            });
        }
        let (start, end) = (clock(before), clock(before + draft.minutes));
        left.used[machine] += draft.minutes;
        left.minutes[machine] -= draft.minutes;
        for (resource, minutes) in of.uses.iter().filter(|(resource, _)| *resource != machine) {
            left.minutes[*resource] -= minutes * f64::from(draft.pieces);
        }
        if let Some(setter) = of.setter {
            left.minutes[setter] -= setup;
        }
        for (input, pieces) in &problem.steps[of.step].inputs {
            self.stock[*input] -= whole(pieces * f64::from(draft.pieces) + 1e-9);
        }
        self.started[activity] += draft.pieces;
        self.step_started[of.step] += draft.pieces;
        let good_so_far = whole(f64::from(self.step_started[of.step]) * problem.steps[of.step].good + 1e-9);
        let good = good_so_far - self.step_good[of.step];
        self.step_good[of.step] = good_so_far;
        left.arrivals[of.step] += good;
        left.ready[of.step] = left.ready[of.step].max(end);
        self.set_up[machine] = Some(activity);
        self.wear = draft.wear;
        let pieces = draft.pieces;
        self.plan.lots.push(Lot { activity, slot, start, end, setup, first_piece, pieces, good });
        pieces
    }

    /// Ships what lies at the end of a route: earliest due first, then the heavier weight.
    fn ship(&mut self, slot: usize, ready: &[i64]) {
        let demands = &self.problem.demands;
        let mut order: Vec<usize> = (0..demands.len()).collect();
        order.sort_by(|one, other| {
            let (one_is, other_is) = (&demands[*one], &demands[*other]);
            one_is.due.cmp(&other_is.due).then(other_is.weight.total_cmp(&one_is.weight)).then(one.cmp(other))
        });
        for demand in order {
            let step = demands[demand].step;
            let open = whole(demands[demand].quantity + 1e-9) - self.plan.shipped(demand);
            let closing = whole((self.problem.steps[step].closing - 1e-9).ceil());
            let pieces = open.min(self.stock[step].saturating_sub(closing));
            if pieces > 0 {
                self.stock[step] -= pieces;
                self.plan.shipments.push(Shipment { demand, slot, at: ready[step], pieces });
            }
        }
    }
}

/// Clock time at which so many minutes of a resource's slot are used up. What does not run runs at an even pace.
fn clock(problem: &Problem, resource: usize, slot: usize, minutes: f64) -> i64 {
    let of = &problem.resources[resource];
    let windows = &of.windows[slot];
    let open: i64 = windows.iter().map(|(from, to)| to - from).sum();
    #[expect(clippy::cast_precision_loss, reason = "a slot has far fewer than 2^52 seconds")]
    let seconds = open as f64 * (minutes / of.minutes[slot]).min(1.0);
    #[expect(clippy::cast_possible_truncation, reason = "a slot has far fewer than 2^63 seconds")]
    let mut ahead = (seconds - 1e-6).ceil().max(0.0) as i64;
    for (from, to) in windows {
        // Work that ends exactly when a break begins ends then.
        if ahead <= to - from {
            return from + ahead;
        }
        ahead -= to - from;
    }
    problem.slots[slot].end
}

fn whole(pieces: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the range of u32"
    )]
    let whole = pieces.floor().clamp(0.0, f64::from(u32::MAX)) as u32;
    whole
}
