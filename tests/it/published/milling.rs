//! Engagement, travel, pockets, threads, balancing and scallops of milling.

use wearland::cutting::{force, milling, turning};
use wearland::quantity::{Density, FeedRate, Force, Length, SpecificForce};

use super::formulas::Found;
use super::inputs::{Answer, Inputs};

pub(super) fn work(name: &str, i: &Inputs) -> Found {
    for family in [cut, travel, pocket, thread, balance] {
        if let Some(answer) = family(name, i)? {
            return Ok(Some(answer));
        }
    }
    Ok(None)
}

/// At one edge of the work, or at an offset from its middle.
fn engagement(i: &Inputs) -> Result<milling::Engagement, String> {
    let diameter = i.get("diameter")?;
    Ok(match i.find("engagement")? {
        Some(engagement) => milling::Engagement::side(diameter, engagement),
        None => milling::Engagement::of(
            diameter,
            i.get("width")?,
            Length::mm(i.find_number("offset_mm")?.unwrap_or(0.0)),
        ),
    })
}

fn clean_up(i: &Inputs) -> Result<milling::CleanUp, String> {
    let word = i.word("clean_up")?;
    let found = milling::CleanUp::NAMES.iter().find(|(name, _)| *name == word);
    found.map(|(_, clean_up)| *clean_up).ok_or(format!("clean-up `{word}` is not known"))
}

fn cut(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "feed_per_tooth" => {
            Answer::one(milling::feed_per_tooth(i.get("rate")?, i.count("teeth")?, i.get("speed")?))
        }
        "thinning_factor" => Answer::plain(milling::thinning_factor(
            i.get("edge_angle")?,
            i.get("engagement")?,
            i.get("diameter")?,
        )),
        "feed_for_chip_thickness" => {
            let factor =
                milling::thinning_factor(i.get("edge_angle")?, i.get("engagement")?, i.get("diameter")?);
            Answer::one(milling::feed_for_chip_thickness(i.get("chip")?, factor))
        }
        "swept_angle" => Answer::one(milling::swept_angle(engagement(i)?)),
        "teeth_engaged" => {
            Answer::plain(milling::teeth_engaged(i.count("teeth")?, milling::swept_angle(engagement(i)?)))
        }
        "mean_chip_thickness_engaged" => Answer::one(milling::mean_chip_thickness_engaged(
            i.get("feed")?,
            i.get("edge_angle")?,
            engagement(i)?,
        )),
        "max_chip_thickness_engaged" => Answer::one(milling::max_chip_thickness_engaged(
            i.get("feed")?,
            i.get("edge_angle")?,
            engagement(i)?,
        )),
        "mean_chip_thickness_short" => Answer::one(milling::mean_chip_thickness_short(
            i.get("feed")?,
            i.get("engagement")?,
            i.get("diameter")?,
        )),
        "milling_kc" => Answer::one(milling_kc(i)?),
        "slab_milling_force" => Answer::one(slab_force(i)?),
        "slab_milling_motor_power" => {
            let teeth = milling::teeth_engaged(i.count("teeth")?, milling::swept_angle(engagement(i)?));
            let power = force::cutting_power(slab_force(i)? * teeth, i.get("speed")?);
            Answer::one(force::motor_power(power, i.number("efficiency")?))
        }
        "step_over_for_scallop" => {
            Answer::one(milling::step_over_for_scallop(i.get("height")?, i.get("radius")?))
        }
        _ => return Ok(None),
    }))
}

fn milling_kc(i: &Inputs) -> Result<SpecificForce, String> {
    let chip = milling::mean_chip_thickness_engaged(i.get("feed")?, i.get("edge_angle")?, engagement(i)?);
    Ok(force::specific_force(i.get("kc11")?, i.number("mc")?, chip) * i.find_number("factor")?.unwrap_or(1.0))
}

/// Force of one tooth of a cutter with a helix; the edge lies at 90 degrees less the helix to the feed.
fn slab_force(i: &Inputs) -> Result<Force, String> {
    let chip = milling::mean_chip_thickness_engaged(i.get("feed")?, i.get("edge_angle")?, engagement(i)?);
    let width = force::chip_width(i.get("depth")?, i.get("edge_angle")?);
    Ok(force::cutting_force(milling_kc(i)?, width, chip))
}

fn rate(i: &Inputs) -> Result<FeedRate, String> {
    let speed = turning::spindle_speed(i.get("speed")?, i.get("diameter")?);
    Ok(milling::table_feed(i.get("feed")?, i.count("teeth")?, speed))
}

fn travel(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "face_travel" => Answer::one(face_travel(i)?),
        "side_travel" => Answer::one(side_travel(i)?),
        "face_travel_time" => Answer::one(turning::travel_time(face_travel(i)?, rate(i)?)),
        "side_travel_time" => Answer::one(turning::travel_time(side_travel(i)?, rate(i)?)),
        "cutter_rate" => Answer::one(rate(i)?),
        "flat_length" => Answer::one(milling::flat_length(i.get("bar")?, i.get("depth")?)),
        "flat_approach" => {
            Answer::one(milling::flat_approach(i.get("diameter")?, i.get("bar")?, i.get("depth")?))
        }
        "flat_time" => {
            let (bar, depth) = (i.get("bar")?, i.get("depth")?);
            let path =
                milling::flat_length(bar, depth) + milling::flat_approach(i.get("diameter")?, bar, depth);
            Answer::one(turning::travel_time(path, rate(i)?))
        }
        _ => return Ok(None),
    }))
}

