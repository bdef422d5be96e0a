//! Gear teeth.

use super::super::Fields;
use super::super::read::{self, Bounds};
use super::length_or;
use crate::cutting::hobbing::Hand;
use crate::cycle::{GearWork, HobWork};
use crate::quantity::Length;

/// Keys of this family.
pub(super) const KINDS: [&str; 1] = ["hob"];

pub(super) fn work(_kind: &str, fields: &mut Fields<'_, '_>) -> Option<GearWork> {
    let cuts = fields.optional("cuts", read::count).map_or(1, |cuts| cuts.value);
    let overrun = fields.optional("overrun", read::quantity::<Length>(Bounds::NotNegative));
    let hands = [("same", Hand::Same), ("opposite", Hand::Opposite)];
    let hand = fields.optional("hand", read::choice(&hands));
    let spacer = length_or(fields, "spacer", Length::ZERO);
    Some(GearWork::Hob(HobWork {
        cuts,
        overrun: overrun.map(|overrun| overrun.value),
        hand: hand.map_or(Hand::Same, |hand| hand.value),
        spacer,
    }))
}
