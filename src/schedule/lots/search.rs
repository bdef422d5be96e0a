//! One search for lots: the programs, the best answer so far, the time left.

use super::super::problem::Problem;
use super::super::program::{Limits, SolveError, WholeStatus, solve, solve_whole};
use super::limits::LotLimits;
use super::pools::Pooled;
use super::setup_model::{SetupModel, Terms};
use super::shrink::{Shrunk, bounds_of};
use super::spread::Setups;
use std::sync::atomic::Ordering;
use std::time::Instant;

/// Values of the program of machines apart.
#[derive(Debug, Clone)]
pub(super) struct Answer {
    pub(super) values: Vec<f64>,
    pub(super) cost: f64,
}

pub(super) struct Search<'a> {
    pub(super) given: &'a Problem,
    pub(super) terms: Terms<'a>,
    pub(super) limits: &'a LotLimits<'a>,
    pub(super) together: Pooled,
    /// The program of machines apart.
    pub(super) exact: SetupModel,
    started: Instant,
}

impl<'a> Search<'a> {
    #[expect(
        clippy::disallowed_methods,
        reason = "a limit in seconds needs a clock; no other limit reads it"
    )]
    pub(super) fn new(given: &'a Problem, terms: Terms<'a>, limits: &'a LotLimits<'a>) -> Self {
        let exact = SetupModel::build(&Pooled::apart(given), &terms);
        Self { given, terms, limits, together: Pooled::together(given), exact, started: Instant::now() }
    }

    /// Seconds left of a share of the limit; none without limit.
    pub(super) fn left(&self, share: f64) -> Option<f64> {
        self.limits.seconds.map(|seconds| (share * seconds - self.started.elapsed().as_secs_f64()).max(0.0))
    }

    /// Whether the user or a share of the time ends the search.
    pub(super) fn is_over(&self, share: f64) -> bool {
        self.limits.stop.is_some_and(|stop| stop.load(Ordering::Relaxed))
            || self.left(share).is_some_and(|left| left <= 0.0)
    }

    /// The cheapest answer with setups as given; setups that are not used are taken out.
    pub(super) fn with_setups(&self, setups: &Setups) -> Result<Answer, SolveError> {
        let mut bounds = bounds_of(&self.exact.model);
        setups.fix(&self.exact, &mut bounds);
        let shrunk = Shrunk::within(&self.exact.model, bounds.clone());
        let solved = shrunk.and_then(|shrunk| Ok(shrunk.expanded(&solve(&shrunk.model)?.values)));
        let mut values = match solved {
            Ok(values) => values,
            Err(SolveError::Infeasible) => {
                // Lots smaller than the least ones are left for others to mend.
                let mut model = self.exact.model.clone();
                let (from, to) = self.exact.least_rows;
                model.rows[from..to].iter_mut().for_each(|row| row.upper = f64::INFINITY);
                let shrunk = Shrunk::within(&model, bounds)?;
                shrunk.expanded(&solve(&shrunk.model)?.values)
            }
            Err(other) => return Err(other),
        };
        self.take_out_unused(&mut values);
        Ok(Answer { cost: self.exact.model.cost(&values), values })
    }

    fn take_out_unused(&self, values: &mut [f64]) {
        for cells in &self.exact.cells {
            for (slot, cell) in cells.iter().enumerate() {
                let next = cells.get(slot + 1).and_then(|next| next.carried);
                let carried_on = next.is_some_and(|(next, _)| values[next] > 0.5);
                if values[cell.started] <= 1e-9 && !carried_on {
                    values[cell.made] = 0.0;
                    values[cell.started] = 0.0;
                }
            }
        }
    }

    /// A better answer with the whole columns free that are named, the others held, within so much money of the best of them;
    /// none if there is none, or no time for it.
    pub(super) fn with_free(
        &self,
        answer: &Answer,
        free: &[usize],
        (near, limits): (f64, Limits<'_>),
    ) -> Option<(Answer, WholeStatus)> {
        let mut bounds = bounds_of(&self.exact.model);
        for (at, column) in self.exact.model.columns.iter().enumerate() {
            if column.whole {
                let value = answer.values[at].round();
                bounds[at] = (value, value);
            }
        }
        for at in free {
            let column = &self.exact.model.columns[*at];
            bounds[*at] = (column.lower, column.upper);
        }
        let shrunk = Shrunk::within(&self.exact.model, bounds).ok()?;
        let start = shrunk.shrunk(&answer.values);
        let gap = near / shrunk.model.cost(&start).abs().max(1e-9);
        let found = solve_whole(&shrunk.model, Some(&start), &Limits { gap, ..limits }).ok()?;
        let mut values = shrunk.expanded(&found.values);
        self.take_out_unused(&mut values);
        let cost = self.exact.model.cost(&values);
        Some((Answer { values, cost }, found.status))
    }
}
