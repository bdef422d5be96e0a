//! How an edge was used: the columns that tool changes and wear readings share.

use super::head::Column;
use super::rows::{Fields, words};
use crate::cycle::Feed;
use crate::diag::{Code, Diagnostic, Diagnostics};
use crate::input::read::{Bounds, Reading, quantity, short};
use crate::input::{Node, Spanned, Value};
use crate::quantity::{CuttingSpeed, FeedPerRev, FeedPerStroke, FeedPerTooth, Kind, Length, Quantity};

/// How an edge was used.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Setting {
    /// Cutting speed.
    pub speed: Option<CuttingSpeed>,
    /// Feed, as its unit says for each turn, tooth or stroke.
    pub feed: Option<Feed>,
    /// Depth of cut.
    pub depth: Option<Length>,
    /// Tool, as the log calls it.
    pub tool: Option<String>,
    /// Material cut, as the log calls it.
    pub material: Option<String>,
    /// Coolant, as the log calls it.
    pub coolant: Option<String>,
    /// Machine, as the log calls it.
    pub machine: Option<String>,
}

/// The same with places.
#[derive(Debug, Default)]
pub(super) struct ReadSetting {
    pub(super) speed: Option<Spanned<CuttingSpeed>>,
    feed: Option<Spanned<Feed>>,
    depth: Option<Spanned<Length>>,
    tool: Option<Spanned<String>>,
    material: Option<Spanned<String>>,
    coolant: Option<Spanned<String>>,
    machine: Option<Spanned<String>>,
}

const FEEDS: &[&Kind] = &[FeedPerRev::KIND, FeedPerTooth::KIND, FeedPerStroke::KIND];
pub(super) const SPEED: Column = Column { name: "speed", kinds: &[CuttingSpeed::KIND] };
pub(super) const FEED: Column = Column { name: "feed", kinds: FEEDS };
pub(super) const DEPTH: Column = Column { name: "depth", kinds: &[Length::KIND] };
pub(super) const TOOL: Column = Column { name: "tool", kinds: &[] };
pub(super) const MATERIAL: Column = Column { name: "material", kinds: &[] };
pub(super) const COOLANT: Column = Column { name: "coolant", kinds: &[] };
pub(super) const MACHINE: Column = Column { name: "machine", kinds: &[] };

impl ReadSetting {
    /// Reads the columns of a row.
    pub(super) fn new(fields: &mut Fields<'_, '_>) -> Self {
        Self {
            speed: fields.quantity("speed", quantity(Bounds::Positive)),
            feed: fields.quantity("feed", feed),
            depth: fields.quantity("depth", quantity(Bounds::Positive)),
            tool: words(fields, "tool"),
            material: words(fields, "material"),
            coolant: words(fields, "coolant"),
            machine: words(fields, "machine"),
        }
    }

    /// Takes what another row of the same edge says; what it leaves empty stays, what it contradicts is a mistake.
    pub(super) fn join(&mut self, other: Self, edge: &str, diagnostics: &mut Diagnostics) {
        let mut unlike = Vec::new();
        unlike.extend(joined(&mut self.speed, other.speed, "speed"));
        unlike.extend(joined(&mut self.feed, other.feed, "feed"));
        unlike.extend(joined(&mut self.depth, other.depth, "depth"));
        unlike.extend(joined(&mut self.tool, other.tool, "tool"));
        unlike.extend(joined(&mut self.material, other.material, "material"));
        unlike.extend(joined(&mut self.coolant, other.coolant, "coolant"));
        unlike.extend(joined(&mut self.machine, other.machine, "machine"));
        for (what, first, second) in unlike {
            let message = format!("edge `{}` has two values of `{what}`", short(edge));
            diagnostics.push(
                Diagnostic::new(Code::GivenTwice, message)
                    .at(second, "another here")
                    .also(first, "first here")
                    .help("give each edge its own name, and one edge the same setting throughout"),
            );
        }
    }

    /// Without places.
    pub(super) fn setting(self) -> Setting {
        Setting {
            speed: self.speed.map(|speed| speed.value),
            feed: self.feed.map(|feed| feed.value),
            depth: self.depth.map(|depth| depth.value),
            tool: self.tool.map(|tool| tool.value),
            material: self.material.map(|material| material.value),
            coolant: self.coolant.map(|coolant| coolant.value),
            machine: self.machine.map(|machine| machine.value),
        }
    }
}

type Unlike = (&'static str, crate::diag::Span, crate::diag::Span);

fn joined<T: PartialEq>(
    known: &mut Option<Spanned<T>>,
    next: Option<Spanned<T>>,
    what: &'static str,
) -> Option<Unlike> {
    match (known.as_ref(), next) {
        (Some(first), Some(second)) if first.value != second.value => Some((what, first.span, second.span)),
        (None, next) => {
            *known = next;
            None
        }
        _ => None,
    }
}

/// A feed for each turn, tooth or stroke, told apart by its unit.
fn feed(node: &Node) -> Reading<Feed> {
    let Value::Text(text) = &node.value else { return quantity(Bounds::Positive)(node).map(Feed::PerRev) };
    let has_unit_of = |kind: &Kind| kind.units.iter().any(|unit| text.ends_with(unit.symbol));
    if has_unit_of(FeedPerTooth::KIND) {
        quantity(Bounds::Positive)(node).map(Feed::PerTooth)
    } else if has_unit_of(FeedPerStroke::KIND) {
        quantity(Bounds::Positive)(node).map(Feed::PerStroke)
    } else {
        quantity(Bounds::Positive)(node).map(Feed::PerRev)
    }
}
