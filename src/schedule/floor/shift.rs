//! The shop floor as the slots pass.

use super::super::plan::Plan;
use super::super::problem::{Problem, ResourceKind};
use super::goods::{Batch, Goods};
use super::setters::Setters;
use super::wanted::{opening, running_totals};

/// What the program says: pieces started by activity and slot, pieces shipped by demand and slot.
pub(in super::super) struct Program {
    pub(in super::super) started: Vec<Vec<f64>>,
    pub(in super::super) shipped: Vec<Vec<f64>>,
}

/// A plan, and what the floor could not keep of the program.
pub(in super::super) struct LaidOut {
    pub(in super::super) plan: Plan,
    /// Minutes that were wanted and not laid, by resource and slot.
    pub(in super::super) short: Vec<Vec<f64>>,
    /// Steps for whose pieces a machine waited.
    pub(in super::super) starved: Vec<bool>,
}

/// Lays out what the program says.
pub(in super::super) fn lay_out(problem: &Problem, program: &Program) -> LaidOut {
    let mut floor = Floor::new(problem, program);
    for slot in 0..problem.slots.len() {
        floor.work(slot);
    }
    LaidOut { plan: floor.plan, short: floor.short, starved: floor.starved }
}

/// The shop floor as the slots pass.
pub(super) struct Floor<'a> {
    pub(super) problem: &'a Problem,
    /// Pieces the program has started by the end of each slot, by activity.
    pub(super) targets: Vec<Vec<f64>>,
    /// Pieces the program has shipped by the end of each slot, by demand.
    pub(super) shipments: Vec<Vec<f64>>,
    pub(super) started: Vec<u32>,
    pub(super) step_started: Vec<u32>,
    pub(super) step_good: Vec<u32>,
    pub(super) shipped: Vec<u32>,
    /// What lies after each step.
    pub(super) goods: Vec<Goods>,
    pub(super) set_up: Vec<Option<usize>>,
    pub(super) wear: Vec<f64>,
    /// Edges at hand, by stock.
    pub(super) edges: Vec<u32>,
    /// Pieces still to be started of the work that goes on.
    pub(super) running: Vec<u32>,
    pub(super) plan: Plan,
    /// Minutes that were wanted and not laid, by resource and slot.
    short: Vec<Vec<f64>>,
    /// Steps for whose pieces a machine waited.
    starved: Vec<bool>,
}

/// Which lots a pass lays.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Turn {
    /// Work that goes on.
    Running,
    /// All that are worth their setup.
    All,
    /// Those of the next slot that the machine is set up for.
    Ahead,
}

/// What is left of a slot.
pub(super) struct Left<'a> {
    pub(super) minutes: Vec<f64>,
    /// Minute of its slot at which each machine is free; pieces sent to each firm.
    pub(super) at: Vec<f64>,
    pub(super) setters: Setters<'a>,
}

impl<'a> Floor<'a> {
    fn new(problem: &'a Problem, program: &Program) -> Self {
        let steps = problem.steps.len();
        let start = problem.slots.first().map_or(0, |slot| slot.start);
        let mut goods = vec![Goods::default(); steps];
        for (goods, pieces) in goods.iter_mut().zip(opening(problem)) {
            goods.add(Batch { ready: start, done: start, pieces });
        }
        let mut set_up: Vec<Option<usize>> = problem.resources.iter().map(|of| of.set_up).collect();
        for running in &problem.running {
            if let Some(machine) = problem.activities[running.activity].machine {
                set_up[machine] = Some(running.activity);
            }
        }
        Self {
            problem,
            targets: running_totals(&program.started),
            shipments: running_totals(&program.shipped),
            started: vec![0; problem.activities.len()],
            step_started: vec![0; steps],
            step_good: vec![0; steps],
            shipped: vec![0; problem.demands.len()],
            goods,
            set_up,
            wear: problem.points.iter().map(|point| point.worn).collect(),
            edges: vec![0; problem.edge_stocks.len()],
            running: problem.running.iter().map(|running| running.pieces).collect(),
            plan: Plan { stock: vec![Vec::new(); steps], ..Plan::default() },
            short: vec![vec![0.0; problem.slots.len()]; problem.resources.len()],
            starved: vec![false; steps],
        }
    }

