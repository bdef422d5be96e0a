//! What must hold for outlines, tapers, threads and finish, tried on seeded random ones.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};

use wearland::cutting::turning::{ProfileRoughing, ProfileStep, RoughPass};
use wearland::cutting::{finish, threading, turning};
use wearland::quantity::{Angle, CuttingSpeed, FeedPerRev, Length, SpindleSpeed};

fn random() -> ChaCha8Rng {
    ChaCha8Rng::seed_from_u64(7)
}

/// Steps that rise and fall, some conical, some of equal diameter, one a mere face.
fn outline(random: &mut ChaCha8Rng) -> Vec<ProfileStep> {
    let count = random.random_range(1..8);
    (0..count)
        .map(|_| {
            let diameter = Length::mm(f64::from(random.random_range(20..64)));
            let end = match random.random_range(0..3) {
                0 => Length::mm(random.random_range(20.0..64.0)),
                _ => diameter,
            };
            ProfileStep { diameter, end, length: Length::mm(f64::from(random.random_range(0..30))) }
        })
        .collect()
}

fn roughing(random: &mut ChaCha8Rng) -> ProfileRoughing {
    ProfileRoughing {
        stock: Length::mm(65.0),
        depth: Length::mm(random.random_range(0.5..6.0)),
        allowance: Length::mm([0.0, 0.4][random.random_range(0..2)]),
    }
}

/// Diameter of a side that starts somewhere and is so long, at a place; none outside.
fn side_at(at: f64, start: Length, length: Length, from: Length, to: Length) -> Option<f64> {
    let share = (at - start.to_mm()) / length.to_mm();
    (0.0..=1.0).contains(&share).then(|| from.to_mm() + (to - from).to_mm() * share)
}

fn wanted(at: f64, how: ProfileRoughing, steps: &[ProfileStep]) -> f64 {
    let mut start = Length::ZERO;
    for step in steps {
        if let Some(diameter) = side_at(at, start, step.length, step.diameter, step.end) {
            return (diameter + 2.0 * how.allowance.to_mm()).min(how.stock.to_mm());
        }
        start += step.length;
    }
    how.stock.to_mm()
}

fn pass_at(at: f64, pass: &RoughPass) -> Option<f64> {
    side_at(at, pass.start, pass.length, pass.from, pass.to)
}

#[test]
fn roughing_leaves_the_outline_and_its_allowance_and_no_pass_is_too_deep() {
    let mut random = random();
    for _ in 0..300 {
        let (steps, how) = (outline(&mut random), roughing(&mut random));
        let passes = turning::profile_passes(how, &steps);
        let whole: Length = steps.iter().map(|step| step.length).sum();
        for _ in 0..60 {
            let at = random.random_range(0.0..1.0) * whole.to_mm();
            let goal = wanted(at, how, &steps);
            let mut left = how.stock.to_mm();
            for diameter in passes.iter().filter_map(|pass| pass_at(at, pass)) {
                assert!(diameter <= left + 1e-9, "a pass cuts air at {at} mm: {how:?} {steps:?}");
                assert!(left - diameter <= 2.0 * how.depth.to_mm() + 1e-9, "{at} mm: {how:?} {steps:?}");
                left = diameter;
            }
            approx::assert_abs_diff_eq!(left, goal, epsilon = 1e-9);
        }
    }
}

#[test]
fn level_passes_are_whole_runs() {
    let mut random = random();
    for _ in 0..300 {
        let (steps, how) = (outline(&mut random), roughing(&mut random));
        let passes = turning::profile_passes(how, &steps);
        for pair in
            passes.windows(2).filter(|pair| pair[0].from == pair[1].from && pair[1].from == pair[1].to)
        {
            let end = pair[0].start + pair[0].length;
            // Metal that stays must stand between two runs of one level.
            let at = f64::midpoint(end.to_mm(), pair[1].start.to_mm());
            assert!(
                pair[1].start > end && wanted(at, how, &steps) > pair[0].from.to_mm(),
                "{pair:?} {steps:?}"
            );
        }
    }
}

#[test]
fn the_volume_removed_is_the_sum_of_the_chips() {
    let mut random = random();
    for _ in 0..100 {
        let (steps, how) = (outline(&mut random), roughing(&mut random));
        let stock = how.stock.to_mm();
        let whole: f64 = steps.iter().map(|step| step.length.to_mm()).sum();
        let bare = ProfileRoughing { allowance: Length::ZERO, ..how };
        let slices = 20_000;
        let sum: f64 = (0..slices)
            .map(|slice| {
                let at = (f64::from(slice) + 0.5) / f64::from(slices) * whole;
                stock.powi(2) - wanted(at, bare, &steps).powi(2)
            })
            .sum();
        let sum = std::f64::consts::PI / 4.0 * sum * whole / f64::from(slices) / 1000.0;
        let volume = turning::profile_volume(how.stock, &steps).to_cm3();
        approx::assert_abs_diff_eq!(volume, sum, epsilon = 1e-3 * sum + 1e-9);
    }
}

