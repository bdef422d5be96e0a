//! Calendar, shifts and crew.

use super::catalog::{keys, sub_table};
use super::read::{self, Reading};
use super::tree::Table;
use super::{Fields, Node, Spanned};
use crate::diag::{Code, Diagnostic, Diagnostics, Span, escaped, is_unprintable, nearest};
use crate::plant::{Bucket, BucketKind, Calendar, ShiftId, SkillId};
use crate::quantity::MoneyRate;
use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time, Weekday};

/// Shifts and skills by name, before they are laid on days.
#[derive(Debug, Default)]
pub(super) struct Days {
    pub(super) shifts: Vec<String>,
    pub(super) skills: Vec<String>,
}

impl Days {
    /// Names of shifts and skills, in the order of the file.
    pub(super) fn named(root: &Table) -> Self {
        let names = |key| keys(sub_table(root, key)).into_iter().map(|key| key.value).collect();
        Self { shifts: names("shift"), skills: names("crew") }
    }

    /// The shifts a list names; all if there is no list.
    pub(super) fn shifts_named(
        &self,
        names: Option<Spanned<Vec<Spanned<String>>>>,
        diagnostics: &mut Diagnostics,
    ) -> Option<Vec<ShiftId>> {
        let Some(names) = names else { return Some((0..self.shifts.len()).map(ShiftId).collect()) };
        names.value.iter().map(|name| find("shift", &self.shifts, name, diagnostics).map(ShiftId)).collect()
    }

    /// A skill by name.
    pub(super) fn skill_named(
        &self,
        name: &Spanned<String>,
        diagnostics: &mut Diagnostics,
    ) -> Option<SkillId> {
        find("crew", &self.skills, name, diagnostics).map(SkillId)
    }
}

fn find(
    what: &str,
    known: &[String],
    name: &Spanned<String>,
    diagnostics: &mut Diagnostics,
) -> Option<usize> {
    let found = known.iter().position(|other| *other == name.value);
    if found.is_none() {
        let near = nearest(&name.value, known.iter().map(String::as_str));
        let diagnostic =
            Diagnostic::new(Code::UnknownName, format!("no table [{what}.{}] is there", name.value))
                .at(name.span, "not found");
        diagnostics.push(match near {
            Some(near) => diagnostic.did_you_mean(Some(near)),
            None => diagnostic.help(format!("add a table [{what}.{}]", name.value)),
        });
    }
    found
}

/// A kind of shift as written.
pub(super) struct Shift {
    pub(super) from: Time,
    pub(super) to: Time,
    pub(super) breaks: Vec<Spanned<(Time, Time)>>,
    pub(super) days: Vec<Weekday>,
    pub(super) premium: MoneyRate,
    pub(super) span: Span,
}

/// Most days a plan covers.
const LONGEST: u32 = 366;

/// Reads calendar, shifts and crew and lays the shifts on the days.
pub(super) fn calendar(
    root: &Table,
    days: Days,
    currency: &str,
    diagnostics: &mut Diagnostics,
) -> Option<Calendar> {
    let mut top = Fields::new(root, "scenario", diagnostics);
    let table = top.required("calendar", read::table);
    let shifts = top.required("shift", read::table);
    let crew = top.optional("crew", read::table);
    // Keys of the other readers are theirs to judge.
    let diagnostics = top.diagnostics();
    let table = table?.value;
    let mut fields = Fields::new(table, "calendar", diagnostics);
    let start = fields.required("start", date);
    let count = fields.required("days", read::count);
    let closed = fields.optional("closed", read::one_or_list(date));
    fields.finish();
    for entry in shifts.iter().chain(&crew).flat_map(|table| &table.value.entries) {
        if entry.key.trim() != entry.key || entry.key.chars().any(is_unprintable) {
            let message = format!("`{}` is no name", escaped(&entry.key));
            diagnostics.push(
                Diagnostic::new(Code::WrongKind, message)
                    .at(entry.key_span, "expected letters and digits alone"),
            );
            return None;
        }
    }
    let shifts: Vec<Option<Shift>> =
        shifts?.value.entries.iter().map(|entry| shift(&entry.node, currency, diagnostics)).collect();
    let people = crew.map_or_else(|| Some(Vec::new()), |crew| people(crew.value, &days, diagnostics));
    let shifts: Vec<Shift> = shifts.into_iter().collect::<Option<_>>()?;
    let count = count?;
    if count.value > LONGEST {
        diagnostics.push(
            Diagnostic::new(Code::OutOfRange, format!("a plan of {} days", count.value))
                .at(count.span, format!("expected at most {LONGEST} days")),
        );
        return None;
    }
    let closed = closed.map_or_else(Vec::new, |list| list.value.into_iter().map(|day| day.value).collect());
    let buckets = lay((start?.value, count.value, &closed), &shifts, &people?, diagnostics)?;
    if buckets.is_empty() {
        diagnostics.push(
            Diagnostic::new(Code::Calendar, "no shift works on any day of the plan")
                .at(table.span, "this calendar has no open shift"),
        );
        return None;
    }
    Some(Calendar { start: start?.value, shifts: days.shifts, skills: days.skills, buckets })
}

