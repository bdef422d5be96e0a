//! A lathe, one cut, one tool with the Taylor law of a textbook, changed at its average life.

use std::sync::LazyLock;
use wearland::cycle::{Feed, PricedOperation, TurningWork, Work, Worths, priced_operation};
use wearland::diag::{Color, render};
use wearland::input::{Origin, load};
use wearland::quantity::{CuttingSpeed, Duration, FeedPerRev, Length, Money, MoneyRate, Range};
use wearland::schedule::Scenario;
use wearland::tooling::LifeShape;

/// What the book gives: minutes, money, metres a minute.
#[derive(Debug, Clone, Copy)]
pub(super) struct Book {
    pub(super) n: f64,
    pub(super) c: f64,
    pub(super) change: f64,
    pub(super) edge: f64,
    pub(super) per_min: f64,
    pub(super) handling: f64,
    pub(super) diameter: f64,
    pub(super) length: f64,
    pub(super) feed: f64,
}

impl Book {
    /// Life and time in cut at a speed.
    pub(super) fn times(&self, speed: f64) -> (f64, f64) {
        let cut = std::f64::consts::PI * self.diameter * self.length / (1000.0 * speed * self.feed);
        ((self.c / speed).powf(1.0 / self.n), cut)
    }

    /// Minutes and edge money of a piece, an edge making whole pieces; `None` where it makes none.
    pub(super) fn piece(&self, speed: f64) -> Option<(f64, f64)> {
        let (life, cut) = self.times(speed);
        let pieces = (life / cut * (1.0 + 1e-9)).floor();
        (pieces >= 1.0).then(|| (self.handling + cut + self.change / pieces, self.edge / pieces))
    }

    /// The speed of a life of (1/n - 1) minutes of `change` and `edge` at a worth of the minute.
    pub(super) fn closed(&self, minute: f64) -> f64 {
        self.c / ((1.0 / self.n - 1.0) * (self.change + self.edge / minute)).powf(self.n)
    }

    /// The shop of the book.
    pub(super) fn scenario(&self) -> Scenario {
        let mut scenario = ONE_CUT.clone();
        let shop = &mut scenario.shop;
        let tool = &mut shop.tools[0];
        tool.price = Some(Money::of(self.edge));
        let law = &mut tool.lives[0].1;
        law.speed.value = CuttingSpeed::m_per_min(self.c);
        let LifeShape::Taylor(taylor) = &mut law.shape else { unreachable!("the law is by Taylor") };
        taylor.n.value = self.n;
        law.feed = Some(Length::mm(self.feed));
        law.speeds =
            Range { low: CuttingSpeed::m_per_min(self.c * 0.05), high: CuttingSpeed::m_per_min(self.c) };
        let machine = &mut shop.machines[0];
        machine.edge_change = Duration::min(self.change);
        machine.rate = Some(MoneyRate::per_h(self.per_min * 60.0));
        let operation = &mut shop.items[0].operations[0];
        operation.load.as_mut().unwrap().time = Duration::min(self.handling);
        let cut = &mut operation.cuts[0];
        cut.speed = CuttingSpeed::m_per_min(self.c * 0.3);
        cut.feed = Some(Feed::PerRev(FeedPerRev::mm_per_rev(self.feed)));
        let Work::Turning(TurningWork::Along { diameters, length, .. }) = &mut cut.work else {
            unreachable!("the cut is along")
        };
        *diameters = Range { low: Length::mm(self.diameter - 1.0), high: Length::mm(self.diameter) };
        *length = Length::mm(self.length);
        scenario
    }

    /// The speed for a worth of the minute.
    pub(super) fn priced(&self, worths: &Worths<'_>) -> PricedOperation {
        let scenario = self.scenario();
        priced_operation(&scenario.shop, (0, 0, 0), Money::ZERO, worths).unwrap()
    }
}

/// A shop as read from text.
pub(super) fn read(text: &str) -> Scenario {
    let origin = Origin::Text { name: "speeds.toml".to_owned(), bytes: text.as_bytes().to_vec() };
    let loaded = load(&origin).unwrap();
    let said = render(&loaded.diagnostics, &loaded.sources, Color::Plain);
    assert!(loaded.scenario.is_some(), "{said}");
    loaded.scenario.unwrap()
}

/// What every shop of these tests begins with.
pub(super) const HEAD: &str = r#"
[scenario]
title = "speeds"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 5
[shift.early]
from = "06:00"
to = "14:00"
[part.shaft]
material = "C45"
[part.shaft.blank]
[[part.shaft.operation]]
id = 10
machines = ["lathe"]
"#;

/// A lathe without limits.
pub(super) const LATHE: &str = r#"
[machine.lathe]
like = "chucking-lathe"
availability = "100 %"
coolant = "dry"
spindle_speed = "100000 rpm"
base_speed = "1 rpm"
power = "900 kW"
torque = "900000 N m"
feed_limit = "900 m/min"
feed_force = "900 kN"
chuck = { grip = "50000 kN", jaw_moment = "0.0001 kg m", fastest = "100000 rpm" }
rate = "30 EUR/h"
"#;

/// An insert with a life of one minute at 70 m/min.
pub(super) const TOOL: &str = r#"
[tool.own]
title = "insert"
kind = "insert"
designation = "DCMT11T304"
substrate = "coated carbide"
edges = 1
corner_radius = "0.4 mm"
edge_angle = "93 deg"
price = "3 EUR"
replacement = { by = "average life" }
[tool.own.life.P]
speed = "70 m/min"
feed = "0.25 mm/rev"
depth = "0.5 mm"
life = "1 min"
coolant = "dry"
n = 0.125
speeds = "5 .. 70 m/min"
"#;

static ONE_CUT: LazyLock<Scenario> = LazyLock::new(|| {
    let cut = r#"
load = { time = "5 min", by = "hand", while = "stopped" }
[[part.shaft.operation.cut]]
id = "turn"
tool = "own"
speed = "30 m/min"
feed = "0.25 mm/rev"
rapid = "0 mm"
turn = { from = "100 mm", to = "99 mm", length = "500 mm", approach = "0 mm" }
"#;
    read(&format!("{HEAD}{cut}{LATHE}{TOOL}"))
});
