//! Life laws beside Taylor, equivalent chip thickness, hardness.

use wearland::cutting::turning::{CornerAndEdge, turning_equivalent_chip};
use wearland::tooling::{
    ColdingConstants, WearCurve, colding_exponent, colding_life, colding_speed, hardness_factor,
};

use super::formulas::Found;
use super::inputs::{Answer, Inputs};

pub(super) fn work(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "turning_equivalent_chip" => {
            let tool = CornerAndEdge { radius: i.get("radius")?, edge_angle: i.get("edge_angle")? };
            Answer::one(turning_equivalent_chip(i.get("depth")?, i.get("feed")?, tool))
        }
        "colding_exponent" => Answer::plain(colding_exponent(&constants(i)?, i.get("chip")?)),
        "colding_speed" => Answer::one(colding_speed(&constants(i)?, i.get("chip")?, i.get("life")?)),
        "colding_life" => Answer::one(colding_life(&constants(i)?, i.get("chip")?, i.get("speed")?)),
        "wear_curve_age" => Answer::plain(WearCurve::milled().value.age_at(i.number("wear")?)),
        "hardness_factor" => {
            Answer::plain(hardness_factor(i.get("usual")?, i.get("own")?, i.number("exponent")?))
        }
        _ => return Ok(None),
    }))
}

fn constants(i: &Inputs) -> Result<ColdingConstants, String> {
    Ok(ColdingConstants {
        k: i.number("K")?,
        h: i.number("H")?,
        m: i.number("M")?,
        n0: i.number("N0")?,
        l: i.number("L")?,
    })
}
