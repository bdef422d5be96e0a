//! Machines of the shop from their tables.

use super::calendar::{Days, date, moment};
use super::read::{self, Bounds};
use super::tree::Table;
use super::{Fields, Spanned};
use crate::diag::{Code, Diagnostic, Diagnostics, Span};
use crate::plant::{AtBreaks, Attendance, Chuck, Machine, MachineKind, SkillId, Spindle};
use crate::quantity::{
    Duration, FeedRate, Force, Fraction, MassMoment, Power, Quantity, SpindleSpeed, Torque,
};
use jiff::civil::DateTime;

/// What a machine's table is read against.
pub(super) struct Around<'a> {
    /// Shifts and skills.
    pub(super) days: &'a Days,
    /// Currency of the scenario.
    pub(super) currency: &'a str,
}

/// A machine and the coolant it names.
pub(super) struct ReadMachine {
    pub(super) machine: Machine,
    pub(super) coolant: Option<Spanned<String>>,
    /// What it stands set up for at the start.
    pub(super) set_up: Option<StandsFor>,
}

/// An operation by the names of its item and itself.
pub(super) struct StandsFor {
    pub(super) item: Spanned<String>,
    pub(super) operation: Spanned<u32>,
}

/// Reads a machine of the shop.
pub(super) fn machine(
    key: &str,
    table: &Table,
    around: &Around<'_>,
    diagnostics: &mut Diagnostics,
) -> Option<ReadMachine> {
    let mut fields = Fields::new(table, "machine", diagnostics);
    let title = fields.required("title", read::text);
    let kind = fields.required("kind", read::choice(&MachineKind::NAMES)).map(|kind| kind.value);
    let cutting = kind.is_some_and(|kind| kind != MachineKind::Station);
    let turns = kind.is_some_and(MachineKind::turns);
    let spindle = if turns { spindle(&mut fields) } else { None };
    let rapid = rate(&mut fields, "rapid", kind);
    let feed_limit = rate(&mut fields, "feed_limit", kind);
    let (feed_force, table_speed) = (limit(&mut fields, "feed_force"), limit(&mut fields, "table_speed"));
    let (stroke_rate, bar_support) = (limit(&mut fields, "stroke_rate"), limit(&mut fields, "bar_support"));
    let chuck = fields.optional("chuck", read::table).map(|table| chuck(table.value, fields.diagnostics()));
    let [index, edge_change, stop, bar_feed, bar_change] =
        ["index", "edge_change", "stop", "bar_feed", "bar_change"].map(|key| time(&mut fields, key));
    let shares = shares(&mut fields);
    let coolant =
        if cutting { fields.required("coolant", read::name) } else { fields.optional("coolant", read::name) };
    let price = fields.optional("rate", read::money_rate(around.currency));
    let shifts = fields.optional("shifts", read::one_or_list(read::name));
    let shifts = around.days.shifts_named(shifts, fields.diagnostics());
    let closed = fields.optional("closed", read::one_or_list(date));
    let stops = stops(&mut fields);
    let set_up = fields.optional("set_up", read::table);
    let set_up = set_up.map(|table| stands_for(table.value, fields.diagnostics()));
    let at_breaks = fields.optional("breaks", read::choice(&AT_BREAKS));
    let attendance = fields.optional("attendance", read::table);
    let attendance = attendance.map(|table| self::attendance(table.value, around.days, fields.diagnostics()));
    let setter = fields
        .optional("setter", read::name)
        .map(|name| around.days.skill_named(&name, fields.diagnostics()));
    let caution = fields.optional("caution", read::text);
    fields.optional("note", read::text);
    fields.finish();
    let (availability, performance) = shares?;
    let machine = Machine {
        key: key.to_owned(),
        title: title?.value,
        kind: kind?,
        spindle,
        rapid,
        feed_limit,
        feed_force,
        table_speed,
        stroke_rate,
        bar_support,
        chuck: flatten(chuck)?,
        index,
        edge_change,
        stop: stop.smaller(edge_change),
        bar_feed,
        bar_change,
        availability,
        performance,
        coolant: None,
        rate: price.map(|price| price.value),
        shifts: shifts?,
        closed: closed.map_or_else(Vec::new, |days| days.value.into_iter().map(|day| day.value).collect()),
        stops: stops?,
        at_breaks: at_breaks.map_or(AtBreaks::Stop, |breaks| breaks.value),
        attendance: flatten(attendance)?,
        setter: flatten(setter)?,
        caution: caution.map(|caution| caution.value),
    };
    let set_up = flatten(set_up)?;
    (machine.spindle.is_some() || !turns).then_some(ReadMachine { machine, coolant, set_up })
}

