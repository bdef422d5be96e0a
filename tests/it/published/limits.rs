//! What machines, chucks, bars, tools and processes allow, and the corrections of the cutting force.

use wearland::cutting::correction::{
    ChipForming, Edge, process_factor, rake_factor, specific_energy, specific_force_from, speed_factor,
    wear_factor,
};
use wearland::cutting::force::cutting_force;
use wearland::cutting::limits::{
    BoringBar, Clamping, Ends, Grade, HeldCut, JawGrip, Process, RoundBar, Support, ToleranceClass,
    available_power, available_torque, base_speed, capability, component_force, critical_speed, deflection,
    general_tolerance, grade_within, grip_left, grip_needed, initial_grip, jaw_force, least_chip,
    least_depth, longest_bar, longest_overhang, permissible_speed, roughness_range, slenderness,
    standard_tolerance, tolerance_unit, whirl_speed, worked_tolerance,
};
use wearland::quantity::{Force, Length, MassMoment, Quantity, SpindleSpeed};

use super::formulas::Found;
use super::inputs::{Answer, Inputs};

pub(super) fn work(name: &str, inputs: &Inputs) -> Found {
    for family in [drive, grip, bend, chip, tolerance, process, correction] {
        if let Some(answer) = family(name, inputs)? {
            return Ok(Some(answer));
        }
    }
    Ok(None)
}

fn drive(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "base_speed" => Answer::one(base_speed(i.get("power")?, i.get("torque")?)),
        "available_power" => {
            Answer::one(available_power(i.get("power")?, i.get("base_speed")?, i.get("speed")?))
        }
        "available_torque" => {
            Answer::one(available_torque(i.get("torque")?, i.get("power")?, i.get("speed")?))
        }
        "component_force" => Answer::one(component_force(i.get("force")?, i.number("share")?)),
        _ => return Ok(None),
    }))
}

fn grip(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "jaw_force" => Answer::one(jaw_force(i.get("jaw_moment")?, i.get("speed")?)),
        "grip_needed" => Answer::one(grip_needed(HeldCut {
            force: i.get("force")?,
            cut_diameter: i.get("cut_diameter")?,
            grip_diameter: i.get("grip_diameter")?,
            friction: i.number("friction")?,
        })),
        "grip_left" => {
            let jaws = jaw_force(i.get("jaw_moment")?, i.get("speed")?);
            Answer::one(grip_left(i.get("grip")?, jaws, clamping(i)?))
        }
        "initial_grip" => {
            Answer::one(initial_grip(&chuck(i)?, i.get("needed")?, i.get("speed")?, clamping(i)?))
        }
        "permissible_speed" => Answer::one(permissible_speed(&chuck(i)?, i.get("needed")?)),
        _ => return Ok(None),
    }))
}

fn chuck(i: &Inputs) -> Result<JawGrip, String> {
    Ok(JawGrip {
        at_rest: i.find("grip")?.unwrap_or(Force::ZERO),
        jaw_moment: i.get::<MassMoment>("jaw_moment")?,
        fastest: i.find("fastest")?.unwrap_or(SpindleSpeed::rpm(f64::INFINITY)),
        grip_safety: i.number("grip_safety")?,
        cut_safety: i.number("cut_safety")?,
    })
}

fn clamping(i: &Inputs) -> Result<Clamping, String> {
    match i.word("clamping")? {
        "outside" => Ok(Clamping::Outside),
        "inside" => Ok(Clamping::Inside),
        other => Err(format!("clamping `{other}` is neither `outside` nor `inside`")),
    }
}

fn bend(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "critical_speed" => Answer::one(critical_speed(&bar(i)?, i.get("length")?, ends(i)?)),
        "whirl_speed" => Answer::one(whirl_speed(critical_speed(&bar(i)?, i.get("length")?, ends(i)?))),
        "longest_bar" => Answer::one(longest_bar(&bar(i)?, i.get("speed")?, ends(i)?)),
        "deflection" => Answer::one(deflection(
            i.get("force")?,
            support(i)?,
            i.get("diameter")?,
            i.get("length")?,
            i.get("modulus")?,
        )),
        "slenderness" => Answer::plain(slenderness(i.get("length")?, i.get("diameter")?)),
        "slenderest" => Answer::plain(support(i)?.slenderest().ok_or("no limit")?),
        "longest_overhang" => Answer::one(longest_overhang(boring_bar(i)?, i.get("diameter")?)),
        "bar_bending" => {
            let bent = |bar: BoringBar| {
                let force = Force::n(200.0);
                deflection(force, Support::Chuck, Length::mm(20.0), Length::mm(80.0), bar.modulus())
            };
            Answer::plain(bent(boring_bar(i)?) / bent(BoringBar::Steel))
        }
        _ => return Ok(None),
    }))
}

fn bar(i: &Inputs) -> Result<RoundBar, String> {
    Ok(RoundBar { diameter: i.get("diameter")?, modulus: i.get("modulus")?, density: i.get("density")? })
}

