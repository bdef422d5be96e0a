//! Formulas of the crate by name.

use wearland::cutting::{bar, drilling, finish, force, hobbing, milling, threading, turning};

use super::holes;
use super::inputs::{Answer, Inputs};

/// The answer, or nothing if no formula has that name.
pub(super) type Found = Result<Option<Answer>, String>;

pub(super) fn work(name: &str, inputs: &Inputs) -> Found {
    for family in [
        turn,
        thread,
        drill,
        mill,
        load,
        surface,
        hob,
        stock,
        super::designation::work,
        holes::work,
        super::life::work,
        super::turning::work,
        super::gears::work,
        super::limits::work,
        super::milling::work,
        super::grinding::work,
        super::replacement::work,
        super::fits::work,
    ] {
        if let Some(answer) = family(name, inputs)? {
            return Ok(Some(answer));
        }
    }
    Ok(None)
}

fn turn(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "spindle_speed" => Answer::one(turning::spindle_speed(i.get("speed")?, i.get("diameter")?)),
        "cutting_speed" => Answer::one(turning::cutting_speed(i.get("speed")?, i.get("diameter")?)),
        "feed_rate" => Answer::one(turning::feed_rate(i.get("feed")?, i.get("speed")?)),
        "pass_count" => Answer::plain(turning::pass_count(i.get("stock")?, i.get("depth")?)),
        "plunge_count" => Answer::plain(turning::plunge_count(i.get("groove")?, i.get("blade")?)),
        "travel_time" => Answer::one(turning::travel_time(i.get("path")?, i.get("rate")?)),
        "turning_time" => Answer::one(turning::turning_time(i.get("path")?, i.get("feed")?, i.get("speed")?)),
        "facing_time" => Answer::one(turning::facing_time(turning::FacingCut {
            outer: i.get("outer")?,
            inner: i.get("inner")?,
            speed: i.get("speed")?,
            feed: i.get("feed")?,
            fastest: i.get("fastest")?,
        })),
        "dwell_time" => Answer::one(turning::dwell_time(i.number("revolutions")?, i.get("speed")?)),
        "turning_removal_rate" => {
            Answer::one(turning::turning_removal_rate(i.get("speed")?, i.get("depth")?, i.get("feed")?))
        }
        _ => return Ok(None),
    }))
}

fn thread(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "thread_depth_external" => Answer::one(threading::thread_depth_external(i.get("pitch")?)),
        "thread_depth_internal" => Answer::one(threading::thread_depth_internal(i.get("pitch")?)),
        "thread_feed_rate" => Answer::one(threading::thread_feed_rate(i.get("pitch")?, i.get("speed")?)),
        "thread_passes" => Answer::list(&threading::thread_passes(i.get("depth")?, i.count("passes")?)),
        "proposed_pass_count" => Answer::plain(threading::proposed_pass_count(i.get("pitch")?)),
        "threading_time" => Answer::one(threading::threading_time(threading::ThreadCut {
            path: i.get("path")?,
            pitch: i.get("pitch")?,
            passes: i.count("passes")?,
            speed: i.get("speed")?,
            return_rate: i.get("return_rate")?,
        })),
        _ => return Ok(None),
    }))
}

fn drill(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "point_allowance" => {
            Answer::one(drilling::point_allowance(i.get("diameter")?, i.get("point_angle")?))
        }
        "drilling_time" => {
            Answer::one(drilling::drilling_time(i.get("path")?, i.get("feed")?, i.get("speed")?))
        }
        "tapping_time" => Answer::one(drilling::tapping_time(
            i.get("path")?,
            i.get("pitch")?,
            i.get("forward")?,
            i.get("back")?,
        )),
        "drilling_chip_thickness" => {
            Answer::one(drilling::drilling_chip_thickness(i.get("feed")?, i.get("point_angle")?))
        }
        "drilling_torque" => {
            Answer::one(drilling::drilling_torque(i.get("kc")?, i.get("feed")?, i.get("diameter")?))
        }
        "drilling_removal_rate" => {
            Answer::one(drilling::drilling_removal_rate(i.get("diameter")?, i.get("feed")?, i.get("speed")?))
        }
        _ => return Ok(None),
    }))
}

fn mill(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "table_feed" => Answer::one(milling::table_feed(i.get("feed")?, i.count("teeth")?, i.get("speed")?)),
        "side_approach" => Answer::one(milling::side_approach(i.get("diameter")?, i.get("engagement")?)),
        "face_approach" => {
            Answer::one(milling::face_approach(i.get("diameter")?, i.get("width")?, i.get("offset")?))
        }
        "engagement_angle_side" => {
            Answer::one(milling::engagement_angle_side(i.get("diameter")?, i.get("engagement")?))
        }
        "engagement_angle_centred" => {
            Answer::one(milling::engagement_angle_centred(i.get("diameter")?, i.get("width")?))
        }
        "mean_chip_thickness" => Answer::one(milling::mean_chip_thickness(milling::MeanChip {
            feed: i.get("feed")?,
            edge_angle: i.get("edge_angle")?,
            engagement: i.get("engagement")?,
            diameter: i.get("diameter")?,
            swept: i.get("swept")?,
        })),
        "max_chip_thickness" => Answer::one(milling::max_chip_thickness(
            i.get("feed")?,
            i.get("edge_angle")?,
            i.get("engagement")?,
            i.get("diameter")?,
        )),
        "milling_removal_rate" => {
            Answer::one(milling::milling_removal_rate(i.get("depth")?, i.get("engagement")?, i.get("rate")?))
        }
        _ => return Ok(None),
    }))
}

