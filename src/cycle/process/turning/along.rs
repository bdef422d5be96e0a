//! Cylinders, outside and inside.

use super::super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::super::work::{Side, TurningWork};
use super::Motion;
use super::passes::{Level, Passes};
use crate::cutting::turning::spindle_speed;
use crate::cutting::turning::{PASS_COUNT, pass_plan, ring_volume};
use crate::quantity::{Length, Record, Term};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &TurningWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let TurningWork::Along { side, diameters, length, approach, finish, .. } = *work else {
        return Err(CutError::WrongTool);
    };
    let bar = at.tool().geometry.bar_diameter.filter(|_| side == Side::Inside);
    if bar.is_some_and(|bar| bar >= diameters.low) {
        return Err(CutError::DoesNotFit { why: "the boring bar is as thick as the hole it starts in" });
    }
    let feed = at.feed_per_rev()?;
    let stock = (diameters.high - diameters.low) / 2.0;
    let left = finish.map_or(Length::ZERO, |finish| finish.depth);
    let most = at.cut.depth.unwrap_or(stock);
    let plan = pass_plan(stock, most, left);
    let finishing = u32::from(plan.finish > Length::ZERO);
    let passes = plan.roughing.saturating_add(finishing);
    if passes > MOST_PASSES {
        return Err(CutError::TooManyPasses { passes });
    }
    record.step(&PASS_COUNT, Term::Plain(f64::from(plan.roughing)), || {
        let mut inputs =
            vec![("D", diameters.high.into()), ("d", diameters.low.into()), ("a_p,max", most.into())];
        if finishing > 0 {
            inputs.push(("a_f", plan.finish.into()));
        }
        inputs
    });
    // The speed is held on the larger diameter of the pass: outside before it, inside after it.
    let held_on = |cut_away: Length, depth: Length| match side {
        Side::Outside => diameters.high - cut_away * 2.0,
        Side::Inside => diameters.low + (cut_away + depth) * 2.0,
    };
    let path = length + approach;
    let mut all = Passes::default();
    for pass in 0..plan.roughing {
        let diameter = held_on(plan.depth * f64::from(pass), plan.depth);
        all.level(at, Level { diameter, path, speed: at.cut.speed, feed }, record)?;
    }
    if let Some(finish) = finish {
        let diameter = held_on(stock - plan.finish, plan.finish);
        let speed = finish.speed.unwrap_or(at.cut.speed);
        all.finish(finish.feed, plan.finish, spindle_speed(speed, diameter).smaller(at.fastest()?));
        all.level(at, Level { diameter, path, speed, feed: finish.feed }, record)?;
    }
    Ok(Motion {
        depth: Some(if plan.roughing == 0 { plan.finish } else { plan.depth }),
        rapid: at.cut.rapid + path * f64::from(passes.saturating_sub(1)),
        removed: Some(ring_volume(diameters.high, diameters.low, length)),
        ..all.motion(passes)
    })
}
