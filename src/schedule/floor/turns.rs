//! In which order a shift's lots are laid: an order of tasks on machines that ends soonest, with setups by what comes before and
//! pieces that move on in boxes.

use super::super::ordering::{Aim, Effort, Link, Task, TaskSet, order};
use super::super::problem::{Lag, ResourceKind};
use super::clock::Clock;
use super::shift::{Floor, Left};

/// Moves of the search for an order: a shift has few lots.
const MOVES: u64 = 150;

impl Floor<'_> {
    /// Activities in the order in which their lots are to be laid.
    pub(super) fn turns(&self, slot: usize, wanted: &[u32], left: &Left<'_>) -> Vec<usize> {
        let problem = self.problem;
        let on_machine = |activity: usize| {
            let machine = problem.activities[activity].machine;
            machine.is_some_and(|machine| problem.resources[machine].kind == ResourceKind::Machine)
        };
        let goes = |activity: &usize| {
            wanted[*activity] > 0
                && (self.stands_for(*activity) || !self.can_wait(*activity, slot, wanted[*activity]))
        };
        let all: Vec<usize> = (0..wanted.len()).filter(goes).collect();
        let lots: Vec<usize> = all.iter().copied().filter(|activity| on_machine(*activity)).collect();
        let mut tasks = TaskSet::new(problem.resources.len(), Vec::new());
        for activity in &lots {
            tasks.tasks.push(self.task(*activity, slot, wanted[*activity]));
        }
        for (machine, free) in tasks.free.iter_mut().enumerate() {
            if problem.resources[machine].kind == ResourceKind::Machine {
                *free = Clock::new(problem, machine, slot).at(left.at[machine]);
            }
        }
        tasks.initial.clone_from(&self.set_up);
        self.add_setups(&lots, slot, &mut tasks);
        self.add_links(&lots, slot, wanted, &mut tasks);
        let mut turns = lots.clone();
        if let Ok(found) = order(&tasks, Aim::LastEnd, Effort::moves(MOVES)) {
            let mut by_start: Vec<usize> = (0..lots.len()).collect();
            by_start.sort_by_key(|at| (found.start[*at], lots[*at]));
            turns = by_start.into_iter().map(|at| lots[at]).collect();
        }
        // What goes outside waits for nobody.
        turns.extend(all.into_iter().filter(|activity| !on_machine(*activity)));
        turns
    }

    fn task(&self, activity: usize, slot: usize, pieces: u32) -> Task {
        let problem = self.problem;
        let of = &problem.activities[activity];
        let machine = of.machine.unwrap_or(0);
        let start = problem.slots[slot].start;
        let mut task = Task::on(machine, self.seconds(machine, slot, of.running(pieces)));
        task.release = start;
        for (input, _) in &problem.steps[of.step].inputs {
            if let Some((_, ready)) = self.goods[*input].in_order().next() {
                task.release = task.release.max(ready.min(problem.slots[slot].end));
            }
        }
        task.family = Some(activity);
        task
    }

    /// Seconds on the clock, on average, for so many minutes of a machine.
    fn seconds(&self, machine: usize, slot: usize, minutes: f64) -> i64 {
        let of = &self.problem.resources[machine];
        let open: i64 = of.windows[slot].iter().map(|(from, to)| to - from).sum();
        #[expect(clippy::cast_precision_loss, reason = "a slot has far fewer than 2^52 seconds")]
        let seconds = if of.minutes[slot] > 0.0 { minutes * open as f64 / of.minutes[slot] } else { 0.0 };
        #[expect(clippy::cast_possible_truncation, reason = "bounded by a year")]
        let seconds = seconds.clamp(0.0, 3.2e7).ceil() as i64;
        seconds
    }

    fn add_setups(&self, lots: &[usize], slot: usize, tasks: &mut TaskSet) {
        let activities = &self.problem.activities;
        for to in lots {
            let Some(machine) = activities[*to].machine else { continue };
            let others = lots.iter().copied().filter(|from| activities[*from].machine == Some(machine));
            for from in others.map(Some).chain([self.set_up[machine], None]) {
                if from != Some(*to) {
                    let minutes = activities[*to].setup_after(from.map(|from| &activities[from]));
                    tasks.setups.set(machine, from, Some(*to), self.seconds(machine, slot, minutes));
                }
            }
        }
    }

    /// What a lot takes from another of the same shift.
    fn add_links(&self, lots: &[usize], slot: usize, wanted: &[u32], tasks: &mut TaskSet) {
        let problem = self.problem;
        for (after, user) in lots.iter().enumerate() {
            let step = problem.activities[*user].step;
            for (input, each) in &problem.steps[step].inputs {
                let (pieces, on_the_way) = match problem.steps[*input].lag {
                    Lag::NextSlot => continue,
                    Lag::SameSlot => (1, 0),
                    Lag::Boxes { pieces, seconds } => (pieces, seconds),
                };
                let lying = self.goods[*input].ready_by(problem.slots[slot].start);
                if f64::from(lying) >= f64::from(wanted[*user]) * each {
                    continue;
                }
                for (before, maker) in lots.iter().enumerate() {
                    let of = &problem.activities[*maker];
                    let (Some(machine), true) = (of.machine, of.step == *input) else { continue };
                    let first = pieces.min(wanted[*maker]);
                    let own = &problem.activities[*user];
                    let own_machine = own.machine.unwrap_or(machine);
                    let start_lag = on_the_way + self.seconds(machine, slot, of.running(first));
                    let end_lag = on_the_way + self.seconds(own_machine, slot, own.running(first));
                    // What lies there gives the user a start of its own.
                    let start_lag = if lying > 0 { 0 } else { start_lag };
                    tasks.links.push(Link::overlap(before, after, start_lag, end_lag));
                }
            }
        }
    }
}
