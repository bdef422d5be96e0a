//! Plans of generated problems beside the model as it would be written down at first, in the same run.
//!
//! `cargo bench --bench plans -- --size shop --seeds 1..6 --seconds 60` plans with setups that do not outlive their shift, as
//! the first model has no others; `--without-setups` compares linear programs, and the whole way from problem to verified plan.
//! With the feature `highs` both sides are solved by `HiGHS`, without it both by the pure-Rust solver. Every plan is put into
//! the first model and held against all its rows before its cost is printed. Seconds are those of the processor.

mod generator;
mod measured;
mod naive;

use generator::{SIZES, Size, generated};
use measured::{Measured, measured, peak_megabytes};
use naive::{Setups, naive_model, naive_values};
use wearland::schedule::{
    CarryOver, Effort, Limits, LotLimits, LotPlan, Problem, Reserve, Search, lot_plan, plan, solve,
    solve_whole, verify,
};

/// What is asked for on the command line.
struct Asked {
    sizes: Vec<Size>,
    seeds: std::ops::RangeInclusive<u64>,
    seconds: f64,
    with_setups: bool,
    baseline: bool,
}

#[expect(clippy::print_stdout, reason = "a bench prints what it finds")]
fn main() {
    let asked = asked();
    println!("solver: {}", if cfg!(feature = "highs") { "HiGHS" } else { "microlp" });
    for size in &asked.sizes {
        println!("\n{}: {} parts, {} machines, {} shifts", size.name, size.parts, size.machines, size.shifts);
        println!("{}", if asked.with_setups { SETUP_HEAD } else { LINEAR_HEAD });
        let mut ratios = Vec::new();
        for seed in asked.seeds.clone() {
            let problem = generated(*size, seed);
            let (ratio, line) = if asked.with_setups {
                with_setups(&problem, &asked)
            } else {
                without_setups(&problem, &asked)
            };
            println!("{ratio:8.4} | {seed:4} {line}");
            ratios.push(ratio);
        }
        ratios.sort_by(f64::total_cmp);
        if let (Some(least), Some(most)) = (ratios.first(), ratios.last()) {
            println!("ratio: least {least:.4}, middle {:.4}, most {most:.4}", ratios[ratios.len() / 2]);
        }
    }
    println!("\npeak memory {:.0} MB", peak_megabytes());
}

const SETUP_HEAD: &str = "cost to baseline | seed | ours: CPU s, cost, bound, gap %, gap % of what can be decided, rounds, parts \
    | baseline: CPU s, cost, bound, gap % | gap % to the best bound of both: ours, baseline";
const LINEAR_HEAD: &str = "CPU to baseline | seed | ours: CPU s, cost | to a verified plan: CPU s, violations | baseline: CPU s, cost";

fn asked() -> Asked {
    let mut asked =
        Asked { sizes: Vec::new(), seeds: 1..=6, seconds: 60.0, with_setups: true, baseline: true };
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        let mut next = || words.next().unwrap_or_default();
        match word.as_str() {
            "--size" => {
                let name = next();
                asked.sizes.extend(SIZES.iter().filter(|size| size.name == name));
            }
            "--seeds" => {
                let range = next();
                let (from, to) = range.split_once("..").unwrap_or((&range, &range));
                asked.seeds = from.parse().unwrap_or(1)..=to.parse().unwrap_or(1);
            }
            "--seconds" => asked.seconds = next().parse().unwrap_or(60.0),
            "--without-setups" => asked.with_setups = false,
            "--without-baseline" => asked.baseline = false,
            _ => {}
        }
    }
    if asked.sizes.is_empty() {
        asked.sizes.push(SIZES[0]);
    }
    asked
}

fn flows(problem: &Problem) -> Vec<f64> {
    problem.steps.iter().map(|step| step.good).collect()
}

fn our_lots(problem: &Problem, seconds: f64) -> Measured<LotPlan> {
    let limits = LotLimits {
        effort: Effort::Thorough,
        carry_over: CarryOver::Lost,
        rounds: 30,
        parts: usize::MAX,
        seconds: Some(seconds),
        lateness_price: Some(0.0),
        ..LotLimits::default()
    };
    measured(|| {
        lot_plan(problem, &flows(problem), &Reserve::none(problem), &limits)
            .unwrap_or_else(|error| unreachable!("every generated problem has a plan: {error}"))
    })
}

