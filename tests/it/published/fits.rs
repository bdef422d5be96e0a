//! Lives to constants.

use wearland::calibrate::{
    Family, Fit, LineFit, Profiled, Row, WearLife, fit_censored, fit_least_squares, fit_power_curve,
    kaplan_meier, power_start, profile_interval, wear_life, weibull_shape_bias,
};

use super::formulas::Found;
use super::inputs::{Answer, Inputs};
use crate::fits::data;

const LEVEL: f64 = 0.95;

pub(super) fn work(name: &str, i: &Inputs) -> Found {
    for family in [sample, intervals, regression, line, line_at, speed_life, other] {
        if let Some(answer) = family(name, i)? {
            return Ok(Some(answer));
        }
    }
    Ok(None)
}

fn list(numbers: impl IntoIterator<Item = f64>) -> Answer {
    let mut answer = Answer::plain(0.0);
    answer.values = numbers.into_iter().collect();
    answer
}

fn word<T>(result: Result<T, impl ToString>) -> Result<T, String> {
    result.map_err(|error| error.to_string())
}

fn rows(i: &Inputs) -> Result<Vec<Row>, String> {
    let name = i.word("data")?;
    data::lives(name).ok_or(format!("no lives called `{name}`"))
}

fn fit(i: &Inputs, family: Family) -> Result<Fit, String> {
    word(fit_censored(&rows(i)?, family, None))
}

/// Shape and scale with the ends of both.
struct Weibull {
    shape: [f64; 3],
    scale: [f64; 3],
}

fn weibull(fit: &Fit) -> Weibull {
    let wald = fit.wald(LEVEL);
    Weibull {
        shape: [1.0 / fit.sigma, 1.0 / wald[1].1, 1.0 / wald[1].0],
        scale: [fit.coefficients[0], wald[0].0, wald[0].1].map(f64::exp),
    }
}

fn sample(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "weibull_sample" => {
            let found = weibull(&fit(i, Family::Weibull)?);
            list([found.shape[0], found.scale[0]])
        }
        "weibull_fitted_shape" => list([1.0 / fit(i, Family::Weibull)?.sigma]),
        "weibull_log_likelihood" => list([fit(i, Family::Weibull)?.log_likelihood]),
        "weibull_errors" => {
            let fit = fit(i, Family::Weibull)?;
            let (found, errors) = (weibull(&fit), fit.standard_errors());
            list([found.shape[0] * errors[1], found.scale[0] * errors[0]])
        }
        "weibull_ends" => {
            let found = weibull(&fit(i, Family::Weibull)?);
            list([found.shape[1], found.shape[2], found.scale[1], found.scale[2]])
        }
        "tenth_percentile" => list([fit(i, Family::Weibull)?.quantile(0.1, &[]).life()]),
        "lognormal_sample" => {
            let fit = fit(i, Family::Lognormal)?;
            list([fit.coefficients[0], fit.sigma])
        }
        "lognormal_log_likelihood" => list([fit(i, Family::Lognormal)?.log_likelihood]),
        _ => return Ok(None),
    }))
}

fn intervals(name: &str, i: &Inputs) -> Found {
    let profile = |of: &Profiled| word(profile_interval(&rows(i)?, Family::Weibull, of, LEVEL));
    let tenth = Profiled::Quantile { p: 0.1, x: Vec::new() };
    Ok(Some(match name {
        "weibull_wald" => {
            let fit = fit(i, Family::Weibull)?;
            let (found, tenth) = (weibull(&fit), fit.quantile(0.1, &[]));
            let (low, high) = tenth.interval(LEVEL);
            list([found.shape[1], found.shape[2], found.scale[1], found.scale[2], tenth.life(), low, high])
        }
        "lognormal_wald" => {
            list(fit(i, Family::Lognormal)?.wald(LEVEL).into_iter().flat_map(|(low, high)| [low, high]))
        }
        "weibull_profile" => {
            let (sigma, scale) = (profile(&Profiled::Sigma)?, profile(&Profiled::Coefficient(0))?);
            list([1.0 / sigma.1, 1.0 / sigma.0, scale.0.exp(), scale.1.exp()])
        }
        "tenth_percentile_profile" => {
            let (low, high) = profile(&tenth)?;
            list([low.exp(), high.exp()])
        }
        _ => return Ok(None),
    }))
}

fn regression(name: &str, i: &Inputs) -> Found {
    let fit = || {
        let family = match i.word("family")? {
            "weibull" => Family::Weibull,
            "lognormal" => Family::Lognormal,
            other => return Err(format!("no family `{other}`")),
        };
        fit(i, family)
    };
    Ok(Some(match name {
        "censored_regression" => {
            let fit = fit()?;
            list(fit.coefficients.iter().copied().chain([fit.sigma]))
        }
        "censored_regression_log_likelihood" => list([fit()?.log_likelihood]),
        "censored_regression_errors" => list(fit()?.standard_errors()),
        "censored_regression_covariance" => {
            let covariance = fit()?.covariance;
            list((0..covariance.len()).flat_map(|row| covariance[row][row..].to_vec()))
        }
        "power_and_scatter" => {
            let fit = fit()?;
            list([fit.coefficients[1], fit.sigma])
        }
        "censored_taylor" => {
            let constants = fit()?.taylor(i.number("share")?, LEVEL).ok_or("no speed")?;
            let exponents = constants.exponents.iter().map(|exponent| exponent.value);
            list([constants.n.value, constants.c.value].into_iter().chain(exponents))
        }
        "life_quantile" => {
            let x: Vec<f64> = settings(i)?;
            let life = fit()?.quantile(i.number("share")?, &x);
            let (low, high) = life.interval(LEVEL);
            list([life.life(), low, high])
        }
        _ => return Ok(None),
    }))
}

