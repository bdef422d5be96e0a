//! Worked examples that run through several formulas, from the shop's numbers to the printed figure.

use wearland::cutting::{drilling, force, hobbing, milling, threading, turning};
use wearland::quantity::{Angle, Duration, FeedRate, Length, SpecificForce, SpindleSpeed};

use super::formulas::Found;
use super::inputs::{Answer, Inputs};

pub(super) fn work(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "straight_turning" => Answer::one(straight_turning(i)?),
        "drilling_cycle" => Answer::one(drilling_cycle(i)?),
        "thread_cutting" => Answer::one(thread_cutting(i)?),
        "side_milling" => Answer::one(side_milling(i)?),
        "face_milling" => Answer::one(face_milling(i)?),
        "hobbing_cycle" => Answer::one(hobbing_cycle(i)?),
        "turning_force" => Answer::one(force::cutting_force(turning_kc(i)?, width(i)?, chip(i)?)),
        "turning_power" => {
            let force = force::cutting_force(turning_kc(i)?, width(i)?, chip(i)?);
            Answer::one(force::cutting_power(force, i.get("speed")?))
        }
        "turning_motor_power" => {
            let rate = turning::turning_removal_rate(i.get("speed")?, i.get("depth")?, i.get("feed")?);
            Answer::one(force::motor_power(force::removal_power(rate, i.get("kc")?), i.number("efficiency")?))
        }
        "milling_motor_power" => {
            let rate = milling::milling_removal_rate(i.get("depth")?, i.get("engagement")?, i.get("rate")?);
            Answer::one(force::motor_power(force::removal_power(rate, i.get("kc")?), i.number("efficiency")?))
        }
        "drill_torque_from_kc11" => {
            let chip = drilling::drilling_chip_thickness(i.get("feed")?, i.get("point_angle")?);
            let kc = force::specific_force(i.get("kc11")?, i.number("mc")?, chip);
            Answer::one(drilling::drilling_torque(kc, i.get("feed")?, i.get("diameter")?))
        }
        "milling_power_from_kc11" => Answer::one(milling_power(i)?),
        _ => return Ok(None),
    }))
}

fn chip(i: &Inputs) -> Result<Length, String> {
    Ok(force::chip_thickness(i.get("feed")?, i.get("edge_angle")?))
}

fn width(i: &Inputs) -> Result<Length, String> {
    Ok(force::chip_width(i.get("depth")?, i.get("edge_angle")?))
}

fn turning_kc(i: &Inputs) -> Result<SpecificForce, String> {
    Ok(force::specific_force(i.get("kc11")?, i.number("mc")?, chip(i)?))
}

fn capped(i: &Inputs, diameter: Length) -> Result<SpindleSpeed, String> {
    let wanted = turning::spindle_speed(i.get("speed")?, diameter);
    Ok(match i.find("fastest")? {
        Some(fastest) => wanted.smaller(fastest),
        None => wanted,
    })
}

/// Equal passes from one diameter to another, each at the speed for the diameter before it.
fn straight_turning(i: &Inputs) -> Result<Duration, String> {
    let (from, to): (Length, Length) = (i.get("from")?, i.get("to")?);
    let stock = (from - to) / 2.0;
    let passes = turning::pass_count(stock, i.get("depth")?);
    let depth = stock / f64::from(passes);
    let mut time = Duration::ZERO;
    for pass in 0..passes {
        let speed = capped(i, from - depth * (2.0 * f64::from(pass)))?;
        time += turning::turning_time(i.get("path")?, i.get("feed")?, speed);
    }
    Ok(time)
}

fn drilling_cycle(i: &Inputs) -> Result<Duration, String> {
    let speed = turning::spindle_speed(i.get("speed")?, i.get("diameter")?);
    Ok(drilling::drilling_time(i.get("path")?, i.get("feed")?, speed))
}

/// The return is left out, as the examples do.
fn thread_cutting(i: &Inputs) -> Result<Duration, String> {
    Ok(threading::threading_time(threading::ThreadCut {
        path: i.get("path")?,
        pitch: i.get("pitch")?,
        passes: i.count("passes")?,
        speed: turning::spindle_speed(i.get("speed")?, i.get("diameter")?),
        return_rate: FeedRate::m_per_min(f64::INFINITY),
    }))
}

fn cutter_rate(i: &Inputs) -> Result<FeedRate, String> {
    let speed = turning::spindle_speed(i.get("speed")?, i.get("diameter")?);
    Ok(milling::table_feed(i.get("feed")?, i.count("teeth")?, speed))
}

fn side_milling(i: &Inputs) -> Result<Duration, String> {
    let rate = match i.find("rate")? {
        Some(rate) => rate,
        None => cutter_rate(i)?,
    };
    let approach = milling::side_approach(i.get("diameter")?, i.get("engagement")?);
    Ok(turning::travel_time(i.get::<Length>("length")? + approach, rate))
}

fn face_milling(i: &Inputs) -> Result<Duration, String> {
    let offset = i.find("offset")?.unwrap_or(Length::ZERO);
    let approach = milling::face_approach(i.get("diameter")?, i.get("width")?, offset);
    let rate = match i.find("turns")? {
        Some(turns) => milling::table_feed(i.get("feed")?, i.count("teeth")?, turns),
        None => cutter_rate(i)?,
    };
    Ok(turning::travel_time(i.get::<Length>("length")? + approach, rate))
}

fn hobbing_cycle(i: &Inputs) -> Result<Duration, String> {
    let (gear, hob) = (i.gear()?, i.hob()?);
    let (hand, depth) = (i.hand()?, i.get("depth")?);
    let approach = if gear.helix == Angle::ZERO {
        hobbing::spur_approach(&hob, depth)
    } else {
        hobbing::approach(&gear, &hob, hand, depth)
    };
    let swivel = hobbing::swivel_angle(&gear, &hob, hand);
    let beyond = i.find("clearance")?.unwrap_or(Length::ZERO) + hobbing::overrun(&gear, swivel);
    Ok(hobbing::hobbing_time(hobbing::HobbingCut {
        gear_teeth: gear.teeth,
        starts: hob.starts,
        speed: turning::spindle_speed(i.get("speed")?, hob.diameter),
        axial_feed: i.get("feed")?,
        path: approach + gear.face + beyond,
    }))
}

fn milling_power(i: &Inputs) -> Result<wearland::quantity::Power, String> {
    let (diameter, engagement) = (i.get("diameter")?, i.get("engagement")?);
    let swept = match i.word("position")? {
        "centred" => milling::engagement_angle_centred(diameter, engagement),
        _ => milling::engagement_angle_side(diameter, engagement),
    };
    let chip = milling::mean_chip_thickness(milling::MeanChip {
        feed: i.get("feed")?,
        edge_angle: i.get("edge_angle")?,
        engagement,
        diameter,
        swept,
    });
    let rate = milling::milling_removal_rate(i.get("depth")?, engagement, cutter_rate(i)?);
    Ok(force::removal_power(rate, force::specific_force(i.get("kc11")?, i.number("mc")?, chip)))
}
