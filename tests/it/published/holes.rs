//! Formulas of holes, broaching, sawing, conveyors and unit power by name.

use wearland::cutting::{bar, broaching, drilling, force, sawing, station, turning, unit_power};

use super::formulas::Found;
use super::inputs::{Answer, Inputs};

pub(super) fn work(name: &str, inputs: &Inputs) -> Found {
    for family in [point, peck, load, broach_and_saw, convey, unit] {
        if let Some(answer) = family(name, inputs)? {
            return Ok(Some(answer));
        }
    }
    Ok(None)
}

fn point(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "mark_depth" => Answer::one(drilling::mark_depth(i.get("diameter")?, i.get("point_angle")?)),
        "countersink_depth" => Answer::one(drilling::countersink_depth(
            i.get("diameter")?,
            i.get("hole")?,
            i.get("point_angle")?,
        )),
        "reaming_path" => {
            Answer::one(drilling::reaming_path(i.get("depth")?, i.get("approach")?, i.get("diameter")?))
        }
        "reaming_cycle" => {
            let diameter = i.get("diameter")?;
            let path = drilling::reaming_path(i.get("depth")?, i.get("approach")?, diameter);
            let turns = turning::spindle_speed(i.get("speed")?, diameter);
            Answer::one(drilling::drilling_time(path, i.get("feed")?, turns))
        }
        "counterboring_cycle" => {
            let turns = turning::spindle_speed(i.get("speed")?, i.get("diameter")?);
            let dwell = turning::dwell_time(i.number("dwell")?, turns);
            Answer::one(drilling::counterboring_time(i.get("path")?, i.get("feed")?, turns, dwell))
        }
        "tapping_cycle" => {
            let turns = turning::spindle_speed(i.get("speed")?, i.get("diameter")?);
            let back = turns * i.number("faster_back")?;
            Answer::one(drilling::tapping_time(i.get("path")?, i.get("pitch")?, turns, back))
        }
        "tap_drill" => Answer::one(drilling::tap_drill(i.get("diameter")?, i.get("pitch")?)),
        "forming_tap_drill" => Answer::one(drilling::forming_tap_drill(i.get("diameter")?, i.get("pitch")?)),
        _ => return Ok(None),
    }))
}

fn peck(name: &str, i: &Inputs) -> Found {
    let cycle = || -> Result<drilling::PeckCycle, String> {
        let retract = match i.word("retract")? {
            "full" => drilling::Retract::Full,
            "chip" => drilling::Retract::Chip,
            other => return Err(format!("retract `{other}` is neither `full` nor `chip`")),
        };
        Ok(drilling::PeckCycle {
            depth: i.get("depth")?,
            peck: i.get("peck")?,
            clearance: i.get("clearance")?,
            back_off: i.get("back_off")?,
            retract,
        })
    };
    Ok(Some(match name {
        "peck_count" => Answer::plain(drilling::peck_count(&cycle()?)),
        "peck_feed_path" => Answer::one(drilling::peck_feed_path(&cycle()?)),
        "peck_rapid_path" => Answer::one(drilling::peck_rapid_path(&cycle()?)),
        "peck_cycle" => {
            let turns = turning::spindle_speed(i.get("speed")?, i.get("diameter")?);
            let rate = turning::feed_rate(i.get("feed")?, turns);
            Answer::one(drilling::peck_time(&cycle()?, rate, i.get("rapid")?))
        }
        "deep_hole_speed" => Answer::plain(drilling::deep_hole(i.number("ratio")?).speed),
        "deep_hole_feed" => Answer::plain(drilling::deep_hole(i.number("ratio")?).feed),
        _ => return Ok(None),
    }))
}

