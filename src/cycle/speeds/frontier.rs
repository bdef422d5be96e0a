//! From cheapest to quickest: the speeds between which a plan chooses.

use super::super::setting::CutError;
use super::choice::{PricedOperation, SpeedChoice};
use super::worths::{MinuteWorth, Worths};
use crate::quantity::MoneyRate;

/// Settings from the cheapest to the quickest. The minute is worth as much as in `worths` at first, up to `most` times as much at
/// equal ratios, and in the last of `points` settings time alone counts. What another does as quickly for less, or as cheaply in
/// less time, is left out, so there may be fewer.
///
/// Where `worths` says that time alone counts, the quickest setting is the only one.
///
/// # Errors
/// As for [`estimate_operation`](super::super::estimate_operation).
pub fn speed_frontier(
    choice: &SpeedChoice<'_>,
    worths: &Worths<'_>,
    points: u32,
    most: f64,
) -> Result<Vec<PricedOperation>, (usize, CutError)> {
    let mut found = Vec::new();
    if let MinuteWorth::Priced(rate) = worths.minute {
        let steps = points.max(2) - 1;
        for step in 0..steps {
            let factor = most.max(1.0).powf(f64::from(step) / f64::from(steps.max(2) - 1));
            let minute = MinuteWorth::Priced(MoneyRate::per_h(rate.to_per_h() * factor));
            found.push(choice.priced(&Worths { minute, ..*worths })?);
        }
    }
    found.push(choice.priced(&Worths { minute: MinuteWorth::TimeAlone, ..*worths })?);
    let cycle = |of: &PricedOperation| of.estimate.cycle;
    found.sort_by(|one, other| {
        cycle(other).total_cmp(&cycle(one)).then(one.edge_cost.total_cmp(&other.edge_cost))
    });
    let mut kept: Vec<PricedOperation> = Vec::new();
    for priced in found {
        if kept.last().is_some_and(|last| cycle(last) <= cycle(&priced) * (1.0 + 1e-9)) {
            continue;
        }
        // Quicker and no dearer: the slower one is never run.
        while kept.last().is_some_and(|last| last.edge_cost >= priced.edge_cost) {
            kept.pop();
        }
        kept.push(priced);
    }
    Ok(kept)
}

/// Places of the points that lie on the lower convex hull: time falls from point to point, cost rises, and no mixture of two others
/// costs less in the same time. Points are time and cost in any order; places come from the slowest to the quickest.
#[must_use]
pub fn lower_hull(points: &[(f64, f64)]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..points.len()).collect();
    order.sort_by(|one, other| {
        let (one, other) = (points[*one], points[*other]);
        one.1.total_cmp(&other.1).then(one.0.total_cmp(&other.0))
    });
    let mut hull: Vec<usize> = Vec::new();
    for place in order {
        let point = points[place];
        if hull.last().is_some_and(|last| points[*last].0 <= point.0) {
            continue;
        }
        while let [.., first, second] = hull.as_slice() {
            let (first, second) = (points[*first], points[*second]);
            let turn =
                (second.0 - first.0) * (point.1 - first.1) - (second.1 - first.1) * (point.0 - first.0);
            if turn < 0.0 {
                break;
            }
            hull.pop();
        }
        hull.push(place);
    }
    hull
}
