//! Machines that are alike, taken together.

use super::super::lp::Reserve;
use super::super::problem::{Activity, Problem, Resource, ResourceKind};

/// A problem in which each pool of machines is one machine with all their minutes.
#[derive(Debug, Clone)]
pub(super) struct Pooled {
    /// The problem.
    pub(super) problem: Problem,
    /// Machines behind each resource.
    pub(super) machines: Vec<f64>,
    /// Activities of the problem as given behind each activity, one for each machine, in the same order of machines.
    pub(super) members: Vec<Vec<usize>>,
    /// Which of its machines stand set up for it at the start, by activity.
    pub(super) stands: Vec<Vec<bool>>,
    /// First resource of the problem as given behind each resource.
    pub(super) first: Vec<usize>,
}

impl Pooled {
    /// Each machine by itself.
    pub(super) fn apart(problem: &Problem) -> Self {
        let members: Vec<Vec<usize>> = (0..problem.activities.len()).map(|at| vec![at]).collect();
        Self {
            machines: vec![1.0; problem.resources.len()],
            stands: stands(problem, &members),
            members,
            first: (0..problem.resources.len()).collect(),
            problem: problem.clone(),
        }
    }

    /// Machines that are alike together: same minutes and costs, same activities at the same times.
    pub(super) fn together(problem: &Problem) -> Self {
        let of_machine = activities_by_machine(problem);
        let mut pools: Vec<Vec<usize>> = Vec::new();
        for id in 0..problem.resources.len() {
            let pool = pools.iter_mut().find(|pool| are_alike(problem, &of_machine, pool[0], id));
            match pool {
                Some(pool) => pool.push(id),
                None => pools.push(vec![id]),
            }
        }
        let mut place = vec![0; problem.resources.len()];
        for (at, pool) in pools.iter().enumerate() {
            pool.iter().for_each(|id| place[*id] = at);
        }
        let mut pooled = problem.clone();
        pooled.resources = pools.iter().map(|pool| pooled_resource(problem, pool)).collect();
        pooled.activities.clear();
        let mut members: Vec<Vec<usize>> = Vec::new();
        let mut at = vec![usize::MAX; problem.activities.len()];
        for (id, activity) in problem.activities.iter().enumerate() {
            if let Some(machine) = activity.machine {
                let pool = &pools[place[machine]];
                if pool[0] != machine {
                    continue;
                }
                let rank = of_machine[machine].iter().position(|of| *of == id).unwrap_or(0);
                members.push(pool.iter().map(|machine| of_machine[*machine][rank]).collect());
            } else {
                members.push(vec![id]);
            }
            members.iter().last().into_iter().flatten().for_each(|member| at[*member] = members.len() - 1);
            pooled.activities.push(with_places(activity, &place));
        }
        for running in &mut pooled.running {
            running.activity = at[running.activity];
        }
        for point in &mut pooled.points {
            point.resource = place[point.resource];
        }
        Self {
            machines: pools.iter().map(|pool| count(pool.len())).collect(),
            first: pools.iter().map(|pool| pool[0]).collect(),
            stands: stands(problem, &members),
            problem: pooled,
            members,
        }
    }

    /// Machines that stand set up for an activity at the start.
    pub(super) fn standing(&self, activity: usize) -> f64 {
        count(self.stands[activity].iter().filter(|stands| **stands).count())
    }

    /// What is held back of each machine, for all of its pool; setups are left out.
    pub(super) fn reserve(&self, given: &Reserve) -> Reserve {
        let kept =
            self.first.iter().zip(&self.machines).map(|(first, machines)| given.minutes[*first] * machines);
        Reserve { minutes: kept.collect(), share: given.share.clone(), ..Reserve::none(&self.problem) }
    }
}

fn activities_by_machine(problem: &Problem) -> Vec<Vec<usize>> {
    let mut of_machine = vec![Vec::new(); problem.resources.len()];
    for (id, activity) in problem.activities.iter().enumerate() {
        if let Some(machine) = activity.machine {
            of_machine[machine].push(id);
        }
    }
    of_machine
}

fn stands(problem: &Problem, members: &[Vec<usize>]) -> Vec<Vec<bool>> {
    let stands = |id: &usize| {
        let machine = problem.activities[*id].machine;
        machine.is_some_and(|machine| problem.resources[machine].set_up == Some(*id))
    };
    members.iter().map(|of| of.iter().map(stands).collect()).collect()
}

fn pooled_resource(problem: &Problem, pool: &[usize]) -> Resource {
    let mut resource = problem.resources[pool[0]].clone();
    resource.minutes.iter_mut().for_each(|minutes| *minutes *= count(pool.len()));
    resource.set_up = None;
    resource
}

fn with_places(activity: &Activity, place: &[usize]) -> Activity {
    let mut activity = activity.clone();
    activity.machine = activity.machine.map(|machine| place[machine]);
    activity.setter = activity.setter.map(|setter| place[setter]);
    activity.uses.iter_mut().for_each(|(resource, _)| *resource = place[*resource]);
    activity
}

fn are_alike(problem: &Problem, of_machine: &[Vec<usize>], one: usize, other: usize) -> bool {
    let (first, second) = (&problem.resources[one], &problem.resources[other]);
    let goes_on = |machine: usize| {
        problem.running.iter().any(|running| problem.activities[running.activity].machine == Some(machine))
    };
    first.kind == ResourceKind::Machine
        && second.kind == ResourceKind::Machine
        && first.minutes == second.minutes
        && first.cost == second.cost
        && first.windows == second.windows
        && of_machine[one].len() == of_machine[other].len()
        && !of_machine[one].is_empty()
        && !goes_on(one)
        && !goes_on(other)
        && of_machine[one]
            .iter()
            .zip(&of_machine[other])
            .all(|(one, other)| do_the_same(problem, *one, *other))
}

/// Whether two activities differ in their machine alone.
fn do_the_same(problem: &Problem, one: usize, other: usize) -> bool {
    let (first, second) = (&problem.activities[one], &problem.activities[other]);
    let uses = |activity: &Activity| -> Vec<(usize, f64)> {
        let own = |resource: usize| if activity.machine == Some(resource) { usize::MAX } else { resource };
        activity.uses.iter().map(|(resource, minutes)| (own(*resource), *minutes)).collect()
    };
    let wear = |activity: &Activity| -> Vec<(f64, u32, Option<usize>, f64, f64)> {
        let points = activity.wear.iter().map(|wear| (wear.share, &problem.points[wear.point]));
        points.map(|(share, point)| (share, point.edges, point.stock, point.change, point.stop)).collect()
    };
    let plain = |activity: &Activity| Activity {
        machine: None,
        uses: Vec::new(),
        wear: Vec::new(),
        ..activity.clone()
    };
    plain(first) == plain(second) && uses(first) == uses(second) && wear(first) == wear(second)
}

/// A number of things as a number to reckon with.
#[expect(clippy::cast_precision_loss, reason = "far fewer than 2^52")]
pub(super) fn count(things: usize) -> f64 {
    things as f64
}