#[test]
fn the_taper_form_holds_turning_and_facing_as_its_ends() {
    let mut random = random();
    for _ in 0..500 {
        let (from, to) = (random.random_range(20.0..200.0), random.random_range(0.0..200.0));
        let cut = turning::TaperCut {
            from: Length::mm(from),
            to: Length::mm(to),
            length: Length::ZERO,
            speed: CuttingSpeed::m_per_min(random.random_range(50.0..400.0)),
            feed: FeedPerRev::mm_per_rev(0.2),
            fastest: SpindleSpeed::rpm(random.random_range(200.0..6000.0)),
        };
        let face = turning::facing_time(turning::FacingCut {
            outer: cut.from.larger(cut.to),
            inner: cut.from.smaller(cut.to),
            speed: cut.speed,
            feed: cut.feed,
            fastest: cut.fastest,
        });
        approx::assert_relative_eq!(turning::taper_time(cut).to_s(), face.to_s(), max_relative = 1e-9);
        let length = Length::mm(random.random_range(1.0..300.0));
        let straight = turning::TaperCut { to: cut.from, length, ..cut };
        let speed = turning::spindle_speed(cut.speed, cut.from).smaller(cut.fastest);
        let plain = turning::turning_time(length, cut.feed, speed);
        approx::assert_relative_eq!(turning::taper_time(straight).to_s(), plain.to_s(), max_relative = 1e-9);
        // Hardly a taper must hardly differ, whichever side of the limit it lies on.
        let slight = turning::TaperCut { to: cut.from + Length::mm(1e-7), ..straight };
        approx::assert_relative_eq!(turning::taper_time(slight).to_s(), plain.to_s(), max_relative = 1e-6);
    }
}

#[test]
fn thread_sections_are_equal_and_the_last_infeed_is_not_too_thin() {
    for passes in 3..30 {
        let areas = threading::thread_chip_areas(&threading::thread_passes(Length::mm(1.3), passes));
        for area in &areas[2..] {
            approx::assert_relative_eq!(area.to_mm2(), areas[2].to_mm2(), max_relative = 1e-9);
        }
        approx::assert_relative_eq!((areas[0] + areas[1]).to_mm2(), areas[2].to_mm2(), max_relative = 1e-9);
        for least in [0.01, 0.05, 0.2, 2.0] {
            let least = Length::mm(least);
            let infeeds = threading::thread_passes_with_least_last(Length::mm(1.3), passes, least);
            assert!(infeeds.iter().all(|infeed| *infeed >= least || infeeds.len() == 1));
            approx::assert_relative_eq!(
                infeeds.into_iter().sum::<Length>().to_mm(),
                1.3,
                max_relative = 1e-12
            );
        }
    }
    assert!(threading::thread_passes_with_least_last(Length::mm(1.3), 0, Length::ZERO).is_empty());
}

/// Brackets of the Tungaloy catalogue 2020-2021: pitch in mm, fewest and most passes.
#[test]
fn proposed_passes_lie_within_a_second_maker_s_brackets() {
    let brackets = [
        (0.5, 4, 6),
        (0.75, 4, 7),
        (1.0, 4, 8),
        (1.25, 5, 9),
        (1.5, 6, 10),
        (1.75, 7, 12),
        (2.0, 7, 12),
        (2.5, 8, 14),
        (3.0, 10, 16),
        (3.5, 11, 18),
        (4.0, 11, 18),
        (4.5, 11, 19),
        (5.0, 12, 24),
    ];
    for (pitch, fewest, most) in brackets {
        let passes = threading::proposed_pass_count(Length::mm(pitch));
        assert!(fewest <= passes && passes <= most, "{pitch} mm: {passes}");
    }
}

#[test]
fn the_minor_edge_joins_the_arc_without_a_step_and_never_roughens() {
    let mut random = random();
    for _ in 0..500 {
        let radius = Length::mm(random.random_range(0.2..2.0));
        let minor = Angle::deg(random.random_range(2.0..30.0));
        let limit = 2.0 * radius.to_mm() * minor.to_rad().sin();
        let at = |feed| finish::corner_and_edge(FeedPerRev::mm_per_rev(feed), radius, minor).to_um();
        approx::assert_relative_eq!(at(limit), at(limit * (1.0 + 1e-9)), max_relative = 1e-6);
        let feed = limit * random.random_range(1.0..1.5);
        let arc = finish::peak_to_valley(FeedPerRev::mm_per_rev(feed), radius).to_um();
        assert!(at(feed) <= arc * (1.0 + 1e-9), "{feed} {radius:?} {minor:?}");
        assert!(at(feed) >= at(limit) * (1.0 - 1e-9));
    }
}

#[test]
fn the_mean_of_the_arc_equals_a_sum_and_tends_to_the_parabola() {
    for (feed, radius) in [(0.1, 0.4), (0.8, 0.8), (1.5, 0.8)] {
        let height = |x: f64| radius - f64::sqrt(radius * radius - x * x);
        let count = 100_000;
        let heights: Vec<f64> =
            (0..count).map(|i| height(feed / 2.0 * (f64::from(i) + 0.5) / f64::from(count))).collect();
        let mean = heights.iter().sum::<f64>() / f64::from(count);
        let sum = heights.iter().map(|height| (height - mean).abs()).sum::<f64>() / f64::from(count) * 1000.0;
        let exact = finish::mean_roughness_of_arc(FeedPerRev::mm_per_rev(feed), Length::mm(radius));
        approx::assert_relative_eq!(exact.to_um(), sum, max_relative = 1e-6);
    }
    let (feed, radius) = (FeedPerRev::mm_per_rev(0.02), Length::mm(0.8));
    let parabola = finish::mean_roughness(feed, radius).to_um();
    approx::assert_relative_eq!(
        finish::mean_roughness_of_arc(feed, radius).to_um(),
        parabola,
        max_relative = 1e-3
    );
}
