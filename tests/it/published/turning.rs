//! Tapers, outlines, parting, forms, threads and finish beyond the first formulas.

use wearland::cutting::{finish, threading, turning};
use wearland::quantity::Length;

use super::formulas::Found;
use super::inputs::{Answer, Inputs};

pub(super) fn work(name: &str, i: &Inputs) -> Found {
    for family in [shape, plunge, thread, surface] {
        if let Some(answer) = family(name, i)? {
            return Ok(Some(answer));
        }
    }
    Ok(None)
}

fn shape(name: &str, i: &Inputs) -> Found {
    let ends = || Ok::<(Length, Length, Length), String>((i.get("from")?, i.get("to")?, i.get("length")?));
    Ok(Some(match name {
        "taper_half_angle" => {
            let (from, to, length) = ends()?;
            Answer::one(turning::taper_half_angle(from, to, length))
        }
        "cone_path" => {
            let (from, to, length) = ends()?;
            Answer::one(turning::cone_path(from, to, length))
        }
        "frustum_volume" => {
            let (from, to, length) = ends()?;
            Answer::one(turning::frustum_volume(from, to, length))
        }
        "tailstock_offset" => {
            let (from, to, length) = ends()?;
            Answer::one(turning::tailstock_offset(from, to, length, i.get("between_centres")?))
        }
        "taper_time" => {
            let (from, to, length) = ends()?;
            Answer::one(turning::taper_time(turning::TaperCut {
                from,
                to,
                length,
                speed: i.get("speed")?,
                feed: i.get("feed")?,
                fastest: i.get("fastest")?,
            }))
        }
        "cone_profile_volume" => {
            let (diameter, end, length) = ends()?;
            let step = turning::ProfileStep { diameter, end, length };
            Answer::one(turning::profile_volume(i.get("stock")?, &[step]))
        }
        "two_diameters" => {
            let pass = |diameter: &'static str, length: &'static str| {
                let speed = turning::spindle_speed(i.get("speed")?, i.get(diameter)?);
                Ok::<_, String>(turning::turning_time(i.get(length)?, i.get("feed")?, speed))
            };
            Answer::one(pass("first", "first_length")? + pass("second", "second_length")?)
        }
        "rough_passes" => {
            let plan = turning::pass_plan(i.get("stock")?, i.get("depth")?, i.get("finish")?);
            Answer::plain(plan.roughing)
        }
        "rough_depth" => {
            Answer::one(turning::pass_plan(i.get("stock")?, i.get("depth")?, i.get("finish")?).depth)
        }
        _ => return Ok(None),
    }))
}

fn face(i: &Inputs) -> Result<turning::FacingCut, String> {
    Ok(turning::FacingCut {
        outer: i.get("outer")?,
        inner: i.get("inner")?,
        speed: i.get("speed")?,
        feed: i.get("feed")?,
        fastest: i.get("fastest")?,
    })
}

fn plunge(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "parting_time" => Answer::one(turning::parting_time(turning::PartingCut {
            face: face(i)?,
            slow_below: i.get("slow_below")?,
            slow_share: i.number("slow_share")?,
        })),
        "form_time" => {
            Answer::one(turning::form_time(turning::FormCut { face: face(i)?, dwell: i.number("dwell")? }))
        }
        "ring_volume" => Answer::one(turning::ring_volume(i.get("outer")?, i.get("inner")?, i.get("width")?)),
        "knurling_time" => {
            Answer::one(turning::knurling_time(i.get("path")?, i.get("feed")?, i.get("speed")?))
        }
        "knurl_teeth" => Answer::plain(turning::knurl_teeth(i.get("diameter")?, i.get("pitch")?)),
        "knurl_blank" => Answer::one(turning::knurl_blank(i.count("teeth")?, i.get("pitch")?)),
        "burnishing_time" => {
            let passes = i.count("passes")?;
            Answer::one(turning::burnishing_time(i.get("path")?, i.get("feed")?, i.get("speed")?, passes))
        }
        _ => return Ok(None),
    }))
}

fn thread(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "pitch_of_threads" => Answer::one(threading::pitch_of_threads(i.number("per_inch")?)),
        "thread_pitch_diameter" => {
            Answer::one(threading::thread_pitch_diameter(i.get("diameter")?, i.get("pitch")?))
        }
        "internal_minor_diameter" => {
            Answer::one(threading::internal_minor_diameter(i.get("diameter")?, i.get("pitch")?))
        }
        "thread_root_diameter" => {
            Answer::one(threading::thread_root_diameter(i.get("diameter")?, i.get("pitch")?))
        }
        "thread_passes_with_least_last" => Answer::list(&threading::thread_passes_with_least_last(
            i.get("depth")?,
            i.count("passes")?,
            i.get("least")?,
        )),
        "thread_chip_areas" => {
            let infeeds = threading::thread_passes(i.get("depth")?, i.count("passes")?);
            Answer::list(&threading::thread_chip_areas(&infeeds))
        }
        "fastest_threading" => Answer::one(threading::fastest_threading(i.get("pitch")?, i.get("axis")?)),
        "thread_run_out" => Answer::one(threading::thread_run_out(i.get("pitch")?, i.get("speed")?)),
        "thread_run_in" => {
            Answer::one(threading::thread_run_in(i.get("pitch")?, i.get("speed")?, i.number("lead_error")?))
        }
        "thread_allowance" => Answer::one(threading::thread_allowance(i.get("pitch")?)),
        "major_tolerance" => Answer::one(threading::major_tolerance(i.get("pitch")?)),
        "pitch_diameter_tolerance" => {
            Answer::one(threading::pitch_diameter_tolerance(i.get("pitch")?, i.get("step_mean")?))
        }
        "external_thread_volume" => Answer::one(threading::external_thread_volume(
            i.get("diameter")?,
            i.get("pitch")?,
            i.get("length")?,
        )),
        "internal_thread_volume" => Answer::one(threading::internal_thread_volume(
            i.get("diameter")?,
            i.get("pitch")?,
            i.get("length")?,
        )),
        _ => return Ok(None),
    }))
}

fn surface(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "mean_roughness_of_arc" => {
            Answer::one(finish::mean_roughness_of_arc(i.get("feed")?, i.get("radius")?))
        }
        "sharp_corner" => {
            Answer::one(finish::sharp_corner(i.get("feed")?, i.get("edge_angle")?, i.get("minor_angle")?))
        }
        "corner_and_edge" => {
            Answer::one(finish::corner_and_edge(i.get("feed")?, i.get("radius")?, i.get("minor_angle")?))
        }
        "wiper_roughness" => Answer::one(finish::wiper_roughness(i.get("feed")?, i.get("radius")?)),
        "feed_marks" => Answer::one(finish::feed_marks(i.get("step")?, i.get("diameter")?)),
        "feed_marks_short" => Answer::one(finish::feed_marks_short(i.get("step")?, i.get("diameter")?)),
        "least_chip_thickness" => {
            Answer::one(finish::least_chip_thickness(i.get("edge_radius")?, i.number("share")?))
        }
        _ => return Ok(None),
    }))
}
