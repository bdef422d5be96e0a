//! A plain search over linear programs for whole numbers: slow, short, and as sound as the linear programs are.

use super::model::Model;
use super::solver::{Solution, SolveError, solve_closely};
use super::whole::{Found, Limits, Watch};

/// Distance to the next whole number that counts as none.
const WHOLE: f64 = 1e-7;

/// Part of the cost by which an answer must be cheaper to be looked for.
const BETTER: f64 = 1e-9;

/// Narrowed bounds of columns, and the linear program under them.
struct Node {
    bounds: Vec<(usize, f64, f64)>,
    answer: Solution,
}

/// Looks for the cheapest whole numbers, the node with the least bound first.
pub(super) fn search(model: &Model, start: Option<&[f64]>, limits: &Limits) -> Result<Found, SolveError> {
    let watch = Watch::started();
    let relaxed = tightened(model);
    if relaxed.columns.iter().any(|column| column.lower > column.upper) {
        return Err(SolveError::Infeasible);
    }
    let mut open = vec![Node { answer: solve_closely(&relaxed)?, bounds: Vec::new() }];
    let mut best: Option<Solution> =
        start.map(|start| Solution { values: start.to_vec(), cost: model.cost(start) });
    let mut nodes = 0;
    while let Some(node) = cheapest(&mut open) {
        let bound = node.answer.cost;
        if best.as_ref().is_some_and(|best| bound >= best.cost - BETTER * best.cost.abs().max(1.0)) {
            break;
        }
        let near = best.as_ref().is_some_and(|best| best.cost - bound <= limits.gap * best.cost.abs());
        let used_up = limits.nodes.is_some_and(|limit| limit <= nodes);
        if near || used_up || limits.is_stopped() || watch.left(limits).is_some_and(|left| left <= 0.0) {
            return Ok(Found { values: best.map(|best| best.values), bound, nodes });
        }
        nodes += 1;
        for answer in [whole(model, &node), as_rounded(model, &relaxed, &node)].into_iter().flatten() {
            if best.as_ref().is_none_or(|best| answer.cost < best.cost) {
                best = Some(answer);
            }
        }
        open.extend(parted(model, &relaxed, &node));
    }
    let best = best.ok_or(SolveError::Infeasible)?;
    Ok(Found { bound: best.cost, values: Some(best.values), nodes })
}

/// The linear program with the bounds of whole columns moved inwards to whole numbers.
fn tightened(model: &Model) -> Model {
    let mut relaxed = model.relaxed();
    for (column, own) in relaxed.columns.iter_mut().zip(&model.columns).filter(|(_, own)| own.whole) {
        (column.lower, column.upper) = (own.lower.ceil(), own.upper.floor());
    }
    relaxed
}

fn cheapest(open: &mut Vec<Node>) -> Option<Node> {
    let least = |(_, one): &(usize, &Node), (_, other): &(usize, &Node)| {
        one.answer.cost.total_cmp(&other.answer.cost)
    };
    let (at, _) = open.iter().enumerate().min_by(least)?;
    Some(open.remove(at))
}

/// The answer of the node, where it is whole already.
fn whole(model: &Model, node: &Node) -> Option<Solution> {
    split(model, node).is_none().then(|| node.answer.clone())
}

/// The node's answer with its whole columns rounded, if the other columns can follow.
fn as_rounded(model: &Model, relaxed: &Model, node: &Node) -> Option<Solution> {
    split(model, node)?;
    let mut fixed = model.with_whole_columns_at(&node.answer.values);
    for (column, own) in fixed.columns.iter_mut().zip(&relaxed.columns) {
        column.lower = column.lower.clamp(own.lower, own.upper);
        column.upper = column.upper.clamp(own.lower, own.upper);
    }
    solve_closely(&fixed).ok()
}

/// The whole column that is furthest from a whole number, and its value.
fn split(model: &Model, node: &Node) -> Option<(usize, f64)> {
    let off = |value: f64| (value - value.round()).abs();
    let whole = model.columns.iter().zip(&node.answer.values).enumerate();
    whole
        .filter(|(_, (column, value))| column.whole && off(**value) > WHOLE)
        .map(|(at, (_, value))| (at, *value))
        .max_by(|(at, one), (place, other)| off(*one).total_cmp(&off(*other)).then(place.cmp(at)))
}

/// The two nodes on either side of a value that is not whole.
fn parted(model: &Model, relaxed: &Model, node: &Node) -> Vec<Node> {
    let Some((at, value)) = split(model, node) else { return Vec::new() };
    let mut narrowed = relaxed.clone();
    for (column, lower, upper) in &node.bounds {
        (narrowed.columns[*column].lower, narrowed.columns[*column].upper) = (*lower, *upper);
    }
    let (lower, upper) = (narrowed.columns[at].lower, narrowed.columns[at].upper);
    let sides = [(lower, value.floor()), (value.ceil(), upper)];
    sides
        .into_iter()
        .filter(|(lower, upper)| lower <= upper)
        .filter_map(|(lower, upper)| {
            (narrowed.columns[at].lower, narrowed.columns[at].upper) = (lower, upper);
            let mut bounds = node.bounds.clone();
            bounds.push((at, lower, upper));
            solve_closely(&narrowed).ok().map(|answer| Node { bounds, answer })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::model::Model;
    use super::super::pure;
    use super::super::solver::SolveError;
    use super::super::whole::Limits;
    use super::search;

    /// Pieces of unlike size and worth into one sack, with a remainder that may be split.
    fn sack(size: f64) -> Model {
        let mut model = Model::default();
        let sizes = [7.0, 5.0, 4.0, 3.0, 2.5];
        let mut terms = Vec::new();
        for (at, of) in sizes.into_iter().enumerate() {
            let worth = of * 1.5 + if at % 2 == 0 { 1.0 } else { 0.25 };
            terms.push((model.whole_column(format!("piece {at}"), 2.5, -worth), of));
        }
        terms.push((model.column("grain".into(), 1.25, -1.0), 1.0));
        model.at_most("sack".into(), terms, size);
        model
    }

    #[test]
    fn the_plain_search_finds_what_the_solver_finds() {
        for size in [1.0, 6.5, 11.0, 17.25, 29.0] {
            let model = sack(size);
            let plain = search(&model, None, &Limits::default()).unwrap();
            let other = pure::search(&model, None, &Limits::default()).unwrap();
            let (cost, expected) = (model.cost(&plain.values.unwrap()), model.cost(&other.values.unwrap()));
            assert!(
                (cost - expected).abs() < 1e-7 && plain.bound <= cost + 1e-7,
                "{size}: {cost} {expected}"
            );
        }
    }

    #[test]
    fn what_cannot_be_is_said_to_be_so() {
        let mut model = sack(10.0);
        let x = model.whole_column("x".into(), 1.0, 0.0);
        model.equal("half".into(), vec![(x, 2.0)], 1.0);
        assert_eq!(search(&model, None, &Limits::default()).unwrap_err(), SolveError::Infeasible);
        let mut between = sack(10.0);
        (between.columns[0].lower, between.columns[0].upper) = (0.25, 0.75);
        assert_eq!(search(&between, None, &Limits::default()).unwrap_err(), SolveError::Infeasible);
    }
}