fn settings(i: &Inputs) -> Result<Vec<f64>, String> {
    Ok([Some(i.number("speed")?), i.find_number("feed")?].into_iter().flatten().map(f64::ln).collect())
}

fn least_squares(i: &Inputs) -> Result<LineFit, String> {
    word(fit_least_squares(&rows(i)?))
}

fn line(name: &str, i: &Inputs) -> Found {
    let none = "no degree of freedom";
    Ok(Some(match name {
        "life_line" => list(least_squares(i)?.coefficients),
        "life_line_scatter" => {
            let line = least_squares(i)?;
            list([line.r_squared, line.scatter.ok_or(none)?, line.degrees])
        }
        "life_line_errors" => list(least_squares(i)?.standard_errors().ok_or(none)?),
        "life_line_slope_error" => list([least_squares(i)?.standard_errors().ok_or(none)?[1]]),
        "life_line_slope_ends" => {
            let ends = least_squares(i)?.intervals(LEVEL).ok_or(none)?[1];
            list([ends.0, ends.1])
        }
        "life_line_n_ends" => {
            let constants = least_squares(i)?.taylor(LEVEL).ok_or("no speed")?;
            let ends = constants.n.interval.ok_or(none)?;
            list([ends.0, ends.1])
        }
        "life_line_taylor" => {
            let constants = least_squares(i)?.taylor(LEVEL).ok_or("no speed")?;
            let exponents = constants.exponents.iter().map(|exponent| exponent.value);
            list([constants.n.value, constants.c.value].into_iter().chain(exponents))
        }
        "life_line_lack_of_fit" => {
            let lack = least_squares(i)?.lack_of_fit.ok_or("no repeats")?;
            list([lack.ratio, lack.between, lack.within, lack.chance])
        }
        "life_line_pure_error" => {
            let line = least_squares(i)?;
            list([line.residual_sum, line.lack_of_fit.ok_or("no repeats")?.pure_error])
        }
        _ => return Ok(None),
    }))
}

fn line_at(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "life_line_prediction" => {
            let (line, x) = (least_squares(i)?, settings(i)?);
            let mean = line.mean_interval(&x, LEVEL).ok_or("no degree of freedom")?;
            let single = line.single_interval(&x, LEVEL).ok_or("no degree of freedom")?;
            list([line.mean(&x), mean.0, mean.1, single.0, single.1].map(f64::exp))
        }
        "life_line_prediction_with_feed" => list([least_squares(i)?.mean(&settings(i)?).exp()]),
        "three_test_exponents" => {
            let rows = rows(i)?;
            let line = word(fit_least_squares(&rows))?;
            list([-line.coefficients[1], -line.coefficients[2], line.coefficients[0].exp()])
        }
        "factorial_effects" | "factorial_error" => {
            // The effects are of the lives themselves: the logarithm that the line takes is undone beforehand.
            let mut rows = rows(i)?;
            rows.iter_mut().for_each(|row| row.life = (row.life / 100.0).exp());
            let line = word(fit_least_squares(&rows))?;
            if name == "factorial_effects" {
                list(line.coefficients[1..].iter().map(|half| 200.0 * half))
            } else {
                list([100.0 * line.coefficients[0], 1e4 * line.residual_sum, line.degrees])
            }
        }
        _ => return Ok(None),
    }))
}

fn speed_life(name: &str, i: &Inputs) -> Found {
    let named = |i: &Inputs| {
        let series = i.word("series")?;
        data::lives(series).ok_or(format!("no series `{series}`"))
    };
    Ok(Some(match name {
        "speed_life_line" | "speed_life_exponent" | "speed_life_r_squared" => {
            let line = word(fit_least_squares(&named(i)?))?;
            let constants = line.taylor(LEVEL).ok_or("no speed")?;
            match name {
                "speed_life_line" => list([constants.n.value, constants.c.value]),
                "speed_life_exponent" => list([constants.n.value]),
                _ => list([line.r_squared]),
            }
        }
        "speed_on_life_line" => {
            let turned = |row: Row| Row::failed(vec![row.life.ln()], row.x[0].exp());
            let line = word(fit_least_squares(&named(i)?.into_iter().map(turned).collect::<Vec<_>>()))?;
            list([-line.coefficients[1], line.coefficients[0].exp()])
        }
        _ => return Ok(None),
    }))
}

fn other(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "power_curve" | "power_start" => {
            let points = data::points(i.word("data")?, ["x", "y"], None);
            if name == "power_start" {
                let (factor, exponent) = word(power_start(&points))?;
                list([factor, exponent])
            } else {
                let curve = word(fit_power_curve(&points, (i.number("factor")?, i.number("exponent")?)))?;
                let errors = curve.standard_errors().ok_or("no degree of freedom")?;
                list([curve.factor, curve.exponent, errors.0, errors.1, curve.residual_sum])
            }
        }
        "product_limit" | "product_limit_error" => {
            let (steps, life) = (kaplan_meier(&rows(i)?), i.number("life")?);
            let step = steps.iter().find(|step| (step.life - life).abs() < 1e-9).ok_or("no such step")?;
            list([if name == "product_limit" { step.survival } else { step.standard_error }])
        }
        "weibull_shape_bias" => list(weibull_shape_bias(i.count("lives")?)),
        "wear_life" => {
            let case = i.count("case")?.to_string();
            let readings = data::points("milling-readings", ["time_min", "wear_mm"], Some(&case));
            match word(wear_life(&readings, i.number("limit")?))? {
                WearLife::Reached(time) => list([time]),
                other => return Err(format!("{other:?}")),
            }
        }
        _ => return Ok(None),
    }))
}
