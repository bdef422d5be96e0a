//! Force of broaching.

use super::super::process::Motion;
use super::super::setting::Setting;
use super::super::work::LinearWork;
use super::{Loads, specific};
use crate::cutting::broaching::{BROACHING_FORCE, TEETH_IN_CUT, broaching_force, teeth_in_cut};
use crate::quantity::{Length, Record, Term};

pub(super) fn loads(at: &Setting<'_>, motion: &Motion, work: &LinearWork, record: &mut impl Record) -> Loads {
    let LinearWork::Broach { width: Some(width), length: Some(length), pitch: Some(pitch), .. } = *work
    else {
        return Loads::default();
    };
    let rise = motion.advance;
    if rise <= Length::ZERO {
        return Loads::default();
    }
    let kc = specific(at, rise, record);
    let teeth = teeth_in_cut(length, pitch);
    record.step(&TEETH_IN_CUT, Term::Plain(f64::from(teeth)), || {
        vec![("l", length.into()), ("p", pitch.into())]
    });
    let force = broaching_force(kc, width, rise, teeth);
    record.step(&BROACHING_FORCE, force.into(), || {
        vec![
            ("k_c", kc.into()),
            ("b", width.into()),
            ("s_z", rise.into()),
            ("z_e", Term::Plain(f64::from(teeth))),
        ]
    });
    // The ram pulls along the cut: its feed force is the cutting force.
    Loads { force: Some(force), feed_force: Some(force), chip_thickness: Some(rise), ..Loads::default() }
}
