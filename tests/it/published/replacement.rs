//! Scatter of life, change by age and in whole pieces, edges of an order, renewals, drift of size.

use statrs::function::gamma::gamma;
use wearland::quantity::{Duration, Money, MoneyRate};
use wearland::tooling::replacement::{
    self, PieceChange, PieceOutcome, age_cost_rate, best_age, edges_for, renewals_by_share,
};
use wearland::tooling::scatter::{self, LifeFamily, LifeSpread, Scatter};

use super::formulas::Found;
use super::inputs::{Answer, Inputs};

pub(super) fn work(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "weibull_shape" => Answer::plain(scatter::weibull_shape(i.number("variation")?)),
        "log_deviation" => Answer::plain(scatter::log_deviation(i.number("variation")?)),
        "gamma_shape" => Answer::plain(scatter::gamma_shape(i.number("variation")?)),
        "worn_before" => Answer::plain(life(i)?.0.worn(i.number("age")?)),
        "age_outlived" => {
            let (spread, _) = life(i)?;
            let failed = i.numbers("failed")?;
            Answer::plain_list(failed.iter().map(|failed| spread.age_at(1.0 - failed)).collect())
        }
        "age_replacement" => age_replacement(i)?,
        "age_replacement_share" => age_replacement_share(i)?,
        "edge_use" => edge_use(i)?,
        "renewal" => {
            let (spread, mean) = life(i)?;
            let times = i.numbers("times")?;
            Answer::plain_list(times.iter().map(|time| replacement::renewal(&spread, time / mean)).collect())
        }
        "group_cost" => {
            let shares = i.numbers("failing")?;
            let (items, group, single) = (i.number("items")?, i.number("group")?, i.number("single")?);
            let failures = renewals_by_share(&shares, i.count("weeks")?);
            let costs = failures.iter().zip(0_u32..).skip(1);
            Answer::plain_list(
                costs.map(|(m, week)| items * (group + single * m) / f64::from(week)).collect(),
            )
        }
        "piece_change" | "edges_for_order" | "quickest_count" | "cheapest_count" | "cost_by_count"
        | "cost_to_failure" => in_pieces(name, i)?,
        "size_drift" => Answer::one(replacement::size_drift(i.get("wear")?, i.get("clearance")?)),
        "wear_for_drift" => Answer::one(replacement::wear_for_drift(i.get("drift")?, i.get("clearance")?)),
        _ => return Ok(None),
    }))
}

/// The spread and the mean life: a Weibull shape and scale, or family and variation about a mean of one.
fn life(i: &Inputs) -> Result<(LifeSpread, f64), String> {
    if let Some(shape) = i.find_number("shape")? {
        let scale = i.number("scale")?;
        return Ok((LifeSpread::weibull(shape), scale * gamma(1.0 + 1.0 / shape)));
    }
    let name = i.word("family")?;
    let (_, family) =
        LifeFamily::NAMES.into_iter().find(|(known, _)| *known == name).ok_or(format!("family `{name}`"))?;
    Ok((LifeSpread::new(Scatter { family, variation: i.number("variation")? }), 1.0))
}

fn best(i: &Inputs) -> Result<(LifeSpread, f64, f64, f64, f64), String> {
    let (spread, mean) = life(i)?;
    let (planned, failure) = (i.number("planned")?, i.number("failure")?);
    let age = best_age(&spread, planned, failure).ok_or("run to failure")?;
    Ok((spread, mean, age, age_cost_rate(&spread, age, planned, failure), failure))
}

/// Best age, cost in a unit of time, and cost of running to failure.
fn age_replacement(i: &Inputs) -> Result<Answer, String> {
    let (_, mean, age, cost, failure) = best(i)?;
    Ok(Answer::plain_list(vec![age * mean, cost / mean, failure / mean]))
}

/// Best age over mean, share that fails before, and cost over that of running to failure.
fn age_replacement_share(i: &Inputs) -> Result<Answer, String> {
    let (spread, _, age, cost, failure) = best(i)?;
    Ok(Answer::plain_list(vec![age, spread.worn(age), cost / failure]))
}

/// Best age, mean life, and in 1000 units of time: edges, edges if run to failure, failures.
fn edge_use(i: &Inputs) -> Result<Answer, String> {
    let (spread, mean, age, ..) = best(i)?;
    let edges = 1000.0 / (mean * spread.lived(age));
    Ok(Answer::plain_list(vec![age * mean, mean, edges, 1000.0 / mean, edges * spread.worn(age)]))
}

fn in_pieces(name: &str, i: &Inputs) -> Result<Answer, String> {
    let (spread, mean) = life(i)?;
    let cut: Duration = i.get("cut")?;
    let money = |key| i.find_number(key).map(|amount| Money::of(amount.unwrap_or(0.0)));
    let change = PieceChange {
        spread,
        wear: cut.to_min() / mean,
        cycle: cut + i.get("handling")?,
        planned: i.get("planned")?,
        failure: i.get("failure")?,
        edge: money("edge")?,
        scrap: money("scrap")?,
        rate: MoneyRate::per_h(60.0 * i.find_number("machine")?.unwrap_or(0.0)),
    };
    let both = |o: PieceOutcome| vec![f64::from(o.pieces), o.cost_per_good.amount()];
    Ok(match name {
        "piece_change" => {
            let o = change.outcome(i.count("pieces")?);
            Answer::plain_list(vec![o.good, o.failed, o.time.to_min(), o.good_per_hour, o.scrap_share])
        }
        "edges_for_order" => {
            let need = edges_for(&change, i.count("pieces")?, i.count("good")?, i.number("level")?);
            Answer::plain_list(vec![need.mean, need.deviation, f64::from(need.at_level)])
        }
        "quickest_count" => {
            let o = change.quickest();
            Answer::plain_list(vec![f64::from(o.pieces), o.good_per_hour])
        }
        "cheapest_count" => Answer::plain_list(both(change.cheapest())),
        "cost_by_count" => Answer::plain(change.outcome(i.count("pieces")?).cost_per_good.amount()),
        _ => Answer::plain(change.run_to_failure().cost_per_good.amount()),
    })
}
