//! Cuts from their tables.

use super::read::{self, Bounds, Reading};
use super::registry::Registry;
use super::tree::Table;
use super::work::{kinds, work};
use super::{Fields, Node, Spanned, Value};
use crate::cycle::{Asked, Cut, Feed, Offset, Repair, SpeedFreedom, Work};
use crate::diag::{Code, Diagnostic, Diagnostics, Span};
use crate::quantity::{
    CuttingSpeed, FeedPerRev, FeedPerStroke, FeedPerTooth, Fraction, Length, Roughness, SpindleSpeed,
};
use crate::tooling::ToolKind;

/// Where a cut is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CutPlaces {
    /// Its header.
    pub header: Span,
    /// Its tool.
    pub tool: Span,
    /// Its speed.
    pub speed: Span,
    /// Its feed, or its header.
    pub feed: Span,
}

/// Path at rapid to and from a cut where none is given.
const RAPID_PATH: Length = Length::mm(150.0);

/// Reads a cut.
pub(super) fn cut(
    table: &Table,
    registry: &mut Registry<'_>,
    diagnostics: &mut Diagnostics,
) -> Option<(Cut, CutPlaces)> {
    let mut fields = Fields::new(table, "cut", diagnostics);
    let header = fields.span();
    let id = fields.required("id", read::name);
    let name = fields.required("tool", read::name);
    let tool = name.as_ref().and_then(|name| registry.tool(name, fields.diagnostics()));
    let speed = fields.required("speed", read::quantity::<CuttingSpeed>(Bounds::Positive));
    let (freedom, feed) = (freedom(&mut fields), fields.optional("feed", feed));
    let depth = fields.optional("depth", read::quantity::<Length>(Bounds::Positive));
    let wear = fields.optional("wear", read::quantity::<Length>(Bounds::Positive));
    let channel = fields.optional("channel", read::count);
    let position = fields.optional("position", read::name);
    let rapid = fields.optional("rapid", read::quantity::<Length>(Bounds::NotNegative));
    let condition = fields.optional("condition", read::name);
    let condition = condition.map(|name| registry.condition(&name, fields.diagnostics()));
    let coolant = fields.optional("coolant", read::name);
    let coolant = coolant.map(|name| registry.coolant(&name, fields.diagnostics()));
    let fastest = fields.optional("fastest", read::quantity::<SpindleSpeed>(Bounds::Positive));
    let overhang = fields.optional("overhang", read::quantity::<Length>(Bounds::Positive));
    let asked = asked(&mut fields);
    let offset = offset(&mut fields);
    let sisters = fields.optional("sisters", read::count);
    let repair = fields.optional("repair", read::choice(&Repair::NAMES));
    let kind = fields.exactly_one(&kinds());
    let inner = kind.and_then(|kind| fields.optional(kind, read::table));
    let work = kind.zip(inner).and_then(|(kind, table)| work(kind, table.value, fields.diagnostics()));
    likely(feed.as_ref(), work.as_ref(), fields.diagnostics());
    fields.finish();
    let (name, work, tool, speed) = (name?, work?, tool?, speed?);
    suits(&name, registry.shop.tools[tool].kind, &work, diagnostics)?;
    if condition == Some(None) || coolant == Some(None) {
        return None;
    }
    let places = CutPlaces {
        header,
        tool: name.span,
        speed: speed.span,
        feed: feed.as_ref().map_or(header, |feed| feed.span),
    };
    let cut = Cut {
        id: id?.value,
        tool,
        position: position.map_or_else(String::new, |position| position.value),
        speed: speed.value,
        freedom,
        feed: feed.map(|feed| feed.value),
        depth: depth.map(|depth| depth.value),
        wear: wear.map(|wear| wear.value),
        channel: channel.map_or(1, |channel| channel.value),
        condition: condition.flatten(),
        coolant: coolant.flatten(),
        rapid: rapid.map_or(RAPID_PATH, |rapid| rapid.value),
        fastest: fastest.map(|speed| speed.value),
        overhang: overhang.map(|length| length.value),
        asked,
        offset,
        sisters: sisters.map_or(1, |sisters| sisters.value),
        repair: repair.map(|repair| repair.value),
        work,
    };
    Some((cut, places))
}

