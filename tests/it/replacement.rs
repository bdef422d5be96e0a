//! Change of edges held against simulated shops, and against trying everything.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use wearland::quantity::{Duration, Money, MoneyRate};
use wearland::tooling::replacement::{
    GroupedTool, Grouping, PieceChange, age_cost_rate, at_common_stops, at_given_stops, best_age, best_block,
    block_cost_rate, edges_for, renewal, renewals_by_piece,
};
use wearland::tooling::scatter::{LifeFamily, LifeSpread, Scatter};

/// Quantile of Student's t at 97.5 % with 19 degrees of freedom.
const T_19: f64 = 2.093_024;
/// Replications of a run, for its interval.
const REPLICATIONS: u32 = 20;
const SEEDS: u64 = 100;

/// A machine with one tool, changed after so many pieces; minutes of a piece, a change and a failure.
struct Shop {
    spread: LifeSpread,
    wear: f64,
    pieces: u32,
    cycle: f64,
    planned: f64,
    failure: f64,
}

impl Shop {
    fn new(shape: f64, scale: f64, (cut, handling): (f64, f64), pieces: u32, stands: (f64, f64)) -> Self {
        let spread = LifeSpread::weibull(shape);
        let mean = scale * statrs::function::gamma::gamma(1.0 + 1.0 / shape);
        Self { spread, wear: cut / mean, pieces, cycle: cut + handling, planned: stands.0, failure: stands.1 }
    }

    fn change(&self) -> PieceChange {
        PieceChange {
            spread: self.spread,
            wear: self.wear,
            cycle: Duration::min(self.cycle),
            planned: Duration::min(self.planned),
            failure: Duration::min(self.failure),
            edge: Money::ZERO,
            scrap: Money::ZERO,
            rate: MoneyRate::ZERO,
        }
    }

    /// Cuts with one edge: good pieces and whether it failed.
    fn edge(&self, random: &mut ChaCha8Rng) -> (u32, bool) {
        let life = self.spread.age_at(random.random());
        for piece in 1..=self.pieces {
            if life <= f64::from(piece) * self.wear {
                return (piece - 1, true);
            }
        }
        (self.pieces, false)
    }
}

fn shops() -> [Shop; 3] {
    [
        Shop::new(3.2, 42.0, (1.8, 0.6), 15, (1.5, 6.0)),
        Shop::new(2.5, 25.0, (0.9, 0.35), 18, (2.0, 9.0)),
        Shop::new(4.5, 60.0, (2.4, 0.8), 17, (1.2, 7.5)),
    ]
}

/// Whether the 95 % interval of the mean of these covers a value.
fn covers(values: &[f64], value: f64) -> bool {
    let count = f64::from(u32::try_from(values.len()).unwrap());
    let mean = values.iter().sum::<f64>() / count;
    let variance = values.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / (count - 1.0);
    (mean - value).abs() <= T_19 * (variance / count).sqrt()
}

/// Of 100 seeds, how many give an interval that covers the value; a replication draws one figure.
fn covered(value: f64, mut replication: impl FnMut(&mut ChaCha8Rng) -> f64) -> usize {
    (0..SEEDS)
        .filter(|seed| {
            let mut random = ChaCha8Rng::seed_from_u64(*seed);
            let values: Vec<f64> = (0..REPLICATIONS).map(|_| replication(&mut random)).collect();
            covers(&values, value)
        })
        .count()
}

/// Over three cases, 300 intervals: 95 of 100 with four to either side, which chance leaves once in some 500 times.
fn holds(what: &str, counts: &[usize]) {
    let (covering, all) = (counts.iter().sum::<usize>(), 100 * counts.len());
    assert!(
        (91 * all..=99 * all).contains(&(100 * covering)),
        "{what}: {counts:?} of 100 intervals each cover"
    );
}

#[test]
fn simulated_machines_make_what_the_formula_says() {
    let (mut good_per_hour, mut scrap) = (Vec::new(), Vec::new());
    for shop in shops() {
        let outcome = shop.change().outcome(shop.pieces);
        let run = |random: &mut ChaCha8Rng| {
            let (mut minutes, mut good, mut failed) = (0.0, 0, 0);
            for _ in 0..150 {
                let (made, failure) = shop.edge(random);
                good += made;
                failed += u32::from(failure);
                minutes += shop.cycle * f64::from(made + u32::from(failure))
                    + if failure { shop.failure } else { shop.planned };
            }
            (60.0 * f64::from(good) / minutes, f64::from(failed) / f64::from(failed + good))
        };
        good_per_hour.push(covered(outcome.good_per_hour, |random| run(random).0));
        scrap.push(covered(outcome.scrap_share, |random| run(random).1));
    }
    holds("good an hour", &good_per_hour);
    holds("share of scrap", &scrap);
}