fn with_setups(problem: &Problem, asked: &Asked) -> (f64, String) {
    let ours = our_lots(problem, asked.seconds);
    let model = naive_model(problem, Setups::YesOrNo);
    let values = naive_values(problem, &model, &ours.result);
    model
        .check_answer(&values)
        .unwrap_or_else(|fault| unreachable!("the plan keeps every row of the first model: {fault}"));
    let (cost, bound) = (model.cost(&values), ours.result.bound);
    assert!(
        (cost - ours.result.cost).abs() <= 1e-6 * cost,
        "costs {cost}, said to cost {}",
        ours.result.cost
    );
    let floor = least_running(problem);
    let percent = |cost: f64, bound: f64| 100.0 * (cost - bound) / cost;
    let mut line = format!(
        "| {:6.1} {cost:12.1} {bound:12.1} {:6.2} {:6.2} {:3} {:4}",
        ours.seconds,
        percent(cost, bound),
        100.0 * (cost - bound) / (cost - floor),
        ours.result.rounds,
        ours.result.parts
    );
    if !asked.baseline {
        return (1.0, line);
    }
    let limits = Limits { gap: 1e-4, seconds: Some(asked.seconds), nodes: None, stop: None };
    let native = measured(|| solve_whole(&model, None, &limits));
    match native.result {
        Ok(native_result) => {
            let best = bound.max(native_result.bound);
            line += &format!(
                " | {:6.1} {:12.1} {:12.1} {:6.2} | {:6.2} {:6.2}",
                native.seconds,
                native_result.cost,
                native_result.bound,
                percent(native_result.cost, native_result.bound),
                percent(cost, best),
                percent(native_result.cost, best)
            );
            (cost / native_result.cost, line)
        }
        Err(error) => (0.0, format!("{line} | {error}")),
    }
}

/// Running all pieces on the cheapest machines in the cheapest shifts: what no decision of the plan can change.
fn least_running(problem: &Problem) -> f64 {
    let mut wanted = vec![0.0; problem.steps.len()];
    for demand in &problem.demands {
        wanted[demand.step] += demand.quantity;
    }
    let mut all = 0.0;
    for step in (0..wanted.len()).rev() {
        let costs = problem.makers(step).flat_map(|maker| {
            let activity = &problem.activities[maker];
            (0..problem.slots.len()).map(move |slot| {
                let uses = activity.uses.iter();
                let running: f64 =
                    uses.map(|(of, minutes)| minutes * problem.resources[*of].cost[slot]).sum();
                activity.cost + running
            })
        });
        all += wanted[step] * costs.fold(f64::INFINITY, f64::min);
        for (input, pieces) in &problem.steps[step].inputs {
            wanted[*input] += wanted[step] * pieces;
        }
    }
    all
}

fn without_setups(problem: &Problem, asked: &Asked) -> (f64, String) {
    let ours = measured(|| wearland::schedule::plan_without_setups(problem, &flows(problem)));
    let mut line = match &ours.result {
        Ok(solution) => format!("| {:7.3} {:12.2}", ours.seconds, solution.cost),
        Err(error) => format!("| {error}"),
    };
    let mut bare = problem.clone();
    bare.activities.iter_mut().for_each(|activity| (activity.setup, activity.setup_within) = (0.0, 0.0));
    if problem.activities.len() < 2000 {
        let whole = measured(|| plan(&bare, &Search { rounds: 1, ..Search::default() }));
        match whole.result {
            Ok(planned) => {
                line += &format!(" | {:7.3} {}", whole.seconds, verify(&bare, &planned.plan).len())
            }
            Err(error) => line += &format!(" | {error}"),
        }
    }
    if !asked.baseline {
        return (1.0, line);
    }
    let native = measured(|| solve(&naive_model(problem, Setups::LeftOut)));
    match &native.result {
        Ok(solution) => line += &format!(" | {:7.3} {:12.2}", native.seconds, solution.cost),
        Err(error) => line += &format!(" | {error}"),
    }
    (ours.seconds / native.seconds.max(1e-9), line)
}
