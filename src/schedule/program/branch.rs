//! A plain search over linear programs for whole numbers: slow, short, and as sound as the linear programs are.

use super::model::Model;
use super::solver::{Solution, SolveError, solve};
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
pub(super) fn search(
    model: &Model,
    start: Option<&[f64]>,
    limits: &Limits,
    watch: &Watch,
) -> Result<Found, SolveError> {
    let relaxed = tightened(model);
    let mut open = vec![Node { answer: solve(&relaxed)?, bounds: Vec::new() }];
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
    solve(&fixed).ok()
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
            solve(&narrowed).ok().map(|answer| Node { bounds, answer })
        })
        .collect()
}
