//! Loads of hobbing: the thickest chip at a tooth tip. No force is held for gear cutting.

use super::super::process::Motion;
use super::super::setting::Setting;
use super::super::work::GearWork;
use super::Loads;
use crate::cutting::hobbing::{Hob, TIP_CHIP_THICKNESS, TipChip, tip_chip_thickness};
use crate::quantity::{FeedPerRev, Record, Term};

pub(super) fn loads(at: &Setting<'_>, motion: &Motion, work: &GearWork, record: &mut impl Record) -> Loads {
    let (GearWork::Hob(_), Ok(gear), Ok(diameter), Ok(starts)) =
        (work, at.gear(), at.tool_diameter(), at.starts())
    else {
        return Loads::default();
    };
    let (Some(gashes), Some(depth)) = (at.tool().geometry.gashes, motion.depth) else {
        return Loads::default();
    };
    let cut = TipChip {
        gear: *gear,
        profile_shift: 0.0,
        hob: Hob { diameter, starts },
        gashes,
        axial_feed: FeedPerRev::mm_per_rev(motion.advance.to_mm()),
        depth,
    };
    let thickness = tip_chip_thickness(&cut);
    record.step(&TIP_CHIP_THICKNESS, thickness.into(), || {
        vec![
            ("m", gear.module.into()),
            ("z_2", Term::Plain(f64::from(gear.teeth))),
            ("beta", gear.helix.into()),
            ("d_a0", diameter.into()),
            ("i", Term::Plain(f64::from(gashes))),
            ("z_0", Term::Plain(f64::from(starts))),
            ("f_a", cut.axial_feed.into()),
            ("a", depth.into()),
        ]
    });
    Loads { chip_thickness: Some(thickness), ..Loads::default() }
}
