//! The status file: what is known of the floor at a moment. Names are those of the scenario.

use super::calendar::moment;
use super::files::{FileError, join, read_all};
use super::order::{item_named, operation_named};
use super::read;
use super::tree::Table;
use super::{Fields, Spanned};
use crate::diag::{Code, Diagnostic, Diagnostics, SourceMap, Span, nearest};
use crate::plant::seconds_from;
use crate::quantity::Fraction;
use crate::schedule::Scenario;
use std::path::Path;

/// The floor as a status file tells it.
#[derive(Debug, Clone, PartialEq)]
pub struct Status {
    /// The moment, seconds from midnight of the plan's first day.
    pub now: Spanned<i64>,
    /// Good pieces made since the start of the plan.
    pub done: Vec<Counted>,
    /// Pieces counted where they lie.
    pub stock: Vec<Counted>,
    /// Pieces shipped since the start of the plan, by place of the order.
    pub shipped: Vec<(Spanned<usize>, u32)>,
    /// Machines that are down.
    pub down: Vec<Down>,
    /// People who are missing.
    pub missing: Vec<Missing>,
    /// Edges looked at.
    pub edges: Vec<EdgeSeen>,
    /// Edges in the crib, by place of the tool.
    pub on_hand: Vec<(Spanned<usize>, u32)>,
    /// What machines run.
    pub running: Vec<RunsOn>,
    /// Whether the work that runs goes on first.
    pub keep_running: bool,
}

/// Pieces of an operation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Counted {
    /// The item.
    pub item: usize,
    /// Place of the operation.
    pub operation: usize,
    /// Pieces.
    pub pieces: u32,
    /// The table.
    pub span: Span,
}

/// A machine that is down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Down {
    /// The machine.
    pub machine: usize,
    /// From when.
    pub from: i64,
    /// Until when.
    pub until: i64,
}

/// People of a skill who are missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Missing {
    /// The skill.
    pub skill: usize,
    /// How many.
    pub people: u32,
    /// From when.
    pub from: i64,
    /// Until when.
    pub until: i64,
}

/// How far an edge is worn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EdgeWorn {
    /// Share of its life.
    Share(Fraction),
    /// Pieces that it has left of the work that the machine stands set up for.
    Left(u32),
}

/// An edge looked at.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeSeen {
    /// The machine.
    pub machine: usize,
    /// The tool.
    pub tool: usize,
    /// Where it sits, if the cuts say where.
    pub position: Option<String>,
    /// How far it is worn.
    pub worn: EdgeWorn,
    /// The table.
    pub span: Span,
}

/// Work on a machine, still to be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RunsOn {
    /// The machine.
    pub machine: usize,
    /// Item, place of the operation and pieces still to be started.
    pub work: Counted,
}

/// Reads a status file; `None` if it has mistakes.
///
/// # Errors
/// A file that cannot be read.
pub fn read_status(
    path: &Path,
    scenario: &Scenario,
    sources: &mut SourceMap,
    diagnostics: &mut Diagnostics,
) -> Result<Option<Status>, FileError> {
    let root = join(read_all(path)?, sources, diagnostics);
    Ok(root.and_then(|root| status(&root, scenario, diagnostics)).filter(|_| !diagnostics.has_errors()))
}

fn status(root: &Table, scenario: &Scenario, diagnostics: &mut Diagnostics) -> Option<Status> {
    let mut top = Fields::new(root, "status file", diagnostics);
    let now = top.required("now", moment);
    let keep_running = top.optional("keep_running", read::flag);
    let lists = ["done", "stock", "shipped", "down", "missing", "edge", "edges", "running"]
        .map(|key| top.tables(key));
    top.finish();
    let [done, stock, shipped, down, missing, edge, edges, running] = lists;
    let seconds = |at| seconds_from(scenario.calendar.start, at);
    let now = now.map(|now| Spanned { value: seconds(now.value), span: now.span });
    // Without a time, only what hangs on none is looked at.
    let of = Reader { scenario, now: now.map_or(i64::MIN, |now| now.value) };
    let done = each(&done, diagnostics, |table, found| of.counted(table, found));
    let stock = each(&stock, diagnostics, |table, found| of.counted(table, found));
    let shipped = each(&shipped, diagnostics, |table, found| of.shipped(table, found));
    let down = each(&down, diagnostics, |table, found| of.down(table, found));
    let missing = each(&missing, diagnostics, |table, found| of.missing(table, found));
    let edge = each(&edge, diagnostics, |table, found| of.edge(table, found));
    let on_hand = each(&edges, diagnostics, |table, found| of.on_hand(table, found));
    let running = each(&running, diagnostics, |table, found| of.running(table, found));
    let status = Status {
        now: now?,
        done: done?,
        stock: stock?,
        shipped: shipped?,
        down: down?,
        missing: missing?,
        edges: edge?,
        on_hand: on_hand?,
        running: running?,
        keep_running: keep_running.is_none_or(|keep| keep.value),
    };
    let place = |counted: &Counted| ((counted.item, counted.operation), counted.span);
    once("this operation", status.done.iter().map(place), diagnostics);
    once("this operation", status.stock.iter().map(place), diagnostics);
    once("this order", status.shipped.iter().map(|(order, _)| (order.value, order.span)), diagnostics);
    once("this tool", status.on_hand.iter().map(|(tool, _)| (tool.value, tool.span)), diagnostics);
    once("this machine", status.running.iter().map(|runs| (runs.machine, runs.work.span)), diagnostics);
    let seen = |edge: &EdgeSeen| ((edge.machine, edge.tool, edge.position.clone()), edge.span);
    once("this edge", status.edges.iter().map(seen), diagnostics);
    Some(status)
}

