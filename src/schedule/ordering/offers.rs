//! The moves that are open: every critical task to every place of every machine that can do it.

use rand::RngExt;
use rand::rngs::ChaCha8Rng;

use super::board::Board;
use super::gap::Gap;
use super::graph::{Graph, NONE};
use super::memory::{Leave, Memory};

/// A move: a task to a way, behind a task of that machine's queue.
#[derive(Debug, Clone, Copy)]
pub(super) struct Offer {
    pub(super) task: usize,
    pub(super) way: usize,
    pub(super) after: usize,
    /// Value expected, and the path through the task that decides between equals.
    pub(super) value: f64,
    through: i64,
}

impl Offer {
    /// A move whose value nobody asked for.
    pub(super) fn to(task: usize, way: usize, after: usize) -> Self {
        Self { task, way, after, value: 0.0, through: 0 }
    }
}

/// The best moves seen at one board.
#[derive(Debug, Default)]
pub(super) struct Offers {
    free: Option<Offer>,
    free_ties: u32,
    /// A forbidden move, drawn at random, for the case that no other is left.
    any: Option<Offer>,
    any_count: u32,
}

/// All that is looked at while offers are sought.
pub(super) struct View<'a> {
    pub(super) graph: &'a Graph,
    pub(super) board: &'a mut Board,
    pub(super) gap: &'a mut Gap,
    pub(super) memory: &'a Memory,
    pub(super) random: &'a mut ChaCha8Rng,
    pub(super) heads: &'a mut Vec<i64>,
    pub(super) now: u64,
    /// Value below which a move is taken even if it is forbidden.
    pub(super) best: f64,
}

impl Offers {
    /// The move to make, if there is any.
    pub(super) fn choice(&self) -> Option<Offer> {
        self.free.or(self.any)
    }

    /// Looks at all places for these tasks. `reached` as in [`Gap::open`].
    pub(super) fn look(&mut self, view: &mut View, tasks: &[usize], reached: &[i64]) {
        for &task in tasks {
            let old = (view.board.way[task], view.board.previous[task], view.board.next[task]);
            view.board.take(task);
            view.gap.open(view.graph, view.board, task, reached);
            let here = view.graph.ways[task][old.0];
            for (way, chosen) in view.graph.ways[task].iter().enumerate() {
                if way == old.0 {
                    self.same_queue(view, (task, way), (old.1, old.2));
                } else {
                    let leave = if chosen.machine == here.machine {
                        Leave::Free
                    } else {
                        view.memory.machine(task, chosen.machine, view.now)
                    };
                    self.other_queue(view, (task, way), leave);
                }
            }
            view.board.put(view.graph, task, old.0, old.1);
        }
    }

    /// Places of the queue in which the task stood between two others.
    fn same_queue(&mut self, view: &mut View, (task, way): (usize, usize), (previous, next): (usize, usize)) {
        let mut leave = Leave::Free;
        let mut other = next;
        while other != NONE && !view.gap.behind[other] {
            leave = leave.max(view.memory.before(other, task, view.now));
            let behind = view.board.next[other];
            self.offer(view, (task, way), (other, behind), leave);
            other = behind;
        }
        leave = Leave::Free;
        let mut other = previous;
        while other != NONE && !view.gap.ahead[other] {
            leave = leave.max(view.memory.before(task, other, view.now));
            let before = view.board.previous[other];
            self.offer(view, (task, way), (before, other), leave);
            other = before;
        }
    }

    fn other_queue(&mut self, view: &mut View, (task, way): (usize, usize), leave: Leave) {
        let mut previous = NONE;
        let mut next = view.board.first[view.graph.ways[task][way].machine];
        loop {
            if view.gap.fits(previous, next) {
                self.offer(view, (task, way), (previous, next), leave);
            }
            if next == NONE || view.gap.behind[next] {
                return;
            }
            previous = next;
            next = view.board.next[next];
        }
    }

    fn offer(
        &mut self,
        view: &mut View,
        (task, way): (usize, usize),
        (previous, next): (usize, usize),
        leave: Leave,
    ) {
        let (value, through) = if view.graph.is_greatest() {
            let chosen = view.graph.ways[task][way];
            let linked = view.gap.linked(view.graph, view.board, task, chosen.time);
            let through = view.gap.through(view.graph, view.board, (task, chosen, linked), (previous, next));
            (view.gap.greatest(through), through)
        } else {
            view.board.put(view.graph, task, way, previous);
            let value = view.gap.exact(view.graph, view.board, task, view.heads);
            view.board.take(task);
            (value, 0)
        };
        let offer = Offer { task, way, after: previous, value, through };
        let leave = if value < view.best { Leave::Free } else { leave };
        self.weigh(offer, leave, view.random);
    }

    fn weigh(&mut self, offer: Offer, leave: Leave, random: &mut ChaCha8Rng) {
        if leave == Leave::Forbidden {
            self.any_count += 1;
            if self.any_count == 1 || random.random_range(0..self.any_count) == 0 {
                self.any = Some(offer);
            }
            return;
        }
        let order = self.free.map_or(std::cmp::Ordering::Less, |best| {
            offer.value.total_cmp(&best.value).then(offer.through.cmp(&best.through))
        });
        match order {
            std::cmp::Ordering::Less => {
                self.free = Some(offer);
                self.free_ties = 1;
            }
            std::cmp::Ordering::Equal => {
                self.free_ties += 1;
                if random.random_range(0..self.free_ties) == 0 {
                    self.free = Some(offer);
                }
            }
            std::cmp::Ordering::Greater => {}
        }
    }
}
