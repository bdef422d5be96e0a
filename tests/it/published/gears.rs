//! Gears: blank, hobbing beyond a single cut, shaping, shaving, grinding, roll test.

use wearland::cutting::gears::{self, ToothDepth};
use wearland::cutting::roll_test::{self, Composite};
use wearland::cutting::{hobbing, turning};
use wearland::quantity::{Angle, Duration, FeedPerRev, Length, Money, parse};

use super::formulas::Found;
use super::inputs::{Answer, Inputs};

pub(super) fn work(name: &str, inputs: &Inputs) -> Found {
    for family in [blank, hobs, cutter, processes, rolled] {
        if let Some(answer) = family(name, inputs)? {
            return Ok(Some(answer));
        }
    }
    Ok(None)
}

fn blank(name: &str, i: &Inputs) -> Found {
    let shift = || i.find_number("profile_shift").map(|shift| shift.unwrap_or(0.0));
    Ok(Some(match name {
        "module_of_pitch" => Answer::one(gears::module_of_pitch(i.number("diametral_pitch")?)),
        "transverse_pitch" => {
            Answer::plain(gears::transverse_pitch(i.number("diametral_pitch")?, i.get("helix")?))
        }
        "transverse_module" => Answer::one(gears::transverse_module(i.get("module")?, i.get("helix")?)),
        "transverse_pressure_angle" => {
            Answer::one(gears::transverse_pressure_angle(i.get("pressure")?, i.get("helix")?))
        }
        "axial_pitch" => Answer::one(gears::axial_pitch(i.get("module")?, i.get("helix")?)),
        "lead" => Answer::one(gears::lead(&i.gear()?)),
        "blank_diameter" => Answer::one(gears::blank_diameter(&i.gear()?, shift()?)),
        "root_diameter" => Answer::one(gears::root_diameter(&i.gear()?, shift()?)),
        "tooth_metres" => Answer::one(gears::tooth_metres(&i.gear()?)),
        "whole_depth" => Answer::one(gears::whole_depth(i.gear_module()?, tooth_depth(i)?)),
        _ => return Ok(None),
    }))
}

fn tooth_depth(i: &Inputs) -> Result<ToothDepth, String> {
    Ok(match i.word("rule")? {
        "coarse" => ToothDepth::Coarse,
        "fine" => ToothDepth::Fine,
        "inch full" => ToothDepth::InchFull,
        "inch fine" => ToothDepth::InchFine,
        "modules" => ToothDepth::Modules(i.number("modules")?),
        other => return Err(format!("rule `{other}` is not known")),
    })
}

fn chip(i: &Inputs) -> Result<Length, String> {
    Ok(hobbing::tip_chip_thickness(&hobbing::TipChip {
        gear: i.gear()?,
        profile_shift: i.find_number("profile_shift")?.unwrap_or(0.0),
        hob: i.hob()?,
        gashes: i.count("gashes")?,
        axial_feed: i.get("feed")?,
        depth: i.get("depth")?,
    }))
}

fn hobs(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "radial_infeed_time" => Answer::one(infeed(i)?),
        "radial_hobbing" => Answer::one(infeed(i)? + axial(i, i.get("path")?)?),
        "time_of_cuts" => Answer::one(two_cuts(i)?),
        "stack_face" => {
            Answer::one(hobbing::stack_face(i.count("blanks")?, i.get("face")?, i.get("spacer")?))
        }
        "stacked_hobbing" => {
            let face = hobbing::stack_face(i.count("blanks")?, i.get("face")?, i.get("spacer")?);
            let beyond = hobbing::spur_approach(&i.hob()?, i.get("depth")?) + i.get("clearance")?;
            Answer::one(axial(i, face + beyond)? / f64::from(i.count("blanks")?))
        }
        "hob_speed_at_table" => {
            Answer::one(hobbing::hob_speed_at_table(i.get("table")?, i.count("starts")?, i.count("teeth")?))
        }
        "tip_chip_thickness" => Answer::one(chip(i)?),
        "feed_for_tip_chip" => {
            Answer::one(hobbing::feed_for_tip_chip(i.get("feed")?, i.get("gives")?, i.get("wanted")?))
        }
        "feed_mark_depth" => Answer::one(hobbing::feed_mark_depth(
            i.get("feed")?,
            i.get("helix")?,
            i.get("pressure")?,
            i.get("hob")?,
        )),
        "feed_for_mark_depth" => Answer::one(hobbing::feed_for_mark_depth(
            i.get("depth")?,
            i.get("helix")?,
            i.get("pressure")?,
            i.get("hob")?,
        )),
        "generating_deviation" => Answer::one(hobbing::generating_deviation(
            &i.gear()?,
            &i.hob()?,
            i.count("gashes")?,
            i.get("pressure")?,
        )),
        _ => return Ok(None),
    }))
}

