//! Who sets up when: nobody sets up two machines at once, or in a break.

use super::super::problem::Problem;
use super::clock::Clock;

/// Setups of a slot, by the people who make them.
pub(super) struct Setters<'a> {
    problem: &'a Problem,
    slot: usize,
    busy: Vec<Vec<(i64, i64)>>,
}

impl<'a> Setters<'a> {
    pub(super) fn new(problem: &'a Problem, slot: usize) -> Self {
        Self { problem, slot, busy: vec![Vec::new(); problem.resources.len()] }
    }

    /// When to try again if nobody can make a setup from one time to another on a machine; `None`: somebody can.
    pub(super) fn later(&self, setter: usize, span: (i64, i64), machine: &Clock<'_>) -> Option<i64> {
        let (from, to) = span;
        let windows = &self.problem.resources[setter].windows[self.slot];
        if windows.is_empty() || from >= to {
            return None;
        }
        let gaps = windows.windows(2).map(|pair| (pair[0].1, pair[1].0));
        let in_break = gaps
            .filter(|(start, end)| machine.runs_between(from.max(*start), to.min(*end)))
            .map(|(_, end)| end)
            .max();
        if in_break.is_some() {
            return in_break;
        }
        let busy: Vec<(i64, i64)> =
            self.busy[setter].iter().copied().filter(|(start, end)| from < *end && *start < to).collect();
        // Most setups under way at once: looked at where one begins.
        let starts = busy.iter().map(|(start, _)| (*start).max(from));
        let most = starts
            .map(|at| busy.iter().filter(|(start, end)| *start <= at && at < *end).count())
            .max()
            .unwrap_or(0);
        if most < self.people(setter) { None } else { busy.iter().map(|(_, end)| *end).min() }
    }

    pub(super) fn book(&mut self, setter: usize, span: (i64, i64)) {
        if span.0 < span.1 {
            self.busy[setter].push(span);
        }
    }

    fn people(&self, setter: usize) -> usize {
        let of = &self.problem.resources[setter];
        let open: i64 = of.windows[self.slot].iter().map(|(from, to)| to - from).sum();
        #[expect(clippy::cast_precision_loss, reason = "a slot has far fewer than 2^52 seconds")]
        let people = of.minutes[self.slot] * 60.0 / (open as f64).max(1.0);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "few people, and not fewer than none"
        )]
        let people = people.round().clamp(0.0, 1e6) as usize;
        people
    }
}
