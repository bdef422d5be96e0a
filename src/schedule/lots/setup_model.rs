//! The plan with setups as whole numbers.
//!
//! Beside the pieces x of activity a in slot s: setups made y, machines that come into the slot set up w, machines that stay
//! on it all through the slot q, all whole numbers up to the machines m of the pool. The rows:
//!
//! - minutes of machine and setter: pieces and setups together fit;
//! - `x <= M_y y + M_w w`, with M_w the pieces of a full slot of one machine and M_y those of a slot less the setup;
//! - what comes in set up was set up or stayed in the slot before: `w' <= y + q`, `q <= w`, at most m machines stand;
//! - a machine that stays is not set up for anything else: `y_b + sum of q <= m`;
//! - families: `y <= v + sum of w over the family`, with v the setups from another family;
//! - least lots: a setup makes so many pieces, unless it is carried on.
//!
//! Where setups do not outlive their slot, w and q are left out.

use super::super::lp::{Flows, PlanModel, Ready, Reserve};
use super::super::problem::Problem;
use super::super::program::Model;
use super::pools::Pooled;

/// Pieces that no slot makes.
const FAR: f64 = 1e7;

/// Whether a setup outlives its slot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum CarryOver {
    /// A machine stands as it was left.
    #[default]
    Linked,
    /// Each slot sets up anew.
    Lost,
}

/// Columns of an activity in a slot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cell {
    /// Pieces started.
    pub(super) started: usize,
    /// Setups made.
    pub(super) made: usize,
    /// Machines that come in set up, and machines that stay so to the end.
    pub(super) carried: Option<(usize, usize)>,
    /// Pieces of one machine in the slot after a setup.
    pub(super) most_made: f64,
    /// Pieces of one machine that comes in set up.
    pub(super) most_carried: f64,
}

/// How the program is built.
#[derive(Clone, Copy)]
pub(super) struct Terms<'a> {
    pub(super) flows: &'a Flows,
    pub(super) reserve: &'a Reserve,
    pub(super) ready: Ready,
    pub(super) carry_over: CarryOver,
    /// Money for a unit of lateness.
    pub(super) lateness_price: f64,
}

/// The program and the places of its columns.
#[derive(Debug, Clone)]
pub(super) struct SetupModel {
    /// Costs are money and priced lateness.
    pub(super) model: Model,
    pub(super) started: Vec<Vec<usize>>,
    pub(super) shipped: Vec<Vec<usize>>,
    pub(super) lateness: Vec<f64>,
    /// By activity and slot; none where the activity is never set up.
    pub(super) cells: Vec<Vec<Cell>>,
    /// Setups from one family to another.
    pub(super) families: Vec<usize>,
    /// Rows of least lots, from and to.
    pub(super) least_rows: (usize, usize),
}

impl SetupModel {
    /// Builds it.
    pub(super) fn build(pooled: &Pooled, terms: &Terms<'_>) -> Self {
        let problem = &pooled.problem;
        let reserve = pooled.reserve(terms.reserve);
        let plan = PlanModel::build(problem, terms.flows, &reserve, terms.ready);
        let rows = plan.minutes_rows.clone();
        let mut model = plan.model;
        for (column, late) in model.columns.iter_mut().zip(&plan.lateness) {
            column.cost += late * terms.lateness_price;
        }
        let mut setups = Self {
            model,
            started: plan.started,
            shipped: plan.shipped,
            lateness: plan.lateness,
            cells: vec![Vec::new(); problem.activities.len()],
            families: Vec::new(),
            least_rows: (0, 0),
        };
        let wanted = starts_wanted(problem, terms.flows);
        for activity in 0..problem.activities.len() {
            let goes_on = problem.running.iter().any(|running| running.activity == activity);
            let most = if goes_on { FAR } else { wanted[problem.activities[activity].step] };
            setups.add_cells(pooled, terms, (&rows, most), activity);
        }
        setups.add_families(problem, &rows);
        if terms.carry_over == CarryOver::Linked {
            setups.add_carrying(pooled);
        }
        setups.add_least_lots(problem, &wanted);
        setups.lateness.resize(setups.model.columns.len(), 0.0);
        setups
    }

