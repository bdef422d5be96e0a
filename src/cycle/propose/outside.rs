//! The outside: face, rough and finish each step from the end where metal only rises, grooves, threads, part off.

use super::super::drawing::{Drawing, DrawnStep, Feature};
use super::super::item::{Asked, Bar};
use super::super::work::{Side, ThreadWork, TurningWork, Work};
use super::choice::{Bench, Proposed, Wish};
use super::route::ProposeError;
use crate::quantity::{Length, Range};
use crate::tooling::Tool;

/// Metal left on a side for a finishing cut: common practice.
pub(super) const FINISH_STOCK: Length = Length::mm(0.25);

/// Grade up to which a size is finished in a cut of its own: common practice.
const FINISHED_GRADE: u32 = 9;

/// Path before a cut at feed.
pub(super) const APPROACH: Length = Length::mm(2.0);

/// Steps seen from one end: up to the thickest, with their places in the drawing.
pub(super) struct Flank {
    /// Places in the drawing, and steps as seen from the end: a cone's `end` is its far one.
    pub(super) steps: Vec<(usize, DrawnStep)>,
    pub(super) channel: u32,
    /// Diameter from which it is turned.
    pub(super) stock: Length,
    /// Length turned beyond the steps, at the diameter of the last one.
    pub(super) beyond: Length,
}

/// Whether a step is finished in a cut of its own.
fn finished(asked: &Asked) -> bool {
    asked.roughness.is_some() || asked.grade.is_some_and(|grade| grade <= FINISHED_GRADE)
}

/// Diameter that stands behind the last step of a flank: a cone is finished over its own length alone.
pub(super) fn left_behind(last: &DrawnStep) -> Length {
    if last.end.is_some() && finished(&last.asked) { last.high() + FINISH_STOCK * 2.0 } else { last.high() }
}

fn outside_tool(tool: &Tool) -> bool {
    tool.geometry.bar_diameter.is_none() && tool.geometry.width.is_none()
}

/// Faces an end.
pub(super) fn face(
    bench: &Bench<'_>,
    end: (&str, u32),
    diameters: Range<Length>,
    depth: Length,
) -> Result<Option<Proposed>, ProposeError> {
    if depth <= Length::ZERO {
        return Ok(None);
    }
    let wish = Wish {
        feature: Feature::Ends,
        id: end.0.to_owned(),
        work: Work::Turning(TurningWork::Face { diameters, depth, finish: None }),
        channel: end.1,
        asked: Asked::default(),
        deep: true,
    };
    bench.choose(&wish, outside_tool).map(Some)
}

/// Roughs and finishes the steps of a flank.
pub(super) fn flank(bench: &Bench<'_>, flank: &Flank) -> Result<Vec<Proposed>, ProposeError> {
    let mut cuts = Vec::new();
    for pair in flank.steps.windows(2) {
        if pair[1].1.low() < pair[0].1.high() {
            return Err(ProposeError::Recess { step: pair[0].0 });
        }
    }
    let mut now = flank.stock;
    for (place, (id, step)) in flank.steps.iter().enumerate().rev() {
        let leaves = if finished(&step.asked) { FINISH_STOCK * 2.0 } else { Length::ZERO };
        let to = step.high() + leaves;
        let along: Length = flank.steps[..=place].iter().map(|(_, step)| step.length).sum();
        let last = place + 1 == flank.steps.len();
        let length = along + if last { flank.beyond } else { Length::ZERO };
        if to < now {
            let work = along_work(Range { low: to, high: now }, length);
            cuts.push(turn(bench, (*id, "rough"), (work, Asked::default()), flank.channel)?);
            now = to;
        }
    }
    for (place, (id, step)) in flank.steps.iter().enumerate() {
        if let Some(end) = step.end {
            cuts.push(cone(bench, (*id, step, end), (flank.stock, flank.channel))?);
            continue;
        }
        if !finished(&step.asked) {
            continue;
        }
        let last = place + 1 == flank.steps.len();
        let length = step.length + if last { flank.beyond } else { Length::ZERO };
        let start = (step.high() + FINISH_STOCK * 2.0).smaller(flank.stock);
        if step.diameter < start {
            let work = along_work(Range { low: step.diameter, high: start }, length);
            cuts.push(turn(bench, (*id, "finish"), (work, step.asked), flank.channel)?);
        }
    }
    Ok(cuts)
}