#[test]
fn simulated_orders_take_the_edges_expected() {
    let mut counts = Vec::new();
    for shop in shops() {
        let need = edges_for(&shop.change(), shop.pieces, 100, 0.95);
        let order = |random: &mut ChaCha8Rng| {
            let (mut good, mut edges) = (0, 0);
            while good < 100 {
                good += shop.edge(random).0;
                edges += 1;
            }
            f64::from(edges)
        };
        let mean = |random: &mut ChaCha8Rng| (0..20).map(|_| order(random)).sum::<f64>() / 20.0;
        counts.push(covered(need.mean, mean));
        let mut random = ChaCha8Rng::seed_from_u64(1);
        let orders: Vec<f64> = (0..2000).map(|_| order(&mut random)).collect();
        let enough = orders.iter().filter(|edges| **edges <= f64::from(need.at_level)).count();
        let short = orders.iter().filter(|edges| **edges < f64::from(need.at_level)).count();
        // 95 % within three standard errors.
        assert!(enough >= 1870 && short < 1930, "{enough}, {short} of 2000 for {need:?}");
    }
    holds("edges", &counts);
}

#[test]
fn simulated_costs_and_failures_are_those_of_the_theory() {
    let (mut costs, mut failing) = (Vec::new(), Vec::new());
    for (family, variation) in
        [(LifeFamily::Weibull, 0.3), (LifeFamily::Lognormal, 0.4), (LifeFamily::Gamma, 0.5)]
    {
        let spread = LifeSpread::new(Scatter { family, variation });
        // Drawing lives by the share that outlives them, tabled: quantiles of the gamma law are slow.
        let lives: Vec<f64> = (0..4000).map(|at| spread.age_at((f64::from(at) + 0.5) / 4000.0)).collect();
        let draw = |random: &mut ChaCha8Rng| lives[random.random_range(0..lives.len())];
        let age = best_age(&spread, 1.0, 5.0).unwrap();
        let rate = age_cost_rate(&spread, age, 1.0, 5.0);
        let cost = |random: &mut ChaCha8Rng| {
            let (mut lived, mut cost) = (0.0, 0.0);
            for _ in 0..400 {
                let life = draw(random);
                lived += life.min(age);
                cost += if life <= age { 5.0 } else { 1.0 };
            }
            cost / lived
        };
        costs.push(covered(rate, cost));
        let failures = |random: &mut ChaCha8Rng| {
            let mut failed = 0;
            for _ in 0..100 {
                let mut age = draw(random);
                while age <= 1.7 {
                    failed += 1;
                    age += draw(random);
                }
            }
            f64::from(failed) / 100.0
        };
        failing.push(covered(renewal(&spread, 1.7), failures));
    }
    holds("cost by age", &costs);
    holds("failures", &failing);
}

fn change(family: LifeFamily, variation: f64, wear: f64) -> PieceChange {
    PieceChange {
        spread: LifeSpread::new(Scatter { family, variation }),
        wear,
        cycle: Duration::s(90.0),
        planned: Duration::s(80.0),
        failure: Duration::min(12.0),
        edge: Money::of(3.2),
        scrap: Money::of(14.0),
        rate: MoneyRate::per_h(62.0),
    }
}

#[test]
fn the_best_count_is_the_best_of_all() {
    for (_, family) in LifeFamily::NAMES {
        for variation in [0.05, 0.3, 0.7, 1.5] {
            for wear in [1.7, 0.4, 0.11, 0.03, 0.002] {
                let change = change(family, variation, wear);
                let (cheapest, quickest) = (change.cheapest(), change.quickest());
                let end = change.run_to_failure();
                let most = end.pieces.min(200);
                let mut counts: Vec<u32> = (1..=most).collect();
                counts.extend((most..end.pieces).step_by(1 + end.pieces as usize / 20));
                for pieces in counts {
                    let outcome = change.outcome(pieces);
                    let at = format!("{family:?} {variation} {wear}: {pieces} against {}", cheapest.pieces);
                    let cost = outcome.cost_per_good.amount();
                    assert!(cheapest.cost_per_good.amount() <= cost * (1.0 + 1e-9), "{at}");
                    assert!(outcome.good_per_hour <= quickest.good_per_hour * (1.0 + 1e-9), "{at}");
                }
            }
        }
    }
}

