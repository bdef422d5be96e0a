//! `plan`: who makes what on which machine in which shift, who is late and why, when does which tool come out?
//!
//! input -> Scenario -> cycle -> schedule::Problem -> (status, last plan -> problem from now on) -> lp, sequencer -> Plan ->
//! verify -> report

use super::capacity::capacity_sections;
use super::failure::{Answer, Beside, Failure, Verdict};
use super::replan::{Stage, changed};
use super::study::{Request, Study};
use super::tables;
use crate::quantity::{Duration, Money};
use crate::report::{Cell, Column, Document, Faces, Holds, Section, Table};
use crate::schedule::{
    PlanModel, Planned, Problem, Ready, Reserve, ResourceKind, Search, build_problem, late_orders,
    plan as make_plan, ways_out, worths, write_mps,
};
use std::path::{Path, PathBuf};
use std::sync::atomic::Ordering;

/// What is told of what holds a plan back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Advice {
    /// What each late order waited for.
    #[default]
    Causes,
    /// Also what one more hour, person, edge or day is worth, and what would bring late orders in time, each tried.
    WaysOut,
}

/// What is planned, from when, and how long a better plan is looked for.
pub struct PlanRequest<'s> {
    /// The scenario.
    pub scenario: Request,
    /// Status of the floor: the plan begins at its time.
    pub status: Option<PathBuf>,
    /// The last plan, a report written as JSON: taken as kept up to now, and compared with.
    pub last: Option<PathBuf>,
    /// How long to look for better plans, who may stop it and who is told.
    pub search: Search<'s>,
    /// How much is asked about what holds the plan back.
    pub advice: Advice,
    /// Where to write the linear program whose optimum is the least cost, for another solver.
    pub model: Option<PathBuf>,
}

/// The whole road: cutting data, cycles, capacity, board, orders, tool changes, edges.
///
/// # Errors
/// [`Failure`].
pub fn plan(request: &PlanRequest<'_>) -> Result<Answer, Failure> {
    let mut study = Study::new(&request.scenario)?;
    let stage = Stage::new(&mut study, request.status.as_ref(), request.last.as_ref())?;
    let (scenario, built, estimates) = (&stage.scenario, &stage.built, &study.worked.estimates);
    let planned = make_plan(&built.problem, &request.search)?;
    let is_stopped = || request.search.stop.is_some_and(|stop| stop.load(Ordering::Relaxed));
    let cut_short = is_stopped() && !is_best(&planned, request.search.gap);
    let late: Vec<usize> = (0..built.problem.demands.len())
        .filter(|demand| planned.plan.piece_hours_late(&built.problem, *demand) > 1e-9)
        .collect();
    let causes = late_orders(&built.problem, &planned.plan)?;
    // Advice takes as long as the search: who could not wait for that is not kept waiting for this.
    let asked = request.advice == Advice::WaysOut && !is_stopped();
    let worths = if asked { worths(&built.problem, &planned.plan)? } else { Vec::new() };
    let ways =
        if asked { ways_out(&built.problem, &planned, &causes, request.search.stop)? } else { Vec::new() };
    let mut document = Document::new(format!("{}: plan", scenario.title));
    document.push(worth(&planned, &built.problem, late.len()));
    if let Some(written) = study.as_written.as_ref().filter(|_| stage.state.is_none()) {
        let old = build_problem(&written.scenario, &written.estimates).problem;
        let before = make_plan(&old, &Search { told: None, ..request.search })?;
        document.push(tables::plan_comparison((&old, &before), (&built.problem, &planned)));
    }
    if let Some((freed, written)) = &study.freed {
        document.push(tables::speeds(&study.worked, freed));
        document.push(tables::speed_gains(&study.worked, freed, written));
        document.push(tables::speed_programs(freed));
    }
    if let Some(last) = &stage.last {
        let changed = changed(&stage, last, &study.worked.scenario.calendar, &planned.plan);
        document.sections.extend(tables::changed_plan(&changed));
    }
    document.push(tables::orders(scenario, built, &planned.plan, &causes));
    if let Some(state) = &stage.state {
        document.sections.extend(tables::begun(&study.worked.scenario, &stage.whole, state));
    }
    let advised = tables::Advised { scenario, built };
    document.sections.extend(advised.sections(&worths, &causes, &ways));
    document.sections.extend(capacity_sections(&study)?);
    document.sections.extend(tables::board(scenario, built, &planned.plan));
    document.sections.extend(tables::lots_outside(scenario, built, &planned.plan).map(Section::from));
    document.sections.extend(tables::changes(scenario, built, &planned.plan));
    document.push(tables::edges(scenario, estimates, built, &planned.plan));
    document.sections.extend(tables::edges_by_day(scenario, built, &planned.plan));
    document.push(tables::stock(scenario, built, &planned.plan));
    document.sections.extend(tables::kept(scenario, built, &planned.plan));
    reasons(&mut document, &study);
    let short =
        (0..built.problem.steps.len()).any(|step| planned.plan.missing_at_end(&built.problem, step) > 0.0);
    let verdict = if cut_short {
        Verdict::CutShort
    } else if late.is_empty() && !short {
        Verdict::Yes
    } else {
        Verdict::No
    };
    let beside = request.model.iter().map(|path| model(path, &built.problem, &planned)).collect();
    let units = study.units();
    Ok(Answer { document, units, verdict, warnings: study.warnings, sources: study.sources, beside })
}

