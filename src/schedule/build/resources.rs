//! Machines, people and firms outside as resources: what each has of each shift.

use super::super::problem::{Resource, ResourceKind};
use crate::plant::{AtBreaks, Bucket, Calendar, Firm, Machine};
use crate::quantity::{Duration, MoneyRate};

/// What a machine has of each shift: open time less breaks and planned stops, availability, price with premium.
pub(super) fn of_machine((place, machine): (usize, &Machine), calendar: &Calendar) -> Resource {
    let closed =
        |bucket: &Bucket| calendar.date(bucket.day).is_some_and(|date| machine.closed.contains(&date));
    let stops: Vec<(i64, i64)> =
        machine.stops.iter().map(|(from, to)| (calendar.seconds(*from), calendar.seconds(*to))).collect();
    let windows: Vec<Vec<(i64, i64)>> =
        calendar.buckets.iter().map(|bucket| less(windows(bucket, machine.at_breaks), &stops)).collect();
    let minutes = |(bucket, windows): (&Bucket, &Vec<(i64, i64)>)| {
        if bucket.is_open_to(place, machine) && !closed(bucket) {
            length(windows).to_min() * machine.availability.value() * machine.performance.value()
        } else {
            0.0
        }
    };
    let rate = machine.rate.unwrap_or(MoneyRate::ZERO);
    Resource {
        name: machine.key.clone(),
        kind: ResourceKind::Machine,
        minutes: calendar.buckets.iter().zip(&windows).map(minutes).collect(),
        cost: calendar.buckets.iter().map(|bucket| (rate + bucket.premium).to_per_h() / 60.0).collect(),
        windows,
        ..Resource::default()
    }
}

/// People of a skill.
pub(super) fn of_crew(skill: usize, calendar: &Calendar) -> Resource {
    let people = |bucket: &Bucket| f64::from(bucket.people.get(skill).copied().unwrap_or(0));
    Resource {
        name: calendar.skills[skill].clone(),
        kind: ResourceKind::Crew,
        minutes: calendar
            .buckets
            .iter()
            .map(|bucket| people(bucket) * bucket.working_time(AtBreaks::Stop).to_min())
            .collect(),
        cost: vec![0.0; calendar.buckets.len()],
        windows: calendar.buckets.iter().map(|bucket| windows(bucket, AtBreaks::Stop)).collect(),
        ..Resource::default()
    }
}

/// A firm outside: its minutes are the pieces it takes in a shift. It takes none in overtime.
pub(super) fn of_firm(firm: &Firm, calendar: &Calendar) -> Resource {
    let pieces = |bucket: &Bucket| {
        if bucket.is_overtime() { 0.0 } else { firm.a_shift.map_or(f64::INFINITY, f64::from) }
    };
    Resource {
        name: firm.key.clone(),
        kind: ResourceKind::Outside,
        minutes: calendar.buckets.iter().map(pieces).collect(),
        cost: vec![0.0; calendar.buckets.len()],
        windows: calendar.buckets.iter().map(|bucket| vec![(bucket.start, bucket.end)]).collect(),
        ..Resource::default()
    }
}

fn windows(bucket: &Bucket, at_breaks: AtBreaks) -> Vec<(i64, i64)> {
    let whole = vec![(bucket.start, bucket.end)];
    match at_breaks {
        AtBreaks::Stop => less(whole, &bucket.breaks),
        AtBreaks::Run => whole,
    }
}

/// Windows without what lies inside some spans.
fn less(mut windows: Vec<(i64, i64)>, spans: &[(i64, i64)]) -> Vec<(i64, i64)> {
    for (start, end) in spans {
        windows = windows
            .into_iter()
            .flat_map(|(from, to)| [(from, to.min(*start)), (from.max(*end), to)])
            .filter(|(from, to)| from < to)
            .collect();
    }
    windows
}

fn length(windows: &[(i64, i64)]) -> Duration {
    let seconds: i64 = windows.iter().map(|(from, to)| to - from).sum();
    #[expect(clippy::cast_precision_loss, reason = "a shift has far fewer than 2^52 seconds")]
    let seconds = seconds as f64;
    Duration::s(seconds)
}

#[cfg(test)]
mod tests {
    use super::less;

    #[test]
    fn what_lies_inside_a_stop_is_taken_out() {
        let shift = vec![(0, 100), (120, 300)];
        assert_eq!(less(shift.clone(), &[(50, 130)]), [(0, 50), (130, 300)]);
        assert_eq!(less(shift.clone(), &[(150, 160), (290, 900)]), [(0, 100), (120, 150), (160, 290)]);
        assert_eq!(less(shift.clone(), &[(100, 120)]), shift);
        assert!(less(shift, &[(-5, 300)]).is_empty());
    }
}