fn infeed(i: &Inputs) -> Result<Duration, String> {
    Ok(hobbing::radial_infeed_time(hobbing::RadialInfeed {
        gear_teeth: i.count("teeth")?,
        starts: i.count("starts")?,
        speed: i.get("turns")?,
        radial_feed: i.get("radial_feed")?,
        depth: i.get("depth")?,
    }))
}

fn axial(i: &Inputs, path: Length) -> Result<Duration, String> {
    let speed = match i.find("turns")? {
        Some(turns) => turns,
        None => turning::spindle_speed(i.get("speed")?, i.get("hob")?),
    };
    Ok(hobbing::hobbing_time(hobbing::HobbingCut {
        gear_teeth: i.count("teeth")?,
        starts: i.count("starts")?,
        speed,
        axial_feed: i.get("feed")?,
        path,
    }))
}

/// A roughing and a finishing cut of a spur gear, each with the approach of its own depth.
fn two_cuts(i: &Inputs) -> Result<Duration, String> {
    let hob = i.hob()?;
    let beyond = i.get::<Length>("face")? + i.get("clearance")?;
    let cut = |depth, speed, axial_feed| {
        Ok::<_, String>(hobbing::HobbingCut {
            gear_teeth: i.count("teeth")?,
            starts: hob.starts,
            speed: turning::spindle_speed(speed, hob.diameter),
            axial_feed,
            path: hobbing::spur_approach(&hob, depth) + beyond,
        })
    };
    let rough = cut(i.get("depth")?, i.get("speed")?, i.get("feed")?)?;
    let finish = cut(i.get("finish_depth")?, i.get("finish_speed")?, i.get("finish_feed")?)?;
    Ok(hobbing::time_of_cuts(&[rough, finish]))
}

fn cutter(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "hob_axial_pitch" => Answer::one(hobbing::hob_axial_pitch(&i.hob()?, i.get("module")?)),
        "hob_lead" => Answer::one(hobbing::hob_lead(&i.hob()?, i.get("module")?)),
        "hob_tooth_use" => {
            Answer::one(hobbing::hob_tooth_use(i.number("pieces")?, &i.gear()?, i.number("active_teeth")?))
        }
        "profile_generating_length" => {
            Answer::one(hobbing::profile_generating_length(i.get("addendum")?, i.get("pressure")?))
        }
        "shiftable_length" => {
            Answer::one(hobbing::shiftable_length(i.get("useful")?, i.get("entering")?, i.get("generating")?))
        }
        "shift_positions" => Answer::plain(hobbing::shift_positions(i.get("shiftable")?, i.get("step")?)),
        "pieces_of_shifting" => {
            let places = hobbing::shift_positions(i.get("shiftable")?, i.get("step")?);
            Answer::plain(places * i.count("pieces")? * i.count("passes")?)
        }
        "sharpenings" => Answer::plain(hobbing::sharpenings(i.get("tooth")?, i.get("stock")?)),
        "hob_cost_per_piece" => Answer::plain(
            hobbing::hob_cost_per_piece(hobbing::HobCost {
                price: Money::of(i.number("price")?),
                sharpening: Money::of(i.number("sharpening")?),
                sharpenings: i.count("sharpenings")?,
                pieces: i.number("pieces")?,
            })
            .amount(),
        ),
        _ => return Ok(None),
    }))
}

