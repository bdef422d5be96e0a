//! The constants found, with intervals, and how good the fit is.

use super::group::Axis;
use super::known::{EXPONENT_DOUBT, N_DOUBT};
use super::worked::{Found, LEVEL, Worked, family, joined};
use super::{FitRequest, Method};
use crate::calibrate::{Estimate, Family, fit_least_squares};
use crate::quantity::{Duration, Length, System};
use crate::report::{Cell, Column, Holds, Table};

/// A row of the table of constants.
struct Line {
    name: &'static str,
    meaning: &'static str,
    unit: String,
    estimate: Option<Estimate>,
    known: Option<f64>,
    weight: Option<f64>,
}

/// Constants of each group.
pub(super) fn constants(request: &FitRequest, worked: &[Worked<'_>]) -> Table {
    let value = Holds::Number { unit: "", key: "" };
    let mut table = Table::new("constants", "Constants of V T^n f^a d^b = C")
        .remark(
            "Ends are those of 95 %: of n by the likelihood ratio (least squares: by t; with a prior and for the others: by the normal \
             approximation). C is the speed that gives half of the edges a life of one minute, at a feed and depth of one where \
             these are varied, in the units of the report. T_0 is the mean life at the reference cut, T_1 \
             the life of one edge there: half of the edges and 95 in 100. Least squares gives the median for both.",
        )
        .column(Column::text("log_of", "log of"))
        .column(Column::text("constant", "constant"))
        .column(Column::prose("meaning", "meaning"))
        .column(Column::new("value", "value", value).decimals(4))
        .column(Column::new("low", "from", value).decimals(4))
        .column(Column::new("high", "to", value).decimals(4))
        .column(Column::text("unit", "unit"))
        .column(Column::new("prior", "known before", value).decimals(4))
        .column(Column::new("data_weight", "decided by the log", Holds::Share).decimals(0));
    for fit in worked {
        for line in lines(request, fit) {
            let Some(estimate) = line.estimate else { continue };
            table.row(vec![
                fit.group.name().into(),
                line.name.into(),
                line.meaning.into(),
                estimate.value.into(),
                estimate.interval.map(|ends| ends.0).into(),
                estimate.interval.map(|ends| ends.1).into(),
                line.unit.into(),
                line.known.into(),
                line.weight.map_or(Cell::Missing, Cell::share),
            ]);
        }
    }
    table
}

/// Units of the report: what one of them is in m/min and mm.
struct Scale {
    speed: f64,
    length: f64,
    speed_unit: &'static str,
    length_unit: &'static str,
}

impl Scale {
    fn of(system: System) -> Self {
        match system {
            System::Metric => Self { speed: 1.0, length: 1.0, speed_unit: "m/min", length_unit: "mm" },
            System::Inch => Self { speed: 0.3048, length: 25.4, speed_unit: "ft/min", length_unit: "in" },
        }
    }

    fn feed_unit(&self, fit: &Worked<'_>) -> String {
        format!("{}{}", self.length_unit, fit.group.per.text())
    }
}

fn line(
    name: &'static str,
    meaning: &'static str,
    unit: impl Into<String>,
    estimate: Option<Estimate>,
) -> Line {
    Line { name, meaning, unit: unit.into(), estimate, known: None, weight: None }
}

fn plain(value: Option<f64>) -> Option<Estimate> {
    value.map(|value| Estimate { value, interval: None })
}

fn lines(request: &FitRequest, fit: &Worked<'_>) -> Vec<Line> {
    let scale = Scale::of(request.system);
    let mut lines = exponents(fit);
    lines.extend(reference(fit, &scale));
    lines.extend(scatter(fit));
    lines.push(line("b_0", "constant of ln T on the logarithms", "", plain(Some(intercept(fit, &scale)))));
    for axis in &fit.axes {
        let (name, meaning) = match axis {
            Axis::Speed => ("b_V", "slope of ln T on ln V"),
            Axis::Feed => ("b_f", "slope of ln T on ln f"),
            Axis::Depth => ("b_d", "slope of ln T on ln d"),
        };
        lines.push(line(name, meaning, "", plain(fit.place(*axis).map(|at| fit.coefficients()[at]))));
    }
    lines
}

/// How much of a coefficient the log decided, where the catalog is joined.
fn weight(fit: &Worked<'_>, place: Option<usize>) -> Option<f64> {
    match &fit.found {
        Found::Censored(found) => found.data_weight.as_ref()?.get(place?).copied(),
        Found::Line(_) => None,
    }
}

/// n, a and b.
fn exponents(fit: &Worked<'_>) -> Vec<Line> {
    let prior = if fit.with_prior { fit.known.prior(fit.group, &fit.axes) } else { None };
    let slope = |axis: Axis| prior.as_ref()?.mean.get(fit.place(axis)?).copied();
    let over_n = |axis: Axis| Some(slope(axis)? / slope(Axis::Speed)?);
    let by_axis =
        |axis: Axis, known: Option<f64>, of: Line| Line { known, weight: weight(fit, fit.place(axis)), ..of };
    vec![
        by_axis(
            Axis::Speed,
            slope(Axis::Speed).map(|slope| -1.0 / slope),
            line("n", "exponent of the life", "", fit.n()),
        ),
        by_axis(
            Axis::Feed,
            over_n(Axis::Feed),
            line("a", "exponent of the feed", "", fit.exponent(Axis::Feed)),
        ),
        by_axis(
            Axis::Depth,
            over_n(Axis::Depth),
            line("b", "exponent of the depth", "", fit.exponent(Axis::Depth)),
        ),
    ]
}

/// C, the reference cut and its life.
fn reference(fit: &Worked<'_>, scale: &Scale) -> Vec<Line> {
    let prior = if fit.with_prior { fit.known.prior(fit.group, &fit.axes) } else { None };
    let c = speed_for_a_minute(fit).map(|c| c / scale.speed * feed_unit(fit, scale.length));
    let speed = fit.reference_value(Axis::Speed).map(|speed| speed / scale.speed);
    let of = |axis: Axis| plain(fit.reference_value(axis).map(|length| length / scale.length));
    let single = Estimate { value: fit.median(&fit.reference()).exp(), interval: fit.one_edge() };
    vec![
        line("C", "speed for a life of one minute", scale.speed_unit, plain(c)),
        line("V_0", "speed of the reference cut", scale.speed_unit, plain(speed)),
        line("f_0", "feed of the reference cut", scale.feed_unit(fit), of(Axis::Feed)),
        line("d_0", "depth of the reference cut", scale.length_unit, of(Axis::Depth)),
        Line {
            known: prior.map(|prior| prior.mean[0].exp()),
            weight: weight(fit, Some(0)),
            ..line("T_0", "life at the reference cut", "min", Some(fit.life()))
        },
        line("T_1", "life of a single edge there", "min", Some(single)),
    ]
}

/// Variation, and the parameter of the family.
fn scatter(fit: &Worked<'_>) -> Vec<Line> {
    let mut lines =
        vec![line("CV", "variation: standard deviation over mean of the life", "", fit.variation())];
    if let Found::Censored(found) = &fit.found {
        let ends = found.wald(LEVEL).last().copied();
        lines.push(match found.family {
            Family::Weibull => {
                let interval = ends.map(|(low, high)| (1.0 / high, 1.0 / low));
                line("beta", "Weibull shape", "", Some(Estimate { value: 1.0 / found.sigma, interval }))
            }
            Family::Lognormal => {
                line("sigma", "deviation of ln T", "", Some(Estimate { value: found.sigma, interval: ends }))
            }
        });
    }
    lines
}

/// C in metric units at a feed and depth of one millimetre: half of the edges last a minute.
fn speed_for_a_minute(fit: &Worked<'_>) -> Option<f64> {
    let slope = fit.coefficients()[fit.place(Axis::Speed)?];
    let zero: Vec<f64> = fit.about.iter().map(|about| -about.ln()).collect();
    Some((-fit.median(&zero) / slope).exp())
}

/// What feeds and depths in inches make of C.
fn feed_unit(fit: &Worked<'_>, length: f64) -> f64 {
    let Some(speed) = fit.place(Axis::Speed) else { return 1.0 };
    let others = [Axis::Feed, Axis::Depth].into_iter().filter_map(|axis| fit.place(axis));
    let sum: f64 = others.map(|at| fit.coefficients()[at] / fit.coefficients()[speed]).sum();
    // V f^a d^b: a length in inches is a smaller number.
    length.powf(-sum)
}

/// The constant of ln T on the logarithms of the numbers of the report.
fn intercept(fit: &Worked<'_>, scale: &Scale) -> f64 {
    let unit = |axis: &Axis| match axis {
        Axis::Speed => scale.speed.ln(),
        Axis::Feed | Axis::Depth => scale.length.ln(),
    };
    let slopes = &fit.coefficients()[1..];
    fit.intercept() + slopes.iter().zip(&fit.axes).map(|(slope, axis)| slope * unit(axis)).sum::<f64>()
}

/// Rows, failures, likelihoods, and whether a straight line is enough.
pub(super) fn quality(worked: &[Worked<'_>]) -> Table {
    let number = |key, unit| Holds::Number { unit, key };
    let mut table = Table::new("quality", "How good the fit is")
        .remark(
            "Families are told apart by their log-likelihoods only where these differ by two or more. Lack of fit is the chance that the \
             means of repeats lie as far off the line, if the line is right: below 5 % life does not follow a straight line in logarithms.",
        )
        .column(Column::text("log_of", "log of"))
        .column(Column::text("method", "method"))
        .column(Column::count("edges", "edges", "edges"))
        .column(Column::count("to_the_end", "used to the end", "edges"))
        .column(Column::count("early", "changed early", "edges"))
        .column(Column::new("log_likelihood", "log-likelihood", number("", "")).decimals(6))
        .column(Column::new("other_family", "of the other family", number("", "")).decimals(6))
        .column(Column::new("explained", "explained, R^2", Holds::Ratio).decimals(4))
        .column(Column::new("lack_of_fit", "lack of fit", Holds::Share));
    for fit in worked {
        let line = fit_least_squares(&fit.rows).ok();
        let total: u32 = fit.group.lives.iter().map(|life| life.count).sum();
        let early: u32 = fit
            .group
            .lives
            .iter()
            .filter(|life| life.end == crate::calibrate::Outcome::RightCensored)
            .map(|life| life.count)
            .sum();
        let (method, own, other) = match &fit.found {
            Found::Censored(found) => {
                let (name, other) = match found.family {
                    Family::Weibull => ("censored Weibull regression", Method::Lognormal),
                    Family::Lognormal => ("censored lognormal regression", Method::Weibull),
                };
                let prior = if fit.with_prior { fit.known.prior(fit.group, &fit.axes) } else { None };
                let other = joined(&fit.rows, family(other), prior.as_ref()).ok();
                (name, Some(found.log_likelihood), other.map(|(other, _)| other.log_likelihood))
            }
            Found::Line(_) => ("least squares of ln T", None, None),
        };
        table.row(vec![
            fit.group.name().into(),
            if fit.with_prior { format!("{method}, joined with the catalog") } else { method.to_owned() }
                .into(),
            total.into(),
            (total - early).into(),
            early.into(),
            own.into(),
            other.into(),
            line.as_ref().map(|line| line.r_squared).into(),
            line.and_then(|line| line.lack_of_fit).map_or(Cell::Missing, |lack| Cell::share(lack.chance)),
        ]);
    }
    table
}

/// Lives read off wear readings, edge by edge; `None` where the log holds no readings.
pub(super) fn read_lives(worked: &[Worked<'_>]) -> Option<Table> {
    if worked.iter().all(|fit| fit.group.limit.is_none()) {
        return None;
    }
    let mut table = Table::new("read_lives", "Lives read off the wear readings")
        .remark(
            "A life is read on the straight line between the readings on both sides of the limit. The power curve VB = a t^b goes through all \
             readings of an edge by least squares of VB; beyond 1 of the last reading it is extrapolated.",
        )
        .column(Column::text("log_of", "log of"))
        .column(Column::text("edge", "edge"))
        .column(Column::quantity::<Length>("limit", "limit"))
        .column(Column::quantity::<Duration>("life", "life").in_unit("min"))
        .column(Column::text("how", "how"))
        .column(Column::quantity::<Duration>("by_curve", "by power curve").in_unit("min"))
        .column(Column::new("beyond", "of the last reading", Holds::Ratio).decimals(2));
    for fit in worked {
        for life in &fit.group.lives {
            table.row(vec![
                fit.group.name().into(),
                life.name.as_str().into(),
                fit.group.limit.into(),
                life.life.into(),
                life.outcome.into(),
                life.curve.map(|curve| Duration::min(curve.time)).into(),
                life.curve.map(|curve| curve.beyond).into(),
            ]);
        }
    }
    Some(table)
}

/// How far the catalog is doubted, in words.
pub(super) fn doubt() -> String {
    format!(
        "Joined with the catalog: its life counts as known to a factor of two, its n to {N_DOUBT}, its exponents of feed and depth to \
         {EXPONENT_DOUBT}, each as one standard deviation (common practice); the scatter is that of the log. \
         `decided by the log` says how much of each the log moved."
    )
}