fn ends(i: &Inputs) -> Result<Ends, String> {
    Ok(match i.word("ends")? {
        "pinned" => Ends::Pinned,
        "clamped and pinned" => Ends::ClampedPinned,
        "clamped" => Ends::Clamped,
        "cantilever" => Ends::Cantilever,
        other => return Err(format!("ends `{other}` are not known")),
    })
}

fn support(i: &Inputs) -> Result<Support, String> {
    Ok(match i.word("support")? {
        "chuck" => Support::Chuck,
        "chuck and centre" => Support::ChuckAndCentre,
        "centres" => Support::Centres,
        other => return Err(format!("support `{other}` is not known")),
    })
}

fn boring_bar(i: &Inputs) -> Result<BoringBar, String> {
    Ok(match i.word("bar")? {
        "steel" => BoringBar::Steel,
        "carbide" => BoringBar::Carbide,
        "damped" => BoringBar::Damped,
        other => return Err(format!("bar `{other}` is not known")),
    })
}

fn chip(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "least_chip" => Answer::one(least_chip(i.get("edge_radius")?, i.number("share")?)),
        "least_depth" => Answer::one(least_depth(i.get("radius")?)),
        _ => return Ok(None),
    }))
}

fn tolerance(name: &str, i: &Inputs) -> Found {
    let size = || i.get::<Length>("size");
    let grade = || u8::try_from(i.count("grade")?).ok().and_then(Grade::it).ok_or("no such grade".to_owned());
    let some = |found: Option<Length>| found.map(Answer::one).ok_or("no figure".to_owned());
    Ok(Some(match name {
        "tolerance_unit" => some(tolerance_unit(size()?))?,
        "worked_tolerance" => some(worked_tolerance(grade()?, size()?))?,
        "standard_tolerance" => some(standard_tolerance(grade()?, size()?))?,
        "grade_within" => {
            Answer::plain(grade_within(i.get("tolerance")?, size()?).ok_or("no such grade")?.number())
        }
        "general_tolerance" => {
            let class = match i.word("class")? {
                "f" => ToleranceClass::Fine,
                "m" => ToleranceClass::Medium,
                "c" => ToleranceClass::Coarse,
                "v" => ToleranceClass::VeryCoarse,
                other => return Err(format!("class `{other}` is not known")),
            };
            some(general_tolerance(class, size()?))?
        }
        _ => return Ok(None),
    }))
}

fn process(name: &str, i: &Inputs) -> Found {
    let process = || {
        Ok::<_, String>(match i.word("process")? {
            "lapping" => Process::Lapping,
            "honing" => Process::Honing,
            "grinding" => Process::Grinding,
            "fine turning" => Process::FineTurning,
            "broaching" => Process::Broaching,
            "reaming" => Process::Reaming,
            "turning" => Process::Turning,
            "boring" => Process::Boring,
            "milling" => Process::Milling,
            "drilling" => Process::Drilling,
            "sawing" => Process::Sawing,
            other => return Err(format!("process `{other}` is not known")),
        })
    };
    Ok(Some(match name {
        "capability" => {
            let grades = capability(process()?);
            let mut answer = Answer::plain(grades.finest.number());
            answer.values.push(f64::from(grades.usual.number()));
            answer.values.push(f64::from(grades.coarsest.number()));
            answer
        }
        "roughness_range" => {
            let range = roughness_range(process()?).ok_or("no figure")?;
            let mut answer = Answer::one(range.low);
            answer.values.push(range.high.base());
            answer
        }
        _ => return Ok(None),
    }))
}

fn correction(name: &str, i: &Inputs) -> Found {
    Ok(Some(match name {
        "rake_factor" => {
            Answer::plain(rake_factor(i.get("rake")?, i.get("rake_of_constant")?, i.number("share")?))
        }
        "speed_factor" => Answer::plain(speed_factor(i.get("speed")?)),
        "wear_factor" => Answer::plain(wear_factor(match i.word("edge")? {
            "worn" => Edge::Worn,
            _ => Edge::Sharp,
        })),
        "process_factor" => Answer::plain(process_factor(match i.word("process")? {
            "outer turning" => ChipForming::OuterTurning,
            "inner turning" => ChipForming::InnerTurning,
            "milling" => ChipForming::Milling,
            "parting" => ChipForming::Parting,
            "planing" => ChipForming::Planing,
            other => return Err(format!("process `{other}` is not known")),
        })),
        "specific_energy" => Answer::one(specific_energy(i.get("power")?, i.get("rate")?)),
        "force_from_another_chip" => {
            let chip = i.get("chip")?;
            let kc = specific_force_from(i.get("kc")?, i.get("known_chip")?, i.number("mc")?, chip);
            Answer::one(cutting_force(kc, i.get("width")?, chip))
        }
        _ => return Ok(None),
    }))
}
