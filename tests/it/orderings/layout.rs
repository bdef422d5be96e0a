//! Examples of orders as they stand on file.

use serde::Deserialize;
use wearland::schedule::{Aim, Link, Task, TaskSet, Way};

use crate::program::project;

/// One file of `tests/schedules/ordering`.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Example {
    title: String,
    source: String,
    standing: String,
    /// Value of the work, and its standing.
    pub(super) printed: Option<i64>,
    printed_standing: Option<String>,
    note: Option<String>,
    pub(super) aim: String,
    machines: usize,
    /// Best value there is, or what is known of it.
    optimum: Option<i64>,
    lower: Option<i64>,
    upper: Option<i64>,
    jobs: Vec<String>,
    release: Option<Vec<i64>>,
    due: Option<Vec<i64>>,
    weight: Option<Vec<f64>>,
    family: Option<Vec<usize>>,
    initial: Option<Vec<usize>>,
    first_task: Option<usize>,
    last_task: Option<usize>,
    first_setup: Option<Vec<Vec<i64>>>,
    setup: Option<Vec<Vec<Vec<i64>>>>,
    #[serde(default)]
    pub(super) variant: Vec<Variant>,
}

/// The same tasks for another aim.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Variant {
    pub(super) aim: String,
    pub(super) optimum: i64,
}

/// All examples by file name.
pub(super) fn examples() -> Vec<(String, Example)> {
    let mut files: Vec<_> = std::fs::read_dir(project("tests/schedules/ordering"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    files.sort();
    files
        .into_iter()
        .map(|path| {
            let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
            let text = std::fs::read_to_string(&path).unwrap();
            let example: Example = toml::from_str(&text).map_err(|error| format!("{name}: {error}")).unwrap();
            (name, example)
        })
        .collect()
}

/// An aim by its name.
pub(super) fn aim(name: &str) -> Result<Aim, String> {
    match name {
        "last end" => Ok(Aim::LastEnd),
        "greatest lateness" => Ok(Aim::GreatestLateness),
        "weighted lateness" => Ok(Aim::WeightedLateness),
        "weighted ends" => Ok(Aim::WeightedEnds),
        other => Err(format!("no aim `{other}`")),
    }
}

impl Example {
    /// What is wrong with the facts around the figures.
    pub(super) fn faults(&self) -> Vec<&'static str> {
        let standing = |standing: &str| ["read", "memory", "derived"].contains(&standing);
        let mut faults = Vec::new();
        if self.title.is_empty() || self.source.is_empty() || self.note.as_ref().is_some_and(String::is_empty)
        {
            faults.push("an empty text");
        }
        if !standing(&self.standing) || !self.printed_standing.iter().all(|it| standing(it)) {
            faults.push("an unknown standing");
        }
        if self.printed.is_some() != self.printed_standing.is_some() {
            faults.push("a printed value without standing, or the other way round");
        }
        if self.printed.is_some_and(|printed| printed != self.upper()) && self.note.is_none() {
            faults.push("a printed value that does not come out, and no note on it");
        }
        faults
    }

    /// No value is below this one.
    pub(super) fn lower(&self) -> i64 {
        self.optimum.or(self.lower).unwrap()
    }

    /// Best value known.
    pub(super) fn upper(&self) -> i64 {
        self.optimum.or(self.upper).unwrap()
    }

    /// The tasks to be ordered.
    pub(super) fn set(&self) -> TaskSet {
        let mut tasks = Vec::new();
        let mut links = Vec::new();
        for job in &self.jobs {
            for (at, task) in job.split('|').enumerate() {
                if at > 0 {
                    links.push(Link::after(tasks.len() - 1, tasks.len()));
                }
                tasks.push(Task::new(ways(task)));
            }
        }
        for (at, task) in tasks.iter_mut().enumerate() {
            task.release = self.release.as_ref().map_or(0, |all| all[at]);
            task.due = self.due.as_ref().map(|all| all[at]);
            task.weight = self.weight.as_ref().map_or(1.0, |all| all[at]);
            task.family = self.family.as_ref().map(|all| all[at]);
        }
        let others = |task: usize| (0..tasks.len()).filter(move |other| *other != task);
        links.extend(
            self.first_task.iter().flat_map(|first| others(*first).map(|it| Link::after(*first, it))),
        );
        links.extend(self.last_task.iter().flat_map(|last| others(*last).map(|it| Link::after(it, *last))));
        links.sort_by_key(|link| (link.before, link.after));
        links.dedup();
        let mut set = TaskSet::new(self.machines, tasks);
        set.links = links;
        if let Some(initial) = &self.initial {
            set.initial = initial.iter().map(|family| Some(*family)).collect();
        }
        self.set_up(&mut set);
        set
    }

    fn set_up(&self, set: &mut TaskSet) {
        for (machine, row) in self.first_setup.iter().flatten().enumerate() {
            for (to, time) in row.iter().enumerate() {
                set.setups.set(machine, None, Some(to), *time);
            }
        }
        for (machine, rows) in self.setup.iter().flatten().enumerate() {
            for (from, row) in rows.iter().enumerate() {
                for (to, time) in row.iter().enumerate() {
                    set.setups.set(machine, Some(from), Some(to), *time);
                }
            }
        }
    }
}

fn ways(text: &str) -> Vec<Way> {
    let numbers: Vec<i64> = text.split_whitespace().map(|word| word.parse().unwrap()).collect();
    assert_eq!(numbers.len() % 2, 0, "`{text}` lacks a time");
    numbers.chunks(2).map(|pair| Way { machine: usize::try_from(pair[0]).unwrap(), time: pair[1] }).collect()
}
