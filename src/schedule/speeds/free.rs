//! Prices, new settings, prices again, until no setting would make the plan cheaper.

use super::super::program::SolveError;
use super::super::scenario::Scenario;
use super::choose::chosen;
use super::settings::{SettingsProgram, Solved, Worth};
use crate::cycle::{CutError, MinuteWorth, OperationEstimate, SpeedChange, SpeedChoice, Worths};
use crate::quantity::{Money, MoneyRate};
use thiserror::Error;

/// How far the pricing goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SpeedSearch {
    /// Most rounds of program and pricing.
    pub rounds: usize,
}

impl Default for SpeedSearch {
    fn default() -> Self {
        Self { rounds: 12 }
    }
}

/// Speeds chosen inside the plan: one setting for each operation and machine.
#[derive(Debug, Clone, PartialEq)]
pub struct FreedSpeeds {
    /// Estimates in the order of those given, with the speeds chosen.
    pub estimates: Vec<OperationEstimate>,
    /// Speeds that are not as written, by estimate.
    pub changed: Vec<Vec<SpeedChange>>,
    /// What an hour of its machine is worth to each estimate, over the pieces that the program makes there; `None`: none.
    pub hour_worth: Vec<Option<MoneyRate>>,
    /// Settings looked at.
    pub settings: usize,
    /// Rounds of program and pricing.
    pub rounds: usize,
    /// Whether no setting is left that would make the program cheaper.
    pub settled: bool,
    /// Lateness and money of the program at the speeds as written.
    pub written: (f64, f64),
    /// The same if every operation could mix all settings.
    pub mixed: (f64, f64),
    /// The same with one setting each: what is above `mixed` is the cost of keeping one.
    pub kept: (f64, f64),
}

/// Why speeds cannot be chosen.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum FreeError {
    /// The program has no answer.
    #[error(transparent)]
    Solve(#[from] SolveError),
    /// A cut cannot be worked out at another speed.
    #[error("{} {}, cut {cut}: {fault}", .place.0, .place.1)]
    Cut {
        /// Item and number of the operation.
        place: (String, u32),
        /// Place of the cut.
        cut: usize,
        /// What it lacks.
        fault: CutError,
    },
}

/// All settings known so far.
pub(super) struct Known {
    pub(super) estimates: Vec<OperationEstimate>,
    pub(super) changed: Vec<Vec<SpeedChange>>,
    /// Place among the estimates given.
    pub(super) of: Vec<usize>,
}

/// Chooses speeds for a scenario: `estimates` are those at the speeds as written, one for each operation and machine.
///
/// # Errors
/// [`FreeError`].
pub fn free_speeds(
    scenario: &Scenario,
    estimates: &[OperationEstimate],
    search: SpeedSearch,
) -> Result<FreedSpeeds, FreeError> {
    let choices = estimates
        .iter()
        .map(|at| {
            SpeedChoice::new(&scenario.shop, (at.item, at.operation, at.machine), at.worth)
                .map_err(|fault| named(scenario, at, fault))
        })
        .collect::<Result<Vec<_>, _>>()?;
    let mut known = Known {
        estimates: estimates.to_vec(),
        changed: vec![Vec::new(); estimates.len()],
        of: (0..estimates.len()).collect(),
    };
    let program = SettingsProgram::new(scenario, estimates);
    let late = program.least_lateness()?;
    let written = (late, program.least_money(late)?);
    for (at, choice) in choices.iter().enumerate() {
        // The cheapest at the plain rate; the quickest, without which lateness could not fall.
        let rate = scenario.shop.machines[estimates[at].machine].rate.unwrap_or(MoneyRate::ZERO);
        known.add(scenario, (at, choice), &Worths::of_minute(rate))?;
        known.add(scenario, (at, choice), &Worths::TIME_ALONE)?;
    }
    let mut rounds = 0;
    let mut settled = false;
    let (mut program, mut solved) = solve_all(scenario, &known)?;
    while rounds < search.rounds {
        rounds += 1;
        if !priced_round(scenario, &choices, (&program, &solved), &mut known)? {
            settled = true;
            break;
        }
        (program, solved) = solve_all(scenario, &known)?;
    }
    let (places, kept) = chosen(scenario, &known, (&program, &solved), estimates.len())?;
    let hour_worth =
        (0..estimates.len()).map(|at| hour_worth(scenario, (&program, &solved), at, &known.of)).collect();
    Ok(FreedSpeeds {
        hour_worth,
        estimates: places.iter().map(|at| known.estimates[*at].clone()).collect(),
        changed: places.iter().map(|at| known.changed[*at].clone()).collect(),
        settings: known.estimates.len(),
        rounds,
        settled,
        written,
        mixed: (solved.lateness, solved.priced.cost),
        kept,
    })
}

fn solve_all(scenario: &Scenario, known: &Known) -> Result<(SettingsProgram, Solved), SolveError> {
    let program = SettingsProgram::new(scenario, &known.estimates);
    let solved = program.solved(program.least_lateness()?)?;
    Ok((program, solved))
}

