//! Tabu search: always the best move that does not undo what was done lately, from good and shaken starts.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};

use super::aim::Effort;
use super::board::Board;
use super::dispatch::{Pressure, RULES, dispatch};
use super::gap::Gap;
use super::graph::{Graph, NEVER, NONE};
use super::memory::Memory;
use super::offers::{Offer, Offers, View};

/// Good boards kept as starts.
const KEPT: usize = 8;

/// Critical tasks looked at in one move where every place is worked out in full.
const SAMPLE: usize = 12;

/// A search and all its working space.
pub(super) struct Search<'a> {
    graph: &'a Graph,
    pressure: Pressure,
    random: ChaCha8Rng,
    board: Board,
    best: Board,
    kept: Vec<Board>,
    memory: Memory,
    gap: Gap,
    heads: Vec<i64>,
    reached: Vec<i64>,
    critical: Vec<usize>,
    now: u64,
    bound: f64,
}

/// The best board found from the dispatch rules on, and the moves made; stops early at a value of `bound`.
pub(super) fn search(graph: &Graph, effort: Effort, bound: f64) -> (Board, u64) {
    let mut random = ChaCha8Rng::seed_from_u64(effort.seed);
    let pressure = Pressure::new(graph);
    let mut starts: Vec<Board> =
        RULES.iter().map(|rule| dispatch(graph, &pressure, *rule, (0.0, &mut random))).collect();
    starts.sort_by(|one, other| one.value.total_cmp(&other.value));
    starts.truncate(KEPT);
    let best = starts[0].clone();
    let mut search = Search {
        pressure,
        random,
        board: best.clone(),
        best,
        kept: starts,
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
        let mut round = 0_usize;
        while self.now < moves && self.best.value > self.bound {
            let before = self.now;
            self.climb(moves, patience);
            if self.now == before {
                // Not one move is open anywhere.
                return;
            }
            self.keep();
            round += 1;
            self.start_again(round);
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

    fn put(&mut self, offer: Offer) {
        self.board.take(offer.task);
        self.board.put(self.graph, offer.task, offer.way, offer.after);
        self.board.sort_in(self.graph, offer.task);
        self.board.work_out(self.graph);
    }

    /// Tasks on one critical path, or on the paths to some tasks that count in a sum.
    fn find_critical(&mut self) {
        self.critical.clear();
        if self.graph.is_greatest() {
            let last = self.pick(|search, task| {
                let end = search.board.head[task] + search.board.time[task];
                let allowance = search.graph.allowance[task];
                allowance > NEVER && super::graph::number(end + allowance) >= search.board.value
            });
            if let Some(last) = last {
                self.trace(last);
            }
            return;
        }
        let counts = |search: &Self, task: usize| {
            search.graph.share(task, search.board.head[task] + search.board.time[task]) > 0.0
        };
        for _ in 0..4 {
            if let Some(last) = self.pick(counts) {
                self.trace(last);
            }
        }
        self.critical.sort_unstable();
        self.critical.dedup();
        while self.critical.len() > SAMPLE {
            let at = self.random.random_range(0..self.critical.len());
            self.critical.swap_remove(at);
        }
    }

    /// One task of those that fit, at random.
    fn pick(&mut self, fits: impl Fn(&Self, usize) -> bool) -> Option<usize> {
        let mut picked = None;
        let mut count = 0_u32;
        for task in 0..self.graph.count() {
            if fits(self, task) {
                count += 1;
                if count == 1 || self.random.random_range(0..count) == 0 {
                    picked = Some(task);
                }
            }
        }
        picked
    }

    /// Notes a task and, one after another, those that hold it up; of several, one at random.
    fn trace(&mut self, last: usize) {
        let mut task = last;
        loop {
            self.critical.push(task);
            let head = self.board.head[task];
            let time = self.board.time[task];
            let mut holder = NONE;
            let mut count = 0_u32;
            let previous = self.board.previous[task];
            let machine = self.board.machine[task];
            if previous != NONE
                && self.board.follow(self.graph, &self.board.head, previous, (task, machine)) == head
            {
                holder = previous;
                count = 1;
            }
            for arc in self.graph.before(task) {
                if self.board.head[arc.task] + arc.lag(self.board.time[arc.task], time) == head {
                    count += 1;
                    if count == 1 || self.random.random_range(0..count) == 0 {
                        holder = arc.task;
                    }
                }
            }
            if holder == NONE {
                return;
            }
            task = holder;
        }
    }

    /// Keeps the present board among the good ones, unless it is like one of them.
    fn keep(&mut self) {
        let like =
            self.kept.iter().position(|kept| kept.next == self.board.next && kept.way == self.board.way);
        if like.is_some() {
            return;
        }
        self.kept.push(self.board.clone());
        self.kept.sort_by(|one, other| one.value.total_cmp(&other.value));
        self.kept.truncate(KEPT);
    }

    /// A new start: mostly a good board that is shaken, sometimes a dispatch rule with scattered keys.
    fn start_again(&mut self, round: usize) {
        if round % 6 == 5 {
            let rule = RULES[self.random.random_range(0..RULES.len())];
            self.board = dispatch(self.graph, &self.pressure, rule, (0.3, &mut self.random));
            return;
        }
        let at = self.random.random_range(0..self.kept.len());
        self.board = self.kept[at].clone();
        let most = 4 + self.graph.count() / 10;
        for _ in 0..self.random.random_range(3..=most) {
            self.shake();
        }
    }

    /// Puts one task at a place drawn at random.
    fn shake(&mut self) {
        let task = self.random.random_range(0..self.graph.count());
        let way = self.random.random_range(0..self.graph.ways[task].len());
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
        if !places.is_empty() {
            let after = places[self.random.random_range(0..places.len())];
            self.put(Offer::to(task, way, after));
        }
    }
}
