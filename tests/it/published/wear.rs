//! Tool life, whole pieces, edge cost.

use wearland::quantity::{CuttingSpeed, Duration, FeedPerRev, Length, Money, Range};
use wearland::tooling::{
    CutConditions, ExtendedTaylor, LifeLaw, LifeShape, ReferenceLife, Sourced, Standing, WearCurve,
    edge_cost, pieces_per_edge, tool_life,
};

use super::formulas::Found;
use super::inputs::{Answer, Inputs};

pub(super) fn work(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "tool_life" => Answer::one(life(i)?),
        "taylor_exponent" => Answer::plain(exponent(i)?),
        "pieces_per_edge" => {
            Answer::plain(pieces_per_edge(i.get::<Duration>("cut_time")? / i.get::<Duration>("life")?))
        }
        "edge_cost" => {
            let money = |name| i.number(name).map(Money::of);
            let cost = edge_cost(Some(money("price")?), Some(money("regrind")?), i.count("edges")?);
            Answer::plain(cost.map_or(f64::NAN, Money::amount))
        }
        _ => return Ok(None),
    }))
}

/// Life at another cut than the reference cut; feed and depth only where the row gives them.
fn life(i: &Inputs) -> Result<Duration, String> {
    let advance =
        |name| Ok::<_, String>(i.find::<FeedPerRev>(name)?.map(|feed| Length::mm(feed.to_mm_per_rev())));
    let reference: CuttingSpeed = i.get("reference_speed")?;
    let known: Duration = i.get("reference_life")?;
    let law = LifeLaw {
        speed: given(reference),
        feed: advance("reference_feed")?,
        depth: i.find("reference_depth")?,
        life: given(ReferenceLife::Time(known)),
        wear: None,
        curve: WearCurve::milled(),
        coolant: "dry".into(),
        shape: LifeShape::Taylor(ExtendedTaylor {
            n: given(i.number("n")?),
            feed_exponent: i.find_number("a")?.unwrap_or(0.0),
            depth_exponent: i.find_number("b")?.unwrap_or(0.0),
        }),
        speeds: Range { low: CuttingSpeed::ZERO, high: reference * 1e3 },
        feeds: None,
        depths: None,
        variation: None,
        family: None,
    };
    let cut = CutConditions {
        speed: i.get("speed")?,
        feed: advance("feed")?,
        depth: i.find("depth")?,
        chip: None,
        speed_factor: i.find_number("speed_factor")?.unwrap_or(1.0),
    };
    Ok(tool_life(&law, known, &cut))
}

/// n from two points of the line: the law that joins them must give the second life at the second speed.
fn exponent(i: &Inputs) -> Result<f64, String> {
    let ratio = i.get::<CuttingSpeed>("speed")? / i.get::<CuttingSpeed>("reference_speed")?;
    let lives = i.get::<Duration>("reference_life")? / i.get::<Duration>("life")?;
    Ok(ratio.ln() / lives.ln())
}

fn given<T>(value: T) -> Sourced<T> {
    Sourced { value, source: "scenario".into(), at: None, standing: Standing::Given }
}