fn shift(node: &Node, currency: &str, diagnostics: &mut Diagnostics) -> Option<Shift> {
    let table = match read::table(node) {
        Ok(table) => table,
        Err(mistakes) => {
            diagnostics.extend(mistakes);
            return None;
        }
    };
    let mut fields = Fields::new(table, "shift", diagnostics);
    let from = fields.required("from", time_of_day);
    let to = fields.required("to", time_of_day);
    let breaks = fields.optional("breaks", read::one_or_list(pause));
    let days = fields.optional("days", read::one_or_list(read::choice(&WEEKDAYS)));
    let premium = fields.optional("premium", read::money_rate(currency));
    fields.finish();
    Some(Shift {
        from: from?.value,
        to: to?.value,
        breaks: breaks.map_or_else(Vec::new, |list| list.value),
        days: days.map_or_else(
            || WEEKDAYS[..5].iter().map(|(_, day)| *day).collect(),
            |list| list.value.into_iter().map(|day| day.value).collect(),
        ),
        premium: premium.map_or(MoneyRate::ZERO, |premium| premium.value),
        span: table.span,
    })
}

const WEEKDAYS: [(&str, Weekday); 7] = [
    ("Mon", Weekday::Monday),
    ("Tue", Weekday::Tuesday),
    ("Wed", Weekday::Wednesday),
    ("Thu", Weekday::Thursday),
    ("Fri", Weekday::Friday),
    ("Sat", Weekday::Saturday),
    ("Sun", Weekday::Sunday),
];

/// People by shift and skill.
fn people(crew: &Table, days: &Days, diagnostics: &mut Diagnostics) -> Option<Vec<Vec<u32>>> {
    let mut people = vec![vec![0; days.skills.len()]; days.shifts.len()];
    let mut whole = true;
    for (skill, entry) in crew.entries.iter().enumerate() {
        let table = match read::table(&entry.node) {
            Ok(table) => table,
            Err(mistakes) => {
                diagnostics.extend(mistakes);
                whole = false;
                continue;
            }
        };
        for person in &table.entries {
            let name = Spanned { value: person.key.clone(), span: person.key_span };
            let shift = find("shift", &days.shifts, &name, diagnostics);
            let count = read::entry(person, read::count_or_zero, diagnostics);
            match (shift, count) {
                (Some(shift), Some(count)) => people[shift][skill] = count.value,
                _ => whole = false,
            }
        }
    }
    whole.then_some(people)
}

/// People by skill: `{ operator = 2 }`.
pub(super) fn skill_counts(crew: &Table, days: &Days, diagnostics: &mut Diagnostics) -> Option<Vec<u32>> {
    let mut people = vec![0; days.skills.len()];
    let mut whole = true;
    for entry in &crew.entries {
        let name = Spanned { value: entry.key.clone(), span: entry.key_span };
        let skill = days.skill_named(&name, diagnostics);
        let count = read::entry(entry, read::count_or_zero, diagnostics);
        match (skill, count) {
            (Some(skill), Some(count)) => people[skill.0] = count.value,
            _ => whole = false,
        }
    }
    whole.then_some(people)
}

/// Lays the shifts on the days, in order of time.
fn lay(
    horizon: (Date, u32, &[Date]),
    shifts: &[Shift],
    people: &[Vec<u32>],
    diagnostics: &mut Diagnostics,
) -> Option<Vec<Bucket>> {
    let (start, days, closed) = horizon;
    let mut buckets = Vec::new();
    for day in 0..days {
        let Ok(date) = start.checked_add(i64::from(day).days()) else { continue };
        if closed.contains(&date) {
            continue;
        }
        for (id, shift) in shifts.iter().enumerate() {
            if !shift.days.contains(&date.weekday()) {
                continue;
            }
            let laid = bucket(day, BucketKind::Shift(ShiftId(id)), shift, diagnostics)?;
            buckets.push((ShiftId(id), laid, shift.span));
        }
    }
    buckets.sort_by_key(|(_, bucket, _)| (bucket.start, bucket.end));
    for pair in buckets.windows(2) {
        if pair[1].1.start < pair[0].1.end {
            diagnostics.push(
                Diagnostic::new(Code::Calendar, "two shifts overlap")
                    .at(pair[1].2, "this one starts before the other ends")
                    .also(pair[0].2, "the other"),
            );
            return None;
        }
    }
    let with_people = |(shift, bucket, _): (ShiftId, Bucket, Span)| Bucket {
        people: people.get(shift.0).cloned().unwrap_or_default(),
        ..bucket
    };
    Some(buckets.into_iter().map(with_people).collect())
}