fn load(name: &str, i: &Inputs) -> Found {
    let handbook = || -> Result<drilling::HandbookDrill, String> {
        Ok(drilling::HandbookDrill {
            material: i.number("material")?,
            diameter: i.get("diameter")?,
            feed: i.get("feed")?,
            chisel: i.number("chisel")?,
            wear: i.number("wear")?,
        })
    };
    Ok(Some(match name {
        "drilling_feed_force_from_kc11" => {
            let chip = drilling::drilling_chip_thickness(i.get("feed")?, i.get("point_angle")?);
            let kc = force::specific_force(i.get("kc11")?, i.number("mc")?, chip);
            let (diameter, angle) = (i.get("diameter")?, i.get("point_angle")?);
            Answer::one(drilling::drilling_feed_force(kc, i.get("feed")?, diameter, angle))
        }
        "handbook_thrust" => Answer::one(drilling::handbook_thrust(&handbook()?)),
        "handbook_torque" => Answer::one(drilling::handbook_torque(&handbook()?)),
        "handbook_power" => {
            Answer::one(force::rotational_power(drilling::handbook_torque(&handbook()?), i.get("turns")?))
        }
        "material_thrust" => {
            Answer::one(drilling::material_thrust(i.number("factor")?, i.get("diameter")?, i.get("feed")?))
        }
        "material_torque" => {
            Answer::one(drilling::material_torque(i.number("factor")?, i.get("diameter")?, i.get("feed")?))
        }
        "material_power" => Answer::one(drilling::material_power(
            i.number("factor")?,
            i.get("diameter")?,
            i.get("feed")?,
            i.get("turns")?,
        )),
        "hardness_torque" => {
            Answer::one(drilling::hardness_torque(i.get("hardness")?, i.get("diameter")?, i.get("feed")?))
        }
        _ => return Ok(None),
    }))
}

fn broach_and_saw(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "broaching_time" => {
            Answer::one(broaching::broaching_time(i.get("stroke")?, i.get("speed")?, i.get("back")?))
        }
        "tooth_pitch" => Answer::one(broaching::tooth_pitch(i.get("length")?)),
        "cutting_teeth" => Answer::plain(broaching::cutting_teeth(i.get("stock")?, i.get("rise")?)),
        "teeth_in_cut" => Answer::plain(broaching::teeth_in_cut(i.get("length")?, i.get("pitch")?)),
        "broaching_force_from_kc11" => {
            let rise = i.get("rise")?;
            let kc = force::specific_force(i.get("kc11")?, i.number("mc")?, rise);
            Answer::one(broaching::broaching_force(kc, i.get("width")?, rise, i.count("teeth")?))
        }
        "sawing_time" => Answer::one(sawing::sawing_time(i.get("area")?, i.get("rate")?)),
        "bar_sawing" => {
            let area = bar::section_area(bar::Section::Round, i.get("diameter")?);
            Answer::one(sawing::sawing_time(area, i.get("rate")?))
        }
        "band_speed" => Answer::one(sawing::band_speed(i.get("listed")?, i.get("size")?)),
        _ => return Ok(None),
    }))
}

fn convey(name: &str, i: &Inputs) -> Found {
    let conveyor = || -> Result<station::Conveyor, String> {
        Ok(station::Conveyor {
            length: i.get("length")?,
            speed: i.get("speed")?,
            spacing: i.get("spacing")?,
            abreast: i.count("abreast")?,
        })
    };
    Ok(Some(match name {
        "conveyor_interval" => Answer::one(station::conveyor_interval(conveyor()?)),
        "conveyor_passage" => Answer::one(station::conveyor_passage(conveyor()?)),
        "conveyor_pieces" => Answer::plain(station::conveyor_pieces(conveyor()?)),
        _ => return Ok(None),
    }))
}

fn unit(name: &str, i: &Inputs) -> Found {
    let power = || -> Result<wearland::quantity::Power, String> {
        let constant = unit_power::power_constant(i.number("constant")?);
        let rate = turning::turning_removal_rate(i.get("speed")?, i.get("depth")?, i.get("feed")?);
        Ok(unit_power::unit_power(constant, i.number("feed_factor")?, rate, i.number("wear")?))
    };
    Ok(Some(match name {
        "power_constant" => Answer::one(unit_power::power_constant(i.number("constant")?)),
        "feed_factor" => Answer::plain(unit_power::feed_factor(i.get("feed")?)),
        "unit_power" => Answer::one(power()?),
        "unit_motor_power" => Answer::one(force::motor_power(power()?, i.number("efficiency")?)),
        _ => return Ok(None),
    }))
}