    fn add_cells(
        &mut self,
        pooled: &Pooled,
        terms: &Terms<'_>,
        (rows, wanted): (&[Vec<Option<usize>>], f64),
        id: usize,
    ) {
        let problem = &pooled.problem;
        let activity = &problem.activities[id];
        let Some(machine) = activity.machine.filter(|_| activity.setup > 0.0) else { return };
        let within = activity.setup_within.min(activity.setup);
        let setup = if activity.family.is_some() { within } else { activity.setup };
        let machines = pooled.machines[machine];
        let each = minutes_each(problem, id, terms.ready);
        // No more is ever worth making than is wanted in all.
        let all_wanted = wanted.max(1.0);
        for (slot, minutes) in problem.resources[machine].minutes.iter().enumerate() {
            let all = minutes / machines;
            let open = (all - terms.reserve.minutes[pooled.first[machine]][slot]).max(0.0);
            let pieces = |minutes: f64| if each > 0.0 { (minutes / each).max(0.0) } else { f64::INFINITY };
            let (most_made, most_carried) =
                (pieces(open - setup).min(all_wanted), pieces(open).min(all_wanted));
            let started = self.started[id][slot];
            let may_run = self.model.columns[started].upper > 0.0 && open > 0.0;
            let made_upper = if may_run && (open >= setup) { machines } else { 0.0 };
            let cost = setup * problem.resources[machine].cost[slot];
            let made = self.model.whole_column(format!("made[{id},{slot}]"), made_upper, cost);
            let carried = (terms.carry_over == CarryOver::Linked).then(|| {
                let stood = if slot == 0 { pooled.standing(id) } else { machines };
                let carried = self.model.whole_column(format!("carried[{id},{slot}]"), stood, 0.0);
                (carried, self.model.whole_column(format!("kept[{id},{slot}]"), machines, 0.0))
            });
            if may_run {
                let mut link = vec![(started, 1.0), (made, -most_made)];
                link.extend(carried.map(|(carried, _)| (carried, -most_carried)));
                self.model.at_most(format!("link[{id},{slot}]"), link, 0.0);
            }
            for resource in [Some(machine), activity.setter].into_iter().flatten() {
                if let Some(row) = rows[resource][slot] {
                    self.model.rows[row].terms.push((made, setup));
                }
            }
            self.cells[id].push(Cell { started, made, carried, most_made, most_carried });
        }
    }

    fn add_carrying(&mut self, pooled: &Pooled) {
        let problem = &pooled.problem;
        for (machine, machines) in pooled.machines.iter().enumerate() {
            let on_it: Vec<usize> = (0..problem.activities.len())
                .filter(|id| problem.activities[*id].machine == Some(machine) && !self.cells[*id].is_empty())
                .collect();
            if on_it.is_empty() {
                continue;
            }
            for slot in 0..problem.slots.len() {
                let name = |what: &str, id: usize| format!("{what}[{id},{slot}]");
                let mut stand = Vec::new();
                let kept_by_all = self.model.column(name("stay", machine), *machines, 0.0);
                let mut stay = vec![(kept_by_all, -1.0)];
                for id in &on_it {
                    let cell = self.cells[*id][slot];
                    let Some((carried, kept)) = cell.carried else { continue };
                    stand.push((carried, 1.0));
                    stay.push((kept, 1.0));
                    self.model.at_most(name("kept", *id), vec![(kept, 1.0), (carried, -1.0)], 0.0);
                    let turned = vec![(cell.made, 1.0), (kept_by_all, 1.0)];
                    self.model.at_most(name("turned", *id), turned, *machines);
                    let next = self.cells[*id].get(slot + 1).and_then(|next| next.carried);
                    if let Some((next, _)) = next {
                        let terms = vec![(next, 1.0), (cell.made, -1.0), (kept, -1.0)];
                        self.model.at_most(name("carry", *id), terms, 0.0);
                    }
                }
                self.model.at_most(name("stand", machine), stand, *machines);
                self.model.equal(name("staying", machine), stay, 0.0);
            }
        }
    }

