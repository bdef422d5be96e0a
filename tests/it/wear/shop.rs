//! One lathe, one shaft, one or two inserts: worked out, and the theory of one edge in plain numbers beside it.

use statrs::function::gamma::gamma;
use wearland::cycle::{OperationEstimate, estimate_operation, stock_worth};
use wearland::diag::{Color, render};
use wearland::input::{Origin, load};
use wearland::schedule::Scenario;

const HEAD: &str = r#"
[scenario]
title = "wear"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 5
[shift.early]
from = "06:00"
to = "14:00"
"#;

const PART: &str = r#"
[part.shaft]
material = "C45"
[part.shaft.blank]
price = "12 EUR"
[[part.shaft.operation]]
id = 10
machines = ["lathe"]
"#;

/// One pass at the reference cut of the law.
const CUT: &str = r#"
[[part.shaft.operation.cut]]
id = "turn"
tool = "own"
speed = "200 m/min"
feed = "0.2 mm/rev"
depth = "1 mm"
turn = { from = "60 mm", to = "58 mm", length = "120 mm" }
"#;

/// What of the shop a test changes; each is added to what stands there.
#[derive(Clone, Copy, Default)]
pub(super) struct Shop<'a> {
    pub(super) top: &'a str,
    pub(super) operation: &'a str,
    pub(super) cut: &'a str,
    pub(super) more_cuts: &'a str,
    pub(super) machine: &'a str,
    pub(super) tool: &'a str,
    pub(super) life: &'a str,
    pub(super) end: &'a str,
}

impl Shop<'_> {
    /// The scenario as text.
    pub(super) fn text(&self) -> String {
        let Self { top, operation, cut, more_cuts, machine, tool, life, end } = self;
        format!(
            "{HEAD}{top}{PART}{operation}{CUT}{cut}\n{more_cuts}
[machine.lathe]
like = \"chucking-lathe\"
availability = \"90 %\"
coolant = \"dry\"
{machine}
[tool.own]
title = \"insert, clearance of 7 deg\"
kind = \"insert\"
designation = \"DCMT11T304\"
substrate = \"coated carbide\"
edges = 2
corner_radius = \"0.4 mm\"
edge_angle = \"93 deg\"
{tool}
[tool.own.life.P]
speed = \"200 m/min\"
feed = \"0.2 mm/rev\"
depth = \"1 mm\"
life = \"15 min\"
wear = \"0.3 mm\"
coolant = \"dry\"
n = 0.25
speeds = \"100 .. 400 m/min\"
{life}
{end}"
        )
    }

    /// The scenario as read.
    pub(super) fn scenario(&self) -> Scenario {
        let origin = Origin::Text { name: "wear.toml".to_owned(), bytes: self.text().into_bytes() };
        let loaded = load(&origin).unwrap();
        let said = render(&loaded.diagnostics, &loaded.sources, Color::Plain);
        assert!(loaded.scenario.is_some(), "{said}");
        loaded.scenario.unwrap()
    }

    /// Its only operation worked out.
    pub(super) fn estimate(&self) -> OperationEstimate {
        let shop = self.scenario().shop;
        let worth = stock_worth(&shop, &shop.items[0]);
        estimate_operation(&shop, (0, 0, 0), worth).unwrap()
    }
}

/// Time from piece to piece without tool changes, minutes.
pub(super) fn run(of: &OperationEstimate) -> f64 {
    let own = of.elements.iter().filter(|element| !element.name.contains("tool changes"));
    own.filter(|element| !element.name.contains("edges that fail")).map(|element| element.time.to_min()).sum()
}

/// An element of the cycle, minutes; nothing where it is left out.
pub(super) fn element(of: &OperationEstimate, name: &str) -> f64 {
    of.elements.iter().find(|element| element.name == name).map_or(0.0, |element| element.time.to_min())
}

/// Weibull life of mean one.
pub(super) struct Weibull {
    shape: f64,
    scale: f64,
}

impl Weibull {
    /// Of a coefficient of variation: the shape by halving.
    pub(super) fn of_variation(variation: f64) -> Self {
        let (mut low, mut high) = (0.5, 60.0);
        for _ in 0..200 {
            let shape = 0.5 * (low + high);
            let (one, two) = (gamma(1.0 + 1.0 / shape), gamma(1.0 + 2.0 / shape));
            if (two / (one * one) - 1.0).sqrt() > variation { low = shape } else { high = shape }
        }
        Self { shape: low, scale: 1.0 / gamma(1.0 + 1.0 / low) }
    }

    /// Share of the edges that last to an age.
    pub(super) fn survival(&self, age: f64) -> f64 {
        (-(age / self.scale).powf(self.shape)).exp()
    }

    /// Age to which a share of the edges lasts.
    pub(super) fn age_at(&self, survival: f64) -> f64 {
        self.scale * (-survival.ln()).powf(1.0 / self.shape)
    }
}

/// One edge changed after so many pieces or when it fails, minutes and money.
#[derive(Clone, Copy)]
pub(super) struct Edge {
    pub(super) wear: f64,
    pub(super) run: f64,
    pub(super) planned: f64,
    pub(super) failure: f64,
    pub(super) edge: f64,
    pub(super) scrap: f64,
    pub(super) per_min: f64,
}

impl Edge {
    /// Cost of a good piece and minutes for it.
    pub(super) fn of_good_piece(&self, life: &Weibull, pieces: u32) -> (f64, f64) {
        let reach = |piece: u32| life.survival(f64::from(piece) * self.wear);
        let good: f64 = (1..=pieces).map(reach).sum();
        let failed = 1.0 - reach(pieces);
        let minutes = self.run * (good + failed) + failed * self.failure + (1.0 - failed) * self.planned;
        ((self.per_min * minutes + self.edge + failed * self.scrap) / good, minutes / good)
    }

    /// The pieces at which a figure of these is least, by trying all.
    pub(super) fn best(&self, life: &Weibull, figure: impl Fn((f64, f64)) -> f64) -> u32 {
        let of = |pieces: u32| figure(self.of_good_piece(life, pieces));
        (1..400).min_by(|one, other| of(*one).total_cmp(&of(*other))).unwrap()
    }
}
