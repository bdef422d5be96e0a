//! The best value over all orders and ways of a small floor.
//!
//! Every order whose tasks start as early as they can is met by adding tasks one after another by their start.

use wearland::schedule::{Aim, TaskSet, Tie};

use super::checker::real;

/// Best value of any order.
pub(super) fn best_of_all(set: &TaskSet, aim: Aim) -> f64 {
    let mut tried = Tried { set, aim, placed: vec![None; set.tasks.len()], best: f64::INFINITY };
    let machines = set.free.iter().zip(&set.initial).map(|(free, family)| (*free, *family)).collect();
    tried.add(machines, i64::MIN, start_value(aim));
    tried.best
}

struct Tried<'a> {
    set: &'a TaskSet,
    aim: Aim,
    /// Start and end of the tasks that are placed.
    placed: Vec<Option<(i64, i64)>>,
    best: f64,
}

fn start_value(aim: Aim) -> f64 {
    if aim == Aim::GreatestLateness { f64::NEG_INFINITY } else { 0.0 }
}

impl Tried<'_> {
    fn add(&mut self, machines: Vec<(i64, Option<usize>)>, latest: i64, value: f64) {
        if value >= self.best {
            return;
        }
        if self.placed.iter().all(Option::is_some) {
            self.best = value;
            return;
        }
        for task in 0..self.set.tasks.len() {
            if self.placed[task].is_some() {
                continue;
            }
            for way in &self.set.tasks[task].ways {
                let Some(linked) = self.linked(task, way.time) else { break };
                let family = self.set.tasks[task].family;
                let (free, before) = machines[way.machine];
                let start = linked.max(free + self.set.setups.time(way.machine, before, family));
                if start < latest {
                    continue;
                }
                let mut after = machines.clone();
                after[way.machine] = (start + way.time, family);
                self.placed[task] = Some((start, start + way.time));
                self.add(after, start, self.with(value, task, start + way.time));
                self.placed[task] = None;
            }
        }
    }

    /// Earliest start by release and links, if all that the task waits for is placed.
    fn linked(&self, task: usize, time: i64) -> Option<i64> {
        let mut earliest = self.set.tasks[task].release;
        for link in self.set.links.iter().filter(|link| link.after == task) {
            let (start, end) = self.placed[link.before]?;
            earliest = earliest.max(match link.tie {
                Tie::AfterEnd(lag) => end + lag,
                Tie::Overlap { start_lag, end_lag } => (start + start_lag).max(end + end_lag - time),
            });
        }
        Some(earliest)
    }

    fn with(&self, value: f64, task: usize, end: i64) -> f64 {
        let it = &self.set.tasks[task];
        match self.aim {
            Aim::LastEnd => value.max(real(end)),
            Aim::GreatestLateness => it.due.map_or(value, |due| value.max(real(end - due))),
            Aim::WeightedLateness => it.due.map_or(value, |due| value + it.weight * real((end - due).max(0))),
            Aim::WeightedEnds => value + it.weight * real(end),
        }
    }
}