#[test]
fn sums_over_many_pieces_are_those_of_adding_up() {
    for (_, family) in LifeFamily::NAMES {
        for (variation, wear) in [(0.02, 0.0009), (0.3, 0.0007), (1.4, 0.004)] {
            let change = change(family, variation, wear);
            let mut good = 0.0;
            for pieces in 1..=2500 {
                good += change.spread.survival(f64::from(pieces) * wear);
                if pieces % 250 == 0 {
                    let outcome = change.outcome(pieces);
                    assert!((outcome.good / good - 1.0).abs() < 1e-8, "{family:?} {variation} {pieces}");
                }
            }
        }
    }
}

#[test]
fn limits_and_equal_counts_are_kept() {
    let usual = change(LifeFamily::Weibull, 0.3, 0.05);
    let best = usual.cheapest();
    assert!(!best.to_failure && 1 < best.pieces && best.pieces < 20, "{best:?}");
    assert_eq!(usual.cheapest_within(best.pieces - 3).pieces, best.pieces - 3);
    assert_eq!(usual.cheapest_within(best.pieces + 3).pieces, best.pieces);
    // A change that costs nothing is best made after each piece.
    let free = PieceChange { planned: Duration::ZERO, edge: Money::ZERO, ..usual };
    assert_eq!(free.cheapest().pieces, 1);
    // A failure no dearer than a change is waited for.
    let cheap = PieceChange { failure: usual.planned, scrap: Money::ZERO, cycle: Duration::ZERO, ..usual };
    assert!(cheap.cheapest().to_failure && cheap.quickest().to_failure);
    assert!(change(LifeFamily::Weibull, 1.2, 0.05).quickest().to_failure);
    let curve = usual.curve(50);
    assert!(curve[0].pieces == 1 && curve[curve.len() - 1].pieces == 40);
    assert!(curve.windows(2).all(|pair| pair[0].pieces < pair[1].pieces));
}

#[test]
fn renewals_by_piece_tend_to_the_renewal_function() {
    for (family, variation) in
        [(LifeFamily::Weibull, 0.3), (LifeFamily::Gamma, 0.7), (LifeFamily::Lognormal, 0.5)]
    {
        let spread = LifeSpread::new(Scatter { family, variation });
        let fine = renewals_by_piece(&spread, 1.0 / 500.0, 750)[750];
        let finer = renewals_by_piece(&spread, 1.0 / 1000.0, 1500)[1500];
        assert!((2.0 * finer - fine - renewal(&spread, 1.5)).abs() < 1e-5, "{family:?}");
    }
}

#[test]
fn the_best_block_is_the_best_of_all() {
    for (family, variation) in
        [(LifeFamily::Weibull, 0.2), (LifeFamily::Gamma, 0.3), (LifeFamily::Lognormal, 0.4)]
    {
        let spread = LifeSpread::new(Scatter { family, variation });
        let best = best_block(&spread, 1.0, 5.0).unwrap();
        let least = block_cost_rate(&spread, best, 1.0, 5.0);
        let age = best_age(&spread, 1.0, 5.0).unwrap();
        assert!(age_cost_rate(&spread, age, 1.0, 5.0) < least && least < 5.0);
        for at in 1..16 {
            let interval = f64::from(at) * 0.22;
            assert!(block_cost_rate(&spread, interval, 1.0, 5.0) > least - 1e-9, "{family:?} {interval}");
        }
    }
}

/// Tools of a machine drawn by lot.
fn tools(random: &mut ChaCha8Rng, count: usize) -> Vec<GroupedTool> {
    (0..count)
        .map(|at| GroupedTool {
            spread: LifeSpread::new(Scatter {
                family: LifeFamily::NAMES[at % 3].1,
                variation: random.random_range(0.1..0.6),
            }),
            wear: random.random_range(0.02..0.2),
            own: Duration::s(random.random_range(20.0..120.0)),
            failure: Duration::min(random.random_range(4.0..15.0)),
            edge: Money::of(random.random_range(1.0..9.0)),
            scrap: Money::of(random.random_range(0.0..20.0)),
            most: random.random_range(4..60),
        })
        .collect()
}

