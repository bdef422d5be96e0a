//! Each edge against the fit, the row that pulls most, and what the constants should be read with.

use super::constants::doubt;
use super::group::Axis;
use super::worked::{Found, Worked};
use super::{FitRequest, Method};
use crate::calibrate::{Family, Influence, Outcome, Remark, weibull_shape_bias};
use crate::quantity::{CuttingSpeed, Duration, Length, significant};
use crate::report::{Column, Holds, Table};

/// Each row: life, what half of such edges reach, and what the fit would be without it.
pub(super) fn residuals(worked: &[Worked<'_>]) -> Table {
    let mut table = Table::new("residuals", "Each edge against the fit")
        .remark(
            "Expected is the life that half of the edges reach. The residual is in scatters; an edge changed early would have gone further. \
             The pull is how far the slope on speed moves, in its standard errors, when the row is left out.",
        )
        .column(Column::text("log_of", "log of"))
        .column(Column::text("row", "row"))
        .column(Column::quantity::<CuttingSpeed>("speed", "speed"))
        .column(Column::quantity::<Length>("feed", "feed"))
        .column(Column::quantity::<Length>("depth", "depth"))
        .column(Column::quantity::<Duration>("life", "life").in_unit("min"))
        .column(Column::text("outcome", "outcome"))
        .column(Column::count("count", "edges", "edges"))
        .column(Column::quantity::<Duration>("expected", "expected").in_unit("min"))
        .column(Column::new("of_expected", "of it", Holds::Ratio).decimals(2))
        .column(Column::new("residual", "residual", Holds::Ratio).decimals(2))
        .column(Column::new("n_without", "n without", Holds::Ratio).decimals(4))
        .column(Column::new("pull", "pull", Holds::Ratio).decimals(2));
    for fit in worked {
        let scatter = match &fit.found {
            Found::Censored(found) => Some(found.sigma),
            Found::Line(line) => line.scatter,
        };
        for (at, (life, row)) in fit.group.lives.iter().zip(&fit.rows).enumerate() {
            let expected = fit.median(&row.x);
            let (without, pull) = fit.influence.get(at).map_or((None, None), |of| n_without(fit, of));
            table.row(vec![
                fit.group.name().into(),
                life.name.as_str().into(),
                life.speed.into(),
                life.feed.into(),
                life.depth.into(),
                life.life.into(),
                life.outcome.into(),
                life.count.into(),
                Duration::min(expected.exp()).into(),
                (row.life / expected.exp()).into(),
                scatter.map(|scatter| (row.life.ln() - expected) / scatter).into(),
                without.into(),
                pull.into(),
            ]);
        }
    }
    table
}

fn n_without(fit: &Worked<'_>, of: &Influence) -> (Option<f64>, Option<f64>) {
    let Some(place) = fit.place(Axis::Speed) else { return (None, None) };
    let n = of.without.as_ref().and_then(|without| without.get(place)).map(|slope| -1.0 / slope);
    (n, of.shifts.as_ref().and_then(|shifts| shifts.get(place)).copied())
}

/// What the constants of a group should be read with.
pub(super) fn remarks(request: &FitRequest, fit: &Worked<'_>) -> Vec<String> {
    let name = fit.group.name();
    let mut lines = Vec::new();
    let mut say = |line: String| lines.push(format!("{name}: {line}"));
    for remark in fit.remarks() {
        say(match remark {
            Remark::NotFalling => {
                "life does not fall with speed in this log. Do not plan with it.".to_owned()
            }
            Remark::ExponentAboveOne => {
                "n is above 1, beyond anything usual. Do not plan with it.".to_owned()
            }
            Remark::PoorLine { r_squared } => {
                format!("the line explains {:.0} % of the variation of ln T: a poor line.", 100.0 * r_squared)
            }
        });
    }
    let wide = |ends: Option<(f64, f64)>| ends.is_none_or(|(low, high)| high > 2.0 * low);
    if fit.n().is_some_and(|n| wide(n.interval)) {
        say("the log tells n to no better than a factor of two: log changes at speeds further apart."
            .to_owned());
    }
    open_questions(request, fit, &mut say);
    slips(fit, &mut say);
    odd(fit, &mut say);
    pulls(fit, &mut say);
    if let Found::Line(line) = &fit.found
        && line.left_out > 0.0
    {
        say(format!(
            "least squares leaves out {} edges changed early, which makes lives look shorter: use the censored fit.",
            line.left_out
        ));
    }
    if let Found::Censored(found) = &fit.found
        && found.family == Family::Weibull
        && let Some(bias) = whole(found.failures).and_then(weibull_shape_bias)
        && bias < 0.97
    {
        say(format!(
            "a shape from {} edges used to the end comes out too large, by some {:.0} % in complete logs of this size: lives scatter more than CV says.",
            found.failures,
            100.0 * (1.0 / bias - 1.0)
        ));
    }
    if request.prior && !fit.with_prior {
        say("the catalog has no law in minutes for this tool and material: the log stands alone.".to_owned());
    }
    if fit.with_prior {
        say(doubt());
    }
    if request.method == Method::LeastSquares {
        say("plain least squares of ln T on the logarithms, as asked; its C and T_0 are medians and not those of a Weibull fit.".to_owned());
    }
    lines
}

fn slips(fit: &Worked<'_>, say: &mut impl FnMut(String)) {
    for of in &fit.influence {
        let (Some(slip), Some(life)) = (of.slip, fit.group.lives.get(of.row)) else { continue };
        let (n, _) = n_without(fit, of);
        say(format!(
            "{}: a life of {} min looks like a slip of the decimal point; {} min would fall on the line{}.",
            life.name,
            life.life.to_min(),
            significant(slip.life, 6),
            n.map_or_else(String::new, |n| format!(", and without the row n is {n:.4}"))
        ));
    }
}

/// What the log leaves open.
fn open_questions(request: &FitRequest, fit: &Worked<'_>, say: &mut impl FnMut(String)) {
    if let (Some(missing), Some(material)) = (fit.missing(), &fit.known.material) {
        say(format!(
            "no {missing} in the log: over a scenario in {} its life is taken to be that at the catalog's reference cut. Log what was run.",
            material.key
        ));
    }
    if let (None, Some(material)) = (request.hardness, &fit.known.material) {
        say(format!(
            "taken to be cut at the usual hardness of {}; say --hardness if it was another.",
            material.key
        ));
    }
    if let Some((axis, line)) = fit.group.patchy() {
        say(format!("{} is empty in line {line}: the whole column is left out of the fit.", axis.name()));
    }
    if !fit.group.silent.is_empty() {
        say(format!(
            "left out, since read only when new or only when worn: {}.",
            fit.group.silent.join(", ")
        ));
    }
    if fit.place(Axis::Speed).is_none() {
        say("no speed in the log: how life hangs on speed cannot be told, and nothing can be laid over a scenario.".to_owned());
    }
}

/// Chance below which a life is called odd.
const ODD: f64 = 0.002;

/// Lives that hardly any edge has, by the family fitted.
fn odd(fit: &Worked<'_>, say: &mut impl FnMut(String)) {
    let Found::Censored(found) = &fit.found else { return };
    for (life, hazard) in fit.group.lives.iter().zip(found.cox_snell_residuals(&fit.rows)) {
        let (lasting, failed) = ((-hazard).exp(), -(-hazard).exp_m1());
        let early = life.end == Outcome::Failed && failed < ODD;
        if early || lasting < ODD {
            let (share, word) = if early { (failed, "so early") } else { (lasting, "so late") };
            say(format!(
                "{} ({}): only {:.2} % of the edges would go {word}. Look whether it was another failure, another cut or a slip.",
                life.name,
                life.outcome,
                100.0 * share
            ));
        }
    }
}

/// The row that pulls most, if it pulls by more than a standard error.
fn pulls(fit: &Worked<'_>, say: &mut impl FnMut(String)) {
    let pull = |of: &Influence| n_without(fit, of).1.map_or(0.0, f64::abs);
    let Some(most) = fit.influence.iter().max_by(|a, b| pull(a).total_cmp(&pull(b))) else { return };
    if pull(most) <= 1.0 || most.slip.is_some() {
        return;
    }
    let Some(life) = fit.group.lives.get(most.row) else { return };
    if let (Some(n), _) = n_without(fit, most) {
        say(format!("{} pulls the answer most: without it n is {n:.4}.", life.name));
    }
}

fn whole(count: f64) -> Option<u32> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked to be in the range of u32"
    )]
    let whole = (count.is_finite() && (0.0..1e9).contains(&count)).then_some(count.round() as u32);
    whole
}