/// Looks for better settings at the prices found; whether any was.
fn priced_round(
    scenario: &Scenario,
    choices: &[SpeedChoice<'_>],
    found: (&SettingsProgram, &Solved),
    known: &mut Known,
) -> Result<bool, FreeError> {
    let (program, solved) = found;
    let old = known.estimates.len();
    for (at, choice) in choices.iter().enumerate() {
        for worth in worths(scenario, (program, solved), at, &known.of) {
            let by = Worths {
                minute: MinuteWorth::Priced(worth.minute),
                person: worth.person,
                edges: &worth.edges,
            };
            known.add(scenario, (at, choice), &by)?;
        }
    }
    let wider = SettingsProgram::new(scenario, &known.estimates);
    let scale = solved.priced.cost.abs().max(1.0);
    let brings = wider.reduced_costs(&solved.priced.row_prices, solved.lateness);
    let most = program.built.problem.demands.iter().map(|demand| demand.quantity).fold(1.0, f64::max);
    let bringing: Vec<bool> =
        (old..known.estimates.len()).map(|at| brings[at] * most < -1e-6 * scale).collect();
    let any = bringing.iter().any(|brings| *brings);
    known.keep(old, &bringing);
    Ok(any)
}

/// What minutes and edges are worth to an operation on its machine, in each slot in which it could run; equal ones once.
fn worths(scenario: &Scenario, found: (&SettingsProgram, &Solved), at: usize, of: &[usize]) -> Vec<Worth> {
    let (program, solved) = found;
    let mut list: Vec<Worth> = Vec::new();
    let slots = program.built.problem.slots.len();
    let used = |slot: usize| {
        let own = of.iter().enumerate().filter(|(_, of)| **of == at).map(|(known, _)| known);
        own.map(|known| solved.priced.values[program.model.started[known][slot]]).sum::<f64>() > 1e-6
    };
    for slot in (0..slots).filter(|slot| used(*slot)) {
        let worth = program.worth(scenario, solved, (at, slot));
        let near = |one: &Worth| {
            let (one, other) = (one.minute.to_per_h(), worth.minute.to_per_h());
            (one - other).abs() <= 0.01 * one.max(other)
        };
        if !list.iter().any(near) {
            list.push(worth);
        }
    }
    list
}

/// What an hour of its machine is worth to an operation, over the pieces that the program makes there.
fn hour_worth(
    scenario: &Scenario,
    found: (&SettingsProgram, &Solved),
    at: usize,
    of: &[usize],
) -> Option<MoneyRate> {
    let (program, solved) = found;
    let (mut pieces, mut worth) = (0.0, 0.0);
    for (known, _) in of.iter().enumerate().filter(|(_, of)| **of == at) {
        for (slot, made) in program.pieces(solved, known).enumerate().filter(|(_, made)| *made > 1e-6) {
            pieces += made;
            worth += made * program.worth(scenario, solved, (at, slot)).minute.to_per_h();
        }
    }
    (pieces > 0.0).then(|| MoneyRate::per_h(worth / pieces))
}

impl Known {
    /// Adds the setting that costs least, unless it is known.
    fn add(
        &mut self,
        scenario: &Scenario,
        choice: (usize, &SpeedChoice<'_>),
        worths: &Worths<'_>,
    ) -> Result<(), FreeError> {
        let (at, choice) = choice;
        let place = (choice.written().item, choice.written().operation);
        let priced = choice.priced(worths).map_err(|fault| {
            let operation = scenario.shop.items[place.0].operations[place.1].id;
            FreeError::Cut {
                place: (scenario.shop.items[place.0].key.clone(), operation),
                cut: fault.0,
                fault: fault.1,
            }
        })?;
        let new = &priced.estimate;
        let cost = |of: &OperationEstimate| of.tooling_cost().unwrap_or(Money::ZERO).amount();
        let same = |of: &OperationEstimate| {
            let (one, other) = (of.cycle.to_s(), new.cycle.to_s());
            (one - other).abs() <= 1e-6 * one && (cost(of) - cost(new)).abs() <= 1e-6 * cost(of).max(1e-9)
        };
        let known = self.estimates.iter().zip(&self.of).any(|(of, place)| *place == at && same(of));
        if !known {
            self.estimates.push(priced.estimate);
            self.changed.push(priced.changed);
            self.of.push(at);
        }
        Ok(())
    }

    /// Keeps, of the settings from a place on, those marked.
    fn keep(&mut self, from: usize, marked: &[bool]) {
        let mut place = 0;
        let mut stays = || {
            let stays = place < from || marked.get(place - from).copied().unwrap_or(false);
            place += 1;
            stays
        };
        let all: Vec<bool> = (0..self.of.len()).map(|_| stays()).collect();
        let mut at = all.iter();
        self.estimates.retain(|_| at.next().copied().unwrap_or(false));
        let mut at = all.iter();
        self.changed.retain(|_| at.next().copied().unwrap_or(false));
        let mut at = all.iter();
        self.of.retain(|_| at.next().copied().unwrap_or(false));
    }
}

fn named(scenario: &Scenario, at: &OperationEstimate, fault: (usize, CutError)) -> FreeError {
    let item = &scenario.shop.items[at.item];
    FreeError::Cut {
        place: (item.key.clone(), item.operations[at.operation].id),
        cut: fault.0,
        fault: fault.1,
    }
}
