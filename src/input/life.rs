//! Life laws of a tool from their tables.

use super::life_figures::{advance, advances, colding, curve, reference_life};
use super::material::{groups, sourced};
use super::read::{self, Bounds};
use super::tree::Table;
use super::{Fields, Figured};
use crate::cutting::turning::{CornerAndEdge, turning_equivalent_chip};
use crate::diag::{Code, Diagnostic, Diagnostics, nearest};
use crate::quantity::{Angle, CuttingSpeed, Duration, FeedPerRev, Length};
use crate::tooling::{
    Colding, ColdingConstants, ExtendedTaylor, Geometry, Group, LifeFamily, LifeLaw, LifeShape,
    ReferenceLife, Sourced, WearCurve, colding_speed,
};

/// What of a turning insert enters the equivalent chip thickness.
#[derive(Debug, Clone, Copy)]
pub(super) struct TurningEdge(CornerAndEdge);

impl TurningEdge {
    /// From the figures of the tool; without them a sharp corner and an edge square to the feed.
    pub(super) fn of(geometry: &Geometry) -> Self {
        Self(CornerAndEdge {
            radius: geometry.corner_radius.unwrap_or(Length::ZERO),
            edge_angle: geometry.edge_angle.unwrap_or(Angle::deg(90.0)),
        })
    }
}

/// Life for which a law by Colding gives the reference cut its speed: the usual base of speed tables.
const BASE_LIFE: Duration = Duration::min(15.0);

/// Life tables, keyed by the letter of the ISO 513 group.
pub(super) fn laws(
    table: &Table,
    edge: Option<TurningEdge>,
    diagnostics: &mut Diagnostics,
) -> Option<Vec<(Group, LifeLaw)>> {
    let mut laws = Vec::new();
    let mut whole = true;
    for entry in &table.entries {
        let group = groups().into_iter().find(|(letter, _)| *letter == entry.key);
        let Some((_, group)) = group else {
            let letters = groups().into_iter().map(|(letter, _)| letter);
            diagnostics.push(
                Diagnostic::new(Code::UnknownName, format!("`{}` is no group of ISO 513", entry.key))
                    .at(entry.key_span, "expected P, M, K, N, S or H")
                    .did_you_mean(nearest(&entry.key.to_uppercase(), letters)),
            );
            whole = false;
            continue;
        };
        match read::table(&entry.node).map(|table| law(table, edge, diagnostics)) {
            Ok(Some(law)) => laws.push((group, law)),
            Ok(None) => whole = false,
            Err(mistakes) => {
                diagnostics.extend(mistakes);
                whole = false;
            }
        }
    }
    whole.then_some(laws)
}

/// The reference cut as far as it is written, and how the life of other cuts follows.
struct Reference {
    speed: Sourced<CuttingSpeed>,
    feed: Option<Length>,
    depth: Option<Length>,
    life: Sourced<ReferenceLife>,
    shape: LifeShape,
}

fn law(table: &Table, edge: Option<TurningEdge>, diagnostics: &mut Diagnostics) -> Option<LifeLaw> {
    let mut fields = Fields::new(table, "life table", diagnostics);
    let reference =
        if fields.has("colding") { by_colding(&mut fields, edge) } else { by_taylor(&mut fields) };
    let wear = fields.optional("wear", read::quantity::<Length>(Bounds::Positive));
    let given = fields.has("curve");
    let curve = fields.optional_figure("curve", curve);
    let coolant = fields.required("coolant", read::name);
    let speeds = fields.required("speeds", read::range::<CuttingSpeed>(Bounds::Positive));
    let feeds = fields.optional("feeds", advances);
    let depths = fields.optional("depths", read::range::<Length>(Bounds::Positive));
    let variation = fields.optional_figure("variation", read::number_between(0.02, 1.5));
    let family = fields.optional("family", read::choice(&LifeFamily::NAMES));
    fields.optional("note", read::text);
    fields.finish();
    let reference = reference?;
    Some(LifeLaw {
        speed: reference.speed,
        feed: reference.feed,
        depth: reference.depth,
        life: reference.life,
        wear: wear.map(|wear| wear.value),
        curve: if given { sourced(curve?) } else { WearCurve::milled() },
        coolant: coolant?.value,
        shape: reference.shape,
        speeds: speeds?.value,
        feeds: feeds.map(|feeds| feeds.value),
        depths: depths.map(|depths| depths.value),
        variation: variation.map(sourced),
        family: family.map(|family| family.value),
    })
}

