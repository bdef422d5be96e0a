//! Cylindrical and centreless grinding.

use super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::work::{CentrelessWork, GrindingWork, PlungeStage, TraverseStage};
use super::{Motion, spin};
use crate::cutting::grinding::{
    CENTRELESS_TIME, PLUNGE_STAGE_TIME, SPECIFIC_VOLUME, THROUGH_FEED, TRAVERSE_SPECIFIC_VOLUME,
    TRAVERSE_TIME, TraverseCut, centreless_time, plunge_stage_time, specific_volume, through_feed,
    traverse_specific_volume, traverse_time,
};
use crate::cutting::turning::{SPINDLE_SPEED, cutting_speed, feed_rate, pass_count, spindle_speed};
use crate::quantity::{
    CuttingSpeed, Duration, FeedRate, Length, Range, Record, SpecificVolume, SpindleSpeed, Term, Volume,
};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &GrindingWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    match work {
        GrindingWork::Plunge { diameters, width, stages, spark_out, .. } => {
            plunge(at, (*diameters, *width), (stages, *spark_out), record)
        }
        GrindingWork::Traverse { diameters, length, work_speed, stages, spark_out_passes, overrun } => {
            let turns = work_turns(*work_speed, diameters.high, record);
            let cylinder = (*diameters, *length);
            let stroke = (*length + *overrun * 2.0, turns);
            traverse(at, cylinder, stroke, (stages, *spark_out_passes), record)
        }
        GrindingWork::Centreless(work) => centreless(at, work, record),
    }
}

/// The wheel at its speed.
fn wheel(at: &Setting<'_>, record: &mut impl Record) -> Result<(Motion, CuttingSpeed), CutError> {
    let diameter = at.tool_diameter()?;
    let (turns, capped) = spin(at, diameter, record)?;
    let motion = Motion {
        spindle_speed: Some(turns),
        top_speed: Some(turns),
        capped,
        rapid: at.cut.rapid,
        ..Motion::still(diameter)
    };
    Ok((motion, cutting_speed(turns, diameter)))
}

fn work_turns(speed: CuttingSpeed, diameter: Length, record: &mut impl Record) -> SpindleSpeed {
    let turns = spindle_speed(speed, diameter);
    record.step(&SPINDLE_SPEED, turns.into(), || vec![("v_c", speed.into()), ("d", diameter.into())]);
    turns
}

/// Stock on the radius between two diameters, and the diameter in the middle of it.
fn layer(diameters: Range<Length>) -> (Length, Length) {
    ((diameters.high - diameters.low) / 2.0, (diameters.high + diameters.low) / 2.0)
}

fn plunge(
    at: &Setting<'_>,
    cylinder: (Range<Length>, Length),
    plan: (&[PlungeStage], Duration),
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let ((diameters, width), (stages, spark_out)) = (cylinder, plan);
    let (wheel, speed) = wheel(at, record)?;
    let plunges = at.tool().geometry.width.map_or(1, |wide| pass_count(width, wide));
    if plunges > MOST_PASSES {
        return Err(CutError::TooManyPasses { passes: plunges });
    }
    let mut time = Duration::ZERO;
    for stage in stages {
        let part = plunge_stage_time(stage.stock, stage.infeed);
        record.step(&PLUNGE_STAGE_TIME, part.into(), || {
            vec![("s", stage.stock.into()), ("v_fr", stage.infeed.into())]
        });
        time += part;
    }
    let (stock, middle) = layer(diameters);
    let ground = recorded_volume(middle, stock, record);
    let count = f64::from(plunges);
    Ok(Motion {
        feed_rate: stages.first().map_or(FeedRate::ZERO, |stage| stage.infeed),
        passes: plunges,
        depth: Some(stock),
        runs: vec![(speed, time * count)],
        idle: spark_out * count,
        removed: Some(Volume::cm3(ground.to_mm3_per_mm() * width.to_mm() / 1000.0)),
        ground: Some(ground * count),
        ..wheel
    })
}

fn recorded_volume(diameter: Length, stock: Length, record: &mut impl Record) -> SpecificVolume {
    let ground = specific_volume(diameter, stock);
    record.step(&SPECIFIC_VOLUME, ground.into(), || vec![("d_w", diameter.into()), ("s", stock.into())]);
    ground
}

