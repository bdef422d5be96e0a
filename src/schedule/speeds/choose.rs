//! One setting kept for each operation and machine.

use super::super::program::SolveError;
use super::super::scenario::Scenario;
use super::free::Known;
use super::settings::{SettingsProgram, Solved};

/// How a mix of settings becomes one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Rounding {
    /// The one whose cycle is nearest to that of the mix.
    Nearest,
    /// The quickest in the mix.
    Quickest,
    /// The one that makes most of the pieces.
    Most,
    /// The quickest of all wherever the machine is used up, else the nearest.
    QuickWhereShort,
}

/// Chooses one setting each, of several ways the one that is least late, then cheapest: places among the known settings,
/// and lateness and money of the program that has only these.
pub(super) fn chosen(
    scenario: &Scenario,
    known: &Known,
    found: (&SettingsProgram, &Solved),
    operations: usize,
) -> Result<(Vec<usize>, (f64, f64)), SolveError> {
    let written: Vec<usize> = (0..operations).collect();
    let mut best: Option<(Vec<usize>, (f64, f64))> = None;
    let ways = [Rounding::Nearest, Rounding::Quickest, Rounding::Most, Rounding::QuickWhereShort];
    let rounded = ways.iter().map(|way| (0..operations).map(|at| one(known, found, at, *way)).collect());
    for places in rounded.chain([written]) {
        let places: Vec<usize> = places;
        let estimates: Vec<_> = places.iter().map(|at| known.estimates[*at].clone()).collect();
        let program = SettingsProgram::new(scenario, &estimates);
        let lateness = program.least_lateness()?;
        let money = program.least_money(lateness)?;
        let better = best.as_ref().is_none_or(|(_, (late, cost))| {
            let tie = 1e-6 * late.max(1.0);
            lateness < late - tie || (lateness < late + tie && money < *cost)
        });
        if better {
            best = Some((places, (lateness, money)));
        }
    }
    best.ok_or(SolveError::Infeasible)
}

/// The setting of an operation on its machine.
fn one(known: &Known, found: (&SettingsProgram, &Solved), at: usize, way: Rounding) -> usize {
    let (program, solved) = found;
    let own: Vec<(usize, f64, f64)> = known
        .of
        .iter()
        .enumerate()
        .filter(|(_, of)| **of == at)
        .map(|(place, _)| {
            let pieces: f64 = program.pieces(solved, place).sum();
            (place, known.estimates[place].cycle.to_s(), pieces)
        })
        .collect();
    let made: f64 = own.iter().map(|(.., pieces)| pieces).sum();
    if made < 0.5 {
        // Nothing is made here: as cheap as can be, that is the first after the one as written.
        return own.get(1).map_or(at, |(place, ..)| *place);
    }
    let mean = own.iter().map(|(_, cycle, pieces)| cycle * pieces).sum::<f64>() / made;
    let used = own.iter().filter(|(.., pieces)| *pieces > 1e-6 * made);
    let nearest = own
        .iter()
        .min_by(|one, other| (one.1 - mean).abs().total_cmp(&(other.1 - mean).abs()))
        .map_or(at, |(place, ..)| *place);
    let least_cycle = |one: &&(usize, f64, f64), other: &&(usize, f64, f64)| one.1.total_cmp(&other.1);
    match way {
        Rounding::Nearest => nearest,
        Rounding::Quickest => used.min_by(least_cycle).map_or(nearest, |(place, ..)| *place),
        Rounding::Most => {
            used.max_by(|one, other| one.2.total_cmp(&other.2)).map_or(nearest, |(place, ..)| *place)
        }
        Rounding::QuickWhereShort => {
            let machine = known.estimates[at].machine;
            let rows = program.model.minutes_rows[machine].iter().flatten();
            let short = rows.map(|row| -solved.priced.row_prices[*row]).fold(0.0, f64::max) > 1e-9;
            if short { own.iter().min_by(least_cycle).map_or(nearest, |(place, ..)| *place) } else { nearest }
        }
    }
}
