//! Channels beside each other, and loading beside them: how the worth of a minute is shared so that none is quicker than it need
//! be.

use super::super::estimate::OperationEstimate;
use super::super::item::{Operation, While};
use super::curve::Curve;
use crate::plant::Machine;
use crate::quantity::Duration;

/// One channel: the time that no speed changes, and the cuts whose speed is free.
#[derive(Debug, Clone)]
struct Lane {
    base: f64,
    cuts: Vec<usize>,
}

/// What runs beside what, minutes for a piece.
#[derive(Debug, Clone)]
pub(super) struct Lanes {
    lanes: Vec<Lane>,
    /// Below this the channels save nothing: the loading takes as long.
    floor: f64,
}

/// Halvings of the time and of a channel's worth.
const HALVINGS: usize = 40;
/// Least share of the worth of a minute that a channel is given.
const LEAST: f64 = 1e-9;

impl Lanes {
    pub(super) fn new(
        operation: &Operation,
        machine: &Machine,
        of: (&OperationEstimate, &[Option<Curve>]),
    ) -> Self {
        let (written, curves) = of;
        let pieces = f64::from(operation.pieces.max(1));
        let mut channels: Vec<u32> = operation.cuts.iter().map(|cut| cut.channel).collect();
        channels.sort_unstable();
        channels.dedup();
        let lane = |channel: u32| {
            let (mut base, mut tools, mut free) = (Duration::ZERO, 0.0, Vec::new());
            for (index, _) in operation.cuts.iter().enumerate().filter(|(_, cut)| cut.channel == channel) {
                let estimate = &written.cuts[index].0;
                base += estimate.rapid_time;
                tools += 1.0;
                if curves[index].is_some() {
                    free.push(index);
                } else {
                    base += estimate.cut_time;
                }
            }
            let index = if tools > 1.0 { machine.index * tools / pieces } else { Duration::ZERO };
            Lane { base: (base + index).to_min(), cuts: free }
        };
        let hidden = operation.load.filter(|load| load.during == While::Cutting);
        let floor = hidden.map_or(0.0, |load| (load.time - operation.transfer).to_min() / pieces);
        Self { lanes: channels.into_iter().map(lane).collect(), floor }
    }

    /// Share of the worth of a minute of each cut, 1 where its channel alone sets the cycle; `lives` are what a life of each cut's
    /// edge is worth, in minutes of the machine.
    pub(super) fn shares(&self, curves: &[Option<Curve>], lives: &[f64]) -> Vec<f64> {
        let time = |lane: &Lane, share: f64| {
            let of =
                |cut: &usize| curves[*cut].as_ref().map_or(0.0, |curve| curve.at(lives[*cut] / share).time);
            lane.base + lane.cuts.iter().map(of).sum::<f64>()
        };
        // The least share with which a channel is done in a time.
        let needed = |lane: &Lane, most: f64| {
            if time(lane, LEAST) <= most {
                return LEAST;
            }
            let (mut low, mut high) = (LEAST.ln(), 0.0);
            for _ in 0..HALVINGS {
                let middle = f64::midpoint(low, high);
                if time(lane, middle.exp()) <= most { high = middle } else { low = middle }
            }
            high.exp()
        };
        let total = |most: f64| self.lanes.iter().map(|lane| needed(lane, most)).sum::<f64>();
        let quickest = self.lanes.iter().map(|lane| time(lane, 1.0)).fold(self.floor, f64::max);
        let slowest = self.lanes.iter().map(|lane| time(lane, LEAST)).fold(quickest, f64::max);
        let (mut low, mut high) = (quickest, slowest);
        let alone = self.lanes.len() == 1 && quickest > self.floor;
        if alone || total(quickest) <= 1.0 {
            high = quickest;
        } else {
            for _ in 0..HALVINGS {
                let middle = f64::midpoint(low, high);
                if total(middle) <= 1.0 { high = middle } else { low = middle }
            }
        }
        let mut shares = vec![1.0; curves.len()];
        for lane in &self.lanes {
            let share = if alone { 1.0 } else { needed(lane, high) };
            for cut in &lane.cuts {
                shares[*cut] = share;
            }
        }
        shares
    }
}
