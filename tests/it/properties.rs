//! What must hold for any numbers, tried on seeded random ones.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};

use wearland::cutting::{drilling, hobbing, milling, threading, turning};
use wearland::quantity::{Angle, CuttingSpeed, FeedPerRev, FeedPerTooth, Length, SpindleSpeed};

const TRIALS: usize = 500;

fn random() -> ChaCha8Rng {
    ChaCha8Rng::seed_from_u64(20)
}

#[test]
fn facing_at_the_mean_diameter_equals_the_free_integral() {
    let mut random = random();
    for _ in 0..TRIALS {
        let outer = random.random_range(10.0..400.0);
        let inner = outer * random.random_range(0.0..0.99);
        let speed = CuttingSpeed::m_per_min(random.random_range(20.0..400.0));
        let feed = FeedPerRev::mm_per_rev(random.random_range(0.05..0.8));
        let cut = turning::FacingCut {
            outer: Length::mm(outer),
            inner: Length::mm(inner),
            speed,
            feed,
            fastest: SpindleSpeed::rpm(1e12),
        };
        let mean = turning::spindle_speed(speed, Length::mm((outer + inner) / 2.0));
        let plain = turning::turning_time(Length::mm((outer - inner) / 2.0), feed, mean);
        approx::assert_relative_eq!(turning::facing_time(cut).to_s(), plain.to_s(), max_relative = 1e-9);
    }
}

#[test]
fn the_facing_form_equals_a_sum_of_small_rings() {
    let mut random = random();
    for _ in 0..20 {
        let cut = turning::FacingCut {
            outer: Length::mm(random.random_range(50.0..200.0)),
            inner: Length::mm(random.random_range(0.0..40.0)),
            speed: CuttingSpeed::m_per_min(random.random_range(50.0..300.0)),
            feed: FeedPerRev::mm_per_rev(0.2),
            fastest: SpindleSpeed::rpm(random.random_range(300.0..4000.0)),
        };
        let rings = 20_000;
        let step = (cut.outer - cut.inner) / f64::from(2 * rings);
        let sum: f64 = (0..rings)
            .map(|ring| {
                let diameter = cut.inner + step * (2.0 * f64::from(ring) + 1.0);
                let speed = turning::spindle_speed(cut.speed, diameter).smaller(cut.fastest);
                turning::turning_time(step, cut.feed, speed).to_s()
            })
            .sum();
        approx::assert_relative_eq!(turning::facing_time(cut).to_s(), sum, max_relative = 1e-6);
    }
}

fn random_gear(random: &mut ChaCha8Rng) -> (hobbing::Gear, hobbing::Hob) {
    let module = random.random_range(1.0..6.0);
    let gear = hobbing::Gear {
        module: Length::mm(module),
        teeth: random.random_range(12..120),
        helix: Angle::deg(random.random_range(5.0..40.0)),
        face: Length::mm(30.0),
        whole_depth: Length::mm(2.25 * module),
    };
    let hob = hobbing::Hob {
        diameter: Length::mm(module * random.random_range(20.0..40.0)),
        starts: random.random_range(1..4),
    };
    (gear, hob)
}

#[test]
fn the_exact_approach_is_longest_and_the_square_one_shortest() {
    let mut random = random();
    for _ in 0..TRIALS {
        let (gear, hob) = random_gear(&mut random);
        for hand in [hobbing::Hand::Same, hobbing::Hand::Opposite] {
            let depth = gear.whole_depth;
            let exact = hobbing::approach(&gear, &hob, hand, depth).to_mm();
            let short = hobbing::short_approach(&gear, &hob, hand, depth).to_mm();
            let crude = hobbing::crude_approach(&gear, &hob, hand, depth).to_mm();
            let spur = hobbing::spur_approach(&hob, depth).to_mm();
            assert!(
                exact >= short - 1e-9 && short >= crude - 1e-9 && crude >= spur - 1e-9,
                "{exact} {short} {crude} {spur}: {gear:?} {hob:?} {hand:?}"
            );
        }
    }
}

#[test]
fn the_exact_approach_equals_a_dense_scan() {
    let mut random = random();
    for _ in 0..20 {
        let (gear, hob) = random_gear(&mut random);
        let swivel = hobbing::swivel_angle(&gear, &hob, hobbing::Hand::Opposite).to_rad();
        let (tip, radius) = (hobbing::tip_diameter(&gear).to_mm() / 2.0, hob.diameter.to_mm() / 2.0);
        let centres = tip + radius - gear.whole_depth.to_mm();
        let steps = 200_000;
        let scan = (0..=steps)
            .filter_map(|step| {
                let y = tip * (2.0 * f64::from(step) / f64::from(steps) - 1.0);
                let inside = radius.powi(2) - (centres - (tip.powi(2) - y.powi(2)).sqrt()).powi(2);
                (inside >= 0.0).then(|| (inside.sqrt() - y * swivel.sin()) / swivel.cos())
            })
            .fold(f64::MIN, f64::max);
        let exact = hobbing::approach(&gear, &hob, hobbing::Hand::Opposite, gear.whole_depth);
        approx::assert_abs_diff_eq!(exact.to_mm(), scan, epsilon = 1e-5);
    }
}