/// The program that bounds the money of all plans no later than this one, as a file.
fn model(path: &Path, problem: &Problem, planned: &Planned) -> Beside {
    let good: Vec<f64> = problem.steps.iter().map(|step| step.good).collect();
    let program = PlanModel::build(problem, &good, &Reserve::none(problem), Ready::AtStart);
    let mut text = String::new();
    // Writing to a `String` cannot fail.
    let _ = write_mps(&program.money_model(planned.lateness), "least-cost", &mut text);
    Beside { path: path.to_owned(), text }
}

/// Cycles, cutting data and their sources: they hang on no moment.
fn reasons(document: &mut Document, study: &Study) {
    let (scenario, estimates) = (&study.worked.scenario, &study.worked.estimates);
    document.push(tables::cycles(scenario, estimates));
    document.push(tables::elements(scenario, estimates, Faces::DataOnly));
    document.push(tables::cutting_data(scenario, estimates));
    document.push(tables::loads(scenario, estimates));
    if let Some(table) = tables::slowed(scenario, estimates) {
        document.push(table);
    }
    document.push(tables::wear(scenario, estimates));
    document.push(tables::cautions(scenario, estimates));
    document.push(tables::sources(&tables::used_sources(scenario, estimates), &study.citations));
}

/// Whether no longer search could give a plan that is better by more than a share of the bound.
fn is_best(planned: &Planned, gap: f64) -> bool {
    let near = |found: f64, bound: f64| found <= bound + gap * bound.abs() + 1e-6;
    near(planned.lateness, planned.lateness_bound) && near(planned.cost, planned.cost_bound)
}

/// The plan in one row, against what no plan can be better than.
fn worth(planned: &Planned, problem: &Problem, late: usize) -> Table {
    let piece_hours = Holds::Number { unit: "piece h", key: "piece_h" };
    let mut table = Table::new("plan", "The plan, verified")
        .remark(remark(problem))
        .column(Column::count("orders", "orders", "orders"))
        .column(Column::count("late", "late", "orders"))
        .column(Column::new("lateness", "lateness", piece_hours).decimals(1))
        .column(Column::new("least_lateness", "least lateness", piece_hours).decimals(1))
        .column(Column::quantity::<Money>("cost", "cost").decimals(0))
        .column(Column::quantity::<Money>("least_cost", "least cost").decimals(0))
        .column(Column::quantity::<Duration>("setups", "setups").in_unit("h"))
        .column(Column::count("tool_changes", "tool changes", "changes"))
        .column(Column::count("rounds", "rounds", "rounds"));
    let setups: f64 = planned.plan.lots.iter().map(|lot| lot.setup).sum();
    table.row(vec![
        problem.demands.len().into(),
        late.into(),
        planned.lateness.into(),
        planned.lateness_bound.into(),
        Money::of(planned.cost).into(),
        Money::of(planned.cost_bound).into(),
        Duration::min(setups).into(),
        Cell::from(planned.plan.changes.len()),
        planned.rounds.into(),
    ]);
    table
}

/// What the plan's figures leave out and take in; what only some scenarios have is said where it is there.
fn remark(problem: &Problem) -> String {
    let mut words = "No plan is less late than the least lateness, and none that is no later than this one costs less than the \
             least cost: both leave out setups and whole pieces, and count a piece as ready when its shift begins. \
             Lateness is weighted by priority; a piece missing from the stock wanted at the end counts as a day. Money \
             is machine hours with shift premium, edges by wear, tool changes on average, setups and holding."
    .to_owned();
    if problem.demands.iter().any(|demand| demand.late_price > 0.0) {
        words.push_str(" Orders with a price of lateness count in the money, and not in the piece hours.");
    }
    if problem.resources.iter().any(|resource| resource.kind == ResourceKind::Outside) {
        words.push_str(" What firms outside ask for a piece is in it too.");
    }
    words
}
