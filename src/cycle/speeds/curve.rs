//! Time in cut and share of a life over the speed of one cut.

use super::span::{Span, Trial};
use crate::quantity::CuttingSpeed;

/// What a cut takes of a piece at a speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Point {
    /// Speed asked for, m/min.
    pub(super) speed: f64,
    /// Time in cut, min.
    pub(super) time: f64,
    /// Share of a life.
    pub(super) wear: f64,
}

/// The speeds of a cut that are worth running: slowest first, each the best for some worth of a life.
#[derive(Debug, Clone)]
pub(super) struct Curve {
    points: Vec<Point>,
    pub(super) span: Span,
}

/// Steps from the slowest to the fastest speed.
const STEPS: u32 = 20;

impl Curve {
    /// `None` where the cut has no choice of speeds.
    pub(super) fn new(trial: &Trial<'_>) -> Option<Self> {
        let span = trial.span()?;
        let (slow, fast) = (span.slow.0.to_m_per_min(), span.fast.0.to_m_per_min());
        let mut points: Vec<Point> = Vec::new();
        for step in 0..=STEPS {
            let share = f64::from(step) / f64::from(STEPS);
            let speed = slow * (fast / slow).powf(share);
            let (time, wear) = trial.takes(CuttingSpeed::m_per_min(speed))?;
            let point = Point { speed, time, wear };
            // Quicker and no harder on the edge is better.
            while points.last().is_some_and(|last| last.wear >= point.wear) {
                points.pop();
            }
            if points.last().is_some_and(|last| last.time <= point.time) {
                continue;
            }
            // The lower hull: a speed between two that together do better is never run.
            while let [.., first, second] = points.as_slice()
                && (second.time - first.time) * (point.wear - first.wear)
                    >= (second.wear - first.wear) * (point.time - first.time)
            {
                points.pop();
            }
            points.push(point);
        }
        (points.len() > 1).then_some(Self { points, span })
    }

    /// What the cut takes where a whole life is worth so many minutes of it: time + life * wear is least.
    pub(super) fn at(&self, life: f64) -> Point {
        let mut last = self.points[0];
        for pair in self.points.windows(2) {
            let segment = Segment::new(pair[0], pair[1]);
            if segment.worth_at(pair[1]) <= life {
                return segment.at(life);
            }
            last = pair[1];
        }
        last
    }

    /// Worths of a life, in minutes, beyond which the cut runs at its slowest and its fastest.
    pub(super) fn ends(&self) -> (f64, f64) {
        let many = self.points.len();
        let slow = Segment::new(self.points[0], self.points[1]).worth_at(self.points[0]);
        let last = self.points[many - 1];
        (slow, Segment::new(self.points[many - 2], last).worth_at(last))
    }

    /// Whether a speed is the slowest or the fastest of the cut.
    pub(super) fn is_slowest(&self, speed: f64) -> bool {
        speed <= self.points[0].speed * (1.0 + 1e-9)
    }

    pub(super) fn is_fastest(&self, speed: f64) -> bool {
        speed >= self.points[self.points.len() - 1].speed * (1.0 - 1e-9)
    }
}

/// Between two points time and wear go as powers of the speed.
struct Segment {
    from: Point,
    to: Point,
    /// Exponent with which time falls.
    time: f64,
    /// Exponent with which wear grows.
    wear: f64,
}

impl Segment {
    fn new(from: Point, to: Point) -> Self {
        let ratio = (to.speed / from.speed).ln();
        Self { from, to, time: (from.time / to.time).ln() / ratio, wear: (to.wear / from.wear).ln() / ratio }
    }

    /// Minutes that a whole life is worth where a point is best.
    fn worth_at(&self, point: Point) -> f64 {
        self.time * point.time / (self.wear * point.wear)
    }

    fn at(&self, life: f64) -> Point {
        let faster = (self.worth_at(self.from) / life).powf(1.0 / (self.time + self.wear));
        let faster = faster.clamp(1.0, self.to.speed / self.from.speed);
        Point {
            speed: self.from.speed * faster,
            time: self.from.time * faster.powf(-self.time),
            wear: self.from.wear * faster.powf(self.wear),
        }
    }
}
