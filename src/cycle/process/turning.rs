//! Turning along, across and into.

use super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::work::{Side, TurningWork};
use super::{Motion, spin};
use crate::cutting::turning::{
    DWELL_TIME, FACING_TIME, FacingCut, PASS_COUNT, TURNING_TIME, cutting_speed, dwell_time, facing_time,
    feed_rate, pass_count, plunge_count, spindle_speed, turning_time,
};
use crate::quantity::{Length, Range, Record, SpindleSpeed, Term};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &TurningWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    match *work {
        TurningWork::Along { side, diameters, length, approach } => {
            along(at, &Along { side, diameters, path: length + approach }, record)
        }
        TurningWork::Face { .. } | TurningWork::Part { .. } | TurningWork::Groove { .. } => {
            across(at, work, record)
        }
    }
}

struct Along {
    side: Side,
    diameters: Range<Length>,
    path: Length,
}

fn along(at: &Setting<'_>, along: &Along, record: &mut impl Record) -> Result<Motion, CutError> {
    let (diameters, path, side) = (along.diameters, along.path, along.side);
    let feed = at.feed_per_rev()?;
    let stock = (diameters.high - diameters.low) / 2.0;
    let most = at.cut.depth.unwrap_or(stock);
    let passes = pass_count(stock, most);
    if passes > MOST_PASSES {
        return Err(CutError::TooManyPasses { passes });
    }
    record.step(&PASS_COUNT, Term::Plain(f64::from(passes)), || {
        vec![("D", diameters.high.into()), ("d", diameters.low.into()), ("a_p,max", most.into())]
    });
    let depth = stock / f64::from(passes.max(1));
    let mut first = None;
    let mut runs = Vec::new();
    let mut capped = false;
    let mut fastest_run = None;
    for pass in 0..passes {
        // The speed is held on the larger diameter of the pass.
        let cut_away = depth * (2.0 * f64::from(pass));
        let diameter = if side == Side::Inside {
            diameters.low + cut_away + depth * 2.0
        } else {
            diameters.high - cut_away
        };
        let (n, held) = spin(at, diameter, record)?;
        let time = turning_time(path, feed, n);
        record.step(&TURNING_TIME, time.into(), || {
            vec![("L", path.into()), ("f", feed.into()), ("n", n.into())]
        });
        runs.push((cutting_speed(n, diameter), time));
        capped |= held;
        fastest_run = Some(fastest_run.map_or(n, |fast: SpindleSpeed| fast.larger(n)));
        first.get_or_insert((diameter, n));
    }
    let (diameter, n) = first.unwrap_or((diameters.high, SpindleSpeed::ZERO));
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: fastest_run,
        feed_rate: feed_rate(feed, n),
        passes,
        depth: Some(depth),
        advance: Length::mm(feed.to_mm_per_rev()),
        runs,
        rapid: at.cut.rapid + path * f64::from(passes.saturating_sub(1)),
        capped,
        ..Motion::still(diameter)
    })
}

fn across(at: &Setting<'_>, work: &TurningWork, record: &mut impl Record) -> Result<Motion, CutError> {
    let feed = at.feed_per_rev()?;
    let (diameters, passes, depth, dwell) = match *work {
        TurningWork::Face { diameters, depth } => {
            let passes = pass_count(depth, at.cut.depth.unwrap_or(depth));
            (diameters, passes, depth / f64::from(passes.max(1)), 0.0)
        }
        TurningWork::Part { diameters } => (diameters, 1, at.tool_width()?, 0.0),
        TurningWork::Groove { diameters, width, dwell } => {
            let blade = at.tool_width()?;
            (diameters, plunge_count(width, blade), blade.smaller(width), dwell)
        }
        TurningWork::Along { .. } => return Err(CutError::WrongTool),
    };
    let fastest = at.fastest()?;
    let (n, capped) = spin(at, diameters.high, record)?;
    let cut = FacingCut { outer: diameters.high, inner: diameters.low, speed: at.cut.speed, feed, fastest };
    let mut time = facing_time(cut);
    record.step(&FACING_TIME, time.into(), || {
        vec![
            ("D", cut.outer.into()),
            ("d", cut.inner.into()),
            ("v_c", cut.speed.into()),
            ("f", feed.into()),
            ("n_max", fastest.into()),
        ]
    });
    if dwell > 0.0 {
        let bottom = spindle_speed(at.cut.speed, diameters.low).smaller(fastest);
        let standing = dwell_time(dwell, bottom);
        record.step(&DWELL_TIME, standing.into(), || vec![("N", Term::Plain(dwell)), ("n", bottom.into())]);
        time += standing;
    }
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(spindle_speed(at.cut.speed, diameters.low).smaller(fastest)),
        feed_rate: feed_rate(feed, n),
        passes,
        depth: Some(depth),
        advance: Length::mm(feed.to_mm_per_rev()),
        runs: vec![(cutting_speed(n, diameters.high), time * f64::from(passes))],
        rapid: at.cut.rapid + (diameters.high - diameters.low) / 2.0 * f64::from(passes.saturating_sub(1)),
        capped,
        ..Motion::still(diameters.high)
    })
}
