//! Lives with their scatter, change points with the rule behind each, offset corrections.

use crate::commands::tables::{alike, operation, placed};
use crate::cycle::{Making, OperationEstimate, Rule, ToolUse};
use crate::quantity::{Duration, Length, Money, MoneyRate};
use crate::report::{Cell, Column, Holds, Table};
use crate::schedule::Scenario;
use crate::tooling::replacement::PieceOutcome;
use crate::tooling::{LifeShape, ReferenceLife};

/// Columns that say which edge it is.
pub(super) fn edges(key: &'static str, heading: &str) -> Table {
    Table::new(key, heading)
        .column(Column::text("item", "item"))
        .column(Column::text("operation", "op"))
        .column(Column::text("machines", "machines"))
        .column(Column::text("tool", "tool"))
}

/// Calls back for each edge place of each operation, machines that are alike joined.
pub(super) fn each_edge(
    scenario: &Scenario,
    estimates: &[OperationEstimate],
    mut with: impl FnMut(Vec<Cell>, &OperationEstimate, &ToolUse),
) {
    for (estimate, machines) in alike(scenario, estimates) {
        let (item, number) = operation(scenario, estimate);
        for used in &estimate.tools {
            let tool = placed(&scenario.shop.tools[used.tool].key, &used.position);
            with(
                vec![item.as_str().into(), number.as_str().into(), machines.as_str().into(), tool.into()],
                estimate,
                used,
            );
        }
    }
}

/// Average life of each edge, how it scatters, and how sure that is.
pub(super) fn lives(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let mut table = edges("lives", "Lives of the edges")
        .remark(
            "An average edge makes so many pieces; one in twenty fails by the pieces of `5 % fail by`. The variation is the standard \
             deviation of the life over its mean: most are bands of practice, `wearland catalog scatter`; a log of your own changes, \
             `wearland fit`, tells yours.",
        )
        .column(Column::text("law", "life by"))
        .column(Column::quantity::<Duration>("life", "in cut").in_unit("min"))
        .column(Column::new("average", "average edge", Holds::Number { unit: "pieces", key: "pieces" }).decimals(1))
        .column(Column::new("variation", "variation", Holds::Ratio).decimals(2))
        .column(Column::text("family", "family"))
        .column(Column::text("known", "known from"))
        .column(Column::count("early", "5 % fail by", "pieces"))
        .column(Column::count("half", "half fail by", "pieces"))
        .column(Column::count("late", "5 % last beyond", "pieces"));
    each_edge(scenario, estimates, |mut row, estimate, used| {
        let point = &used.point;
        let pieces = |survival: f64| whole(point.change.spread.age_at(survival) * point.average);
        row.extend([
            law(scenario, estimate, used).into(),
            in_cut(scenario, estimate, used).map(|time| time * point.average).into(),
            point.average.into(),
            point.variation.value.into(),
            point.family.name().into(),
            format!("{}, {}", point.variation.source, point.variation.standing.text()).into(),
            pieces(0.95),
            pieces(0.5),
            pieces(0.05),
        ]);
        table.row(row);
    });
    table
}

/// What each rule asks for, which one rules, and what the change point costs against its neighbours.
pub(super) fn change_points(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let mut table = edges("change_points", "Change points")
        .remark(
            "The least of the rules holds; a common stop takes their place, as far as size, finish and the shop allow. An edge that costs no \
             more if it is left in until it fails has no count. Costs are those of the edge for a good piece: edges, planned changes, stops \
             and pieces lost when an edge fails, which is found at the end of its piece; `at the average life` is for edges changed blindly \
             there. By `average life` somebody watches each edge and takes it out when it is worn, so that none is taken to fail. Without a \
             rate of the machine or a price of the edge, most good pieces an hour stand in for least cost.",
        )
        .column(Column::count("economy", "economy", "pieces"))
        .column(Column::count("survival", "survival", "pieces"))
        .column(Column::count("size", "size", "pieces"))
        .column(Column::count("finish", "finish", "pieces"))
        .column(Column::count("allowed", "allowed", "pieces"))
        .column(Column::count("common_stop", "common stop", "pieces"))
        .column(Column::count("change_after", "change after", "pieces"))
        .column(Column::text("ruled_by", "ruled by"))
        .column(Column::new("fail_before", "fail before", Holds::Share))
        .column(Column::new("good_per_edge", "good an edge", Holds::Number { unit: "pieces", key: "pieces" }).decimals(1))
        .column(Column::quantity::<Money>("cost", "costs a piece").decimals(4))
        .column(Column::quantity::<Money>("at_average", "at the average life").decimals(4))
        .column(Column::quantity::<Money>("to_failure", "left to fail").decimals(4));
    each_edge(scenario, estimates, |mut row, _, used| {
        let point = &used.point;
        let asked = |wanted: &[Rule]| -> Cell {
            let found = point.rules.iter().find(|(rule, _)| wanted.contains(rule));
            found.map(|(_, pieces)| *pieces).into()
        };
        let cost = |outcome: PieceOutcome| edge_share(used, &outcome);
        let rate = point.change.rate;
        row.extend([
            asked(&[Rule::LeastCost, Rule::MostAnHour, Rule::AverageLife]),
            asked(&[Rule::Survival]),
            asked(&[Rule::SizeDrift]),
            asked(&[Rule::Finish]),
            asked(&[Rule::MostPieces]),
            asked(&[Rule::CommonStop]),
            if point.rule == Rule::ToFailure { Cell::Missing } else { used.pieces.into() },
            point.rule.name().into(),
            if point.rule == Rule::AverageLife { Cell::Missing } else { Cell::share(point.failed()) },
            (point.made() - point.failed()).into(),
            used.is_priced().then(|| good_piece(used, rate)).into(),
            cost(point.change.outcome(floor(point.average))).into(),
            cost(point.change.run_to_failure()).into(),
        ]);
        table.row(row);
    });
    table
}

