//! The plan of the linear program laid out in whole pieces, machine by machine and minute by minute.
//!
//! Slot by slot, each machine works towards the whole number of pieces that the program has reached by the end of the
//! slot; what did not fit is made up in the next. The operation a machine is set up for goes first. Wear is carried
//! from piece to piece, lot to lot and slot to slot; an edge is changed before the piece that would outlive it.

use super::plan::{Plan, Shipment};
use super::problem::Problem;

/// What the program says: pieces started by activity and slot, pieces shipped by demand and slot.
pub(super) struct Program {
    pub(super) started: Vec<Vec<f64>>,
    pub(super) shipped: Vec<Vec<f64>>,
}

/// Lays out what the program says.
pub(super) fn sequence(problem: &Problem, program: &Program) -> Plan {
    let mut floor = Floor::new(problem, program);
    for slot in 0..problem.slots.len() {
        floor.work(slot);
    }
    floor.plan
}

/// The shop floor as the slots pass.
pub(super) struct Floor<'a> {
    pub(super) problem: &'a Problem,
    /// Pieces the program has started by the end of each slot, by activity.
    pub(super) targets: Vec<Vec<f64>>,
    /// Pieces the program has shipped by the end of each slot, by demand.
    shipments: Vec<Vec<f64>>,
    pub(super) started: Vec<u32>,
    pub(super) step_started: Vec<u32>,
    pub(super) step_good: Vec<u32>,
    pub(super) stock: Vec<u32>,
    pub(super) set_up: Vec<Option<usize>>,
    pub(super) wear: Vec<f64>,
    pub(super) plan: Plan,
}

/// Which lots a pass lays.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Turn {
    /// Those that the machine is set up for.
    StandingOnly,
    /// All that are worth their setup.
    All,
    /// Those of the next slot that the machine is set up for.
    Ahead,
}

/// What is left of a slot.
pub(super) struct Left {
    pub(super) minutes: Vec<f64>,
    pub(super) used: Vec<f64>,
    pub(super) arrivals: Vec<u32>,
    pub(super) ready: Vec<i64>,
}

impl<'a> Floor<'a> {
    fn new(problem: &'a Problem, program: &Program) -> Self {
        let targets = running_totals(&program.started);
        let shipments = running_totals(&program.shipped);
        let steps = problem.steps.len();
        Self {
            problem,
            targets,
            shipments,
            started: vec![0; problem.activities.len()],
            step_started: vec![0; steps],
            step_good: vec![0; steps],
            stock: problem.steps.iter().map(|step| whole(step.opening)).collect(),
            set_up: problem.resources.iter().map(|resource| resource.set_up).collect(),
            wear: problem.points.iter().map(|point| point.worn).collect(),
            plan: Plan { stock: vec![Vec::new(); steps], ..Plan::default() },
        }
    }

    fn work(&mut self, slot: usize) {
        let problem = self.problem;
        let mut left = Left {
            minutes: problem.resources.iter().map(|resource| resource.minutes[slot]).collect(),
            used: vec![0.0; problem.resources.len()],
            arrivals: vec![0; problem.steps.len()],
            ready: vec![problem.slots[slot].start; problem.steps.len()],
        };
        let mut wanted = self.wanted(slot);
        self.pass(slot, &mut wanted, &mut left, Turn::StandingOnly);
        self.pass(slot, &mut wanted, &mut left, Turn::All);
        if slot + 1 < problem.slots.len() {
            // Time left over goes to what the next slot wants and the machine is set up for, unless it is dearer now.
            let mut ahead = self.wanted(slot + 1);
            self.pass(slot, &mut ahead, &mut left, Turn::Ahead);
        }
        for (stock, arrived) in self.stock.iter_mut().zip(&left.arrivals) {
            *stock += arrived;
        }
        self.ship(slot, &left.ready);
        for (history, stock) in self.plan.stock.iter_mut().zip(&self.stock) {
            history.push(*stock);
        }
    }

    /// Lays lots for what is wanted, as far as this turn goes.
    fn pass(&mut self, slot: usize, wanted: &mut [u32], left: &mut Left, turn: Turn) {
        let problem = self.problem;
        for (activity, wanted) in wanted.iter_mut().enumerate() {
            let Some(machine) = problem.activities[activity].machine else { continue };
            let standing = self.set_up[machine] == Some(activity);
            let cost = &problem.resources[machine].cost;
            let goes = match turn {
                Turn::StandingOnly => standing,
                Turn::All => standing || !self.can_wait(activity, slot, *wanted),
                Turn::Ahead => standing && cost[slot] <= cost[slot + 1],
            };
            if *wanted > 0 && goes {
                *wanted = wanted.saturating_sub(self.lay(activity, slot, *wanted, left));
            }
        }
    }

