//! Grinding: times, wheel load, power, centreless work.

use wearland::cutting::{grinding, turning};
use wearland::quantity::Length;

use super::formulas::Found;
use super::inputs::{Answer, Inputs};

pub(super) fn work(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "traverse_grinding" => Answer::one(grinding::traverse_time(strokes(i)?)),
        "plunge_stage_time" => Answer::one(grinding::plunge_stage_time(i.get("stock")?, i.get("infeed")?)),
        "spark_out_residue" => {
            Answer::one(grinding::spark_out_residue(i.get("infeed")?, i.get("lag")?, i.get("time")?))
        }
        "spark_out_time" => {
            Answer::one(grinding::spark_out_time(i.get("infeed")?, i.get("lag")?, i.get("error")?))
        }
        "plunge_removal_rate" => Answer::one(grinding::plunge_removal_rate(i.get("work")?, i.get("infeed")?)),
        "traverse_removal_rate" => Answer::one(grinding::traverse_removal_rate(
            i.get("infeed")?,
            i.get("traverse")?,
            i.get("work_speed")?,
        )),
        "specific_volume" => Answer::one(grinding::specific_volume(i.get("work")?, i.get("stock")?)),
        "traverse_specific_volume" => Answer::one(grinding::traverse_specific_volume(
            i.get("work")?,
            i.get("stock")?,
            i.get("length")?,
            i.get("wheel")?,
        )),
        "pieces_per_dressing" => {
            let piece = grinding::specific_volume(i.get("work")?, i.get("stock")?);
            Answer::plain(grinding::pieces_per_dressing(i.get("between")?, piece))
        }
        "equivalent_chip_thickness" => {
            Answer::one(grinding::equivalent_chip_thickness(i.get("rate")?, i.get("wheel_speed")?))
        }
        "grinding_power" => Answer::one(grinding::grinding_power(i.get("energy")?, i.get("rate")?)),
        "grinding_force" | "grinding_thrust" => {
            let power = grinding::grinding_power(i.get("energy")?, i.get("rate")?);
            let speed = turning::cutting_speed(i.get("turns")?, i.get("wheel")?);
            let times = if name == "grinding_thrust" { i.number("thrust_ratio")? } else { 1.0 };
            Answer::one(grinding::grinding_force(power, speed) * times)
        }
        "through_feed" => {
            Answer::one(grinding::through_feed(i.get("wheel")?, i.get("turns")?, i.get("tilt")?))
        }
        "centreless_time" => {
            let rate = grinding::through_feed(i.get("wheel")?, i.get("turns")?, i.get("tilt")?);
            Answer::one(grinding::centreless_time(i.get("length")?, i.get("gap")?, rate))
        }
        "centreless_work_speed" => Answer::one(grinding::centreless_work_speed(
            i.get("turns")?,
            i.get("wheel")?,
            i.get("work")?,
            i.get("tilt")?,
        )),
        _ => return Ok(None),
    }))
}

/// Passes from stock and infeed; traverse given for a turn.
fn strokes(i: &Inputs) -> Result<grinding::TraverseCut, String> {
    let stock: Option<Length> = i.find("stock")?;
    let passes = match stock {
        Some(stock) => turning::pass_count(stock, i.get("infeed")?),
        None => 1,
    };
    Ok(grinding::TraverseCut {
        passes,
        spark_out_passes: i.count("spark_out_passes")?,
        path: i.get("path")?,
        traverse: i.get("traverse")?,
        work_speed: turning::spindle_speed(i.get("work_speed")?, i.get("work")?),
    })
}