/// A reference cut of stated speed and life, and exponents.
fn by_taylor(fields: &mut Fields<'_, '_>) -> Option<Reference> {
    let speed = fields.required_figure("speed", read::quantity::<CuttingSpeed>(Bounds::Positive));
    let feed = fields.optional("feed", advance);
    let depth = fields.optional("depth", read::quantity::<Length>(Bounds::Positive));
    let life = fields.required_figure("life", reference_life);
    let by_volume = life.as_ref().is_some_and(|life| matches!(life.value, ReferenceLife::Volume(_)));
    // The dressing interval of a wheel is a volume, whatever the speed.
    let n = if by_volume { None } else { fields.required_figure("n", read::number_between(0.05, 0.8)) };
    let feed_exponent = fields.optional_figure("feed_exponent", read::number_between(0.0, 2.0));
    let depth_exponent = fields.optional_figure("depth_exponent", read::number_between(0.0, 2.0));
    let life = sourced(life?);
    let n = if by_volume {
        Sourced { value: f64::INFINITY, source: life.source.clone(), at: None, standing: life.standing }
    } else {
        sourced(n?)
    };
    Some(Reference {
        speed: sourced(speed?),
        feed: feed.map(|feed| feed.value),
        depth: depth.map(|depth| depth.value),
        life,
        shape: LifeShape::Taylor(ExtendedTaylor {
            n,
            feed_exponent: feed_exponent.map_or(0.0, |exponent| exponent.value),
            depth_exponent: depth_exponent.map_or(0.0, |exponent| exponent.value),
        }),
    })
}

/// Five constants; the speed of the reference cut follows from its feed and depth. The keys of Taylor may stand beside them,
/// left over from an entry that is made over, and do not count.
fn by_colding(fields: &mut Fields<'_, '_>, edge: Option<TurningEdge>) -> Option<Reference> {
    for key in ["speed", "life", "n", "feed_exponent", "depth_exponent"] {
        fields.optional(key, |_| Ok(()));
    }
    let constants: Option<Figured<ColdingConstants>> = fields.required_figure("colding", colding);
    let feed = fields.required("feed", advance);
    let depth = fields.required("depth", read::quantity::<Length>(Bounds::Positive));
    let constants = constants?;
    let Some(TurningEdge(edge)) = edge else {
        fields.diagnostics().push(
            Diagnostic::new(Code::WrongKind, "a law by Colding holds for inserts that turn")
                .at(constants.span, "this tool is none")
                .help("give speed, life and n of a reference cut"),
        );
        return None;
    };
    let (feed, depth) = (feed?.value, depth?.value);
    let chip = turning_equivalent_chip(depth, FeedPerRev::mm_per_rev(feed.to_mm()), edge);
    let constants = sourced(constants);
    Some(Reference {
        speed: beside(&constants, colding_speed(&constants.value, chip, BASE_LIFE)),
        feed: Some(feed),
        depth: Some(depth),
        life: beside(&constants, ReferenceLife::Time(BASE_LIFE)),
        shape: LifeShape::Colding(Colding { constants, chip }),
    })
}

/// A value that follows from constants stands where they stand.
fn beside<T>(constants: &Sourced<ColdingConstants>, value: T) -> Sourced<T> {
    Sourced {
        value,
        source: constants.source.clone(),
        at: constants.at.clone(),
        standing: constants.standing,
    }
}
