//! What a scheduler can ask for, laid on a problem: machine time, people, edges, another date.

use super::super::plan::Plan;
use super::super::problem::{Problem, Slot};
use super::base::whole;

/// One thing to ask for.
#[derive(Debug, Clone, PartialEq)]
pub enum Relaxation {
    /// A machine works in a time in which it stands, with the people it needs where there are none.
    Open {
        /// The machine.
        machine: usize,
        /// From when to when, time by time.
        spans: Vec<(i64, i64)>,
        /// Crews of which one more person comes for these times.
        people: Vec<usize>,
        /// What stood against it.
        kind: Opened,
    },
    /// One more person of a crew.
    Person {
        /// The crew.
        crew: usize,
        /// From when to when.
        spans: Vec<(i64, i64)>,
    },
    /// Edges more of a stock, there from the start.
    Edges {
        /// The stock.
        stock: usize,
        /// How many.
        edges: u32,
    },
    /// Another date for an order.
    Date {
        /// The order.
        demand: usize,
        /// When it is then due.
        due: i64,
    },
    /// So many pieces of an order by the date, the others as soon as can be.
    Part {
        /// The order.
        demand: usize,
        /// Pieces by the date.
        pieces: u32,
    },
}

/// Why a machine stood in a time that is opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Opened {
    /// It works at this time of other days: a stop or a closed day is called off.
    StopCalledOff,
    /// It never works in this shift: a further shift.
    FurtherShift,
    /// No shift works then: overtime.
    Overtime,
}

impl Relaxation {
    /// The problem with this granted.
    pub(super) fn grant(&self, problem: &mut Problem) {
        match self {
            Self::Open { machine, spans, people, .. } => {
                for span in spans {
                    let slot = add_slot(problem, *span);
                    let length = minutes(&problem.resources[*machine].windows[slot]);
                    let minutes = length * productive(problem, *machine);
                    problem.resources[*machine].minutes[slot] = minutes;
                    for crew in people {
                        add_person(problem, *crew, slot);
                    }
                }
            }
            Self::Person { crew, spans } => {
                for span in spans {
                    let slot = add_slot(problem, *span);
                    add_person(problem, *crew, slot);
                }
            }
            Self::Edges { stock, edges } => {
                if let Some(first) = problem.edge_stocks[*stock].arrivals.first_mut() {
                    *first += edges;
                }
            }
            Self::Date { demand, due } => problem.demands[*demand].due = *due,
            Self::Part { demand, pieces } => {
                let mut rest = problem.demands[*demand].clone();
                let first = f64::from(*pieces);
                rest.quantity -= first;
                // What follows is asked for at once, so that it comes as soon as can be, but after all that has its date.
                rest.weight *= 1e-3;
                problem.demands[*demand].quantity = first;
                problem.demands.push(rest);
            }
        }
    }

    /// Times it is for.
    pub(super) fn spans(&self) -> &[(i64, i64)] {
        match self {
            Self::Open { spans, .. } | Self::Person { spans, .. } => spans,
            Self::Edges { .. } | Self::Date { .. } | Self::Part { .. } => &[],
        }
    }

    /// Hours of machines and people asked for.
    #[must_use]
    pub fn hours(&self) -> f64 {
        let of = |spans: &[(i64, i64)]| minutes(spans) / 60.0;
        match self {
            #[expect(clippy::cast_precision_loss, reason = "a plant has few crews")]
            Self::Open { spans, people, .. } => of(spans) * (1.0 + people.len() as f64),
            Self::Person { spans, .. } => of(spans),
            Self::Edges { .. } | Self::Date { .. } | Self::Part { .. } => 0.0,
        }
    }
}

/// Minutes of windows.
fn minutes(windows: &[(i64, i64)]) -> f64 {
    let seconds: i64 = windows.iter().map(|(from, to)| to - from).sum();
    #[expect(clippy::cast_precision_loss, reason = "a slot has far fewer than 2^52 seconds")]
    let minutes = seconds as f64 / 60.0;
    minutes
}

/// Minutes a machine can run for each minute of a shift that it works in.
fn productive(problem: &Problem, machine: usize) -> f64 {
    let of = &problem.resources[machine];
    let slots = of.minutes.iter().zip(&of.windows).filter(|(open, _)| **open > 0.0 && open.is_finite());
    let shares = slots.map(|(open, windows)| open / minutes(windows).max(1e-9));
    let best = shares.fold(0.0, f64::max);
    if best > 0.0 { best.min(1.0) } else { 1.0 }
}

fn add_person(problem: &mut Problem, crew: usize, slot: usize) {
    let of = &mut problem.resources[crew];
    of.minutes[slot] += minutes(&of.windows[slot]);
}

/// Place of the slot that begins with a span; a new one, in which nothing works yet, where there is none.
fn add_slot(problem: &mut Problem, (start, end): (i64, i64)) -> usize {
    let at = problem.slots.partition_point(|slot| slot.start < start);
    if problem.slots.get(at).is_some_and(|slot| slot.start == start) {
        return at;
    }
    let beside = at.saturating_sub(1);
    problem.slots.insert(at, Slot { start, end });
    for resource in &mut problem.resources {
        let endless = resource.minutes.iter().all(|minutes| minutes.is_infinite());
        resource.minutes.insert(at, if endless { f64::INFINITY } else { 0.0 });
        let cost = resource.cost.get(beside).copied().unwrap_or(0.0);
        resource.cost.insert(at, cost);
        resource.windows.insert(at, vec![(start, end)]);
    }
    for stock in &mut problem.edge_stocks {
        stock.arrivals.insert(at, 0);
    }
    at
}

/// A plan in the slots of a problem that has more of them.
pub(super) fn moved(plan: &Plan, from: &Problem, to: &Problem) -> Plan {
    let mut moved = plan.clone();
    let place = |slot: usize| {
        let start = from.slots[slot].start;
        to.slots.partition_point(|slot| slot.start < start)
    };
    for lot in &mut moved.lots {
        lot.slot = place(lot.slot);
    }
    for shipment in &mut moved.shipments {
        shipment.slot = place(shipment.slot);
    }
    for (stock, before) in moved.stock.iter_mut().zip(&plan.stock) {
        *stock = to
            .slots
            .iter()
            .map(|slot| {
                let after = from.slots.partition_point(|known| known.start <= slot.start);
                after.checked_sub(1).map_or(0, |at| before[at])
            })
            .collect();
    }
    moved
}

/// Pieces of an order that a plan ships by its date.
pub(super) fn in_time(problem: &Problem, plan: &Plan, demand: usize) -> u32 {
    let due = problem.demands[demand].due;
    let shipped = plan.shipments.iter().filter(|shipment| shipment.demand == demand && shipment.at <= due);
    let pieces: u32 = shipped.map(|shipment| shipment.pieces).sum();
    pieces.min(whole(problem.demands[demand].quantity + 1e-9))
}
