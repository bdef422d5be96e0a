//! Machines and stations.

use super::{ShiftId, SkillId};
use crate::quantity::{
    Duration, FeedRate, Force, Fraction, Length, MassMoment, MoneyRate, Power, SpindleSpeed, StrokeRate,
    Torque,
};
use jiff::civil::{Date, DateTime};

/// What a machine is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MachineKind {
    /// Turns.
    Lathe,
    /// Hobs gears.
    Hobber,
    /// Mills, drills and taps.
    Mill,
    /// Grinds between centres, in a chuck or centreless.
    Grinder,
    /// Shapes gear teeth.
    Shaper,
    /// Shaves gear teeth.
    Shaver,
    /// Grinds gear teeth.
    GearGrinder,
    /// Broaches.
    Broach,
    /// Saws bars.
    Saw,
    /// Washes, presses, measures, runs in: no spindle.
    Station,
}

impl MachineKind {
    /// As written in catalogs.
    pub const NAMES: [(&'static str, Self); 10] = [
        ("lathe", Self::Lathe),
        ("hobber", Self::Hobber),
        ("mill", Self::Mill),
        ("grinder", Self::Grinder),
        ("shaper", Self::Shaper),
        ("shaver", Self::Shaver),
        ("gear grinder", Self::GearGrinder),
        ("broach", Self::Broach),
        ("saw", Self::Saw),
        ("station", Self::Station),
    ];

    /// Whether its main drive turns.
    #[must_use]
    pub fn turns(self) -> bool {
        !matches!(self, Self::Station | Self::Shaper | Self::Broach | Self::Saw)
    }

    /// As written in catalogs.
    #[must_use]
    pub fn name(self) -> &'static str {
        Self::NAMES.iter().find(|(_, kind)| *kind == self).map_or("", |(name, _)| name)
    }
}

/// A jaw chuck, as its maker states it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chuck {
    /// Grip of all jaws together at rest.
    pub grip: Force,
    /// Sum over the jaws of mass times distance of its centre from the axis.
    pub jaw_moment: MassMoment,
    /// Speed marked on the chuck.
    pub fastest: SpindleSpeed,
    /// Friction between jaws and work.
    pub friction: f64,
    /// Safety on the grip.
    pub safety: f64,
}

/// A main drive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spindle {
    /// Highest speed.
    pub fastest: SpindleSpeed,
    /// Speed below which the torque is constant and the power falls; `None`: the torque alone limits there.
    pub base_speed: Option<SpindleSpeed>,
    /// Power of the motor.
    pub power: Power,
    /// Share of it that reaches the edge.
    pub efficiency: Fraction,
    /// Highest torque.
    pub torque: Torque,
}

/// People a running machine holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Attendance {
    /// Who.
    pub skill: SkillId,
    /// Share of the machine's time; `None`: the hand work inside the cycle.
    pub share: Option<Fraction>,
}

/// What a machine does in the breaks of a shift.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AtBreaks {
    /// It stands.
    Stop,
    /// It runs on.
    Run,
}

/// A machine or station of the shop.
#[derive(Debug, Clone, PartialEq)]
pub struct Machine {
    /// Key in the scenario.
    pub key: String,
    /// In words.
    pub title: String,
    /// What it is.
    pub kind: MachineKind,
    /// Main drive; stations have none.
    pub spindle: Option<Spindle>,
    /// Rapid rate.
    pub rapid: Option<FeedRate>,
    /// Highest feed rate.
    pub feed_limit: Option<FeedRate>,
    /// Highest force along the feed.
    pub feed_force: Option<Force>,
    /// Highest speed of the work table of a hobber.
    pub table_speed: Option<SpindleSpeed>,
    /// Highest stroke rate of a shaper.
    pub stroke_rate: Option<StrokeRate>,
    /// Longest piece of bar that turns unguided.
    pub bar_support: Option<Length>,
    /// Its chuck.
    pub chuck: Option<Chuck>,
    /// Time from tool to tool inside the cycle.
    pub index: Duration,
    /// Time the machine stands for one worn edge.
    pub edge_change: Duration,
    /// Of `edge_change`, what the stop itself takes: once for all edges changed at it.
    pub stop: Duration,
    /// Time to feed the bar for a piece.
    pub bar_feed: Duration,
    /// Time to load a new bar.
    pub bar_change: Duration,
    /// Share of the open time in which it can run.
    pub availability: Fraction,
    /// Pace against the model while it runs: real pieces over those that the cycles give.
    pub performance: Fraction,
    /// Coolant state, index into the scenario's coolants; stations have none.
    pub coolant: Option<usize>,
    /// Price of an hour.
    pub rate: Option<MoneyRate>,
    /// Shifts it may run in.
    pub shifts: Vec<ShiftId>,
    /// Days on which it stands.
    pub closed: Vec<Date>,
    /// Planned stops, from and to: maintenance.
    pub stops: Vec<(DateTime, DateTime)>,
    /// What it does in the breaks.
    pub at_breaks: AtBreaks,
    /// People it holds while it runs.
    pub attendance: Option<Attendance>,
    /// Who sets it up.
    pub setter: Option<SkillId>,
    /// What can hurt: bar whip, workholding speed, guards.
    pub caution: Option<String>,
}
