//! Gear teeth.

use super::super::Fields;
use super::super::read::{self, Bounds};
use super::length_or;
use super::turning::finish;
use crate::cutting::hobbing::Hand;
use crate::cycle::{GearWork, HobWork, Infeed};
use crate::quantity::{FeedPerRev, FeedPerStroke, Length};

/// Keys of this family.
pub(super) const KINDS: [&str; 4] = ["hob", "shape", "shave", "grind_teeth"];

/// Path beyond the face where none is given: at each end of a shaping stroke, and in all of a shaving or grinding stroke.
const BEYOND: Length = Length::mm(3.0);

pub(super) fn work(kind: &str, fields: &mut Fields<'_, '_>) -> Option<GearWork> {
    match kind {
        "hob" => hob(fields),
        "shape" => shape(fields),
        "shave" => {
            let strokes = fields.required("strokes", read::count);
            let overrun = length_or(fields, "overrun", BEYOND);
            Some(GearWork::Shave { strokes: strokes?.value, overrun })
        }
        _ => grind(fields),
    }
}

/// How a hob comes to depth, as written.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    Axial,
    Radial,
}

fn hob(fields: &mut Fields<'_, '_>) -> Option<GearWork> {
    let cuts = fields.optional("cuts", read::count).map_or(1, |cuts| cuts.value);
    let overrun = fields.optional("overrun", read::quantity::<Length>(Bounds::NotNegative));
    let hands = [("same", Hand::Same), ("opposite", Hand::Opposite)];
    let hand = fields.optional("hand", read::choice(&hands));
    let spacer = length_or(fields, "spacer", Length::ZERO);
    let ways = [("axial", Way::Axial), ("radial", Way::Radial)];
    let way = fields.optional("infeed", read::choice(&ways)).map_or(Way::Axial, |way| way.value);
    let infeed = if way == Way::Radial {
        let feed = fields.required("radial_feed", read::quantity::<FeedPerRev>(Bounds::Positive));
        feed.map(|feed| Infeed::Radial(feed.value))
    } else {
        Some(Infeed::Axial)
    };
    let finish = finish(fields);
    Some(GearWork::Hob(HobWork {
        cuts,
        overrun: overrun.map(|overrun| overrun.value),
        hand: hand.map_or(Hand::Same, |hand| hand.value),
        spacer,
        infeed: infeed?,
        finish,
    }))
}

fn shape(fields: &mut Fields<'_, '_>) -> Option<GearWork> {
    let radial_feed = fields.required("radial_feed", read::quantity::<FeedPerStroke>(Bounds::Positive));
    let turns = fields.optional("turns", read::number_between(1.0, 10.0)).map_or(1.0, |turns| turns.value);
    let overrun = length_or(fields, "overrun", BEYOND);
    Some(GearWork::Shape { radial_feed: radial_feed?.value, turns, overrun })
}

fn grind(fields: &mut Fields<'_, '_>) -> Option<GearWork> {
    let strokes = fields.required("strokes", read::list(read::quantity::<FeedPerRev>(Bounds::Positive)));
    let overrun = length_or(fields, "overrun", BEYOND);
    let strokes: Vec<FeedPerRev> = strokes?.value.into_iter().map(|feed| feed.value).collect();
    Some(GearWork::Grind { strokes, overrun })
}
