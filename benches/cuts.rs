//! Cuts worked out in a second on one core, beside the same formulas in plain numbers.
//!
//! `cargo bench` prints both; the plain form is the baseline: no units, no limits, no record of workings. Both are held
//! against each other before anything is timed.

use divan::Bencher;
use divan::counter::ItemsCount;
use std::hint::black_box;
use wearland::cycle::{Setting, Side, TurningWork, Work, estimate_cut};
use wearland::input::{Origin, load};
use wearland::quantity::NoWorkings;
use wearland::schedule::Scenario;

/// Cuts in a round.
const MANY: usize = 1000;

fn main() {
    divan::main();
}

fn demo() -> Scenario {
    load(&Origin::Demo)
        .ok()
        .and_then(|loaded| loaded.scenario)
        .unwrap_or_else(|| unreachable!("the demo loads"))
}

/// The first cut along the outside of the demo, on the first machine that may make it.
fn turned(scenario: &Scenario) -> Setting<'_> {
    let shop = &scenario.shop;
    let settings = shop.items.iter().flat_map(|item| {
        item.operations.iter().flat_map(move |operation| {
            operation.cuts.iter().map(move |cut| Setting {
                shop,
                item,
                operation,
                machine: &shop.machines[operation.machines[0]],
                cut,
            })
        })
    });
    let along = |at: &Setting<'_>| {
        matches!(at.cut.work, Work::Turning(TurningWork::Along { side: Side::Outside, .. }))
    };
    settings.into_iter().find(along).unwrap_or_else(|| unreachable!("the demo turns something"))
}

/// What the plain form needs, in mm, min, N/mm2.
#[derive(Clone, Copy)]
struct Plain {
    from: f64,
    to: f64,
    path: f64,
    most: f64,
    speed: f64,
    feed: f64,
    fastest: f64,
    kappa: f64,
    kc11: f64,
    mc: f64,
    corner: f64,
    law: [f64; 7],
    factor: f64,
}

/// Time in cut, power at the edge, torque, roughness, share of an edge.
fn plain(cut: &Plain) -> [f64; 5] {
    let stock = (cut.from - cut.to) / 2.0;
    let passes = (stock / cut.most - 1e-9).ceil().max(1.0);
    let depth = stock / passes;
    let [life, v0, n, f0, a, d0, b] = cut.law;
    let (mut time, mut share) = (0.0, 0.0);
    let mut first = (0.0, 0.0);
    let mut pass = 0.0;
    while pass < passes {
        let diameter = cut.from - 2.0 * depth * pass;
        let turns = (1000.0 * cut.speed / (std::f64::consts::PI * diameter)).min(cut.fastest);
        let speed = std::f64::consts::PI * diameter * turns / 1000.0;
        let minutes = cut.path / (cut.feed * turns);
        let lasts = life
            * (cut.factor * v0 / speed).powf(1.0 / n)
            * (f0 / cut.feed).powf(a / n)
            * (d0 / depth).powf(b / n);
        time += minutes;
        share += minutes / lasts;
        if pass < 0.5 {
            first = (speed, turns);
        }
        pass += 1.0;
    }
    let chip = cut.feed * cut.kappa.sin();
    let force = cut.kc11 * chip.powf(-cut.mc) * (depth / cut.kappa.sin()) * chip;
    let power = force * first.0 / 60_000.0;
    let torque = power * 60_000.0 / (2.0 * std::f64::consts::PI * first.1);
    let marks = (cut.corner - (cut.corner * cut.corner - cut.feed * cut.feed / 4.0).sqrt()) * 1000.0;
    [time, power, torque, marks, share]
}

/// The numbers of a setting.
fn bare(at: &Setting<'_>) -> Plain {
    let Work::Turning(TurningWork::Along { diameters, length, approach, .. }) = &at.cut.work else {
        unreachable!("the cut is along")
    };
    let (tool, material) = (at.tool(), at.material());
    let law = tool.life_in(material.group).unwrap_or_else(|| unreachable!("the tool has a life"));
    let estimate =
        estimate_cut(at, &mut NoWorkings).unwrap_or_else(|_| unreachable!("the cut can be worked out"));
    let wearland::tooling::ReferenceLife::Time(life) = law.life.value else {
        unreachable!("a life in minutes")
    };
    let wearland::tooling::LifeShape::Taylor(taylor) = &law.shape else { unreachable!("a life by Taylor") };
    let feed = at.cut.feed.map_or(0.0, |feed| feed.advance().to_mm());
    let stock = (diameters.high - diameters.low) / 2.0;
    Plain {
        from: diameters.high.to_mm(),
        to: diameters.low.to_mm(),
        path: (*length + *approach).to_mm(),
        most: at.cut.depth.unwrap_or(stock).to_mm(),
        speed: at.cut.speed.to_m_per_min(),
        feed,
        fastest: at.machine.spindle.map_or(0.0, |spindle| spindle.fastest.to_rpm()),
        kappa: tool.geometry.edge_angle.map_or(90.0, |angle| angle.to_deg()).to_radians(),
        kc11: material.kc11.value.to_n_per_mm2(),
        mc: material.mc.value,
        corner: tool.geometry.corner_radius.map_or(0.0, |radius| radius.to_mm()),
        law: [
            life.to_min(),
            law.speed.value.to_m_per_min(),
            taylor.n.value,
            law.feed.map_or(feed, |feed| feed.to_mm()),
            taylor.feed_exponent,
            law.depth.map_or(1.0, |depth| depth.to_mm()),
            taylor.depth_exponent,
        ],
        factor: estimate.edge.factors.product(),
    }
}

/// Both ways give the same figures.
fn same(at: &Setting<'_>, bare: &Plain) {
    let estimate =
        estimate_cut(at, &mut NoWorkings).unwrap_or_else(|_| unreachable!("the cut can be worked out"));
    let full = [
        estimate.cut_time.to_min(),
        estimate.power.map_or(0.0, |power| power.to_kw()),
        estimate.torque.map_or(0.0, |torque| torque.to_nm()),
        estimate.roughness.map_or(0.0, |marks| marks.to_um()),
        estimate.edge.share,
    ];
    for (one, other) in full.iter().zip(plain(bare)) {
        assert!((one / other - 1.0).abs() < 1e-9, "{full:?} against {:?}", plain(bare));
    }
}

#[divan::bench]
fn cuts_with_units_limits_and_life(bencher: Bencher<'_, '_>) {
    let scenario = demo();
    let at = turned(&scenario);
    same(&at, &bare(&at));
    bencher.counter(ItemsCount::new(MANY)).bench_local(|| {
        for _ in 0..MANY {
            let _ = black_box(estimate_cut(black_box(&at), &mut NoWorkings));
        }
    });
}

#[divan::bench]
fn plain_formulas_baseline(bencher: Bencher<'_, '_>) {
    let scenario = demo();
    let bare = bare(&turned(&scenario));
    bencher.counter(ItemsCount::new(MANY)).bench_local(|| {
        for _ in 0..MANY {
            black_box(plain(black_box(&bare)));
        }
    });
}
