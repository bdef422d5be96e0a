//! One lot laid on a machine: when it can run through, how many pieces fit, when edges are changed, what it takes and leaves.

use super::super::plan::{Change, Lot};
use super::super::problem::{Activity, Lag, ResourceKind};
use super::clock::Clock;
use super::draft::{Draft, Shift};
use super::goods::Batch;
use super::shift::{Floor, Left, whole};

/// What may still be changed about a start before it is given up for this slot.
const ATTEMPTS: usize = 60;

impl Floor<'_> {
    /// Lays lots of at most so many pieces and returns how many they became.
    pub(super) fn lay(&mut self, activity: usize, slot: usize, wanted: u32, left: &mut Left<'_>) -> u32 {
        let mut made = 0;
        while made < wanted {
            let more = self.lay_one(activity, slot, wanted - made, left);
            if more == 0 {
                break;
            }
            made += more;
        }
        made
    }

    fn lay_one(&mut self, activity: usize, slot: usize, wanted: u32, left: &mut Left<'_>) -> u32 {
        let problem = self.problem;
        let of = &problem.activities[activity];
        let Some(machine) = of.machine else { return 0 };
        if problem.resources[machine].kind == ResourceKind::Outside {
            return self.send(activity, slot, wanted, left);
        }
        let setup = self.setup(activity, machine);
        if of.setter.is_some_and(|setter| left.minutes[setter] < setup) {
            return 0;
        }
        let mut most = self.full_loads(activity, wanted);
        for (input, each) in &problem.steps[of.step].inputs {
            let there = self.goods[*input].ready_by(problem.slots[slot].end - 1);
            most = most.min(whole(f64::from(there) / each + 1e-9));
        }
        for (resource, minutes) in of.uses.iter().filter(|(resource, _)| *resource != machine) {
            let setting = if of.setter == Some(*resource) { setup } else { 0.0 };
            if *minutes > 0.0 {
                most = most.min(whole((left.minutes[*resource] - setting) / minutes + 1e-9));
            }
        }
        let clock = Clock::new(problem, machine, slot);
        match self.place(activity, (slot, most, setup), &clock, left) {
            Some((start, draft)) => self.settle(activity, (slot, start, draft), &clock, left),
            None => 0,
        }
    }

    /// Minutes to set a machine up for an activity as it stands.
    pub(super) fn setup(&self, activity: usize, machine: usize) -> f64 {
        let before = self.set_up[machine];
        if before == Some(activity) {
            return 0.0;
        }
        let activities = &self.problem.activities;
        activities[activity].setup_after(before.map(|before| &activities[before]))
    }

    /// The soonest minute of the slot at which a lot can start and run through, and the lot: pieces that are not there in time are
    /// left for a later one.
    fn place(
        &self,
        activity: usize,
        lot: (usize, u32, f64),
        clock: &Clock<'_>,
        left: &Left<'_>,
    ) -> Option<(f64, Draft)> {
        let (slot, most, setup) = lot;
        let of = &self.problem.activities[activity];
        let machine = of.machine?;
        let open = self.problem.resources[machine].minutes[slot];
        let mut start = left.at[machine];
        let mut pieces = most;
        for _ in 0..ATTEMPTS {
            // Minutes of a station that gauges for other machines are gone, whenever they are taken.
            let left_over = (open - start).min(left.minutes[machine] + 1e-9);
            let draft = self.draft(activity, pieces, setup, Shift { slot, used: start, open: left_over });
            if draft.pieces == 0 {
                return None;
            }
            let span = (clock.at(start), clock.at(start + setup));
            if let Some(later) = of.setter.and_then(|setter| left.setters.later(setter, span, clock)) {
                start = clock.minutes_until(later).max(start + 1e-3);
                pieces = most;
                continue;
            }
            match self.starved(of, &draft, start, clock) {
                None => return Some((start, draft)),
                Some((0, ready)) => {
                    start = (clock.minutes_until(ready) - setup).max(start + 1e-3);
                    pieces = most;
                }
                Some((before, _)) => pieces = before,
            }
        }
        None
    }

    /// The first piece of a lot that would wait for what it is made from: pieces before it, in whole loads, and when it is there.
    fn starved(&self, of: &Activity, draft: &Draft, start: f64, clock: &Clock<'_>) -> Option<(u32, i64)> {
        let load = of.load.max(1);
        let mut first: Option<(u32, i64)> = None;
        for (input, each) in &self.problem.steps[of.step].inputs {
            for (before, ready) in self.goods[*input].in_order() {
                let piece = whole(f64::from(before) / each + 1e-9);
                if piece >= draft.pieces || first.is_some_and(|(known, _)| known <= piece) {
                    break;
                }
                let loads = piece / load;
                if clock.at(start + draft.after(loads, of)) < ready {
                    first = Some((loads * load, ready));
                    break;
                }
            }
        }
        first
    }

    /// What is wanted filled up to whole loads, but not beyond what the program wants in all.
    fn full_loads(&self, activity: usize, wanted: u32) -> u32 {
        let of = &self.problem.activities[activity];
        wanted.next_multiple_of(of.load.max(1)).min(self.still_wanted(of.step).max(wanted))
    }

    fn settle(
        &mut self,
        activity: usize,
        lot: (usize, f64, Draft),
        clock: &Clock<'_>,
        left: &mut Left<'_>,
    ) -> u32 {
        let (slot, begin, draft) = lot;
        let problem = self.problem;
        let of = &problem.activities[activity];
        let Some(machine) = of.machine else { return 0 };
        let (start, end) = (clock.at(begin), clock.at(begin + draft.minutes));
        self.book(of, (begin, &draft), clock, left);
        for (input, each) in &problem.steps[of.step].inputs {
            self.goods[*input].take(whole(each * f64::from(draft.pieces) + 1e-9));
        }
        let first_piece = self.started[activity] + 1;
        let good = self.count(activity, draft.pieces);
        self.hand_on(activity, (slot, begin), (&draft, good), clock);
        let lot = self.lot_of(activity, slot, start);
        for drafted in &draft.changes {
            self.plan.changes.push(Change {
                point: drafted.point,
                lot,
                at: clock.at(begin + drafted.minutes),
                before_piece: first_piece + drafted.pieces,
                worn: drafted.worn,
                standing: drafted.standing,
            });
            if let Some(stock) = problem.points[drafted.point].stock {
                self.edges[stock] -= problem.points[drafted.point].edges;
            }
        }
        self.set_up[machine] = Some(activity);
        let (pieces, setup) = (draft.pieces, draft.setup);
        self.wear = draft.wear;
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

    /// Minutes of the machine and of people.
    fn book(&self, of: &Activity, lot: (f64, &Draft), clock: &Clock<'_>, left: &mut Left<'_>) {
        let (begin, draft) = lot;
        for (resource, minutes) in of.uses.iter().filter(|(resource, _)| Some(*resource) != of.machine) {
            left.minutes[*resource] -= minutes * f64::from(draft.pieces);
        }
        if let Some(setter) = of.setter {
            left.minutes[setter] -= draft.setup;
            left.setters.book(setter, (clock.at(begin), clock.at(begin + draft.setup)));
        }
        if let Some(machine) = of.machine {
            left.at[machine] = begin + draft.minutes;
            left.minutes[machine] -= draft.minutes;
        }
    }

    /// Good pieces as they come from the machine: in boxes, or to the next slot.
    fn hand_on(&mut self, activity: usize, at: (usize, f64), made: (&Draft, u32), clock: &Clock<'_>) {
        let (slot, begin) = at;
        let (draft, good) = made;
        let problem = self.problem;
        let of = &problem.activities[activity];
        let next = problem.slots.get(slot + 1).map_or(i64::MAX, |next| next.start);
        let mut handed = 0;
        for pieces in self.portions(of, (begin, draft), clock) {
            let goods = share_of(good, pieces, draft.pieces);
            let done = clock.at(begin + draft.done(pieces, of));
            let ready = match problem.steps[of.step].lag {
                Lag::SameSlot => done,
                Lag::NextSlot => next,
                Lag::Boxes { seconds, .. } => done + seconds,
            };
            self.goods[of.step].add(Batch { ready, done, pieces: goods - handed });
            handed = goods;
        }
    }

    /// Pieces made when some of a lot move on: each full box, each due time, and the end.
    fn portions(&self, of: &Activity, lot: (f64, &Draft), clock: &Clock<'_>) -> Vec<u32> {
        let (begin, draft) = lot;
        let box_of = match self.problem.steps[of.step].lag {
            Lag::SameSlot => Some(1),
            Lag::Boxes { pieces, .. } => Some(pieces.max(1)),
            Lag::NextSlot => None,
        };
        let mut portions: Vec<u32> = match box_of {
            Some(pieces) => (1..=draft.pieces / pieces).map(|full| full * pieces).collect(),
            None => Vec::new(),
        };
        if box_of.is_none() {
            let load = of.load.max(1);
            for demand in self.problem.demands.iter().filter(|demand| demand.step == of.step) {
                let in_time = |loads: u32| clock.at(begin + draft.after(loads, of)) <= demand.due;
                let (mut low, mut high) = (0, draft.pieces / load);
                while low < high {
                    let middle = (low + high).div_ceil(2);
                    if in_time(middle) { low = middle } else { high = middle - 1 }
                }
                portions.push(low * load);
            }
        }
        portions.push(draft.pieces);
        portions.sort_unstable();
        portions.dedup();
        portions.retain(|pieces| *pieces > 0);
        portions
    }

    /// Place of the lot that pieces of an activity go to: one that ends just then and moves on as a whole, or a new one.
    fn lot_of(&self, activity: usize, slot: usize, start: i64) -> usize {
        let new = self.plan.lots.len();
        let step = self.problem.activities[activity].step;
        let whole = self.problem.steps[step].lag == Lag::NextSlot
            && self.problem.demands.iter().all(|demand| demand.step != step);
        let machine = self.problem.activities[activity].machine;
        let last =
            self.plan.lots.iter().rposition(|lot| self.problem.activities[lot.activity].machine == machine);
        last.filter(|last| {
            let last = &self.plan.lots[*last];
            whole
                && last.activity == activity
                && last.slot == slot
                && last.end == start
                && last.pieces.is_multiple_of(self.problem.activities[activity].load.max(1))
        })
        .unwrap_or(new)
    }
}

/// Good pieces among the first so many of a lot.
fn share_of(good: u32, pieces: u32, of: u32) -> u32 {
    whole(f64::from(good) * f64::from(pieces) / f64::from(of.max(1)) + 1e-9)
}