    /// Whole pieces each activity is behind the program at the end of this slot.
    fn wanted(&self, slot: usize) -> Vec<u32> {
        let mut wanted = vec![0; self.problem.activities.len()];
        for step in 0..self.problem.steps.len() {
            let makers: Vec<usize> = self.problem.makers(step).collect();
            let target: f64 = makers.iter().map(|maker| self.targets[*maker][slot]).sum();
            let mut open = whole((target - 1e-6).ceil()).saturating_sub(self.step_started[step]);
            for maker in &makers {
                let behind = whole(self.targets[*maker][slot] + 1e-6).saturating_sub(self.started[*maker]);
                wanted[*maker] = behind.min(open);
                open -= wanted[*maker];
            }
            // The pieces that rounding left over go where the program has begun most of one.
            let most_begun = makers.iter().copied().max_by(|one, other| {
                let begun =
                    |maker: usize| self.targets[maker][slot] - f64::from(self.started[maker] + wanted[maker]);
                begun(*one).total_cmp(&begun(*other)).then(other.cmp(one))
            });
            if let Some(maker) = most_begun {
                wanted[maker] += open;
            }
            self.spare_setups(&makers, &mut wanted);
        }
        wanted
    }

    /// A few pieces are not worth a setup where another machine stands set up for the same step.
    fn spare_setups(&self, makers: &[usize], wanted: &mut [u32]) {
        let standing = |maker: usize| {
            self.problem.activities[maker].machine.is_some_and(|machine| self.set_up[machine] == Some(maker))
        };
        let Some(set_up) = makers.iter().copied().find(|maker| standing(*maker)) else { return };
        for maker in makers.iter().copied().filter(|maker| !standing(*maker)) {
            let of = &self.problem.activities[maker];
            if of.running(wanted[maker]) < of.setup {
                wanted[set_up] += std::mem::take(&mut wanted[maker]);
            }
        }
    }

    /// A few pieces are not worth a setup now if the program comes back to the activity later.
    fn can_wait(&self, activity: usize, slot: usize, wanted: u32) -> bool {
        let of = &self.problem.activities[activity];
        let here =
            self.targets[activity][slot] - if slot == 0 { 0.0 } else { self.targets[activity][slot - 1] };
        let later = self.targets[activity].last().map_or(0.0, |end| end - self.targets[activity][slot]);
        here < 0.5 && later > 0.5 && of.running(wanted) < of.setup
    }

    /// Ships what lies at the end of a route: earliest due first, then the heavier weight.
    fn ship(&mut self, slot: usize, ready: &[i64]) {
        let demands = &self.problem.demands;
        let mut order: Vec<usize> =
            (0..demands.len()).filter(|demand| demands[*demand].market.is_none()).collect();
        order.sort_by(|one, other| {
            let (one_is, other_is) = (&demands[*one], &demands[*other]);
            one_is.due.cmp(&other_is.due).then(other_is.weight.total_cmp(&one_is.weight)).then(one.cmp(other))
        });
        for demand in order {
            let step = demands[demand].step;
            let shipped = self.plan.shipped(demand);
            let open = whole(demands[demand].quantity + 1e-9) - shipped;
            // The stock wanted at the end is kept, unless the program ships from it now and makes it up later.
            let spare =
                self.stock[step].saturating_sub(whole((self.problem.steps[step].closing - 1e-9).ceil()));
            let planned = whole((self.shipments[demand][slot] - 1e-6).ceil()).saturating_sub(shipped);
            let pieces = open.min(spare.max(planned)).min(self.stock[step]);
            if pieces > 0 {
                self.stock[step] -= pieces;
                self.plan.shipments.push(Shipment { demand, slot, at: ready[step], pieces });
            }
        }
    }
}

fn running_totals(slots: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let total = |pieces: &Vec<f64>| {
        pieces
            .iter()
            .scan(0.0, |sum, pieces| {
                *sum += pieces.max(0.0);
                Some(*sum)
            })
            .collect()
    };
    slots.iter().map(total).collect()
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