/// Cost for each piece of given intervals, from the renewal counts alone.
fn cost(tools: &[GroupedTool], stop: (Duration, u32), pieces: &[u32], rate: MoneyRate) -> f64 {
    let stops = rate.over(stop.0).amount() / f64::from(stop.1);
    let changes = tools.iter().zip(pieces).map(|(tool, pieces)| {
        let failures = renewals_by_piece(&tool.spread, tool.wear, *pieces)[*pieces as usize];
        let planned = rate.over(tool.own).amount() + tool.edge.amount();
        let failure = rate.over(tool.failure).amount() + tool.edge.amount() + tool.scrap.amount();
        (planned + failure * failures) / f64::from(*pieces)
    });
    stops + changes.sum::<f64>()
}

#[test]
fn common_stops_are_the_best_of_all() {
    let rate = MoneyRate::per_h(55.0);
    for seed in 0..12 {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        let tools = tools(&mut random, 3);
        let stop = Duration::s(random.random_range(10.0..240.0));
        let found: Grouping = at_common_stops(&tools, stop, rate).unwrap();
        let least = found.cost_per_piece.amount();
        let pieces: Vec<u32> = found.multiples.iter().map(|multiple| multiple * found.every).collect();
        // Stops are made only where a tool comes out: those of a long run, counted.
        let run: u32 = 2520;
        let made = (1..=run).filter(|at| found.multiples.iter().any(|multiple| at % multiple == 0)).count();
        let spared = rate.over(stop).amount() / f64::from(found.every)
            * (1.0 - f64::from(u32::try_from(made).unwrap()) / f64::from(run));
        let all = cost(&tools, (stop, found.every), &pieces, rate);
        assert!((all - spared - least).abs() < 1e-3 * least, "{seed}: {found:?}");
        if found.multiples.contains(&1) {
            assert!((all - least).abs() < 1e-9, "{seed}: {found:?}");
        }
        assert!(tools.iter().zip(&pieces).all(|(tool, pieces)| *pieces <= tool.most));
        let shortest = tools.iter().map(|tool| tool.most).min().unwrap();
        for every in 1..=shortest {
            let reach = |tool: usize| 1..=(tools[tool].most / every).min(6);
            for one in reach(0) {
                for two in reach(1) {
                    for three in reach(2) {
                        let pieces = [one * every, two * every, three * every];
                        let other = cost(&tools, (stop, every), &pieces, rate);
                        assert!(least <= other + 1e-9, "{seed}: {pieces:?} costs {other}, found {found:?}");
                    }
                }
            }
            let given = at_given_stops(&tools, every, rate).unwrap();
            assert!(
                given.cost_per_piece.amount() + rate.over(stop).amount() / f64::from(every) >= least - 1e-9
            );
        }
        assert_eq!(at_given_stops(&tools, shortest + 1, rate), None);
    }
}

#[test]
fn stops_that_cost_nothing_leave_each_tool_by_itself() {
    let rate = MoneyRate::per_h(55.0);
    for seed in 0..20 {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        let tools = tools(&mut random, 4);
        let alone: Vec<Grouping> =
            tools.iter().map(|tool| at_common_stops(&[*tool], Duration::ZERO, rate).unwrap()).collect();
        let common = at_common_stops(&tools, Duration::ZERO, rate).unwrap();
        let cost: f64 = alone.iter().map(|own| own.cost_per_piece.amount()).sum();
        let time: f64 = alone.iter().map(|own| own.time_per_piece.to_s()).sum();
        assert!((cost - common.cost_per_piece.amount()).abs() < 1e-9);
        assert!((time - common.time_per_piece.to_s()).abs() < 1e-9);
        let own: Vec<u32> = alone.iter().map(|own| own.every * own.multiples[0]).collect();
        let pieces: Vec<u32> = common.multiples.iter().map(|multiple| multiple * common.every).collect();
        assert_eq!(own, pieces);
    }
    assert_eq!(at_common_stops(&[], Duration::ZERO, rate), None);
}