fn face_travel(i: &Inputs) -> Result<Length, String> {
    let diameter = i.get("diameter")?;
    let offset = i.find("offset")?.unwrap_or(Length::ZERO);
    let approach = milling::face_approach(diameter, i.get("width")?, offset);
    Ok(milling::face_travel(i.get("length")?, approach, diameter, clean_up(i)?))
}

fn side_travel(i: &Inputs) -> Result<Length, String> {
    let approach = milling::side_approach(i.get("diameter")?, i.get("engagement")?);
    Ok(milling::side_travel(i.get("length")?, approach, clean_up(i)?))
}

fn pocket(name: &str, i: &Inputs) -> Found {
    let shape = || {
        Ok::<_, String>(milling::Pocket {
            length: i.get("length")?,
            width: i.get("width")?,
            diameter: i.get("diameter")?,
            step_over: i.get("step_over")?,
        })
    };
    Ok(Some(match name {
        "clearing_path" => Answer::one(milling::clearing_path(shape()?)),
        "wall_path" => Answer::one(milling::wall_path(shape()?)),
        "ramp_path" => Answer::one(milling::ramp_path(i.get("depth")?, i.get("angle")?)),
        "helix_path" => Answer::one(milling::helix_path(
            i.get("depth")?,
            i.get("angle")?,
            i.get("hole")?,
            i.get("diameter")?,
        )),
        "keyway_path" => {
            let word = i.word("ends")?;
            let ends = milling::KeywayEnds::NAMES.iter().find(|(name, _)| *name == word);
            let (_, ends) = ends.ok_or(format!("ends `{word}` are not known"))?;
            Answer::one(milling::keyway_path(i.get("length")?, i.get("diameter")?, *ends))
        }
        _ => return Ok(None),
    }))
}

fn thread(name: &str, i: &Inputs) -> Found {
    let side = || match i.word("side")? {
        "internal" => Ok(milling::ThreadSide::Internal),
        "external" => Ok(milling::ThreadSide::External),
        other => Err(format!("side `{other}` is not known")),
    };
    let path = || Ok::<_, String>(milling::centre_path_diameter(i.get("traced")?, i.get("cutter")?, side()?));
    Ok(Some(match name {
        "centre_path_diameter" => Answer::one(path()?),
        "centre_feed_rate" => {
            Answer::one(milling::centre_feed_rate(i.get("rate")?, path()?, i.get("traced")?))
        }
        "helix_turn" => Answer::one(milling::helix_turn(path()?, i.get("pitch")?)),
        "lead_arc" => Answer::one(milling::lead_arc(path()?, i.get("cutter")?, side()?)),
        "thread_mill_turns" => Answer::plain(milling::thread_mill_turns(
            i.get("length")?,
            i.get("cutting_length")?,
            i.get("pitch")?,
        )),
        "thread_milling_time" => {
            let rate = milling::centre_feed_rate(i.get("rate")?, path()?, i.get("traced")?);
            let turns =
                milling::thread_mill_turns(i.get("length")?, i.get("cutting_length")?, i.get("pitch")?);
            let helix = milling::helix_turn(path()?, i.get("pitch")?) * f64::from(turns);
            let leads = milling::lead_arc(path()?, i.get("cutter")?, side()?) * 2.0;
            Answer::one(turning::travel_time(helix + leads, rate) * f64::from(i.count("passes")?))
        }
        _ => return Ok(None),
    }))
}

fn balance(name: &str, i: &Inputs) -> Found {
    let density: Option<Density> = i.find("density")?;
    let density = density.unwrap_or(Density::ZERO);
    Ok(Some(match name {
        "balance_mass" => Answer::one(milling::balance_mass(i.get("unbalance")?, i.get("radius")?)),
        "balance_moment" => Answer::one(milling::balance_moment(arc(i)?, density)),
        "balance_depth" | "balance_angle" => {
            let unbalance = i.get("unbalance")?;
            let (radius, diameter, deepest) = (i.get("radius")?, i.get("diameter")?, i.get("deepest")?);
            let cut = milling::balance_cut(unbalance, radius, diameter, deepest, density);
            let cut = cut.ok_or("the unbalance is out of reach")?;
            if name == "balance_depth" { Answer::one(cut.depth) } else { Answer::one(cut.angle) }
        }
        "balance_path" => Answer::one(milling::balance_path(arc(i)?)),
        _ => return Ok(None),
    }))
}

fn arc(i: &Inputs) -> Result<milling::BalanceArc, String> {
    Ok(milling::BalanceArc {
        radius: i.get("radius")?,
        diameter: i.get("diameter")?,
        depth: i.get("depth")?,
        angle: i.get("angle")?,
    })
}
