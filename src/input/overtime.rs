//! Overtime: further buckets of the calendar, worked only where a plan finds them worth it.

use super::calendar::{Days, Shift, bucket, moment, pause, skill_counts};
use super::fields::Fields;
use super::read;
use super::registry::Registry;
use super::tree::Table;
use crate::diag::{Code, Diagnostic, Diagnostics, Span};
use crate::plant::{Bucket, BucketKind, Calendar};
use crate::quantity::MoneyRate;

/// Days after the last shift within which overtime may begin.
const DAYS_AFTER: i64 = 7;

/// Lays overtime between the shifts, in order of time.
pub(super) fn with_overtime(
    mut calendar: Calendar,
    tables: &[&Table],
    registry: &Registry<'_>,
    diagnostics: &mut Diagnostics,
) -> Option<Calendar> {
    let read: Vec<Option<(Bucket, Span)>> =
        tables.iter().map(|table| overtime(table, &calendar, registry, diagnostics)).collect();
    let mut whole = read.iter().all(Option::is_some);
    let mut laid: Vec<(Bucket, Span)> = Vec::new();
    for (bucket, span) in read.into_iter().flatten() {
        let overlaps = |other: &&Bucket| other.start < bucket.end && bucket.start < other.end;
        if let Some(shift) = calendar.buckets.iter().find(overlaps) {
            let name = format!("{} of {}", calendar.shift_name(shift), calendar.day_name(shift.day));
            let hours = format!("{} to {}", calendar.stamp(shift.start), calendar.stamp(shift.end));
            diagnostics.push(
                Diagnostic::new(Code::Calendar, format!("this overtime overlaps the shift {name}"))
                    .at(span, format!("that shift is worked anyway, {hours}"))
                    .help("let it begin and end where no shift is worked"),
            );
            whole = false;
        } else if let Some((_, other)) = laid.iter().find(|(other, _)| overlaps(&other)) {
            diagnostics.push(
                Diagnostic::new(Code::Calendar, "two spans of overtime overlap")
                    .at(span, "this one")
                    .also(*other, "and this"),
            );
            whole = false;
        } else {
            laid.push((bucket, span));
        }
    }
    calendar.buckets.extend(laid.into_iter().map(|(bucket, _)| bucket));
    calendar.buckets.sort_by_key(|bucket| (bucket.start, bucket.end));
    whole.then_some(calendar)
}

fn overtime(
    table: &Table,
    calendar: &Calendar,
    registry: &Registry<'_>,
    diagnostics: &mut Diagnostics,
) -> Option<(Bucket, Span)> {
    let mut fields = Fields::new(table, "overtime", diagnostics);
    let span = fields.span();
    let from = fields.required("from", moment);
    let to = fields.required("to", moment);
    let premium = fields.optional("premium", read::money_rate(&registry.currency));
    let machines = fields.optional("machines", read::one_or_list(read::name));
    let machines = match machines {
        None => Some((0..registry.shop.machines.len()).collect()),
        Some(names) => names.value.iter().map(|name| registry.machine(name, fields.diagnostics())).collect(),
    };
    let breaks = fields.optional("breaks", read::one_or_list(pause));
    let crew = fields.optional("crew", read::table);
    let days = Days { shifts: Vec::new(), skills: calendar.skills.clone() };
    let people = match crew {
        None => Some(vec![0; calendar.skills.len()]),
        Some(crew) => skill_counts(crew.value, &days, fields.diagnostics()),
    };
    fields.finish();
    let (from, to, machines) = (from?, to?, machines?);
    let (start, end) = (calendar.seconds(from.value), calendar.seconds(to.value));
    if end <= start || end - start > 86_400 {
        diagnostics.push(
            Diagnostic::new(Code::Calendar, "overtime ends after it begins, within a day")
                .at(to.span, "expected at most 24 hours after `from`")
                .also(from.span, "`from` is here"),
        );
        return None;
    }
    let last = calendar.buckets.last().map_or(0, |bucket| bucket.end);
    if start < 0 || start > last + DAYS_AFTER * 86_400 {
        let until = calendar.stamp(last + DAYS_AFTER * 86_400);
        diagnostics.push(
            Diagnostic::new(Code::Calendar, "overtime outside the days of the plan")
                .at(from.span, format!("expected {} to {until}", calendar.stamp(0))),
        );
        return None;
    }
    let shift = Shift {
        from: from.value.time(),
        to: to.value.time(),
        breaks: breaks.map_or_else(Vec::new, |list| list.value),
        days: Vec::new(),
        premium: premium.map_or(MoneyRate::ZERO, |premium| premium.value),
        span,
    };
    let day = u32::try_from(start / 86_400).ok()?;
    let bucket = bucket(day, BucketKind::Overtime { machines }, &shift, diagnostics)?;
    Some((Bucket { people: people?, ..bucket }, span))
}
