//! Shifts laid on days. The plan counts whole seconds from midnight of its first day, in civil time.

use super::{AtBreaks, Machine};
use crate::quantity::{Duration, MoneyRate};
use jiff::civil::{Date, DateTime};
use jiff::{ToSpan, Unit};

/// A kind of shift: early, late, night.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct ShiftId(pub usize);

/// A skill of the crew: setter, operator.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct SkillId(pub usize);

/// What a bucket is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BucketKind {
    /// A shift that is worked anyway.
    Shift(ShiftId),
    /// Overtime: worked only where a plan finds it worth its price.
    Overtime {
        /// Machines that may run in it.
        machines: Vec<usize>,
    },
}

/// One shift on one day, or overtime.
#[derive(Debug, Clone, PartialEq)]
pub struct Bucket {
    /// Which kind of shift, or overtime.
    pub kind: BucketKind,
    /// Day of the plan, from 0.
    pub day: usize,
    /// Start, seconds from midnight of the first day.
    pub start: i64,
    /// End, likewise.
    pub end: i64,
    /// Breaks within, in order, none overlapping.
    pub breaks: Vec<(i64, i64)>,
    /// People by skill.
    pub people: Vec<u32>,
    /// Extra pay for an hour of each machine that runs.
    pub premium: MoneyRate,
}

impl Bucket {
    /// Whether it is overtime.
    #[must_use]
    pub fn is_overtime(&self) -> bool {
        matches!(self.kind, BucketKind::Overtime { .. })
    }

    /// Whether it is a shift of this kind.
    #[must_use]
    pub fn is_shift(&self, shift: ShiftId) -> bool {
        self.kind == BucketKind::Shift(shift)
    }

    /// Whether a machine, given with its place, may run in it.
    #[must_use]
    pub fn is_open_to(&self, place: usize, machine: &Machine) -> bool {
        match &self.kind {
            BucketKind::Shift(shift) => machine.shifts.contains(shift),
            BucketKind::Overtime { machines } => machines.contains(&place),
        }
    }

    /// Time in which a machine, or a person, is at work.
    #[must_use]
    pub fn working_time(&self, at_breaks: AtBreaks) -> Duration {
        let pauses: i64 = self.stops(at_breaks).iter().map(|(from, to)| to - from).sum();
        #[expect(clippy::cast_precision_loss, reason = "a shift has far fewer than 2^52 seconds")]
        let seconds = (self.end - self.start - pauses) as f64;
        Duration::s(seconds)
    }

    /// Clock time at which so many seconds of work are done, counted from the start of the shift.
    #[must_use]
    pub fn clock(&self, worked: i64, at_breaks: AtBreaks) -> i64 {
        let mut clock = self.start + worked;
        for (from, to) in self.stops(at_breaks) {
            // Work that ends exactly when the break begins ends then.
            if clock > *from {
                clock += to - from;
            }
        }
        clock
    }

    fn stops(&self, at_breaks: AtBreaks) -> &[(i64, i64)] {
        match at_breaks {
            AtBreaks::Stop => &self.breaks,
            AtBreaks::Run => &[],
        }
    }
}

/// The horizon of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Calendar {
    /// First day.
    pub start: Date,
    /// Names of the shifts.
    pub shifts: Vec<String>,
    /// Names of the skills.
    pub skills: Vec<String>,
    /// Shifts in order of time.
    pub buckets: Vec<Bucket>,
}

impl Calendar {
    /// A moment as `2027-03-01 06:42`.
    #[must_use]
    pub fn stamp(&self, seconds: i64) -> String {
        self.moment(seconds, "%Y-%m-%d %H:%M")
    }

    /// A moment as `06:42`.
    #[must_use]
    pub fn clock(&self, seconds: i64) -> String {
        self.moment(seconds, "%H:%M")
    }

    /// The day a bucket belongs to, as `Mon 2027-03-01`.
    #[must_use]
    pub fn day_name(&self, day: usize) -> String {
        let days = i64::try_from(day).unwrap_or(0);
        self.moment(days * 86_400, "%a %Y-%m-%d")
    }

    /// The date of a day of the plan.
    #[must_use]
    pub fn date(&self, day: usize) -> Option<Date> {
        self.start.checked_add(i64::try_from(day).ok()?.days()).ok()
    }

    /// Name of a bucket's shift; of overtime, that it is.
    #[must_use]
    pub fn shift_name(&self, bucket: &Bucket) -> &str {
        match bucket.kind {
            BucketKind::Shift(shift) => self.shifts.get(shift.0).map_or("", String::as_str),
            BucketKind::Overtime { .. } => OVERTIME,
        }
    }

    /// Days on which at least one shift works; overtime does not make a day a working day.
    #[must_use]
    pub fn working_days(&self) -> usize {
        let shifts = self.buckets.iter().filter(|bucket| !bucket.is_overtime());
        let mut days: Vec<usize> = shifts.map(|bucket| bucket.day).collect();
        days.dedup();
        days.len()
    }

    /// The same calendar without overtime: what is worked anyway.
    #[must_use]
    pub fn without_overtime(&self) -> Self {
        let mut calendar = self.clone();
        calendar.buckets.retain(|bucket| !bucket.is_overtime());
        calendar
    }

    /// A moment in seconds from midnight of the first day.
    #[must_use]
    pub fn seconds(&self, moment: DateTime) -> i64 {
        seconds_from(self.start, moment)
    }

    fn moment(&self, seconds: i64, format: &str) -> String {
        let midnight = self.start.at(0, 0, 0, 0);
        midnight
            .checked_add(seconds.seconds())
            .map_or_else(|_| "-".to_owned(), |at| at.strftime(format).to_string())
    }
}

/// What overtime is called beside the names of shifts.
const OVERTIME: &str = "overtime";

/// Seconds from midnight of a day to a moment.
#[must_use]
pub fn seconds_from(start: Date, moment: DateTime) -> i64 {
    let midnight = start.at(0, 0, 0, 0);
    midnight.until((Unit::Second, moment)).map_or(i64::MAX / 4, |span| span.get_seconds())
}

#[cfg(test)]
mod tests {
    use super::{AtBreaks, Bucket, BucketKind, ShiftId};
    use crate::quantity::MoneyRate;

    #[test]
    fn work_stands_still_in_breaks() {
        let bucket = Bucket {
            kind: BucketKind::Shift(ShiftId(0)),
            day: 0,
            start: 0,
            end: 28_800,
            breaks: vec![(3600, 4500), (7200, 9000)],
            people: vec![],
            premium: MoneyRate::ZERO,
        };
        assert!((bucket.working_time(AtBreaks::Stop).to_s() - 26_100.0).abs() < 1e-9);
        assert_eq!(bucket.clock(3600, AtBreaks::Stop), 3600);
        assert_eq!(bucket.clock(3601, AtBreaks::Stop), 4501);
        assert_eq!(bucket.clock(26_100, AtBreaks::Stop), 28_800);
        assert_eq!(bucket.clock(26_100, AtBreaks::Run), 26_100);
    }
}
