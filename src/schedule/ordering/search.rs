//! Tabu search: always the best move that does not undo what was done lately.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};

use super::aim::Effort;
use super::board::Board;
use super::dispatch::{Pressure, RULES, Rule, dispatch};
use super::gap::Gap;
use super::graph::{Graph, NEVER};
use super::memory::Memory;
use super::offers::{Offer, Offers, View};

/// Good boards kept as starts.
pub(super) const KEPT: usize = 8;

/// A search and all its working space.
pub(super) struct Search<'a> {
    pub(super) graph: &'a Graph,
    pub(super) pressure: Pressure,
    pub(super) random: ChaCha8Rng,
    pub(super) board: Board,
    best: Board,
    pub(super) kept: Vec<Board>,
    /// Rules, the one with the best board first.
    pub(super) rules: Vec<Rule>,
    memory: Memory,
    pub(super) gap: Gap,
    heads: Vec<i64>,
    pub(super) reached: Vec<i64>,
    pub(super) critical: Vec<usize>,
    now: u64,
    bound: f64,
}

/// The best board found from the dispatch rules on, and the moves made; stops early at a value of `bound`.
pub(super) fn search(graph: &Graph, effort: Effort, bound: f64) -> (Board, u64) {
    let mut random = ChaCha8Rng::seed_from_u64(effort.seed);
    let pressure = Pressure::new(graph);
    let mut starts: Vec<(Rule, Board)> =
        RULES.iter().map(|rule| (*rule, dispatch(graph, &pressure, *rule, (0.0, &mut random)))).collect();
    starts.sort_by(|one, other| one.1.value.total_cmp(&other.1.value));
    let rules = starts.iter().map(|start| start.0).collect();
    let best = starts.swap_remove(0).1;
    let mut search = Search {
        pressure,
        random,
        board: best.clone(),
        best,
        kept: Vec::new(),
        rules,
        memory: Memory::new(graph.count(), graph.free.len()),
        gap: Gap::new(graph.count()),
        heads: vec![0; graph.count()],
        reached: vec![0; graph.count()],
        critical: Vec::new(),
        now: 0,
        bound,
        graph,
    };
    search.run(effort.moves);
    (search.best, search.now)
}

impl Search<'_> {
    fn run(&mut self, moves: u64) {
        let patience = self.patience();
        let mut round = 0;
        while self.now < moves && self.best.value > self.bound {
            self.start(round);
            let before = self.now;
            self.climb(moves, patience);
            if self.now == before && round > 2 * KEPT {
                // Not one move is open anywhere.
                return;
            }
            self.keep();
            round += 1;
        }
    }

    /// Moves without a better value after which a start is given up.
    fn patience(&self) -> u64 {
        1000 + 20 * self.graph.count() as u64
    }

    /// Moves from the present board until patience or moves are used up; the present board becomes the best met.
    fn climb(&mut self, moves: u64, patience: u64) {
        self.memory.clear();
        let mut met = self.board.clone();
        let mut last = self.now;
        while self.now < moves && self.now < last + patience && self.best.value > self.bound {
            let Some(offer) = self.offer() else { break };
            self.take(offer);
            if self.board.value < met.value {
                met.clone_from(&self.board);
                last = self.now;
                if met.value < self.best.value {
                    self.best.clone_from(&met);
                }
            }
        }
        self.board = met;
    }

    fn offer(&mut self) -> Option<Offer> {
        self.find_critical();
        if self.graph.is_greatest() {
            let mut reached = NEVER;
            for (place, &task) in self.board.sequence.iter().enumerate() {
                let end = self.board.head[task] + self.board.time[task];
                reached = reached.max(end + self.graph.allowance[task]);
                self.reached[place] = reached;
            }
        }
        let mut offers = Offers::default();
        let mut view = View {
            graph: self.graph,
            board: &mut self.board,
            gap: &mut self.gap,
            memory: &self.memory,
            random: &mut self.random,
            heads: &mut self.heads,
            now: self.now,
            best: self.best.value,
        };
        offers.look(&mut view, &self.critical, &self.reached);
        offers.choice()
    }

    fn take(&mut self, offer: Offer) {
        let machine = self.graph.ways[offer.task][offer.way].machine;
        let ways = self.graph.ways[offer.task].len() as u64;
        let length = 8 + self.critical.len() as u64 / 2 + ways;
        let until = self.now + length + self.random.random_range(0..=length / 2);
        self.memory.remember(&self.board, offer.task, (machine, offer.after), until);
        self.put(offer);
        self.now += 1;
    }

    pub(super) fn put(&mut self, offer: Offer) {
        self.board.take(offer.task);
        self.board.put(self.graph, offer.task, offer.way, offer.after);
        self.board.sort_in(self.graph, offer.task);
        self.board.work_out(self.graph);
    }
}