    fn work(&mut self, slot: usize) {
        let problem = self.problem;
        for (edges, stock) in self.edges.iter_mut().zip(&problem.edge_stocks) {
            *edges += stock.arrivals.get(slot).copied().unwrap_or(0);
        }
        let mut left = Left {
            minutes: problem.resources.iter().map(|resource| resource.minutes[slot]).collect(),
            at: vec![0.0; problem.resources.len()],
            setters: Setters::new(problem, slot),
        };
        let mut wanted = self.wanted(slot);
        self.pass(slot, &mut wanted, &mut left, Turn::Running);
        let turns = self.turns(slot, &wanted, &left);
        self.follow(slot, &turns, &mut wanted, &mut left);
        self.pass(slot, &mut wanted, &mut left, Turn::All);
        self.note_shortage(slot, &wanted, &left);
        if slot + 1 < problem.slots.len() {
            // Time left over goes to what the next slot wants and the machine is set up for, unless it is dearer now.
            let mut ahead = self.wanted(slot + 1);
            self.pass(slot, &mut ahead, &mut left, Turn::Ahead);
        }
        self.ship(slot);
        let end = problem.slots[slot].end;
        for (history, goods) in self.plan.stock.iter_mut().zip(&self.goods) {
            history.push(goods.done_by(end));
        }
    }

    /// Lays lots for what is wanted, as far as this turn goes.
    fn pass(&mut self, slot: usize, wanted: &mut [u32], left: &mut Left<'_>, turn: Turn) {
        let problem = self.problem;
        for (activity, wanted) in wanted.iter_mut().enumerate() {
            let Some(machine) = problem.activities[activity].machine else { continue };
            let standing = self.stands_for(activity);
            let outside = problem.resources[machine].kind == ResourceKind::Outside;
            let cost = &problem.resources[machine].cost;
            let goes = match turn {
                Turn::Running => self.goes_on(activity).is_some(),
                Turn::All => outside || standing || !self.can_wait(activity, slot, *wanted),
                Turn::Ahead => standing && !outside && cost[slot] <= cost[slot + 1],
            };
            if *wanted > 0 && goes {
                self.make(activity, slot, wanted, left);
            }
        }
    }

    /// Lays lots in an order.
    fn follow(&mut self, slot: usize, turns: &[usize], wanted: &mut [u32], left: &mut Left<'_>) {
        for activity in turns {
            self.make(*activity, slot, &mut wanted[*activity], left);
        }
    }

    fn make(&mut self, activity: usize, slot: usize, wanted: &mut u32, left: &mut Left<'_>) {
        let made = self.lay(activity, slot, *wanted, left);
        *wanted = wanted.saturating_sub(made);
        if let Some(running) = self.goes_on(activity) {
            self.running[running] = self.running[running].saturating_sub(made);
        }
    }

    /// What the program counted on and the floor could not keep: for want of people, of machine time - that lost by waiting included -
    /// or of pieces.
    fn note_shortage(&mut self, slot: usize, wanted: &[u32], left: &Left<'_>) {
        for (activity, wanted) in wanted.iter().enumerate().filter(|(_, wanted)| **wanted > 0) {
            let of = &self.problem.activities[activity];
            let Some(machine) = of.machine else { continue };
            if self.problem.resources[machine].kind != ResourceKind::Machine
                || self.can_wait(activity, slot, *wanted)
            {
                continue;
            }
            let others = of.uses.iter().filter(|(resource, _)| *resource != machine);
            let mut busy = others.filter(|(resource, minutes)| left.minutes[*resource] < *minutes);
            if let Some((people, minutes)) = busy.next_back() {
                self.short[*people][slot] += minutes * f64::from(*wanted);
            } else if self.problem.resources[machine].minutes[slot] - left.at[machine] < of.running(1) {
                self.short[machine][slot] += of.running(*wanted);
            } else {
                for (input, _) in &self.problem.steps[of.step].inputs {
                    self.starved[*input] = true;
                }
            }
        }
    }

    /// Place of an activity among the work that goes on and is not finished yet.
    fn goes_on(&self, activity: usize) -> Option<usize> {
        let running = self.problem.running.iter();
        running.zip(&self.running).position(|(running, left)| running.activity == activity && *left > 0)
    }
}

/// Whole pieces, rounded down.
pub(super) fn whole(pieces: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the range of u32"
    )]
    let whole = pieces.floor().clamp(0.0, f64::from(u32::MAX)) as u32;
    whole
}