/// Planned stops: `[{ from = "2027-03-02 06:00", to = "2027-03-02 14:00" }]`.
fn stops(fields: &mut Fields<'_, '_>) -> Option<Vec<(DateTime, DateTime)>> {
    let given = fields.has("stops");
    let tables = fields.optional("stops", read::one_or_list(read::table));
    if given && tables.is_none() {
        return None;
    }
    let read = tables.iter().flat_map(|tables| &tables.value);
    let read: Vec<_> = read.map(|table| planned_stop(table, fields.diagnostics())).collect();
    let mut stops: Vec<_> = read.into_iter().collect::<Option<_>>()?;
    stops.sort_by_key(|(from, to, _)| (*from, *to));
    if let Some(pair) = stops.windows(2).find(|pair| pair[1].0 < pair[0].1) {
        fields.diagnostics().push(
            Diagnostic::new(Code::Calendar, "two planned stops overlap")
                .at(pair[1].2, "this one")
                .also(pair[0].2, "and this"),
        );
        return None;
    }
    Some(stops.into_iter().map(|(from, to, _)| (from, to)).collect())
}

fn planned_stop(
    table: &Spanned<&Table>,
    diagnostics: &mut Diagnostics,
) -> Option<(DateTime, DateTime, Span)> {
    let mut fields = Fields::new(table.value, "planned stop", diagnostics);
    let from = fields.required("from", moment);
    let to = fields.required("to", moment);
    fields.finish();
    let (from, to) = (from?, to?);
    if to.value <= from.value {
        diagnostics.push(
            Diagnostic::new(Code::Calendar, "a planned stop ends before it begins")
                .at(to.span, "expected a time after `from`")
                .also(from.span, "`from` is here"),
        );
        return None;
    }
    Some((from.value, to.value, table.span))
}

/// What a machine stands set up for: `{ item = "drive-shaft", operation = 10 }`.
fn stands_for(table: &Table, diagnostics: &mut Diagnostics) -> Option<StandsFor> {
    let mut fields = Fields::new(table, "set up", diagnostics);
    let item = fields.required("item", read::name);
    let operation = fields.required("operation", read::count);
    fields.finish();
    Some(StandsFor { item: item?, operation: operation? })
}

/// Availability and performance.
fn shares(fields: &mut Fields<'_, '_>) -> Option<(Fraction, Fraction)> {
    let availability = fields.required("availability", read::share);
    let availability = availability.and_then(|share| enough(share.value, share.span, fields));
    let performance = fields.optional("performance", read::share);
    let performance =
        performance.map_or(Some(Fraction::ONE), |share| enough(share.value, share.span, fields));
    Some((availability?, performance?))
}

/// A limit of the machine; one that is not given does not bind.
fn limit<Q: Quantity + PartialOrd>(fields: &mut Fields<'_, '_>, key: &'static str) -> Option<Q> {
    fields.optional_figure(key, read::quantity::<Q>(Bounds::Positive)).map(|limit| limit.value)
}

/// What a machine does in the breaks, as written.
const AT_BREAKS: [(&str, AtBreaks); 2] = [("stop", AtBreaks::Stop), ("run", AtBreaks::Run)];

/// Not given is fine, given and wrong is not.
fn flatten<T>(given: Option<Option<T>>) -> Option<Option<T>> {
    match given {
        None => Some(None),
        Some(None) => None,
        Some(Some(value)) => Some(Some(value)),
    }
}

