//! Limits held against what each cut asks.

use super::cuts::{each_cut, named, names, term};
use crate::cycle::{LimitCheck, LimitOf, OperationEstimate, Sense};
use crate::quantity::Units;
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::Scenario;

/// Every limit that bears on a cut: what is asked, what is allowed, what is left.
pub(in crate::commands) fn limits(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let mut table = named("limits", "Limits")
        .remark("The margin is what is left of the limit. A rule of thumb that is passed is a caution, any other limit a mistake of the cut.")
        .column(Column::text("machines", "machines"))
        .column(Column::text("limit", "limit"))
        .column(Column::text("of", "of"))
        .column(Column::text("asked", "asked"))
        .column(Column::text("allowed", "allowed"))
        .column(Column::new("margin", "margin", Holds::Share))
        .column(Column::text("state", "state"))
        .column(Column::text("source", "source"));
    each_cut(scenario, estimates, |estimate, machines, cut, at| {
        for limit in &estimate.cuts[at].0.limits {
            let mut row = names(scenario, estimate, cut);
            row.extend([
                machines.into(),
                limit.limit.into(),
                limit.of.name().into(),
                term(limit.asked, &scenario.units).into(),
                allowed(limit, &scenario.units).into(),
                Cell::share(1.0 - limit.used()),
                state(limit).into(),
                limit.source.into(),
            ]);
            table.row(row);
        }
    });
    table
}

fn allowed(limit: &LimitCheck, units: &Units) -> String {
    let figure = term(limit.allowed, units);
    match limit.sense {
        Sense::AtMost => format!("at most {figure}"),
        Sense::AtLeast => format!("at least {figure}"),
    }
}

fn state(limit: &LimitCheck) -> &'static str {
    match (limit.passed(), limit.of) {
        (false, _) => "kept",
        (true, LimitOf::Rule) => "passed",
        (true, _) => "broken",
    }
}

/// A limit that is passed, in words: `length by diameter of the work 12, at most 8: hold the work ... [memory]`.
pub(super) fn limit_words(limit: &LimitCheck, units: &Units) -> String {
    format!(
        "{} {}, {}: {} [{}]",
        limit.limit,
        term(limit.asked, units),
        allowed(limit, units),
        limit.remedy.words(),
        limit.source
    )
}
