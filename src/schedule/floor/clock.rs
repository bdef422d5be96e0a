//! Minutes of a machine's shift and the clock.

use super::super::problem::Problem;

/// The clock of a machine in a slot. What does not run - its availability - runs at an even pace.
#[derive(Clone, Copy)]
pub(super) struct Clock<'a> {
    windows: &'a [(i64, i64)],
    /// Seconds on the clock for a minute of the machine.
    pace: f64,
    minutes: f64,
    end: i64,
}

impl<'a> Clock<'a> {
    pub(super) fn new(problem: &'a Problem, resource: usize, slot: usize) -> Self {
        let of = &problem.resources[resource];
        let windows = &of.windows[slot];
        let minutes = of.minutes[slot];
        let open: i64 = windows.iter().map(|(from, to)| to - from).sum();
        let pace = if minutes > 0.0 { seconds(open) / minutes } else { 0.0 };
        Self { windows, pace, minutes, end: problem.slots[slot].end }
    }

    /// Clock time at which so many minutes are used up.
    pub(super) fn at(&self, minutes: f64) -> i64 {
        let used = self.pace * minutes.min(self.minutes);
        #[expect(clippy::cast_possible_truncation, reason = "a slot has far fewer than 2^63 seconds")]
        let mut ahead = (used - 1e-6).ceil().max(0.0) as i64;
        for (from, to) in self.windows {
            // Work that ends exactly when a break begins ends then.
            if ahead <= to - from {
                return from + ahead;
            }
            ahead -= to - from;
        }
        self.end
    }

    /// Fewest minutes after which the clock shows at least so much.
    pub(super) fn minutes_until(&self, time: i64) -> f64 {
        if self.pace <= 0.0 {
            return 0.0;
        }
        let before: i64 = self.windows.iter().map(|(from, to)| (time.min(*to) - from).max(0)).sum();
        let minutes = seconds(before) / self.pace;
        if self.at(minutes) < time { minutes + 1.0 / self.pace } else { minutes }
    }

    /// Whether the machine runs at some time between two.
    pub(super) fn runs_between(&self, from: i64, to: i64) -> bool {
        self.windows.iter().any(|(start, end)| from.max(*start) < to.min(*end))
    }
}

fn seconds(whole: i64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a slot has far fewer than 2^52 seconds")]
    let seconds = whole as f64;
    seconds
}

#[cfg(test)]
mod tests {
    use super::Clock;

    #[test]
    fn minutes_and_clock_are_each_others_inverse() {
        let windows = [(0, 3600), (4500, 28_800)];
        let clock = Clock { windows: &windows, pace: 75.0, minutes: 372.0, end: 28_800 };
        for time in [0, 60, 3599, 3600, 3601, 4000, 4500, 4501, 20_000] {
            let minutes = clock.minutes_until(time);
            assert!(clock.at(minutes) >= time, "{time}");
            assert!(clock.at((minutes - 2.0 / 75.0).max(0.0)) <= time.max(1), "{time}");
        }
        assert!(!clock.runs_between(3600, 4500));
        assert!(clock.runs_between(3599, 4500));
    }
}