    fn add_families(&mut self, problem: &Problem, rows: &[Vec<Option<usize>>]) {
        for (machine, family) in families(problem) {
            let members: Vec<usize> = (0..problem.activities.len())
                .filter(|id| {
                    let of = &problem.activities[*id];
                    of.machine == Some(machine) && of.family == Some(family) && !self.cells[*id].is_empty()
                })
                .collect();
            let more = |id: &usize| {
                let of = &problem.activities[*id];
                of.setup - of.setup_within.min(of.setup)
            };
            let setup = members.iter().map(more).fold(f64::INFINITY, f64::min);
            if members.is_empty() {
                continue;
            }
            for (slot, minute) in problem.resources[machine].cost.iter().enumerate() {
                let cost = setup * minute;
                let name = format!("family[{machine},{family},{slot}]");
                let turned = self.model.whole_column(name, 1e4, cost);
                self.families.push(turned);
                for resource in setters(problem, machine, &members) {
                    if let Some(row) = rows[resource][slot] {
                        self.model.rows[row].terms.push((turned, setup));
                    }
                }
                for id in &members {
                    let mut terms = vec![(self.cells[*id][slot].made, 1.0), (turned, -1.0)];
                    let carried = members.iter().filter_map(|id| self.cells[*id][slot].carried);
                    terms.extend(carried.map(|(carried, _)| (carried, -1.0)));
                    self.model.at_most(format!("family[{id},{slot}]"), terms, 0.0);
                }
            }
        }
    }

    fn add_least_lots(&mut self, problem: &Problem, wanted: &[f64]) {
        self.least_rows.0 = self.model.rows.len();
        for (id, activity) in problem.activities.iter().enumerate() {
            for (slot, cell) in self.cells[id].iter().enumerate() {
                let least = f64::from(activity.least_lot).min(wanted[activity.step]).min(cell.most_made);
                if least <= 0.0 || activity.least_lot <= 1 {
                    continue;
                }
                let mut terms = vec![(cell.made, least), (cell.started, -1.0)];
                let next = self.cells[id].get(slot + 1).and_then(|next| next.carried);
                terms.extend(next.map(|(carried, _)| (carried, -least)));
                self.model.at_most(format!("least[{id},{slot}]"), terms, 0.0);
            }
        }
        self.least_rows.1 = self.model.rows.len();
    }

    /// Money of an answer, and its lateness.
    pub(super) fn money_and_lateness(&self, values: &[f64], price: f64) -> (f64, f64) {
        let lateness: f64 = self.lateness.iter().zip(values).map(|(late, value)| late * value).sum();
        (self.model.cost(values) - price * lateness, lateness)
    }
}

/// Minutes on its machine that a piece takes, as the program reckons.
pub(super) fn minutes_each(problem: &Problem, id: usize, ready: Ready) -> f64 {
    let activity = &problem.activities[id];
    let own = activity.uses.iter().filter(|(of, _)| Some(*of) == activity.machine);
    let all: f64 = own.map(|(_, minutes)| minutes).sum();
    match ready {
        Ready::AtStart => activity.run.min(all),
        Ready::AtEnd => all,
    }
}

/// Pieces of each step that must be started for all demands.
pub(super) fn starts_wanted(problem: &Problem, flows: &Flows) -> Vec<f64> {
    let mut wanted: Vec<f64> = problem.steps.iter().map(|step| step.closing - step.opening).collect();
    for demand in &problem.demands {
        wanted[demand.step] += demand.quantity;
    }
    for id in (0..wanted.len()).rev() {
        wanted[id] = wanted[id].max(0.0) / flows[id].max(1e-9);
        for (input, pieces) in &problem.steps[id].inputs {
            wanted[*input] += wanted[id] * pieces;
        }
    }
    wanted
}

/// Families of each machine that are set up more quickly after work of their own.
fn families(problem: &Problem) -> Vec<(usize, usize)> {
    let quick = problem.activities.iter().filter(|of| of.setup > of.setup_within);
    let mut found: Vec<_> = quick.filter_map(|of| of.machine.zip(of.family)).collect();
    found.sort_unstable();
    found.dedup();
    found
}

fn setters(problem: &Problem, machine: usize, members: &[usize]) -> Vec<usize> {
    let mut setters: Vec<usize> = members.iter().filter_map(|id| problem.activities[*id].setter).collect();
    setters.sort_unstable();
    setters.dedup();
    // People of more than one skill: none of them surely sets up.
    if setters.len() > 1 {
        setters.clear();
    }
    setters.push(machine);
    setters
}
