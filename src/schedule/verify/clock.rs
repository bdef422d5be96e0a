//! The clock of a machine in one shift: working time against times of day.

use super::super::problem::{Problem, Resource};

/// Working seconds of a resource in a slot. What does not run - its availability - runs at an even pace.
#[derive(Debug, Clone, Copy)]
pub(super) struct Clock<'a> {
    pub(super) windows: &'a [(i64, i64)],
    /// Working seconds for a minute of the machine.
    pub(super) pace: f64,
}

impl<'a> Clock<'a> {
    pub(super) fn of(problem: &'a Problem, resource: usize, slot: usize) -> Self {
        let of = &problem.resources[resource];
        let minutes = of.minutes[slot];
        let windows = &of.windows[slot];
        Self { windows, pace: if minutes > 0.0 { open(of, slot) / minutes } else { 0.0 } }
    }

    /// Working seconds before a time.
    pub(super) fn worked(&self, time: i64) -> f64 {
        self.windows.iter().map(|(from, to)| f64_of((time.min(*to) - from).max(0))).sum()
    }

    /// The time by which so many seconds are worked: work that ends when a break begins ends then.
    pub(super) fn ended(&self, worked: f64) -> f64 {
        let mut ahead = worked.max(0.0);
        for (from, to) in self.windows {
            if ahead <= f64_of(to - from) + 1e-6 {
                return f64_of(*from) + ahead;
            }
            ahead -= f64_of(to - from);
        }
        self.windows.last().map_or(0.0, |(_, to)| f64_of(*to))
    }

    /// The time from which on work goes on after so many seconds: after the break that begins then.
    pub(super) fn begun(&self, worked: f64) -> f64 {
        let mut ahead = worked.max(0.0);
        for (from, to) in self.windows {
            if ahead < f64_of(to - from) - 1e-6 {
                return f64_of(*from) + ahead;
            }
            ahead -= f64_of(to - from);
        }
        self.windows.last().map_or(0.0, |(_, to)| f64_of(*to))
    }

    /// Whether it stands at a time and for more than a second on both sides of it.
    pub(super) fn stands(&self, time: i64) -> bool {
        !self.windows.iter().any(|(from, to)| from - 1 <= time && time <= to + 1)
    }

    /// Working seconds until each break begins.
    pub(super) fn breaks(&self) -> impl Iterator<Item = f64> + '_ {
        let inner = self.windows.len().saturating_sub(1);
        self.windows.iter().take(inner).scan(0.0, |sum, (from, to)| {
            *sum += f64_of(to - from);
            Some(*sum)
        })
    }
}

/// Seconds that the windows of a resource are open in a slot.
pub(super) fn open(of: &Resource, slot: usize) -> f64 {
    of.windows[slot].iter().map(|(from, to)| f64_of(to - from)).sum()
}

pub(super) fn f64_of(seconds: i64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a horizon has far fewer than 2^52 seconds")]
    let seconds = seconds as f64;
    seconds
}

#[cfg(test)]
mod tests {
    use super::Clock;

    #[test]
    fn a_break_is_left_out() {
        let clock = Clock { windows: &[(0, 100), (160, 300)], pace: 60.0 };
        assert!((clock.worked(130) - 100.0).abs() < 1e-9 && (clock.worked(170) - 110.0).abs() < 1e-9);
        assert!((clock.ended(100.0) - 100.0).abs() < 1e-9 && (clock.begun(100.0) - 160.0).abs() < 1e-9);
        assert!((clock.ended(110.0) - 170.0).abs() < 1e-9 && (clock.begun(99.0) - 99.0).abs() < 1e-9);
        assert!(clock.stands(130) && !clock.stands(101) && !clock.stands(200) && clock.stands(302));
        assert_eq!(clock.breaks().collect::<Vec<_>>(), [100.0]);
    }
}
