//! Machines and stations.

use super::{ShiftId, SkillId};
use crate::quantity::{Duration, FeedRate, Fraction, MoneyRate, Power, SpindleSpeed, Torque};
use jiff::civil::Date;

/// What a machine is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MachineKind {
    /// Turns.
    Lathe,
    /// Hobs gears.
    Hobber,
    /// Mills, drills and taps.
    Mill,
    /// Washes, presses, measures, runs in: no spindle.
    Station,
}

impl MachineKind {
    /// As written in catalogs.
    pub const NAMES: [(&'static str, Self); 4] =
        [("lathe", Self::Lathe), ("hobber", Self::Hobber), ("mill", Self::Mill), ("station", Self::Station)];

    /// As written in catalogs.
    #[must_use]
    pub fn name(self) -> &'static str {
        Self::NAMES.iter().find(|(_, kind)| *kind == self).map_or("", |(name, _)| name)
    }
}

/// A main drive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spindle {
    /// Highest speed.
    pub fastest: SpindleSpeed,
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
    /// Time from tool to tool inside the cycle.
    pub index: Duration,
    /// Time the machine stands for one worn edge.
    pub edge_change: Duration,
    /// Time to feed the bar for a piece.
    pub bar_feed: Duration,
    /// Time to load a new bar.
    pub bar_change: Duration,
    /// Share of the open time in which it can run.
    pub availability: Fraction,
    /// Coolant state, index into the scenario's coolants; stations have none.
    pub coolant: Option<usize>,
    /// Price of an hour.
    pub rate: Option<MoneyRate>,
    /// Shifts it may run in.
    pub shifts: Vec<ShiftId>,
    /// Days on which it stands.
    pub closed: Vec<Date>,
    /// What it does in the breaks.
    pub at_breaks: AtBreaks,
    /// People it holds while it runs.
    pub attendance: Option<Attendance>,
    /// Who sets it up.
    pub setter: Option<SkillId>,
    /// What can hurt: bar whip, workholding speed, guards.
    pub caution: Option<String>,
}
