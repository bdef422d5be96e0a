//! Slenderness and bending of the work and of a boring bar.

use super::super::work::{Side, TurningWork, Work};
use super::drawing::size_tolerance;
use super::{Held, LimitCheck, LimitOf, Remedy};
use crate::cutting::limits::{
    DEFLECTION, LONGEST_OVERHANG, SLENDERNESS, Support, deflection, longest_overhang, slenderness,
};
use crate::quantity::{ElasticModulus, Length, Record, Term};

pub(super) fn check(held: &Held<'_>, limits: &mut Vec<LimitCheck>, record: &mut impl Record) {
    if !matches!(held.at.cut.work, Work::Turning(_) | Work::Thread(_)) {
        return;
    }
    work(held, limits, record);
    boring_bar(held, limits, record);
}

/// A length that a force bends.
struct Bent {
    support: Support,
    diameter: Length,
    length: Length,
    modulus: ElasticModulus,
}

/// The work out of the chuck or between its supports.
fn work(held: &Held<'_>, limits: &mut Vec<LimitCheck>, record: &mut impl Record) {
    let Some(hold) = held.at.operation.hold else { return };
    let diameter = hold.diameter.unwrap_or(held.motion.diameter);
    if let Some(most) = hold.support.slenderest() {
        let slender = slenderness(hold.overhang, diameter);
        record.step(&SLENDERNESS, Term::Plain(slender), || {
            vec![("L", hold.overhang.into()), ("d", diameter.into())]
        });
        let named = ("length by diameter of the work", LimitOf::Rule);
        let remedy = Remedy::Other("hold the work by a centre or a steady rest");
        let check = LimitCheck::at_most(named, Term::Plain(slender), Term::Plain(most), remedy);
        limits.push(check.sourced("memory"));
    }
    if let Some(modulus) = &held.at.material().modulus
        && hold.support != Support::Steady
    {
        let bent = Bent { support: hold.support, diameter, length: hold.overhang, modulus: modulus.value };
        limits.extend(bending(held, "bending of the work", &bent, record));
    }
}

/// The bar that carries a boring tool.
fn boring_bar(held: &Held<'_>, limits: &mut Vec<LimitCheck>, record: &mut impl Record) {
    let inside = is_inside(&held.at.cut.work);
    let geometry = &held.at.tool().geometry;
    let (Some(bar), Some(diameter), Some(overhang), true) =
        (geometry.bar, geometry.bar_diameter, held.at.cut.overhang, inside)
    else {
        return;
    };
    let most = longest_overhang(bar, diameter);
    record.step(&LONGEST_OVERHANG, most.into(), || {
        vec![("c", Term::Plain(bar.slenderest())), ("d", diameter.into())]
    });
    let remedy = Remedy::Other("take a shorter, thicker, carbide or damped boring bar");
    let named = ("overhang of the boring bar", LimitOf::Rule);
    limits.push(LimitCheck::at_most(named, overhang, most, remedy).sourced("common-practice"));
    let bent = Bent { support: Support::Chuck, diameter, length: overhang, modulus: bar.modulus() };
    limits.extend(bending(held, "bending of the boring bar", &bent, record));
}

fn is_inside(work: &Work) -> bool {
    match work {
        Work::Turning(turning) => matches!(turning, TurningWork::Along { side: Side::Inside, .. }),
        Work::Thread(thread) => thread.side == Side::Inside,
        _ => false,
    }
}

/// Twice the deflection, which is what it does to a diameter, against the tolerance asked.
fn bending(
    held: &Held<'_>,
    limit: &'static str,
    bent: &Bent,
    record: &mut impl Record,
) -> Option<LimitCheck> {
    let tolerance = size_tolerance(held.at, held.motion)?;
    // The force worked out is that of roughing: where a finishing pass follows, it says nothing of the size.
    if held.at.cut.work.finish().is_some() {
        return None;
    }
    let force = held.component(held.loads.passive_force, record)?;
    let bend = deflection(force, bent.support, bent.diameter, bent.length, bent.modulus);
    record.step(&DEFLECTION, bend.into(), || {
        vec![
            ("F", force.into()),
            ("d", bent.diameter.into()),
            ("L", bent.length.into()),
            ("E", bent.modulus.into()),
        ]
    });
    let check = LimitCheck::at_most((limit, LimitOf::Rule), bend * 2.0, tolerance, Remedy::Feed);
    Some(check.sourced("derived"))
}
