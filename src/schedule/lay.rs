//! One lot laid on a machine: how many pieces fit, when edges are changed, what it takes and leaves.

use super::draft::{Draft, Shift};
use super::plan::{Change, Lot};
use super::problem::Problem;
use super::sequencer::{Floor, Left, whole};

impl Floor<'_> {
    /// Lays a lot of at most so many pieces and returns how many it became.
    pub(super) fn lay(&mut self, activity: usize, slot: usize, wanted: u32, left: &mut Left) -> u32 {
        let problem = self.problem;
        let of = &problem.activities[activity];
        let Some(machine) = of.machine else { return 0 };
        let setup = if self.set_up[machine] == Some(activity) { 0.0 } else { of.setup };
        if of.setter.is_some_and(|setter| left.minutes[setter] < setup) {
            return 0;
        }
        let mut most = self.full_loads(activity, wanted);
        for (input, pieces) in &problem.steps[of.step].inputs {
            most = most.min(whole(f64::from(self.stock[*input]) / pieces + 1e-9));
        }
        for (resource, minutes) in of.uses.iter().filter(|(resource, _)| *resource != machine) {
            let setting = if of.setter == Some(*resource) { setup } else { 0.0 };
            if *minutes > 0.0 {
                most = most.min(whole((left.minutes[*resource] - setting) / minutes + 1e-9));
            }
        }
        let used = left.used[machine];
        let draft = self.draft(activity, most, setup, Shift { slot, used, open: left.minutes[machine] });
        if draft.pieces == 0 {
            return 0;
        }
        self.settle(activity, slot, draft, left)
    }

    /// What is wanted filled up to whole loads, but not beyond what the program wants in all.
    fn full_loads(&self, activity: usize, wanted: u32) -> u32 {
        let of = &self.problem.activities[activity];
        let makers = self.problem.makers(of.step);
        let all: f64 = makers.map(|maker| self.targets[maker].last().copied().unwrap_or(0.0)).sum();
        let open = whole((all - 1e-6).ceil()).saturating_sub(self.step_started[of.step]);
        wanted.next_multiple_of(of.load.max(1)).min(open.max(wanted))
    }

    /// Place of the lot that pieces of an activity go to: the one the machine is at, or a new one.
    fn lot_of(&self, activity: usize, slot: usize) -> usize {
        let machine = self.problem.activities[activity].machine;
        let last =
            self.plan.lots.iter().rposition(|lot| {
                lot.slot == slot && self.problem.activities[lot.activity].machine == machine
            });
        last.filter(|last| self.plan.lots[*last].activity == activity).unwrap_or(self.plan.lots.len())
    }

    fn settle(&mut self, activity: usize, slot: usize, draft: Draft, left: &mut Left) -> u32 {
        let problem = self.problem;
        let of = &problem.activities[activity];
        let Some(machine) = of.machine else { return 0 };
        let (before, setup) = (left.used[machine], draft.setup);
        let clock = |minutes: f64| clock(problem, machine, slot, minutes);
        let first_piece = self.started[activity] + 1;
        let lot = self.lot_of(activity, slot);
        for drafted in draft.changes {
            self.plan.changes.push(Change {
                point: drafted.point,
                lot,
                at: clock(before + drafted.minutes),
                before_piece: first_piece + drafted.pieces,
                worn: drafted.worn,
                standing: drafted.standing,
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
        match self.plan.lots.get_mut(lot) {
            // The same work straight on is one lot.
            Some(lot) => {
                lot.pieces += pieces;
                lot.good += good;
                lot.end = end;
            }
            None => self.plan.lots.push(Lot { activity, slot, start, end, setup, first_piece, pieces, good }),
        }
        pieces
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
