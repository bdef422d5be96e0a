//! `plan`: who makes what on which machine in which shift, who is late and why, when does which tool come out?
//!
//! input -> Scenario -> cycle -> schedule::Problem -> lp, sequencer -> Plan -> verify -> report

use super::capacity::capacity_sections;
use super::failure::{Answer, Failure, Verdict};
use super::study::{Request, Study};
use super::tables;
use crate::quantity::{Duration, Money};
use crate::report::{Cell, Column, Document, Faces, Holds, Table};
use crate::schedule::{
    Planned, Problem, ResourceKind, Search, build_problem, late_orders, plan as make_plan, ways_out, worths,
};

/// The whole road: cutting data, cycles, capacity, board, orders, tool changes, edges.
///
/// # Errors
/// [`Failure`].
pub fn plan(request: &Request) -> Result<Answer, Failure> {
    let study = Study::new(request)?;
    let (scenario, estimates) = (&study.worked.scenario, &study.worked.estimates);
    let built = build_problem(scenario, estimates);
    let planned = make_plan(&built.problem, &Search::default())?;
    let late: Vec<usize> = (0..built.problem.demands.len())
        .filter(|demand| planned.plan.piece_hours_late(&built.problem, *demand) > 1e-9)
        .collect();
    let causes = late_orders(&built.problem, &planned.plan)?;
    let worths = worths(&built.problem, &planned.plan)?;
    let ways = ways_out(&built.problem, &planned, &late)?;
    let mut document = Document::new(format!("{}: plan", scenario.title));
    document.push(worth(&planned, &built.problem, late.len()));
    if let Some(written) = &study.as_written {
        let old = build_problem(&written.scenario, &written.estimates).problem;
        let before = make_plan(&old, &Search::default())?;
        document.push(tables::plan_comparison((&old, &before), (&built.problem, &planned)));
    }
    document.push(tables::orders(scenario, &built, &planned.plan, &causes));
    let advised = tables::Advised { scenario, built: &built };
    for section in advised.sections(&worths, &causes, &ways) {
        document.push(section);
    }
    for section in capacity_sections(&study)? {
        document.push(section);
    }
    for section in tables::board(scenario, &built, &planned.plan) {
        document.push(section);
    }
    if let Some(table) = tables::lots_outside(scenario, &built, &planned.plan) {
        document.push(table);
    }
    for section in tables::changes(scenario, &built, &planned.plan) {
        document.push(section);
    }
    document.push(tables::edges(scenario, estimates, &built, &planned.plan));
    for section in tables::edges_by_day(scenario, &built, &planned.plan) {
        document.push(section);
    }
    document.push(tables::stock(scenario, &built, &planned.plan));
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
    let units = study.units();
    let short =
        (0..built.problem.steps.len()).any(|step| planned.plan.missing_at_end(&built.problem, step) > 0.0);
    let verdict = if late.is_empty() && !short { Verdict::Yes } else { Verdict::No };
    Ok(Answer {
        document,
        units,
        verdict,
        warnings: study.warnings,
        sources: study.sources,
        beside: Vec::new(),
    })
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
