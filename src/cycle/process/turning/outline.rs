//! Tapers and outlines of steps: level passes, one pass along each cone, one finishing pass along it all.

use super::super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::super::work::{FinishPass, Side, TurningWork};
use super::Motion;
use super::passes::{Level, Passes};
use crate::cutting::turning::spindle_speed;
use crate::cutting::turning::{
    PROFILE_VOLUME, ProfileRoughing, ProfileStep, RoughPass, TaperCut, finishing_contour, pass_count,
    profile_passes, profile_volume,
};
use crate::quantity::{Length, Record, SpindleSpeed, Volume};

/// An outline and what it is cut from.
struct Outline {
    side: Side,
    stock: Length,
    steps: Vec<ProfileStep>,
    approach: Length,
    finish: Option<FinishPass>,
}

impl Outline {
    fn of(work: &TurningWork) -> Option<Self> {
        match work {
            TurningWork::Along { side, diameters, end: Some(end), length, approach, finish } => {
                let (stock, start) = match side {
                    Side::Outside => (diameters.high, diameters.low),
                    Side::Inside => (diameters.low, diameters.high),
                };
                let steps = vec![ProfileStep { diameter: start, end: *end, length: *length }];
                Some(Self { side: *side, stock, steps, approach: *approach, finish: *finish })
            }
            TurningWork::Profile { stock, steps, approach, finish } => Some(Self {
                side: Side::Outside,
                stock: *stock,
                steps: steps.clone(),
                approach: *approach,
                finish: *finish,
            }),
            _ => None,
        }
    }

    /// A diameter as one that metal is taken off from above: a bore is an outline upside down.
    fn turned(&self, diameter: Length) -> Length {
        match self.side {
            Side::Outside => diameter,
            Side::Inside => Length::ZERO - diameter,
        }
    }

    fn turned_steps(&self) -> Vec<ProfileStep> {
        let turned = |step: &ProfileStep| ProfileStep {
            diameter: self.turned(step.diameter),
            end: self.turned(step.end),
            length: step.length,
        };
        self.steps.iter().map(turned).collect()
    }

    /// Deepest stock on the radius.
    fn deepest(&self) -> Length {
        let stock = self.turned(self.stock);
        let lowest =
            self.turned_steps().iter().fold(stock, |low, step| low.smaller(step.diameter).smaller(step.end));
        (stock - lowest) / 2.0
    }

    fn removed(&self) -> Volume {
        let volume = profile_volume(self.stock, &self.steps);
        match self.side {
            Side::Outside => volume,
            Side::Inside => Volume::ZERO - volume,
        }
    }
}

pub(super) fn motion(
    at: &Setting<'_>,
    work: &TurningWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let outline = Outline::of(work).ok_or(CutError::WrongTool)?;
    let allowance = outline.finish.map_or(Length::ZERO, |finish| finish.depth);
    let deepest = outline.deepest();
    let depth = at.cut.depth.unwrap_or(deepest);
    let few =
        |passes: u32| if passes > MOST_PASSES { Err(CutError::TooManyPasses { passes }) } else { Ok(passes) };
    few(pass_count(deepest, depth))?;
    few(u32::try_from(outline.steps.len()).unwrap_or(u32::MAX))?;
    let how = ProfileRoughing { stock: outline.turned(outline.stock), depth, allowance };
    let rough = profile_passes(how, &outline.turned_steps());
    let passes = rough.len() + usize::from(outline.finish.is_some());
    let passes = few(u32::try_from(passes).unwrap_or(u32::MAX))?;
    let fastest = at.fastest()?;
    let mut all = Passes::default();
    for pass in &rough {
        roughing(at, &outline, (pass, fastest), (&mut all, record))?;
    }
    if let Some(finish) = outline.finish {
        let speed = finish.speed.unwrap_or(at.cut.speed);
        all.finish(finish.feed, finish.depth, spindle_speed(speed, outline.stock).smaller(fastest));
        finishing(at, &outline, (finish, fastest), (&mut all, record))?;
    }
    let removed = outline.removed();
    record.step(&PROFILE_VOLUME, removed.into(), || vec![("D", outline.stock.into())]);
    Ok(Motion {
        depth: rough
            .iter()
            .map(|pass| pass.depth)
            .reduce(Length::larger)
            .or(Some(allowance.smaller(deepest))),
        rapid: at.cut.rapid + way(&outline, &rough),
        removed: Some(removed),
        ..all.motion(passes)
    })
}

/// Path at feed before a pass: the approach, or down into the metal behind a bigger step.
fn run_up(outline: &Outline, pass: &RoughPass) -> Length {
    if pass.start > Length::ZERO { pass.depth } else { outline.approach }
}

fn roughing(
    at: &Setting<'_>,
    outline: &Outline,
    pass: (&RoughPass, SpindleSpeed),
    to: (&mut Passes, &mut impl Record),
) -> Result<(), CutError> {
    let ((pass, fastest), (all, record)) = (pass, to);
    let (speed, feed) = (at.cut.speed, at.feed_per_rev()?);
    let (from, end) = (outline.turned(pass.from), outline.turned(pass.to));
    if pass.from == pass.to {
        // The speed is held on the larger diameter of the pass: outside before it, inside after it.
        let diameter = match outline.side {
            Side::Outside => from + pass.depth * 2.0,
            Side::Inside => from,
        };
        let path = pass.length + run_up(outline, pass);
        return all.level(at, Level { diameter, path, speed, feed }, record);
    }
    let length = run_up(outline, pass);
    all.side(TaperCut { from, to: from, length, speed, feed, fastest }, record);
    all.side(TaperCut { from, to: end, length: pass.length, speed, feed, fastest }, record);
    Ok(())
}

/// One pass along the whole outline, the speed held at the tip of the tool.
fn finishing(
    at: &Setting<'_>,
    outline: &Outline,
    finish: (FinishPass, SpindleSpeed),
    to: (&mut Passes, &mut impl Record),
) -> Result<(), CutError> {
    let ((finish, fastest), (all, record)) = (finish, to);
    let speed = finish.speed.unwrap_or(at.cut.speed);
    let contour = finishing_contour(outline.turned(outline.stock), &outline.turned_steps());
    let side = |from, to, length| TaperCut { from, to, length, speed, feed: finish.feed, fastest };
    if let Some(first) = contour.first() {
        let start = outline.turned(first.diameter);
        all.side(side(start, start, outline.approach), record);
    }
    for part in contour {
        all.side(side(outline.turned(part.diameter), outline.turned(part.end), part.length), record);
    }
    Ok(())
}

/// Path at rapid between passes: out to where each begins, and back behind each but the last.
fn way(outline: &Outline, rough: &[RoughPass]) -> Length {
    let paths = rough.iter().map(|pass| pass.start * 2.0 + pass.length + run_up(outline, pass));
    let last = match (outline.finish, rough.last()) {
        (None, Some(pass)) => pass.length + run_up(outline, pass),
        _ => Length::ZERO,
    };
    paths.sum::<Length>() - last
}
