//! Why an order is late: the verified plan walked back from its last piece, each wait with what was waited for.

use super::super::plan::{Lot, Plan};
use super::super::problem::{Lag, Problem, ResourceKind, hours};
use super::pegging::Pegging;
use super::waits::{Wait, open_seconds, waited_for};

/// One wait on the way of an order's last piece.
#[derive(Debug, Clone, PartialEq)]
pub struct ChainLink {
    /// The step that waited, or was done.
    pub step: usize,
    /// The machine it is done on.
    pub machine: Option<usize>,
    /// From when.
    pub from: i64,
    /// Until when.
    pub to: i64,
    /// For what.
    pub waited_for: Wait,
    /// Hours of the wait between the two: of a busy machine, those it worked.
    pub hours: f64,
    /// Whose pieces kept the machine busy - none: the stock wanted at the end - and for how many hours.
    pub behind: Vec<(Option<usize>, f64)>,
}

/// Links after which a chain is cut off.
const LONGEST: usize = 24;

/// Waits shorter than this are no links: changes of hands, the last minutes of a shift.
pub(super) const SHORT: i64 = 900;

/// The chain of waits of an order, from its shipment back.
#[must_use]
pub fn chain(problem: &Problem, plan: &Plan, demand: usize) -> Vec<ChainLink> {
    let walk = Walk { problem, plan, pegging: Pegging::of(problem, plan) };
    walk.links(demand)
}

pub(super) struct Walk<'a> {
    pub(super) problem: &'a Problem,
    pub(super) plan: &'a Plan,
    pegging: Pegging,
}

/// Work without a gap on a machine.
struct Block {
    /// Its first lot.
    first: usize,
    /// When the machine was last busy before it, or the start of the plan.
    idle_from: i64,
}

