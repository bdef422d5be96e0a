//! Parts of the plan solved anew in whole numbers, the rest held.

use super::super::program::{Limits, WholeStatus};
use super::search::{Answer, Search};
use super::setup_model::Cell;

/// Setups free at a time, at first and at most.
#[cfg(feature = "highs")]
const FREE: (usize, usize) = (150, 2000);
#[cfg(not(feature = "highs"))]
const FREE: (usize, usize) = (40, 400);

/// Part of the distance from the bound that is near enough to the best of a part.
const NEAR: f64 = 0.01;

/// Nodes and seconds of one part.
const NODES: u64 = 400;
const SECONDS: f64 = 4.0;

/// Parts without a better answer after which the search for one ends, where no clock ends it.
const PATIENCE: usize = 60;

/// Numbers drawn in the same order on every run.
struct Draws(u64);

impl Draws {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 >> 33).unwrap_or(0) % most.max(1)
    }
}

/// Routes of the problem: activities that are joined by the pieces that go from one to the other.
fn routes(search: &Search<'_>) -> Vec<Vec<usize>> {
    let problem = search.given;
    let mut route: Vec<usize> = (0..problem.steps.len()).collect();
    for (id, step) in problem.steps.iter().enumerate() {
        for (input, _) in &step.inputs {
            let (from, to) = (route[*input], route[id]);
            route.iter_mut().filter(|of| **of == to).for_each(|of| *of = from);
        }
    }
    let mut routes: Vec<Vec<usize>> = vec![Vec::new(); problem.steps.len()];
    for (id, activity) in problem.activities.iter().enumerate() {
        if !search.exact.cells[id].is_empty() {
            routes[route[activity.step]].push(id);
        }
    }
    routes.retain(|route| !route.is_empty());
    routes
}

/// What the parts have come to.
pub(super) struct Polished {
    pub(super) best: Answer,
    pub(super) parts: usize,
    /// All setups were free, and the answer is proven to be the best.
    pub(super) proven: bool,
}

impl Search<'_> {
    /// Frees the setups of some routes over some slots, again and again.
    pub(super) fn polished(&self, mut best: Answer, (bound, parts): (f64, usize), share: f64) -> Polished {
        let routes = routes(self);
        let mut draws = Draws(0x9e37_79b9_7f4a_7c15);
        let (mut wanted, most) = FREE;
        let (mut tried, mut found) = (0, 0);
        let mut proven = false;
        while tried < parts
            && tried < found + PATIENCE
            && !self.is_over(share)
            && !proven
            && !routes.is_empty()
        {
            tried += 1;
            let (free, all) = self.part(&routes, &mut draws, wanted);
            let near = if all { self.limits.gap * best.cost.abs() } else { NEAR * (best.cost - bound) };
            let Some((answer, status)) = self.with_free(
                &best,
                &free,
                (near, if all { self.whole_limits(share) } else { self.part_limits(share) }),
            ) else {
                continue;
            };
            proven = all && matches!(status, WholeStatus::Proven | WholeStatus::GapReached);
            wanted = match status {
                WholeStatus::Proven | WholeStatus::GapReached => (wanted + wanted / 5).min(most),
                WholeStatus::StoppedEarly | WholeStatus::NoneFound => (wanted * 4 / 5).max(FREE.0 / 4),
            };
            if answer.cost < best.cost - 1e-9 * best.cost.abs() {
                best = answer;
                found = tried;
            }
        }
        Polished { best, parts: tried, proven }
    }

    /// All setups at once may take the time that is left.
    fn whole_limits(&self, share: f64) -> Limits<'_> {
        match self.left(share) {
            None => self.part_limits(share),
            seconds => Limits { gap: 0.0, seconds, nodes: None, stop: self.limits.stop },
        }
    }

    /// A part takes little.
    fn part_limits(&self, share: f64) -> Limits<'_> {
        let left = self.left(share);
        Limits { gap: 0.0, seconds: left.map(|left| left.min(SECONDS)), nodes: Some(NODES), stop: None }
    }

    /// Whole columns of so many setups: some routes, those that share machines with the first before others, over some slots.
    fn part(&self, routes: &[Vec<usize>], draws: &mut Draws, wanted: usize) -> (Vec<usize>, bool) {
        let slots = self.given.slots.len();
        let widths = [slots, slots.div_ceil(2), slots.div_ceil(4), slots.div_ceil(8)];
        let width = widths[draws.below(widths.len())].max(3).min(slots);
        let from = draws.below(slots - width + 1);
        let first = draws.below(routes.len());
        let machines: Vec<_> = routes[first].iter().map(|id| self.given.activities[*id].machine).collect();
        let mut order: Vec<(bool, usize, usize)> = (0..routes.len())
            .map(|at| {
                let apart =
                    !routes[at].iter().any(|id| machines.contains(&self.given.activities[*id].machine));
                (at != first && apart, draws.below(1 << 20), at)
            })
            .collect();
        order.sort_unstable_by_key(|(apart, draw, at)| (*at != first, *apart, *draw, *at));
        let mut free = Vec::new();
        let mut cells = 0;
        let mut taken = 0;
        for (_, _, at) in order {
            if cells >= wanted {
                break;
            }
            taken += 1;
            for id in &routes[at] {
                for cell in &self.exact.cells[*id][from..from + width] {
                    cells += usize::from(self.exact.model.columns[cell.made].upper > 0.0);
                    free.extend(whole_columns(cell));
                }
            }
        }
        free.extend(self.exact.families.iter().copied());
        (free, taken == routes.len() && width == slots)
    }
}

fn whole_columns(cell: &Cell) -> impl Iterator<Item = usize> {
    let (carried, kept) = cell.carried.map_or((None, None), |(carried, kept)| (Some(carried), Some(kept)));
    [Some(cell.made), carried, kept].into_iter().flatten()
}
