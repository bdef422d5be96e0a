//! How far each activity is behind the program, and what is better left for later.

use super::super::problem::Problem;
use super::shift::{Floor, whole};

impl Floor<'_> {
    /// Whole pieces each activity is behind the program at the end of this slot.
    pub(super) fn wanted(&self, slot: usize) -> Vec<u32> {
        let mut wanted = vec![0; self.problem.activities.len()];
        for step in 0..self.problem.steps.len() {
            let makers: Vec<usize> = self.problem.makers(step).collect();
            let target: f64 = makers.iter().map(|maker| self.targets[*maker][slot]).sum();
            let mut open = whole((target - 1e-6).ceil()).saturating_sub(self.step_started[step]);
            for maker in &makers {
                let behind = whole(self.targets[*maker][slot] + 1e-6).saturating_sub(self.started[*maker]);
                wanted[*maker] = behind.min(open);
                open -= wanted[*maker];
            }
            // The pieces that rounding left over go where the program has begun most of one.
            let most_begun = makers.iter().copied().max_by(|one, other| {
                let begun =
                    |maker: usize| self.targets[maker][slot] - f64::from(self.started[maker] + wanted[maker]);
                begun(*one).total_cmp(&begun(*other)).then(other.cmp(one))
            });
            if let Some(maker) = most_begun {
                wanted[maker] += open;
            }
            self.spare_setups(&makers, &mut wanted);
        }
        for (activity, wanted) in wanted.iter_mut().enumerate() {
            *wanted = self.whole_lot(activity, slot, *wanted);
        }
        for (running, left) in self.problem.running.iter().zip(&self.running) {
            wanted[running.activity] = wanted[running.activity].max(*left);
        }
        wanted
    }

    /// Pieces of a step that the program wants in all and that are not started yet.
    pub(super) fn still_wanted(&self, step: usize) -> u32 {
        let makers = self.problem.makers(step);
        let all: f64 = makers.map(|maker| self.targets[maker].last().copied().unwrap_or(0.0)).sum();
        whole((all - 1e-6).ceil()).saturating_sub(self.step_started[step])
    }

    /// A few pieces are not worth a setup where another machine stands set up for the same step.
    fn spare_setups(&self, makers: &[usize], wanted: &mut [u32]) {
        let Some(set_up) = makers.iter().copied().find(|maker| self.stands_for(*maker)) else { return };
        for maker in makers.iter().copied().filter(|maker| !self.stands_for(*maker)) {
            let of = &self.problem.activities[maker];
            if of.running(wanted[maker]) < of.setup {
                wanted[set_up] += std::mem::take(&mut wanted[maker]);
            }
        }
    }

    /// Whether its machine stands set up for an activity.
    pub(super) fn stands_for(&self, activity: usize) -> bool {
        let machine = self.problem.activities[activity].machine;
        machine.is_some_and(|machine| self.set_up[machine] == Some(activity))
    }

    /// What is wanted, or the least lot where a setup must be followed by more and more is wanted later.
    fn whole_lot(&self, activity: usize, slot: usize, wanted: u32) -> u32 {
        let of = &self.problem.activities[activity];
        if wanted == 0 || wanted >= of.least_lot || self.stands_for(activity) {
            return wanted;
        }
        let later = self.targets[activity].last().map_or(0.0, |end| end - self.targets[activity][slot]);
        wanted.max(of.least_lot.min(wanted + whole(later.ceil()).min(self.still_wanted(of.step))))
    }

    /// A few pieces are not worth a setup now if the program comes back to the activity later.
    pub(super) fn can_wait(&self, activity: usize, slot: usize, wanted: u32) -> bool {
        let of = &self.problem.activities[activity];
        let here =
            self.targets[activity][slot] - if slot == 0 { 0.0 } else { self.targets[activity][slot - 1] };
        let later = self.targets[activity].last().map_or(0.0, |end| end - self.targets[activity][slot]);
        here < 0.5 && later > 0.5 && of.running(wanted) < of.setup
    }
}

/// Running totals over the slots, by activity or demand.
pub(super) fn running_totals(slots: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let total = |pieces: &Vec<f64>| {
        pieces
            .iter()
            .scan(0.0, |sum, pieces| {
                *sum += pieces.max(0.0);
                Some(*sum)
            })
            .collect()
    };
    slots.iter().map(total).collect()
}

/// What lies after each step at the start, in whole pieces.
pub(super) fn opening(problem: &Problem) -> Vec<u32> {
    problem.steps.iter().map(|step| whole(step.opening)).collect()
}
