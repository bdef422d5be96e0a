//! Setups from pieces: which machine of a pool is set up for what.

use super::super::problem::Problem;
use super::pools::{Pooled, count};
use super::setup_model::{CarryOver, SetupModel};

/// Setups of each activity of the problem as given, in each slot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Setups {
    /// Made.
    pub(super) made: Vec<Vec<bool>>,
    /// The machine comes in set up.
    pub(super) carried: Vec<Vec<bool>>,
    /// It stays so to the end of the slot.
    pub(super) kept: Vec<Vec<bool>>,
}

impl Setups {
    pub(super) fn none(problem: &Problem) -> Self {
        let none = vec![vec![false; problem.slots.len()]; problem.activities.len()];
        Self { made: none.clone(), carried: none.clone(), kept: none }
    }

    /// Bounds that fix the whole columns of a program of machines apart.
    pub(super) fn fix(&self, setups: &SetupModel, bounds: &mut [(f64, f64)]) {
        for (id, cells) in setups.cells.iter().enumerate() {
            for (slot, cell) in cells.iter().enumerate() {
                let mut fix = |column: usize, value: bool| {
                    let value = f64::from(u8::from(value)).min(setups.model.columns[column].upper);
                    bounds[column] = (value, value);
                };
                fix(cell.made, self.made[id][slot]);
                if let Some((carried, kept)) = cell.carried {
                    fix(carried, self.carried[id][slot]);
                    fix(kept, self.kept[id][slot]);
                }
            }
        }
    }
}

/// One machine in a slot.
struct Bench {
    /// Place in its pool.
    rank: usize,
    /// Minutes left.
    left: f64,
    /// Activities of the pooled problem that it does.
    does: Vec<usize>,
    /// Activity that it came in set up for.
    standing: Option<usize>,
    /// Whether it was set up for anything in the slot.
    turned: bool,
}

/// Least part of a machine's slot that is worth a setup of its own.
const WORTH: f64 = 0.1;

/// Lays the pieces of the pooled program onto machines: what stands set up first, then the largest loads, each on the machine
/// where it fits best; what is larger than any rest is split.
pub(super) fn spread(pooled: &Pooled, given: &Problem, pieces: &[Vec<f64>], carry_over: CarryOver) -> Setups {
    let mut setups = Setups::none(given);
    for machine in 0..pooled.machines.len() {
        let of: Vec<usize> = (0..pooled.problem.activities.len())
            .filter(|id| pooled.problem.activities[*id].machine == Some(machine))
            .collect();
        if !of.is_empty() {
            spread_pool(pooled, (machine, &of), (pieces, carry_over), &mut setups);
        }
    }
    setups
}

fn spread_pool(
    pooled: &Pooled,
    (machine, of): (usize, &[usize]),
    (pieces, carry_over): (&[Vec<f64>], CarryOver),
    setups: &mut Setups,
) {
    let problem = &pooled.problem;
    let ranks = pooled.members[of[0]].len();
    let mut standing: Vec<Option<usize>> = start_states(pooled, of, ranks);
    for slot in 0..problem.slots.len() {
        let open = problem.resources[machine].minutes[slot] / count(ranks);
        let mut benches: Vec<Bench> = standing
            .iter()
            .enumerate()
            .map(|(rank, standing)| Bench {
                rank,
                left: open,
                does: Vec::new(),
                standing: standing.filter(|_| carry_over == CarryOver::Linked),
                turned: false,
            })
            .collect();
        let mut loads: Vec<(usize, f64)> = of
            .iter()
            .map(|id| (*id, pieces[*id][slot] * each(problem, *id)))
            .filter(|(_, minutes)| *minutes > 1e-6)
            .collect();
        loads.sort_by(|one, other| other.1.total_cmp(&one.1).then(one.0.cmp(&other.0)));
        for (id, minutes) in &mut loads {
            *minutes = use_standing(&mut benches, *id, *minutes);
        }
        for (id, minutes) in &mut loads {
            fill(problem, &mut benches, (*id, *minutes), open);
        }
        for bench in &benches {
            let next = |id: usize| pieces[id].get(slot + 1).map_or(0.0, |pieces| pieces * each(problem, id));
            standing[bench.rank] = record(pooled, bench, slot, setups, &next);
        }
    }
}

fn each(problem: &Problem, id: usize) -> f64 {
    let of = &problem.activities[id];
    of.uses.iter().filter(|(resource, _)| Some(*resource) == of.machine).map(|(_, minutes)| minutes).sum()
}

fn start_states(pooled: &Pooled, of: &[usize], ranks: usize) -> Vec<Option<usize>> {
    let mut states = vec![None; ranks];
    for id in of {
        for (state, stands) in states.iter_mut().zip(&pooled.stands[*id]) {
            if *stands {
                *state = Some(*id);
            }
        }
    }
    states
}

/// Puts as much as fits on machines that came in set up for it, and returns the minutes left over.
fn use_standing(benches: &mut [Bench], id: usize, mut minutes: f64) -> f64 {
    for bench in benches.iter_mut().filter(|bench| bench.standing == Some(id)) {
        let taken = minutes.min(bench.left);
        if taken > 1e-6 {
            bench.left -= taken;
            bench.does.push(id);
            minutes -= taken;
        }
    }
    minutes
}

fn fill(problem: &Problem, benches: &mut [Bench], (id, mut minutes): (usize, f64), open: f64) {
    let setup = problem.activities[id].setup;
    while minutes > 1e-6 {
        let free = |bench: &&mut Bench| !bench.does.contains(&id);
        let fits = benches.iter_mut().filter(free).filter(|bench| bench.left >= setup + minutes - 1e-6);
        let best = fits.min_by(|one, other| one.left.total_cmp(&other.left).then(one.rank.cmp(&other.rank)));
        let bench = match best {
            Some(bench) => Some(bench),
            None => benches
                .iter_mut()
                .filter(free)
                .max_by(|one, other| one.left.total_cmp(&other.left).then(other.rank.cmp(&one.rank))),
        };
        let Some(bench) = bench else { return };
        let taken = minutes.min(bench.left - setup);
        if taken < (WORTH * open).min(minutes) - 1e-6 {
            return;
        }
        bench.left -= taken + setup;
        bench.does.push(id);
        bench.turned = true;
        minutes -= taken;
    }
}

/// Writes down what a machine does in the slot, and says what it stands set up for at the end.
fn record(
    pooled: &Pooled,
    bench: &Bench,
    slot: usize,
    setups: &mut Setups,
    next: &dyn Fn(usize) -> f64,
) -> Option<usize> {
    for id in &bench.does {
        if bench.standing != Some(*id) {
            setups.made[pooled.members[*id][bench.rank]][slot] = true;
        }
    }
    if let Some(standing) = bench.standing {
        let member = pooled.members[standing][bench.rank];
        setups.carried[member][slot] = true;
        setups.kept[member][slot] = !bench.turned;
    }
    if !bench.turned {
        return bench.standing;
    }
    // The last of the slot is what the next slot makes most of.
    let turned = bench.does.iter().copied().filter(|id| bench.standing != Some(*id));
    turned.max_by(|one, other| next(*one).total_cmp(&next(*other)).then(other.cmp(one)))
}
