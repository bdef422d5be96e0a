//! Knurling and burnishing.

use super::super::super::setting::{CutError, MOST_PASSES, Setting};
use super::super::super::work::TurningWork;
use super::{Motion, spin};
use crate::cutting::turning::{
    BURNISHING_TIME, DWELL_TIME, KNURLING_TIME, burnishing_time, cutting_speed, dwell_time, feed_rate,
    knurling_time,
};
use crate::quantity::{Length, Record, Term};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &TurningWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    match *work {
        TurningWork::Knurl { diameter, length, revolutions, .. } if plunges(at, length) => {
            plunge(at, diameter, revolutions, record)
        }
        TurningWork::Knurl { diameter, length, approach, .. } => {
            along(at, (diameter, length + approach, 1), &Rolled::Knurl, record)
        }
        TurningWork::Burnish { diameter, length, approach, passes, .. } => {
            along(at, (diameter, length + approach, passes), &Rolled::Burnish, record)
        }
        _ => Err(CutError::WrongTool),
    }
}

/// Whether the wheel covers the whole knurl.
fn plunges(at: &Setting<'_>, length: Length) -> bool {
    at.tool().geometry.width.is_some_and(|wheel| length <= wheel)
}

fn plunge(
    at: &Setting<'_>,
    diameter: Length,
    revolutions: f64,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let (n, capped) = spin(at, diameter, record)?;
    let time = dwell_time(revolutions, n);
    record.step(&DWELL_TIME, time.into(), || vec![("N", Term::Plain(revolutions)), ("n", n.into())]);
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n),
        runs: vec![(cutting_speed(n, diameter), time)],
        rapid: at.cut.rapid,
        capped,
        ..Motion::still(diameter)
    })
}

enum Rolled {
    Knurl,
    Burnish,
}

fn along(
    at: &Setting<'_>,
    work: (Length, Length, u32),
    rolled: &Rolled,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let (diameter, path, passes) = work;
    if passes > MOST_PASSES {
        return Err(CutError::TooManyPasses { passes });
    }
    let feed = at.feed_per_rev()?;
    let (n, capped) = spin(at, diameter, record)?;
    let (formula, time) = match rolled {
        Rolled::Knurl => (&KNURLING_TIME, knurling_time(path, feed, n)),
        Rolled::Burnish => (&BURNISHING_TIME, burnishing_time(path, feed, n, passes)),
    };
    record.step(formula, time.into(), || {
        vec![("i", Term::Plain(f64::from(passes))), ("L", path.into()), ("f", feed.into()), ("n", n.into())]
    });
    Ok(Motion {
        spindle_speed: Some(n),
        top_speed: Some(n),
        feed_rate: feed_rate(feed, n),
        passes,
        advance: Length::mm(feed.to_mm_per_rev()),
        runs: vec![(cutting_speed(n, diameter), time)],
        rapid: at.cut.rapid + path * f64::from(passes.saturating_sub(1)),
        capped,
        ..Motion::still(diameter)
    })
}