fn processes(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "shaping_strokes" => Answer::one(gears::shaping_strokes(i.get("speed")?, i.get("stroke")?)),
        "shaping_time" => Answer::one(gears::shaping_time(&gears::ShapingCut {
            depth: i.get("depth")?,
            pitch_diameter: hobbing::pitch_diameter(&i.gear()?),
            radial_feed: i.get("radial_feed")?,
            circular_feed: i.get("circular_feed")?,
            strokes: i.get("strokes")?,
            turns: i.number("turns")?,
        })),
        "shaving_time" => Answer::one(gears::shaving_time(&gears::ShavingCut {
            strokes: i.count("strokes")?,
            path: i.get("path")?,
            feed: i.get("feed")?,
            work_speed: i.get("work_speed")?,
        })),
        "plunge_shaving_time" => Answer::one(gears::plunge_shaving_time(&gears::PlungeShaving {
            infeed: i.get("infeed")?,
            radial_feed: i.get("radial_feed")?,
            dwell: i.number("dwell")?,
            work_speed: i.get("work_speed")?,
        })),
        "shaving_slide" => {
            Answer::one(gears::shaving_slide(i.get("rim_speed")?, i.get("cross_angle")?, i.get("helix")?))
        }
        "grinding_work_speed" => {
            Answer::one(gears::grinding_work_speed(i.get("wheel")?, i.count("starts")?, i.count("teeth")?))
        }
        "generating_grinding_time" => Answer::one(gears::generating_grinding_time(
            i.get("path")?,
            &list::<FeedPerRev>(i.word("feeds")?)?,
            i.get("work_speed")?,
        )),
        "profile_grinding_time" => Answer::one(gears::profile_grinding_time(&gears::ProfileGrinding {
            teeth: i.count("teeth")?,
            strokes: i.count("strokes")?,
            path: i.get("path")?,
            table_rate: i.get("table_rate")?,
            index: i.get("index")?,
        })),
        _ => return Ok(None),
    }))
}

/// Quantities of one kind, parted by commas.
fn list<Q: wearland::quantity::Quantity>(text: &str) -> Result<Vec<Q>, String> {
    text.split(',').map(|part| parse(part.trim()).map_err(|error| error.to_string())).collect()
}

fn which(i: &Inputs) -> Result<Composite, String> {
    match i.word("which")? {
        "total" => Ok(Composite::Total),
        "tooth" => Ok(Composite::Tooth),
        other => Err(format!("`{other}` is neither `total` nor `tooth`")),
    }
}

fn rolled(name: &str, i: &Inputs) -> Found {
    let grade = || i.count("grade").and_then(|grade| u8::try_from(grade).map_err(|e| e.to_string()));
    let outside = || "outside the standard".to_owned();
    Ok(Some(match name {
        "composite_limits_of_modules" => {
            let (which, diameter, grade) = (which(i)?, i.get("diameter")?, grade()?);
            let modules = list::<Length>(i.word("modules")?)?;
            let limits =
                modules.iter().map(|module| roll_test::composite_limit(which, *module, diameter, grade));
            Answer::list(&limits.collect::<Option<Vec<_>>>().ok_or_else(outside)?)
        }
        "composite_limits_of_grades" => {
            let (which, module, diameter) = (which(i)?, i.get("module")?, i.get("diameter")?);
            let limits =
                roll_test::GRADES.map(|grade| roll_test::composite_limit(which, module, diameter, grade));
            Answer::list(&limits.collect::<Option<Vec<_>>>().ok_or_else(outside)?)
        }
        "grade_reached" => {
            let grade =
                roll_test::grade_reached(which(i)?, i.get("module")?, i.get("diameter")?, i.get("measured")?);
            Answer::plain(grade.ok_or_else(outside)?)
        }
        "grade_of_gear" => {
            let (module, diameter) = (i.get("module")?, i.get("diameter")?);
            let grade = roll_test::grade_of_gear(module, diameter, i.get("total")?, i.get("tooth")?);
            Answer::plain(grade.ok_or_else(outside)?)
        }
        "total_deviation" => Answer::one(roll_test::total_deviation(&trace(i)?)),
        "tooth_deviation" => Answer::one(roll_test::tooth_deviation(&trace(i)?, i.count("teeth")?)),
        "reject_share" => Answer::plain(
            roll_test::reject_share(i.get("limit")?, i.get("mean")?, i.get("deviation")?).value(),
        ),
        _ => return Ok(None),
    }))
}

/// Centre distance of a gear that runs out once a turn and errs once a tooth.
fn trace(i: &Inputs) -> Result<Vec<Length>, String> {
    let (once, each): (Length, Length) = (i.get("runout")?, i.get("wave")?);
    let (teeth, phase) = (f64::from(i.count("teeth")?), i.get::<Angle>("phase")?.to_rad());
    let points = i.count("teeth")? * 180;
    Ok((0..points)
        .map(|point| {
            let turn = std::f64::consts::TAU * f64::from(point) / f64::from(points);
            once * turn.sin() + each * (teeth * turn + phase).sin()
        })
        .collect())
}