/// What an edge at its change point costs a good piece beyond the machine time of the piece: all that was spent on the pieces made
/// falls on those that are good.
fn good_piece(used: &ToolUse, rate: MoneyRate) -> Money {
    let run = rate.over(used.point.change.cycle);
    (run + used.wearing_cost(rate)) / (1.0 - used.point.failed() / used.point.made()) - run
}

/// What an edge costs a good piece beyond the machine time of the piece; `None` without price of the edge and rate of the machine.
pub(super) fn edge_share(used: &ToolUse, outcome: &PieceOutcome) -> Option<Money> {
    let change = &used.point.change;
    if !used.is_priced() {
        return None;
    }
    let cost = outcome.cost_per_good - change.rate.over(change.cycle);
    cost.amount().is_finite().then_some(cost)
}

/// When the offset is corrected, by how much, and how often to gauge.
pub(super) fn corrections(scenario: &Scenario, estimates: &[OperationEstimate]) -> Table {
    let mut table = edges("corrections", "Offset corrections for wear")
        .remark(
            "The wear land times the tangent of the clearance angle moves the edge back: a turned diameter grows, a bored one shrinks, \
             until the offset brings it back. Gauging twice between two corrections sees each come. Heat and chips drift too: gauge \
             more closely after a stop.",
        )
        .column(Column::text("cut", "cut"))
        .column(Column::quantity::<Length>("tolerance", "tolerance").decimals(4))
        .column(Column::quantity::<Length>("whole_drift", "drift of a life").decimals(4))
        .column(Column::quantity::<Length>("correct_by", "correct by").decimals(4))
        .column(Column::count("corrections", "times", "corrections"))
        .column(Column::prose("after_pieces", "after pieces"))
        .column(Column::count("gauge_every", "gauge every", "pieces"));
    each_edge(scenario, estimates, |row, estimate, used| {
        let cuts = &scenario.shop.items[estimate.item].operations[estimate.operation].cuts;
        for correction in &used.point.corrections {
            let Some(drift) = &estimate.cuts[correction.cut].0.kept.drift else { continue };
            let mut row = row.clone();
            row.extend([
                cuts[correction.cut].id.as_str().into(),
                drift.tolerance.into(),
                drift.whole.into(),
                correction.amount.into(),
                correction.after.len().into(),
                listed(&correction.after, drift.limit).into(),
                correction.gauge_every.into(),
            ]);
            table.row(row);
        }
    });
    table
}

fn listed(pieces: &[u32], limit: Option<f64>) -> String {
    if pieces.is_empty() {
        return if limit.is_some() { "none allowed" } else { "none needed" }.to_owned();
    }
    if pieces.windows(2).any(|pair| pair[0] == pair[1]) {
        return "several in one piece: this edge does not keep the size".to_owned();
    }
    let mut words: Vec<String> = pieces.iter().take(MOST_NAMED).map(u32::to_string).collect();
    if pieces.len() > MOST_NAMED {
        words.push("and so on".to_owned());
    }
    words.join(", ")
}

/// Most corrections that are named.
const MOST_NAMED: usize = 24;

/// Sources of the scatter shown.
pub(super) fn scatter_sources(estimates: &[OperationEstimate]) -> impl Iterator<Item = String> {
    let tools = estimates.iter().flat_map(|estimate| &estimate.tools);
    tools.map(|used| used.point.variation.source.clone()).filter(|source| source != "scenario")
}

/// Time in cut that wears an edge, for a piece.
fn in_cut(scenario: &Scenario, estimate: &OperationEstimate, used: &ToolUse) -> Option<Duration> {
    let cuts = &scenario.shop.items[estimate.item].operations[estimate.operation].cuts;
    let own = cuts.iter().zip(&estimate.cuts);
    let time = own
        .filter(|(cut, _)| cut.tool == used.tool && cut.position == used.position)
        .map(|(_, (cut, _))| cut.edge.life * cut.edge.share)
        .sum::<Duration>();
    (time > Duration::ZERO).then_some(time)
}

/// How the life is stated.
fn law(scenario: &Scenario, estimate: &OperationEstimate, used: &ToolUse) -> &'static str {
    let Making::Part { material, .. } = scenario.shop.items[estimate.item].making else { return "" };
    let group = scenario.shop.materials[material].group;
    let Some(law) = scenario.shop.tools[used.tool].life_in(group) else { return "" };
    match (&law.shape, law.life.value) {
        (LifeShape::Colding(_), _) => "Colding",
        (LifeShape::Taylor(_), ReferenceLife::Time(_)) => "Taylor, minutes",
        (LifeShape::Taylor(_), ReferenceLife::Path(_)) => "Taylor, metres",
        (LifeShape::Taylor(_), ReferenceLife::Holes { .. }) => "Taylor, holes",
        (LifeShape::Taylor(_), ReferenceLife::Volume(_)) => "volume",
    }
}

fn whole(pieces: f64) -> Cell {
    floor(pieces).into()
}

/// Whole pieces, rounded down.
pub(super) fn floor(pieces: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the range of u32"
    )]
    let whole = (pieces * (1.0 + 1e-9)).floor().clamp(0.0, f64::from(u32::MAX)) as u32;
    whole
}