fn along_work(diameters: Range<Length>, length: Length) -> TurningWork {
    TurningWork::Along { side: Side::Outside, diameters, end: None, length, approach: APPROACH, finish: None }
}

/// A cone, in passes along its own slope.
fn cone(
    bench: &Bench<'_>,
    step: (usize, &DrawnStep, Length),
    from: (Length, u32),
) -> Result<Proposed, ProposeError> {
    let (id, step, end) = step;
    let leaves = if finished(&step.asked) { FINISH_STOCK * 2.0 } else { Length::ZERO };
    let start = (step.high() + leaves).smaller(from.0);
    let work = TurningWork::Along {
        side: Side::Outside,
        diameters: Range { low: step.diameter, high: start },
        end: Some(end),
        length: step.length,
        approach: APPROACH,
        finish: None,
    };
    turn(bench, (id, "cone"), (work, step.asked), from.1)
}

fn turn(
    bench: &Bench<'_>,
    named: (usize, &str),
    work: (TurningWork, Asked),
    channel: u32,
) -> Result<Proposed, ProposeError> {
    let wish = Wish {
        feature: Feature::Step(named.0),
        id: format!("{}-step-{}", named.1, named.0 + 1),
        work: Work::Turning(work.0),
        channel,
        asked: work.1,
        deep: true,
    };
    bench.choose(&wish, outside_tool)
}

/// Cuts the grooves.
pub(super) fn grooves(
    bench: &Bench<'_>,
    drawing: &Drawing,
    channel_of: impl Fn(usize) -> u32,
) -> Result<Vec<Proposed>, ProposeError> {
    let mut cuts = Vec::new();
    for (id, groove) in drawing.grooves.iter().enumerate() {
        let Some(step) = drawing.step_at(groove.at) else { continue };
        let wish = Wish {
            feature: Feature::Groove(id),
            id: format!("groove-{}", id + 1),
            work: Work::Turning(TurningWork::Groove {
                diameters: Range { low: groove.diameter, high: drawing.steps[step].high() },
                width: groove.width,
                dwell: 2.0,
            }),
            channel: channel_of(step),
            asked: Asked::default(),
            deep: false,
        };
        let narrow = |tool: &Tool| {
            tool.geometry.width.is_some_and(|width| width.to_mm() <= groove.width.to_mm() + 1e-9)
        };
        cuts.push(bench.choose(&wish, narrow)?);
    }
    Ok(cuts)
}

/// Cuts the threads on the outside.
pub(super) fn threads(
    bench: &Bench<'_>,
    drawing: &Drawing,
    channel_of: impl Fn(usize) -> u32,
) -> Result<Vec<Proposed>, ProposeError> {
    let mut cuts = Vec::new();
    for (id, thread) in drawing.threads.iter().enumerate() {
        if thread.side == Side::Inside {
            continue;
        }
        let Some(step) = drawing.step_at(thread.at) else { continue };
        let wish = Wish {
            feature: Feature::Thread(id),
            id: format!("thread-{}", id + 1),
            work: Work::Thread(ThreadWork {
                side: Side::Outside,
                diameter: thread.diameter,
                pitch: thread.pitch,
                length: thread.length,
                passes: None,
                last_pass: None,
                run_in: thread.pitch * 3.0,
                run_out: thread.pitch,
            }),
            channel: channel_of(step),
            asked: Asked::default(),
            deep: false,
        };
        cuts.push(bench.choose(&wish, |tool| tool.geometry.bar_diameter.is_none())?);
    }
    Ok(cuts)
}

/// Parts the piece off.
pub(super) fn part_off(
    bench: &Bench<'_>,
    diameters: Range<Length>,
    bar: &Bar,
) -> Result<Proposed, ProposeError> {
    let wish = Wish {
        feature: Feature::Ends,
        id: "part-off".to_owned(),
        work: Work::Turning(TurningWork::Part { diameters, slow: None }),
        channel: 1,
        asked: Asked::default(),
        deep: false,
    };
    let narrow =
        |tool: &Tool| tool.geometry.width.is_some_and(|width| width.to_mm() <= bar.cutoff.to_mm() + 1e-9);
    bench.choose(&wish, narrow)
}