fn load(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "chip_thickness" => Answer::one(force::chip_thickness(i.get("feed")?, i.get("edge_angle")?)),
        "chip_width" => Answer::one(force::chip_width(i.get("depth")?, i.get("edge_angle")?)),
        "specific_force" => {
            Answer::one(force::specific_force(i.get("kc11")?, i.number("mc")?, i.get("chip")?))
        }
        "cutting_force" => Answer::one(force::cutting_force(i.get("kc")?, i.get("width")?, i.get("chip")?)),
        "cutting_power" => Answer::one(force::cutting_power(i.get("force")?, i.get("speed")?)),
        "removal_power" => Answer::one(force::removal_power(i.get("rate")?, i.get("kc")?)),
        "motor_power" => Answer::one(force::motor_power(i.get("power")?, i.number("efficiency")?)),
        "torque" => Answer::one(force::torque(i.get("power")?, i.get("speed")?)),
        "rotational_power" => Answer::one(force::rotational_power(i.get("torque")?, i.get("speed")?)),
        _ => return Ok(None),
    }))
}

fn surface(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "peak_to_valley" => Answer::one(finish::peak_to_valley(i.get("feed")?, i.get("radius")?)),
        "peak_to_valley_short" => Answer::one(finish::peak_to_valley_short(i.get("feed")?, i.get("radius")?)),
        "mean_roughness" => Answer::one(finish::mean_roughness(i.get("feed")?, i.get("radius")?)),
        "feed_for_roughness" => {
            Answer::one(finish::feed_for_roughness(i.get("roughness")?, i.get("radius")?))
        }
        _ => return Ok(None),
    }))
}

fn hob(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "pitch_diameter" => Answer::one(hobbing::pitch_diameter(&i.gear()?)),
        "tip_diameter" => Answer::one(hobbing::tip_diameter(&i.gear()?)),
        "hob_lead_angle" => Answer::one(hobbing::hob_lead_angle(&i.hob()?, i.get("module")?)),
        "swivel_angle" => Answer::one(hobbing::swivel_angle(&i.gear()?, &i.hob()?, i.hand()?)),
        "approach" => Answer::one(hobbing::approach(&i.gear()?, &i.hob()?, i.hand()?, i.get("depth")?)),
        "spur_approach" => Answer::one(hobbing::spur_approach(&i.hob()?, i.get("depth")?)),
        "short_approach" => {
            Answer::one(hobbing::short_approach(&i.gear()?, &i.hob()?, i.hand()?, i.get("depth")?))
        }
        "crude_approach" => {
            Answer::one(hobbing::crude_approach(&i.gear()?, &i.hob()?, i.hand()?, i.get("depth")?))
        }
        "overrun" => Answer::one(hobbing::overrun(&i.gear()?, i.get("swivel")?)),
        "hobbing_time" => Answer::one(hobbing::hobbing_time(hobbing::HobbingCut {
            gear_teeth: i.count("teeth")?,
            starts: i.count("starts")?,
            speed: i.get("speed")?,
            axial_feed: i.get("feed")?,
            path: i.get("path")?,
        })),
        "table_speed" => {
            Answer::one(hobbing::table_speed(i.get("speed")?, i.count("starts")?, i.count("teeth")?))
        }
        "active_teeth" => {
            Answer::plain(hobbing::active_teeth(i.count("gashes")?, i.get("useful")?, i.get("module")?))
        }
        "pieces_per_sharpening" => Answer::plain(hobbing::pieces_per_sharpening(
            i.get("cut_per_hob_tooth")?,
            i.number("active_teeth")?,
            &i.gear()?,
        )),
        _ => return Ok(None),
    }))
}

fn stock(name: &str, i: &Inputs) -> Found {
    let section = || match i.word("section")? {
        "round" => Ok(bar::Section::Round),
        "hex" => Ok(bar::Section::Hex),
        "square" => Ok(bar::Section::Square),
        other => Err(format!("section `{other}` is not known")),
    };
    Ok(Some(match name {
        "section_area" => Answer::one(bar::section_area(section()?, i.get("size")?)),
        "bar_mass" => {
            let area = bar::section_area(section()?, i.get("size")?);
            Answer::one(bar::bar_mass(area, i.get("length")?, i.get("density")?))
        }
        "pieces_per_bar" => Answer::plain(bar::pieces_per_bar(bar::BarPlan {
            length: i.get("length")?,
            remnant: i.get("remnant")?,
            end_facing: i.get("end_facing")?,
            piece: i.get("piece")?,
            cutoff: i.get("cutoff")?,
            facing: i.get("facing")?,
        })),
        _ => return Ok(None),
    }))
}