/// Every table of a list, all mistakes found.
fn each<T>(
    tables: &[&Table],
    diagnostics: &mut Diagnostics,
    read: impl Fn(&Table, &mut Diagnostics) -> Option<T>,
) -> Option<Vec<T>> {
    let read: Vec<Option<T>> = tables.iter().map(|table| read(table, diagnostics)).collect();
    read.into_iter().collect()
}

fn once<K: PartialEq>(what: &str, entries: impl Iterator<Item = (K, Span)>, diagnostics: &mut Diagnostics) {
    let mut seen: Vec<(K, Span)> = Vec::new();
    for (key, span) in entries {
        if let Some((_, first)) = seen.iter().find(|(other, _)| *other == key) {
            diagnostics.push(
                Diagnostic::new(Code::GivenTwice, format!("{what} is counted twice"))
                    .at(span, "here again")
                    .also(*first, "first here"),
            );
        }
        seen.push((key, span));
    }
}

struct Reader<'s> {
    scenario: &'s Scenario,
    now: i64,
}

impl Reader<'_> {
    fn counted(&self, table: &Table, diagnostics: &mut Diagnostics) -> Option<Counted> {
        let mut fields = Fields::new(table, "count", diagnostics);
        let place = self.place(&mut fields);
        let pieces = fields.required("pieces", read::count_or_zero);
        fields.finish();
        let (item, operation) = place?;
        Some(Counted { item, operation, pieces: pieces?.value, span: table.span })
    }

    /// Item and operation.
    fn place(&self, fields: &mut Fields<'_, '_>) -> Option<(usize, usize)> {
        let items = &self.scenario.shop.items;
        let item = fields.required("item", read::name);
        let item = item.and_then(|name| item_named(&name, items, fields.diagnostics()));
        let operation = fields.required("operation", read::count);
        let item = item?;
        Some((item, operation_named(&operation?, &items[item], fields.diagnostics())?))
    }

    fn shipped(&self, table: &Table, diagnostics: &mut Diagnostics) -> Option<(Spanned<usize>, u32)> {
        let mut fields = Fields::new(table, "shipment", diagnostics);
        let order = fields.required("order", read::name);
        let pieces = fields.required("pieces", read::count_or_zero);
        let order = order.and_then(|name| {
            let ids = self.scenario.orders.iter().map(|order| order.id.as_str());
            named("order", &name, ids, fields.diagnostics())
        });
        fields.finish();
        let (order, pieces) = (order?, pieces?);
        let wanted = self.scenario.orders[order.value].quantity;
        if pieces.value > wanted {
            let message = format!("{} pieces are shipped and {wanted} are wanted", pieces.value);
            diagnostics
                .push(Diagnostic::new(Code::OutOfRange, message).at(pieces.span, "more than the order"));
            return None;
        }
        Some((order, pieces.value))
    }

    fn down(&self, table: &Table, diagnostics: &mut Diagnostics) -> Option<Down> {
        let mut fields = Fields::new(table, "machine that is down", diagnostics);
        let machine = self.machine(&mut fields);
        let span = self.span(&mut fields);
        fields.finish();
        let (from, until) = span?;
        Some(Down { machine: machine?, from, until })
    }

    fn missing(&self, table: &Table, diagnostics: &mut Diagnostics) -> Option<Missing> {
        let mut fields = Fields::new(table, "missing crew", diagnostics);
        let skill = fields.required("skill", read::name);
        let skill = skill.and_then(|name| {
            let skills = self.scenario.calendar.skills.iter().map(String::as_str);
            named("skill", &name, skills, fields.diagnostics())
        });
        let people = fields.required("people", read::count);
        let span = self.span(&mut fields);
        fields.finish();
        let (from, until) = span?;
        Some(Missing { skill: skill?.value, people: people?.value, from, until })
    }

    fn edge(&self, table: &Table, diagnostics: &mut Diagnostics) -> Option<EdgeSeen> {
        let mut fields = Fields::new(table, "edge", diagnostics);
        let machine = self.machine(&mut fields);
        let tool = self.tool(&mut fields);
        let position = fields.optional("position", read::text);
        let worn = match fields.exactly_one(&["worn", "left"]) {
            Some("worn") => fields.optional("worn", read::share).map(|share| EdgeWorn::Share(share.value)),
            Some(_) => {
                fields.optional("left", read::count_or_zero).map(|pieces| EdgeWorn::Left(pieces.value))
            }
            None => None,
        };
        fields.finish();
        Some(EdgeSeen {
            machine: machine?,
            tool: tool?.value,
            position: position.map(|position| position.value),
            worn: worn?,
            span: table.span,
        })
    }

    fn on_hand(&self, table: &Table, diagnostics: &mut Diagnostics) -> Option<(Spanned<usize>, u32)> {
        let mut fields = Fields::new(table, "count of edges", diagnostics);
        let tool = self.tool(&mut fields);
        let edges = fields.required("on_hand", read::count_or_zero);
        fields.finish();
        Some((tool?, edges?.value))
    }

    fn running(&self, table: &Table, diagnostics: &mut Diagnostics) -> Option<RunsOn> {
        let mut fields = Fields::new(table, "work that runs", diagnostics);
        let machine = self.machine(&mut fields);
        let place = self.place(&mut fields);
        let pieces = fields.required("pieces", read::count_or_zero);
        fields.finish();
        let ((item, operation), machine) = (place?, machine?);
        let of = &self.scenario.shop.items[item];
        if !of.operations[operation].machines.contains(&machine) {
            let name = &self.scenario.shop.machines[machine].key;
            let message = format!("`{}` {} cannot run on `{name}`", of.key, of.operations[operation].id);
            let code = Code::UnknownName;
            diagnostics.push(Diagnostic::new(code, message).at(table.span, "the operation does not name it"));
            return None;
        }
        let work = Counted { item, operation, pieces: pieces?.value, span: table.span };
        Some(RunsOn { machine, work })
    }

    fn machine(&self, fields: &mut Fields<'_, '_>) -> Option<usize> {
        let name = fields.required("machine", read::name)?;
        let machines = self.scenario.shop.machines.iter().map(|machine| machine.key.as_str());
        named("machine", &name, machines, fields.diagnostics()).map(|machine| machine.value)
    }

    fn tool(&self, fields: &mut Fields<'_, '_>) -> Option<Spanned<usize>> {
        let name = fields.required("tool", read::name)?;
        let tools = self.scenario.shop.tools.iter().map(|tool| tool.key.as_str());
        named("tool", &name, tools, fields.diagnostics())
    }

    /// From `from`, or else from now, until `until`, which lies ahead.
    fn span(&self, fields: &mut Fields<'_, '_>) -> Option<(i64, i64)> {
        let seconds = |at| seconds_from(self.scenario.calendar.start, at);
        let from = fields.optional("from", moment).map_or(self.now, |from| seconds(from.value));
        let until = fields.required("until", moment)?;
        let end = seconds(until.value);
        if end <= from.max(self.now) {
            let message = "this time is over before it begins, or before now";
            let code = Code::OutOfRange;
            fields.diagnostics().push(Diagnostic::new(code, message).at(until.span, "ends too early"));
            return None;
        }
        Some((from, end))
    }
}

/// A name among those of the scenario.
fn named<'n>(
    what: &str,
    name: &Spanned<String>,
    known: impl Iterator<Item = &'n str> + Clone,
    diagnostics: &mut Diagnostics,
) -> Option<Spanned<usize>> {
    let found = known.clone().position(|other| other == name.value);
    if found.is_none() {
        let message = format!("the scenario has no {what} `{}`", name.value);
        let near = nearest(&name.value, known);
        diagnostics
            .push(Diagnostic::new(Code::UnknownName, message).at(name.span, "not found").did_you_mean(near));
    }
    found.map(|value| Spanned { value, span: name.span })
}
