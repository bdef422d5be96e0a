//! What is sent to a firm outside.

use super::super::plan::Lot;
use super::super::problem::Lag;
use super::goods::Batch;
use super::shift::{Floor, Left, whole};

impl Floor<'_> {
    /// Sends at most so many pieces away and returns how many it became. They come back together.
    pub(super) fn send(&mut self, activity: usize, slot: usize, wanted: u32, left: &mut Left<'_>) -> u32 {
        let problem = self.problem;
        let of = &problem.activities[activity];
        let Some(firm) = of.machine else { return 0 };
        let (start, end) = (problem.slots[slot].start, problem.slots[slot].end);
        let mut pieces = wanted.min(whole(problem.resources[firm].minutes[slot] - left.at[firm] + 1e-9));
        // What would not be back within the horizon stays.
        let latest = problem.slots.last().map_or(0, |slot| slot.end) - of.away;
        for (input, each) in &problem.steps[of.step].inputs {
            let there = self.goods[*input].ready_by(latest.min(end - 1));
            pieces = pieces.min(whole(f64::from(there) / each + 1e-9));
        }
        if pieces == 0 || latest < start {
            return 0;
        }
        let mut sent = start;
        for (input, each) in &problem.steps[of.step].inputs {
            sent = sent.max(self.goods[*input].take(whole(each * f64::from(pieces) + 1e-9)));
        }
        let back = sent + of.away;
        let first_piece = self.started[activity] + 1;
        let good = self.count(activity, pieces);
        left.at[firm] += f64::from(pieces);
        let next = problem.slots.get(slot + 1).map_or(i64::MAX, |next| next.start);
        let ready = match problem.steps[of.step].lag {
            Lag::SameSlot => back,
            Lag::NextSlot => back.max(next),
            Lag::Boxes { seconds, .. } => back + seconds,
        };
        self.goods[of.step].add(Batch { ready, done: back, pieces: good });
        self.plan.lots.push(Lot {
            activity,
            slot,
            start: sent,
            end: back,
            setup: 0.0,
            first_piece,
            pieces,
            good,
        });
        pieces
    }

    /// Counts pieces started and returns the good ones among them.
    pub(super) fn count(&mut self, activity: usize, pieces: u32) -> u32 {
        let step = self.problem.activities[activity].step;
        self.started[activity] += pieces;
        self.step_started[step] += pieces;
        let good_so_far = whole(f64::from(self.step_started[step]) * self.problem.steps[step].good + 1e-9);
        let good = good_so_far - self.step_good[step];
        self.step_good[step] = good_so_far;
        good
    }
}