/// A shift laid on a day, without people.
pub(super) fn bucket(
    day: u32,
    kind: BucketKind,
    shift: &Shift,
    diagnostics: &mut Diagnostics,
) -> Option<Bucket> {
    let midnight = i64::from(day) * 86_400;
    let start = midnight + seconds(shift.from);
    // A shift that ends at or before its start ends on the next day.
    let after =
        |at: Time| midnight + seconds(at) + if seconds(at) <= seconds(shift.from) { 86_400 } else { 0 };
    let end = after(shift.to);
    let mut breaks = Vec::new();
    for pause in &shift.breaks {
        let next_day = if seconds(pause.value.0) < seconds(shift.from) { 86_400 } else { 0 };
        let from = midnight + seconds(pause.value.0) + next_day;
        let length = (seconds(pause.value.1) - seconds(pause.value.0)).rem_euclid(86_400);
        if from < start || end < from + length {
            diagnostics.push(
                Diagnostic::new(Code::Calendar, "a break lies outside its shift")
                    .at(pause.span, "this break"),
            );
            return None;
        }
        breaks.push((from, from + length, pause.span));
    }
    breaks.sort_by_key(|(from, to, _)| (*from, *to));
    if let Some(pair) = breaks.windows(2).find(|pair| pair[1].0 < pair[0].1) {
        diagnostics.push(
            Diagnostic::new(Code::Calendar, "two breaks overlap")
                .at(pair[1].2, "this one")
                .also(pair[0].2, "and this"),
        );
        return None;
    }
    Some(Bucket {
        kind,
        day: usize::try_from(day).unwrap_or(0),
        start,
        end,
        breaks: breaks.into_iter().map(|(from, to, _)| (from, to)).collect(),
        people: Vec::new(),
        premium: shift.premium,
    })
}

fn seconds(time: Time) -> i64 {
    i64::from(time.hour()) * 3600 + i64::from(time.minute()) * 60 + i64::from(time.second())
}

/// A time of day, `06:00`.
fn time_of_day(node: &Node) -> Reading<Time> {
    let text = read::stamp(node)?;
    parse_time(&text).ok_or_else(|| vec![unreadable(node, &text, "a time of day such as \"06:00\"")])
}

/// A break, `09:00-09:15`.
pub(super) fn pause(node: &Node) -> Reading<(Time, Time)> {
    let text = read::text(node)?;
    text.split_once('-')
        .and_then(|(from, to)| Some((parse_time(from)?, parse_time(to)?)))
        .filter(|(from, to)| from != to)
        .ok_or_else(|| vec![unreadable(node, &text, "a break such as \"09:00-09:15\"")])
}

fn parse_time(text: &str) -> Option<Time> {
    let (hour, minute) = text.trim().split_once(':')?;
    let digits = |part: &str| part.len() == 2 && part.bytes().all(|byte| byte.is_ascii_digit());
    if !digits(hour) || !digits(minute.get(..2)?) || !matches!(minute.get(2..)?, "" | ":00") {
        return None;
    }
    Time::new(hour.parse().ok()?, minute.get(..2)?.parse().ok()?, 0, 0).ok()
}

/// A date, `2027-03-01`.
pub(super) fn date(node: &Node) -> Reading<Date> {
    let text = read::stamp(node)?;
    let iso = text.len() == 10 && text.as_bytes().get(4) == Some(&b'-');
    let date = text.parse::<Date>().ok().filter(|_| iso);
    date.ok_or_else(|| vec![unreadable(node, &text, "a date such as \"2027-03-01\", year first")])
}

/// A date with time, `2027-03-05 14:00`.
pub(super) fn moment(node: &Node) -> Reading<DateTime> {
    let text = read::stamp(node)?;
    let parts = text.split_once([' ', 'T']).filter(|(date, _)| date.len() == 10);
    let moment = parts.and_then(|(date, time)| {
        let date: Date = date.parse().ok()?;
        Some(date.to_datetime(parse_time(time)?))
    });
    moment.ok_or_else(|| vec![unreadable(node, &text, "a date with time such as \"2027-03-05 14:00\"")])
}

fn unreadable(node: &Node, text: &str, expected: &str) -> Diagnostic {
    let shown: String = text.chars().take(40).collect();
    Diagnostic::new(Code::WrongKind, format!("expected {expected}, found `{shown}`"))
        .at(node.span, "not understood")
}
