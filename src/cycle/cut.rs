//! One cut on one machine: cutting data, load on the machine, life of the edge.

use super::cut_life::{Edge, edge};
use super::forces::loads;
use super::item::Work;
use super::process::{motion, record_feed_rate};
use super::setting::{CutError, Setting};
use crate::cutting::finish::{PEAK_TO_VALLEY, peak_to_valley};
use crate::cutting::force::{MOTOR_POWER, motor_power};
use crate::quantity::{
    Caution, CuttingSpeed, Duration, FeedPerRev, FeedRate, Force, Length, Limit, Measure, Power, Quantity,
    Record, RemovalRate, Roughness, SpindleSpeed, Term, Torque,
};

/// A limit of the machine held against what a cut asks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LimitCheck {
    /// Which limit: `power`.
    pub limit: &'static str,
    /// What is asked.
    pub asked: Measure,
    /// What the machine gives.
    pub given: Measure,
}

impl LimitCheck {
    /// Share of the limit that is used.
    #[must_use]
    pub fn used(&self) -> f64 {
        self.asked.base / self.given.base
    }

    /// Whether more is asked than given.
    #[must_use]
    pub fn broken(&self) -> bool {
        self.used() > 1.0 + 1e-9
    }
}

/// One cut worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct CutEstimate {
    /// Diameter on which the speed is held.
    pub diameter: Length,
    /// Spindle speed of the first pass.
    pub spindle_speed: SpindleSpeed,
    /// Cutting speed actually run at the first pass.
    pub speed: CuttingSpeed,
    /// Feed rate of the first pass.
    pub feed_rate: FeedRate,
    /// Passes, holes or plunges of one piece.
    pub passes: u32,
    /// Depth of a pass.
    pub depth: Option<Length>,
    /// Time in cut for a piece.
    pub cut_time: Duration,
    /// Time at rapid for a piece.
    pub rapid_time: Duration,
    /// Metal removed in a minute.
    pub removal_rate: Option<RemovalRate>,
    /// Cutting force.
    pub force: Option<Force>,
    /// Power at the edge.
    pub power: Option<Power>,
    /// Torque at the spindle.
    pub torque: Option<Torque>,
    /// Theoretical height of the feed marks, Rt.
    pub roughness: Option<Roughness>,
    /// The edge.
    pub edge: Edge,
    /// Limits of the machine, used or broken.
    pub limits: Vec<LimitCheck>,
    /// The speed asked for is out of the spindle's reach; it runs at its fastest.
    pub capped: bool,
    /// Figures outside their range.
    pub cautions: Vec<Caution>,
}

/// Works out one cut.
///
/// # Errors
/// [`CutError`] says what the cut, its tool or its machine lacks.
pub fn estimate_cut(at: &Setting<'_>, record: &mut impl Record) -> Result<CutEstimate, CutError> {
    let motion = motion(at, record)?;
    record_feed_rate(&motion, at.cut.feed, record);
    let loads = loads(at, &motion, record)?;
    let (edge, stretched) = edge(at, &motion, record)?;
    let spindle = at.spindle()?;
    let mut limits = Vec::new();
    if let Some(power) = loads.power {
        let motor = motor_power(power, spindle.efficiency.value());
        record.step(&MOTOR_POWER, motor.into(), || {
            vec![("P_c", power.into()), ("eta", Term::Plain(spindle.efficiency.value()))]
        });
        limits.push(LimitCheck { limit: "power", asked: motor.measure(), given: spindle.power.measure() });
    }
    if let Some(torque) = loads.torque {
        limits.push(LimitCheck { limit: "torque", asked: torque.measure(), given: spindle.torque.measure() });
    }
    if let Some(fastest) = at.machine.feed_limit {
        limits.push(LimitCheck {
            limit: "feed rate",
            asked: motion.feed_rate.measure(),
            given: fastest.measure(),
        });
    }
    let rapid_time = at
        .machine
        .rapid
        .map_or(Duration::ZERO, |rate| Duration::min(motion.rapid.to_mm() / rate.to_mm_per_min()));
    let speed = motion.runs.first().map_or(at.cut.speed, |(speed, _)| *speed);
    let mut cautions: Vec<Caution> = stretched.into_iter().collect();
    if motion.capped {
        let slowest = motion.runs.iter().map(|(speed, _)| *speed).fold(speed, CuttingSpeed::smaller);
        cautions.push(Caution {
            subject: "cutting speed",
            value: at.cut.speed.measure(),
            limit: Limit::AtMost(slowest.measure()),
            remark: "the spindle runs at its fastest on the smallest diameter and cuts slower there than asked",
            source: "scenario".to_owned(),
        });
    }
    Ok(CutEstimate {
        diameter: motion.diameter,
        spindle_speed: motion.spindle_speed,
        speed,
        feed_rate: motion.feed_rate,
        passes: motion.passes,
        depth: motion.depth,
        cut_time: motion.runs.iter().map(|(_, time)| *time).sum::<Duration>() + motion.back,
        rapid_time,
        removal_rate: loads.removal_rate,
        force: loads.force,
        power: loads.power,
        torque: loads.torque,
        roughness: roughness(at, motion.advance, record),
        edge,
        limits,
        capped: motion.capped,
        cautions,
    })
}

/// Theoretical height of the feed marks; `None` where no single corner makes them.
fn roughness(at: &Setting<'_>, advance: Length, record: &mut impl Record) -> Option<Roughness> {
    if !matches!(at.cut.work, Work::Turn { .. } | Work::Bore { .. } | Work::Face { .. }) {
        return None;
    }
    let radius = at.tool().geometry.corner_radius?;
    let feed = FeedPerRev::mm_per_rev(advance.to_mm());
    let height = peak_to_valley(feed, radius);
    record.step(&PEAK_TO_VALLEY, height.into(), || vec![("f", feed.into()), ("r_eps", radius.into())]);
    Some(height)
}
