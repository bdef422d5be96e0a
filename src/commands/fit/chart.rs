//! Lives against speed, and the residuals against the family.

use super::group::Axis as Of;
use super::worked::{Found, Worked};
use crate::calibrate::{Outcome, Row, kaplan_meier};
use crate::quantity::{CuttingSpeed, Duration};
use crate::report::{Axis, Cell, Chart, Column, Holds, Series, Shape};

/// Charts of one group.
pub(super) fn charts(fit: &Worked<'_>) -> Vec<Chart> {
    let mut charts: Vec<Chart> = speed_chart(fit).into_iter().collect();
    charts.push(survival_chart(fit));
    charts
}

/// Points along a line.
const POINTS: u32 = 24;

/// Lives at the reference feed and depth over speed, both logarithmic, with the lines of the fit.
fn speed_chart(fit: &Worked<'_>) -> Option<Chart> {
    let place = fit.place(Of::Speed)?;
    let (low, high) = fit.group.ends(Of::Speed)?;
    let reference = fit.reference();
    let x = Column::quantity::<CuttingSpeed>("speed", "cutting speed");
    let y = Column::quantity::<Duration>("life", "life").in_unit("min");
    let mut chart = Chart::new(
        "life_over_speed",
        format!("{}: life over speed", fit.group.name()),
        Axis::log(x),
        Axis::log(y),
    )
    .remark("Lives are brought to the feed and depth of the reference cut.");
    let mut worn = Series::new("used to the end", Shape::Points);
    let mut early = Series::new("changed early", Shape::Points);
    for (life, row) in fit.group.lives.iter().zip(&fit.rows) {
        let shift: f64 = row
            .x
            .iter()
            .zip(&reference)
            .enumerate()
            .filter(|(at, _)| at + 1 != place)
            .map(|(at, (own, reference))| fit.coefficients()[at + 1] * (reference - own))
            .sum();
        let Some(speed) = life.speed else { continue };
        let series = if life.end == Outcome::Failed { &mut worn } else { &mut early };
        series.point(speed, Duration::min(row.life * shift.exp()));
    }
    let (low, high) = (low * 0.9, high * 1.1);
    let mut half = Series::new("half of the edges reach", Shape::Line);
    let mut most = Series::new("nine of ten reach", Shape::Line);
    for step in 0..=POINTS {
        let speed = low * (high / low).powf(f64::from(step) / f64::from(POINTS));
        let mut at = reference.clone();
        at[place - 1] = (speed / fit.about[place - 1]).ln();
        half.point(CuttingSpeed::m_per_min(speed), Duration::min(fit.median(&at).exp()));
        if let Some(life) = fit.quantile(0.1, &at) {
            most.point(CuttingSpeed::m_per_min(speed), Duration::min(life.exp()));
        }
    }
    for series in [worn, early, half, most] {
        if !series.points.is_empty() {
            chart.add_series(series);
        }
    }
    Some(chart)
}

/// Share of edges that last, by the log (product limit) and by the family, over life divided by its expected life.
fn survival_chart(fit: &Worked<'_>) -> Chart {
    let x = Column::new("of_expected", "life over expected life", Holds::Ratio);
    let y = Column::new("lasting", "edges that last", Holds::Share);
    let mut chart = Chart::new("survival", format!("{}: scatter", fit.group.name()), Axis::linear(x), Axis::linear(y))
        .remark("Steps are the share that lasts by the log, edges changed early taken into account; the line is the family fitted.");
    let ratios: Vec<Row> = fit
        .rows
        .iter()
        .map(|row| Row { x: Vec::new(), life: row.life / fit.median(&row.x).exp(), ..row.clone() })
        .collect();
    let mut steps = Series::new("log", Shape::Steps);
    steps.point(0.0, Cell::share(1.0));
    let mut last: f64 = 1.0;
    for step in kaplan_meier(&ratios) {
        steps.point(step.life, Cell::share(step.survival));
        last = last.max(step.life);
    }
    chart.add_series(steps);
    if let Found::Censored(found) = &fit.found {
        let mut line = Series::new("family", Shape::Line);
        let middle = found.quantile(0.5, &fit.reference()).value;
        for step in 1..POINTS * 4 {
            let p = f64::from(step) / f64::from(POINTS * 4);
            let life = (found.quantile(p, &fit.reference()).value - middle).exp();
            if life <= last * 1.2 {
                line.point(life, Cell::share(1.0 - p));
            }
        }
        chart.add_series(line);
    }
    chart
}
