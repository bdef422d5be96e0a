//! The speed of most profit an hour lies between the cheapest and the quickest.

use super::shop::Book;
use crate::families::workshop::assert_near;
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use wearland::cycle::{SpeedChoice, Worths};
use wearland::quantity::{Money, MoneyRate};

const TRIALS: usize = 320;

fn random_book(random: &mut ChaCha8Rng) -> Book {
    Book {
        n: random.random_range(0.1..0.45),
        c: random.random_range(60.0..500.0),
        change: random.random_range(0.5..6.0),
        edge: random.random_range(0.3..8.0),
        per_min: random.random_range(0.3..2.0),
        handling: random.random_range(0.2..5.0),
        diameter: random.random_range(20.0..150.0),
        length: random.random_range(5.0..60.0),
        feed: random.random_range(0.1..0.5),
    }
}

#[test]
fn most_profit_lies_between_cheapest_and_quickest() {
    let mut random = ChaCha8Rng::seed_from_u64(38);
    let mut made = 0;
    for _ in 0..TRIALS {
        let book = random_book(&mut random);
        let scenario = book.scenario();
        let choice = SpeedChoice::new(&scenario.shop, (0, 0, 0), Money::ZERO).unwrap();
        let speed_and = |worths: &Worths<'_>| {
            let priced = choice.priced(worths).unwrap();
            let speed = priced.operation.cuts[0].speed.to_m_per_min();
            (speed, priced.estimate.cycle.to_min(), priced.edge_cost.amount())
        };
        let rate = MoneyRate::per_h(book.per_min * 60.0);
        let (cheapest, time, edge) = speed_and(&Worths::of_minute(rate));
        let (quickest, ..) = speed_and(&Worths::TIME_ALONE);
        // A price above what the piece costs at its cheapest.
        let price = (book.per_min * time + edge) * random.random_range(1.02..3.0);
        // What a minute earns beside the edges, at the speed for what a minute earns, until it earns no more.
        let (mut best, mut earned) = (cheapest, (price - edge) / time);
        for _ in 0..30 {
            let (speed, time, edge) = speed_and(&Worths::of_minute(MoneyRate::per_h(earned * 60.0)));
            let more = (price - edge) / time;
            assert!(more >= earned * (1.0 - 1e-9), "{book:?}: {earned} fell to {more}");
            let done = more <= earned * (1.0 + 1e-10);
            (best, earned) = (speed, more.max(earned));
            if done {
                break;
            }
        }
        assert!(
            cheapest <= best * (1.0 + 1e-6) && best <= quickest * (1.0 + 1e-6),
            "{cheapest} {best} {quickest}: {book:?}"
        );
        // No speed earns more, by plain arithmetic.
        let scan =
            (1..4000).map(|step| book.c * f64::from(step) / 4000.0).filter_map(|speed| book.piece(speed));
        let most = scan.map(|(time, edge)| (price - edge) / time).fold(0.0, f64::max);
        assert!(earned >= most * (1.0 - 1e-6), "{earned} against {most}: {book:?}");
        made += usize::from(quickest > cheapest * 1.001);
    }
    assert!(made > TRIALS / 2, "{made} cases with room between");
}

#[test]
fn most_profit_of_the_textbook_lathe() {
    // Price, speed, profit a minute: computed once from T = (1/n - 1)(t + c / g) by other means.
    let book = super::book::GROOVER;
    let long = Book { length: 500.0, ..book };
    for (price, speed, earned) in
        [(11.5, 42.519, 0.5254), (15.0, 43.612, 0.6988), (20.0, 44.708, 0.9496), (40.0, 46.891, 1.9691)]
    {
        let at = book.priced(&Worths::of_minute(MoneyRate::per_h(earned * 60.0)));
        assert_near(at.operation.cuts[0].speed.to_m_per_min(), speed, 1e-3);
        let (life, cut) = long.times(speed);
        let (time, edge) = (long.handling + cut + long.change * cut / life, long.edge * cut / life);
        assert_near((price - edge) / time, earned, 1e-3);
    }
}
