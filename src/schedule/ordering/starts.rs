//! Where a search starts, and starts again.

use rand::RngExt;

use super::board::Board;
use super::dispatch::{RULES, dispatch};
use super::graph::NONE;
use super::offers::Offer;
use super::search::{KEPT, Search};

impl Search<'_> {
    /// Keeps the present board among the good ones, unless it is like one of them.
    pub(super) fn keep(&mut self) {
        let like =
            self.kept.iter().position(|kept| kept.next == self.board.next && kept.way == self.board.way);
        if like.is_some() {
            return;
        }
        self.kept.push(self.board.clone());
        self.kept.sort_by(|one, other| one.value.total_cmp(&other.value));
        self.kept.truncate(KEPT);
    }

    /// A start: first by the dispatch rules, then with scattered keys, then between two good boards.
    pub(super) fn start(&mut self, round: usize) {
        if round < KEPT {
            let scatter = if round < RULES.len() { 0.0 } else { 0.3 };
            let rule = self.rules[round % RULES.len()];
            self.board = dispatch(self.graph, &self.pressure, rule, (scatter, &mut self.random));
            return;
        }
        let from = self.random.random_range(0..self.kept.len());
        let to = self.random.random_range(0..self.kept.len());
        self.board = self.kept[from].clone();
        if from == to {
            let most = 4 + self.graph.count() / 10;
            for _ in 0..self.random.random_range(3..=most) {
                self.shake();
            }
        } else {
            self.draw_near(to);
        }
    }

    /// Puts about half of the tasks where another good board has them.
    fn draw_near(&mut self, to: usize) {
        let guide = self.kept[to].clone();
        for task in 0..self.graph.count() {
            if self.random.random_range(0..2) == 0 {
                let way = guide.way[task];
                let place = self.nearest(&guide, task, way);
                if let Some(after) = place {
                    self.put(Offer::to(task, way, after));
                }
            }
        }
    }

    /// The place in a queue at which a task stands most as on another board.
    fn nearest(&mut self, guide: &Board, task: usize, way: usize) -> Option<usize> {
        let places = self.places(task, way);
        let machine = self.graph.ways[task][way].machine;
        let wrong = |after: usize| {
            let mut wrong = 0;
            let mut passed = after == NONE;
            let mut other = self.board.first[machine];
            while other != NONE {
                if other != task && guide.machine[other] == machine {
                    let first = guide.place[other] < guide.place[task];
                    wrong += usize::from(first == passed);
                }
                passed |= other == after;
                other = self.board.next[other];
            }
            wrong
        };
        places.into_iter().min_by_key(|after| wrong(*after))
    }

    /// Puts one task at a place drawn at random.
    fn shake(&mut self) {
        let task = self.random.random_range(0..self.graph.count());
        let way = self.random.random_range(0..self.graph.ways[task].len());
        let places = self.places(task, way);
        if !places.is_empty() {
            let after = places[self.random.random_range(0..places.len())];
            self.put(Offer::to(task, way, after));
        }
    }

    /// Tasks behind which a task can stand in the queue of a way's machine.
    fn places(&mut self, task: usize, way: usize) -> Vec<usize> {
        let old = (self.board.way[task], self.board.previous[task]);
        self.board.take(task);
        self.gap.open(self.graph, &self.board, task, &self.reached);
        let mut places = Vec::new();
        let mut previous = NONE;
        let mut next = self.board.first[self.graph.ways[task][way].machine];
        loop {
            if self.gap.fits(previous, next) {
                places.push(previous);
            }
            if next == NONE {
                break;
            }
            previous = next;
            next = self.board.next[next];
        }
        self.board.put(self.graph, task, old.0, old.1);
        places
    }
}