fn traverse(
    at: &Setting<'_>,
    cylinder: (Range<Length>, Length),
    stroke: (Length, SpindleSpeed),
    plan: (&[TraverseStage], u32),
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let ((diameters, length), (path, work_speed)) = (cylinder, stroke);
    let (stages, _) = plan;
    let wide = at.tool().geometry.width;
    let leaves = |stage: &TraverseStage| {
        wide.is_some_and(|wide| stage.traverse.to_mm_per_rev() > wide.to_mm() * (1.0 + 1e-9))
    };
    if stages.iter().any(leaves) {
        return Err(CutError::DoesNotFit { why: "the traverse of a turn is more than the wheel is wide" });
    }
    let (wheel, speed) = wheel(at, record)?;
    let (mut time, mut idle, mut strokes) = (Duration::ZERO, Duration::ZERO, 0_u32);
    let (stages, spark_out) = plan;
    for (place, stage) in stages.iter().enumerate() {
        let passes = pass_count(stage.stock, stage.infeed);
        if passes > MOST_PASSES {
            return Err(CutError::TooManyPasses { passes });
        }
        let still = if place + 1 == stages.len() { spark_out } else { 0 };
        let cut = TraverseCut { passes, spark_out_passes: 0, path, traverse: stage.traverse, work_speed };
        let whole = traverse_time(TraverseCut { spark_out_passes: still, ..cut });
        record.step(&TRAVERSE_TIME, whole.into(), || {
            vec![
                ("i", Term::Plain(f64::from(passes))),
                ("i_s", Term::Plain(f64::from(still))),
                ("L", path.into()),
                ("f_a", stage.traverse.into()),
                ("n_w", work_speed.into()),
            ]
        });
        let cutting = traverse_time(cut);
        time += cutting;
        idle += whole - cutting;
        strokes = passes.saturating_add(still).saturating_add(strokes);
    }
    let (stock, middle) = layer(diameters);
    let width = at.tool_width()?;
    let ground = shared_volume((middle, stock), length, width, record);
    let first = stages.first();
    Ok(Motion {
        feed_rate: first.map_or(FeedRate::ZERO, |stage| feed_rate(stage.traverse, work_speed)),
        passes: strokes,
        depth: first.map(|stage| stage.infeed),
        advance: first.map_or(Length::ZERO, |stage| Length::mm(stage.traverse.to_mm_per_rev())),
        runs: vec![(speed, time)],
        idle,
        removed: Some(Volume::cm3(ground.to_mm3_per_mm() * width.to_mm() / 1000.0)),
        ground: Some(ground),
        ..wheel
    })
}

fn shared_volume(
    layer: (Length, Length),
    length: Length,
    width: Length,
    record: &mut impl Record,
) -> SpecificVolume {
    let (diameter, stock) = layer;
    let ground = traverse_specific_volume(diameter, stock, length, width);
    record.step(&TRAVERSE_SPECIFIC_VOLUME, ground.into(), || {
        vec![("d_w", diameter.into()), ("s", stock.into()), ("l", length.into()), ("b", width.into())]
    });
    ground
}

fn centreless(at: &Setting<'_>, work: &CentrelessWork, record: &mut impl Record) -> Result<Motion, CutError> {
    let (wheel, speed) = wheel(at, record)?;
    let rate = through_feed(work.regulating_diameter, work.regulating_speed, work.regulating_angle);
    record.step(&THROUGH_FEED, rate.into(), || {
        vec![
            ("d_r", work.regulating_diameter.into()),
            ("n_r", work.regulating_speed.into()),
            ("alpha", work.regulating_angle.into()),
        ]
    });
    let time = centreless_time(work.length, work.gap, rate);
    record.step(&CENTRELESS_TIME, time.into(), || {
        vec![("l", work.length.into()), ("g", work.gap.into()), ("v_fa", rate.into())]
    });
    let width = at.tool_width()?;
    let ground = shared_volume((work.diameter - work.stock, work.stock), work.length, width, record);
    Ok(Motion {
        feed_rate: rate,
        passes: work.passes,
        depth: Some(work.stock / f64::from(work.passes.max(1))),
        runs: vec![(speed, time * f64::from(work.passes))],
        rapid: Length::ZERO,
        removed: Some(Volume::cm3(ground.to_mm3_per_mm() * width.to_mm() / 1000.0)),
        ground: Some(ground),
        ..wheel
    })
}