/// Whether the speed is kept: `keep_speed = true`.
fn freedom(fields: &mut Fields<'_, '_>) -> SpeedFreedom {
    match fields.optional("keep_speed", read::flag) {
        Some(Spanned { value: true, .. }) => SpeedFreedom::AsGiven,
        _ => SpeedFreedom::Free,
    }
}

/// How wear is offset: `{ share = "40 %", most = 3 }`.
fn offset(fields: &mut Fields<'_, '_>) -> Offset {
    let Some(table) = fields.optional("offset", read::table) else { return Offset::USUAL };
    let mut fields = Fields::new(table.value, "offset", fields.diagnostics());
    let share = fields.optional("share", share_of_tolerance);
    let most = fields.optional("most", read::count_or_zero);
    fields.finish();
    Offset {
        share: share.map_or(Offset::USUAL.share, |share| share.value),
        most: most.map(|most| most.value),
    }
}

/// A share of the tolerance: some of it.
fn share_of_tolerance(node: &Node) -> Reading<Fraction> {
    let share = read::share(node)?;
    if share.value() >= 0.01 {
        return Ok(share);
    }
    let message = format!("a share of {} % leaves no room for wear", share.value() * 100.0);
    Err(vec![Diagnostic::new(Code::OutOfRange, message).at(node.span, "expected 1 % to 100 %")])
}

/// What the drawing asks of the surface: `roughness = "1.6 um"`, `tolerance = "IT7"`.
fn asked(fields: &mut Fields<'_, '_>) -> Asked {
    let roughness = fields.optional("roughness", read::quantity::<Roughness>(Bounds::Positive));
    let grade = fields.optional("tolerance", read::grade);
    let size = fields.optional("tolerance_size", read::quantity::<Length>(Bounds::Positive));
    Asked {
        roughness: roughness.map(|roughness| roughness.value),
        grade: grade.map(|grade| grade.value),
        size: size.map(|size| size.value),
    }
}

/// A feed for each revolution, tooth or stroke, as its unit says.
fn feed(node: &Node) -> Reading<Feed> {
    let by_tooth = matches!(&node.value, Value::Text(text) if text.contains("tooth") || text.contains("ipt"));
    let by_stroke = matches!(&node.value, Value::Text(text) if text.contains("stroke"));
    if by_stroke {
        read::quantity::<FeedPerStroke>(Bounds::Positive)(node).map(Feed::PerStroke)
    } else if by_tooth {
        read::quantity::<FeedPerTooth>(Bounds::Positive)(node).map(Feed::PerTooth)
    } else {
        read::quantity::<FeedPerRev>(Bounds::Positive)(node).map(Feed::PerRev)
    }
}

/// A feed beyond any usual one is most likely in the wrong unit. Hobs feed several millimetres a turn of the work.
fn likely(feed: Option<&Spanned<Feed>>, work: Option<&Work>, diagnostics: &mut Diagnostics) {
    let Some((feed, work)) = feed.zip(work) else { return };
    let most = match (feed.value, work) {
        (Feed::PerTooth(_), _) => 1.0,
        (Feed::PerRev(_), Work::Gear(_)) => 8.0,
        (Feed::PerStroke(_), _) => 2.0,
        (Feed::PerRev(_), _) => 2.0,
    };
    let advance = feed.value.advance().to_mm();
    if advance > most {
        diagnostics.push(
            Diagnostic::new(Code::UnlikelyUnit, format!("a feed of {advance} mm is beyond any usual one"))
                .at(feed.span, format!("usual is at most {most} mm"))
                .help("is it in inches or in micrometres?"),
        );
    }
}

/// A tool must be of a kind that does the work.
fn suits(name: &Spanned<String>, kind: ToolKind, work: &Work, diagnostics: &mut Diagnostics) -> Option<()> {
    let (does, wanted) = work.tools();
    if does.contains(&kind) {
        return Some(());
    }
    diagnostics.push(
        Diagnostic::new(
            Code::WrongKind,
            format!("`{}` is a {}, and this work takes {wanted}", name.value, kind.name()),
        )
        .at(name.span, format!("expected {wanted}"))
        .help("list the tools there are: wearland catalog tool"),
    );
    None
}