fn spindle(fields: &mut Fields<'_, '_>) -> Option<Spindle> {
    let fastest = fields.required_figure("spindle_speed", read::quantity::<SpindleSpeed>(Bounds::Positive));
    let base_speed = fields.optional_figure("base_speed", read::quantity::<SpindleSpeed>(Bounds::Positive));
    let power = fields.required_figure("power", read::quantity::<Power>(Bounds::Positive));
    let efficiency = fields.required_figure("efficiency", read::share);
    let torque = fields.required_figure("torque", read::quantity::<Torque>(Bounds::Positive));
    let efficiency = efficiency?;
    Some(Spindle {
        fastest: fastest?.value,
        base_speed: base_speed.map(|speed| speed.value),
        power: power?.value,
        efficiency: enough(efficiency.value, efficiency.span, fields)?,
        torque: torque?.value,
    })
}

/// Friction of smooth jaws and usual safety where a chuck states none: from memory of VDI 3106.
const FRICTION: f64 = 0.15;
const SAFETY: f64 = 1.5;

/// A chuck: `{ grip = "45 kN", jaw_moment = "1.7 kg m", fastest = "4500 rpm" }`.
fn chuck(table: &Table, diagnostics: &mut Diagnostics) -> Option<Chuck> {
    let mut fields = Fields::new(table, "chuck", diagnostics);
    let grip = fields.required_figure("grip", read::quantity::<Force>(Bounds::Positive));
    let jaw_moment = fields.required_figure("jaw_moment", read::quantity::<MassMoment>(Bounds::Positive));
    let fastest = fields.required_figure("fastest", read::quantity::<SpindleSpeed>(Bounds::Positive));
    let friction = fields.optional_figure("friction", read::number_between(0.02, 1.0));
    let safety = fields.optional_figure("safety", read::number_between(1.0, 5.0));
    fields.optional("note", read::text);
    fields.finish();
    Some(Chuck {
        grip: grip?.value,
        jaw_moment: jaw_moment?.value,
        fastest: fastest?.value,
        friction: friction.map_or(FRICTION, |friction| friction.value),
        safety: safety.map_or(SAFETY, |safety| safety.value),
    })
}

/// Least share with which a machine can be planned.
const LEAST_SHARE: f64 = 0.01;

fn enough(share: Fraction, at: Span, fields: &mut Fields<'_, '_>) -> Option<Fraction> {
    if share.value() >= LEAST_SHARE {
        return Some(share);
    }
    fields.diagnostics().push(
        Diagnostic::new(Code::OutOfRange, "a share below 1 % makes no plan").at(at, "expected 1 % to 100 %"),
    );
    None
}

/// A rate that machines with a spindle must have.
fn rate(fields: &mut Fields<'_, '_>, key: &'static str, kind: Option<MachineKind>) -> Option<FeedRate> {
    let read = read::quantity::<FeedRate>(Bounds::Positive);
    let rate = match kind {
        Some(kind) if kind.turns() => fields.required_figure(key, read),
        _ => fields.optional_figure(key, read),
    };
    rate.map(|rate| rate.value)
}

fn time(fields: &mut Fields<'_, '_>, key: &'static str) -> Duration {
    fields
        .optional_figure(key, read::quantity::<Duration>(Bounds::NotNegative))
        .map_or(Duration::ZERO, |time| time.value)
}

/// People held: `{ skill = "operator", share = 0.25 }`.
pub(super) fn attendance(table: &Table, days: &Days, diagnostics: &mut Diagnostics) -> Option<Attendance> {
    let mut fields = Fields::new(table, "attendance", diagnostics);
    let skill = fields.required("skill", read::name);
    let share = fields.optional("share", read::share);
    let skill: Option<SkillId> = skill.and_then(|name| days.skill_named(&name, fields.diagnostics()));
    fields.finish();
    Some(Attendance { skill: skill?, share: share.map(|share| share.value) })
}