#[test]
fn infeeds_add_up_to_the_depth_of_the_thread() {
    for passes in 1..30 {
        let infeeds = threading::thread_passes(Length::mm(1.3), passes);
        assert_eq!(infeeds.len(), passes as usize);
        assert!(infeeds.iter().all(|infeed| infeed.to_mm() > 0.0));
        approx::assert_relative_eq!(infeeds.into_iter().sum::<Length>().to_mm(), 1.3, max_relative = 1e-12);
    }
    assert!(threading::thread_passes(Length::mm(1.3), 0).is_empty());
}

/// Brackets of the Widia catalogue 2017: pitches in mm and passes.
#[test]
fn proposed_passes_lie_within_the_published_brackets() {
    let brackets = [
        (0.5, 0.75, 4, 5),
        (0.8, 1.0, 5, 6),
        (1.25, 1.5, 6, 8),
        (1.75, 2.0, 8, 10),
        (2.5, 3.0, 9, 12),
        (3.5, 4.0, 12, 15),
        (4.5, 6.0, 14, 16),
        (8.0, 8.0, 15, 25),
    ];
    for (low, high, fewest, most) in brackets {
        for pitch in [low, (low + high) / 2.0, high] {
            let passes = threading::proposed_pass_count(Length::mm(pitch));
            assert!(fewest <= passes && passes <= most, "{pitch} mm: {passes}");
        }
    }
}

#[test]
fn more_speed_never_lengthens_a_cut() {
    let mut random = random();
    for _ in 0..TRIALS {
        let slow = random.random_range(10.0..400.0);
        let fast = slow * random.random_range(1.0..3.0);
        let diameter = Length::mm(random.random_range(2.0..300.0));
        let path = Length::mm(random.random_range(1.0..500.0));
        let feed = FeedPerRev::mm_per_rev(random.random_range(0.02..1.0));
        let fastest = SpindleSpeed::rpm(random.random_range(500.0..8000.0));
        let (gear, hob) = random_gear(&mut random);
        let times = |speed: f64| {
            let speed = CuttingSpeed::m_per_min(speed);
            let turns = turning::spindle_speed(speed, diameter).smaller(fastest);
            let table = milling::table_feed(FeedPerTooth::mm_per_tooth(0.1), 4, turns);
            [
                turning::turning_time(path, feed, turns),
                turning::facing_time(turning::FacingCut {
                    outer: diameter,
                    inner: Length::ZERO,
                    speed,
                    feed,
                    fastest,
                }),
                drilling::drilling_time(path, feed, turns),
                turning::travel_time(path, table),
                hobbing::hobbing_time(hobbing::HobbingCut {
                    gear_teeth: gear.teeth,
                    starts: hob.starts,
                    speed: turns,
                    axial_feed: feed,
                    path,
                }),
            ]
        };
        for (slower, faster) in times(slow).into_iter().zip(times(fast)) {
            assert!(faster.to_s() <= slower.to_s() * (1.0 + 1e-12), "{slow} to {fast} m/min");
        }
    }
}

#[test]
fn inch_and_metric_agree() {
    let mut random = random();
    for _ in 0..TRIALS {
        let (speed, diameter) = (random.random_range(50.0..1500.0), random.random_range(0.1..12.0));
        let (feed, path) = (random.random_range(0.001..0.04), random.random_range(0.1..20.0));
        // In inches by the shop's own form, 12 V / (pi D), in metric by ours.
        let turns = 12.0 * speed / (std::f64::consts::PI * diameter);
        let metric =
            turning::spindle_speed(CuttingSpeed::m_per_min(speed * 0.3048), Length::mm(diameter * 25.4));
        let inch = turning::spindle_speed(CuttingSpeed::ft_per_min(speed), Length::inch(diameter));
        approx::assert_relative_eq!(metric.to_rpm(), turns, max_relative = 1e-12);
        approx::assert_relative_eq!(inch.to_rpm(), turns, max_relative = 1e-12);
        let time = turning::turning_time(Length::inch(path), FeedPerRev::inch_per_rev(feed), inch);
        approx::assert_relative_eq!(time.to_min(), path / (feed * turns), max_relative = 1e-12);
        let rate = turning::turning_removal_rate(
            CuttingSpeed::ft_per_min(speed),
            Length::inch(path),
            FeedPerRev::inch_per_rev(feed),
        );
        approx::assert_relative_eq!(
            rate.to_inch3_per_min(),
            12.0 * speed * path * feed,
            max_relative = 1e-12
        );
    }
}