impl Walk<'_> {
    fn links(&self, demand: usize) -> Vec<ChainLink> {
        let problem = self.problem;
        let mut links = Vec::new();
        let step = problem.demands[demand].step;
        let finish = self.plan.finish(problem, demand);
        if finish.is_none() {
            let end = problem.slots.last().map_or(0, |slot| slot.end);
            let from = self.last_lot(step, end).map_or(end, |lot| self.plan.lots[lot].end);
            links.push(link(step, None, (from, end), Wait::PlanEnd));
        }
        let by = finish.unwrap_or(i64::MAX);
        let mut next = self.last_lot(step, by).or_else(|| self.upstream(step, by));
        while let Some(lot) = next {
            if links.len() >= LONGEST {
                break;
            }
            next = self.back_from(lot, &mut links);
        }
        links
    }

    /// Adds the links of a lot, and names the lot that it waited for.
    fn back_from(&self, lot: usize, links: &mut Vec<ChainLink>) -> Option<usize> {
        let (problem, lots) = (self.problem, &self.plan.lots);
        let (step, machine) = self.place(&lots[lot]);
        let block = self.block(lot);
        let first = &lots[block.first];
        links.push(self.busy(&block, lot));
        if let Some(machine) = machine {
            let closed = first.start.max(0)..lots[lot].end;
            let shut = (closed.end - closed.start) - open_seconds(problem, machine, closed.start, closed.end);
            if shut > 4 * SHORT {
                let mut closed = link(step, Some(machine), (first.start, lots[lot].end), Wait::MachineClosed);
                closed.hours = hours(shut);
                links.push(closed);
            }
        }
        let (first_step, first_machine) = self.place(first);
        if let Some(maker) = self.needed_maker(first) {
            let ready = lots[maker].end;
            let moving = problem.steps[self.place(&lots[maker]).0].lag;
            let usable = match moving {
                Lag::NextSlot => {
                    problem.slots.get(lots[maker].slot + 1).map_or(ready, |next| next.start).max(ready)
                }
                Lag::SameSlot | Lag::Boxes { .. } => ready,
            };
            if usable > block.idle_from + SHORT {
                let idle = ready.max(block.idle_from);
                if first.start > idle + SHORT {
                    let wait = if moving == Lag::NextSlot { Wait::NextShift } else { Wait::Box };
                    links.push(link(first_step, first_machine, (idle, first.start), wait));
                }
                if ready > block.idle_from + SHORT {
                    links.push(link(first_step, first_machine, (block.idle_from, ready), Wait::Pieces));
                }
                return Some(maker);
            }
        }
        if first.start > block.idle_from + SHORT {
            let wait = waited_for(self, first, block.idle_from);
            links.push(link(first_step, first_machine, (block.idle_from, first.start), wait));
        }
        None
    }

    pub(super) fn place(&self, lot: &Lot) -> (usize, Option<usize>) {
        let activity = &self.problem.activities[lot.activity];
        (activity.step, activity.machine)
    }

    /// Last lot of a step that ends by a time.
    fn last_lot(&self, step: usize, by: i64) -> Option<usize> {
        let lots = self.plan.lots.iter().enumerate();
        let of_step = lots.filter(|(_, lot)| self.place(lot).0 == step && lot.end <= by);
        of_step.max_by_key(|(id, lot)| (lot.end, *id)).map(|(id, _)| id)
    }

    /// Where a step has no lot, the last lot on the way to it.
    fn upstream(&self, step: usize, by: i64) -> Option<usize> {
        let inputs = self.problem.steps[step].inputs.iter().map(|(input, _)| *input);
        let lots = inputs.filter_map(|input| self.last_lot(input, by).or_else(|| self.upstream(input, by)));
        lots.max_by_key(|lot| self.plan.lots[*lot].end)
    }

    /// Lots that follow each other on the machine without a gap, back from one.
    fn block(&self, lot: usize) -> Block {
        let lots = &self.plan.lots;
        let machine = self.place(&lots[lot]).1;
        let mut block = Block { first: lot, idle_from: 0 };
        loop {
            let start = lots[block.first].start;
            let before = lots.iter().enumerate().filter(|(id, other)| {
                *id != block.first
                    && self.place(other).1 == machine
                    && other.start < start
                    && other.end <= start
            });
            let Some((previous, of)) = before.max_by_key(|(id, lot)| (lot.end, *id)) else {
                block.idle_from = self.problem.slots.first().map_or(0, |slot| slot.start);
                return block;
            };
            let idle = machine.map_or(0, |machine| open_seconds(self.problem, machine, of.end, start));
            if idle > SHORT + self.one_load(&lots[block.first]) || machine.is_none() {
                block.idle_from = of.end;
                return block;
            }
            block.first = previous;
        }
    }

    fn one_load(&self, lot: &Lot) -> i64 {
        #[expect(clippy::cast_possible_truncation, reason = "a load takes far less than 2^63 seconds")]
        let seconds = (self.problem.activities[lot.activity].running(1) * 60.0).ceil() as i64;
        seconds
    }

    /// The machine at work from the start of a block to the end of a lot, by order.
    fn busy(&self, block: &Block, lot: usize) -> ChainLink {
        let lots = &self.plan.lots;
        let (step, machine) = self.place(&lots[lot]);
        let mut busy = link(step, machine, (lots[block.first].start, lots[lot].end), Wait::MachineBusy);
        busy.hours = 0.0;
        for other in lots.iter().filter(|other| {
            self.place(other).1 == machine && other.start >= busy.from && other.end <= busy.to
        }) {
            let seconds = machine
                .map_or(other.end - other.start, |at| open_seconds(self.problem, at, other.start, other.end));
            busy.hours += hours(seconds);
            let from = self.made_before(other);
            let to = from + f64::from(other.pieces);
            for (order, share) in self.pegging.shares(self.place(other).0, from, to) {
                match busy.behind.iter_mut().find(|(known, _)| *known == order) {
                    Some((_, sum)) => *sum += share * hours(seconds),
                    None => busy.behind.push((order, share * hours(seconds))),
                }
            }
        }
        busy.behind.sort_by(|one, other| other.1.total_cmp(&one.1));
        busy
    }

    /// Pieces of the same step started before a lot, on any machine.
    fn made_before(&self, lot: &Lot) -> f64 {
        let key = |lot: &Lot| (lot.end, lot.activity, lot.first_piece);
        let step = self.place(lot).0;
        let before =
            self.plan.lots.iter().filter(|other| self.place(other).0 == step && key(other) < key(lot));
        before.map(|other| f64::from(other.pieces)).sum()
    }

    /// The last lot without whose pieces a lot could not have begun.
    fn needed_maker(&self, lot: &Lot) -> Option<usize> {
        let step = self.place(lot).0;
        let inputs = self.problem.steps[step].inputs.iter();
        let makers = inputs.filter_map(|(input, each)| {
            // The first piece of a lot decides when it may begin; in whole shifts all its pieces must lie there.
            let first = match self.problem.steps[*input].lag {
                Lag::NextSlot => f64::from(lot.pieces),
                Lag::SameSlot | Lag::Boxes { .. } => 1.0,
            };
            self.maker_of(*input, each * first, lot)
        });
        makers.max_by_key(|maker| self.plan.lots[*maker].end)
    }

    fn maker_of(&self, input: usize, wanted: f64, lot: &Lot) -> Option<usize> {
        let lots = &self.plan.lots;
        let mut makers: Vec<usize> = (0..lots.len())
            .filter(|id| self.place(&lots[*id]).0 == input && lots[*id].end <= lot.start)
            .collect();
        makers.sort_by_key(|id| (lots[*id].end, *id));
        let made: f64 = makers.iter().map(|id| f64::from(lots[*id].good)).sum();
        let taken: f64 = lots
            .iter()
            .filter(|other| other.start < lot.start)
            .flat_map(|other| {
                let inputs = self.problem.steps[self.place(other).0].inputs.iter();
                inputs
                    .filter(move |(of, _)| *of == input)
                    .map(move |(_, each)| each * f64::from(other.pieces))
            })
            .sum();
        let mut lying = self.problem.steps[input].opening + made - taken;
        for maker in makers.into_iter().rev() {
            lying -= f64::from(lots[maker].good);
            if lying < wanted - 1e-6 {
                return Some(maker);
            }
        }
        None
    }

    /// Whether a crew was used up in a slot.
    pub(super) fn crew_is_full(&self, crew: usize, slot: usize) -> bool {
        let of = &self.problem.resources[crew];
        of.kind == ResourceKind::Crew
            && self.plan.minutes_used(self.problem, crew, slot) >= 0.97 * of.minutes[slot]
    }
}

fn link(step: usize, machine: Option<usize>, (from, to): (i64, i64), waited_for: Wait) -> ChainLink {
    ChainLink { step, machine, from, to, waited_for, hours: hours((to - from).max(0)), behind: Vec::new() }
}
