//! The motion of each kind of cut: spindle speed, feed rate, passes, time in cut.

use super::item::{Feed, MillShape, Work};
use super::setting::{CutError, MOST_PASSES, Setting};
use crate::cutting::drilling::{
    DRILLING_TIME, POINT_ALLOWANCE, TAPPING_TIME, drilling_time, point_allowance, tapping_time,
};
use crate::cutting::hobbing::{
    APPROACH, HOBBING_TIME, Hob, HobbingCut, approach, hobbing_time, overrun, swivel_angle,
};
use crate::cutting::milling::{TABLE_FEED, face_approach, side_approach, table_feed};
use crate::cutting::threading::{
    THREAD_FEED_RATE, proposed_pass_count, thread_depth_external, thread_depth_internal, thread_feed_rate,
};
use crate::cutting::turning::{
    CUTTING_SPEED, DWELL_TIME, FACING_TIME, FEED_RATE, FacingCut, PASS_COUNT, SPINDLE_SPEED, TRAVEL_TIME,
    TURNING_TIME, cutting_speed, dwell_time, facing_time, feed_rate, pass_count, plunge_count, spindle_speed,
    travel_time, turning_time,
};
use crate::quantity::{
    CuttingSpeed, Duration, FeedPerRev, FeedPerTooth, FeedRate, Length, Record, SpindleSpeed, Term,
};

/// How a cut moves.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Motion {
    /// Diameter on which the speed is held.
    pub(super) diameter: Length,
    /// Spindle speed of the first pass.
    pub(super) spindle_speed: SpindleSpeed,
    /// Feed rate of the first pass.
    pub(super) feed_rate: FeedRate,
    /// Passes, holes or plunges of one piece.
    pub(super) passes: u32,
    /// Depth of a pass.
    pub(super) depth: Option<Length>,
    /// Advance for each revolution or tooth.
    pub(super) advance: Length,
    /// Time in cut for one piece, by the speed actually run.
    pub(super) runs: Vec<(CuttingSpeed, Duration)>,
    /// Time at feed for one piece that wears nothing: the way back of a tap.
    pub(super) back: Duration,
    /// Path at rapid for one piece.
    pub(super) rapid: Length,
    /// The speed asked for is out of the spindle's reach.
    pub(super) capped: bool,
}

/// Works out the motion of a cut.
pub(super) fn motion(at: &Setting<'_>, record: &mut impl Record) -> Result<Motion, CutError> {
    match at.cut.work {
        Work::Turn { .. } | Work::Bore { .. } => along(at, record),
        Work::Face { .. } | Work::Part { .. } | Work::Groove { .. } => across(at, record),
        Work::Thread { .. } => thread(at, record),
        Work::Drill { .. } | Work::Ream { .. } => hole(at, record),
        Work::Tap { .. } => tap(at, record),
        Work::Mill { .. } => mill(at, record),
        Work::Hob { .. } => hob(at, record),
    }
}

/// Spindle speed for a diameter, held down to what the spindle can do; true if it was.
fn spin(
    at: &Setting<'_>,
    diameter: Length,
    record: &mut impl Record,
) -> Result<(SpindleSpeed, bool), CutError> {
    let fastest = at.spindle()?.fastest;
    let wanted = spindle_speed(at.cut.speed, diameter);
    record.step(&SPINDLE_SPEED, wanted.into(), || vec![("v_c", at.cut.speed.into()), ("d", diameter.into())]);
    if wanted > fastest {
        record.step(&CUTTING_SPEED, cutting_speed(fastest, diameter).into(), || {
            vec![("n", fastest.into()), ("d", diameter.into())]
        });
    }
    Ok((wanted.smaller(fastest), wanted > fastest))
}

fn along(at: &Setting<'_>, record: &mut impl Record) -> Result<Motion, CutError> {
    let (diameters, path, inside) = match at.cut.work {
        Work::Bore { diameters, length, approach } => (diameters, length + approach, true),
        Work::Turn { diameters, length, approach } => (diameters, length + approach, false),
        _ => return Err(CutError::WrongTool),
    };
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
    for pass in 0..passes {
        // The speed is held on the larger diameter of the pass.
        let cut_away = depth * (2.0 * f64::from(pass));
        let diameter =
            if inside { diameters.low + cut_away + depth * 2.0 } else { diameters.high - cut_away };
        let (n, held) = spin(at, diameter, record)?;
        let time = turning_time(path, feed, n);
        record.step(&TURNING_TIME, time.into(), || {
            vec![("L", path.into()), ("f", feed.into()), ("n", n.into())]
        });
        runs.push((cutting_speed(n, diameter), time));
        capped |= held;
        first.get_or_insert((diameter, n));
    }
    let (diameter, n) = first.unwrap_or((diameters.high, SpindleSpeed::ZERO));
    Ok(Motion {
        diameter,
        spindle_speed: n,
        feed_rate: feed_rate(feed, n),
        passes,
        depth: Some(depth),
        advance: Length::mm(feed.to_mm_per_rev()),
        runs,
        back: Duration::ZERO,
        rapid: at.cut.rapid + path * f64::from(passes.saturating_sub(1)),
        capped,
    })
}

fn across(at: &Setting<'_>, record: &mut impl Record) -> Result<Motion, CutError> {
    let feed = at.feed_per_rev()?;
    let (diameters, passes, depth, dwell) = match at.cut.work {
        Work::Face { diameters, depth } => {
            let passes = pass_count(depth, at.cut.depth.unwrap_or(depth));
            (diameters, passes, depth / f64::from(passes.max(1)), 0.0)
        }
        Work::Part { diameters } => (diameters, 1, at.tool_width()?, 0.0),
        Work::Groove { diameters, width, dwell } => {
            let blade = at.tool_width()?;
            (diameters, plunge_count(width, blade), blade.smaller(width), dwell)
        }
        _ => return Err(CutError::WrongTool),
    };
    let fastest = at.spindle()?.fastest;
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
        diameter: diameters.high,
        spindle_speed: n,
        feed_rate: feed_rate(feed, n),
        passes,
        depth: Some(depth),
        advance: Length::mm(feed.to_mm_per_rev()),
        runs: vec![(cutting_speed(n, diameters.high), time * f64::from(passes))],
        back: Duration::ZERO,
        rapid: at.cut.rapid + (diameters.high - diameters.low) / 2.0 * f64::from(passes.saturating_sub(1)),
        capped,
    })
}

fn thread(at: &Setting<'_>, record: &mut impl Record) -> Result<Motion, CutError> {
    let Work::Thread { diameter, pitch, length, passes, run_in, run_out, internal } = at.cut.work else {
        return Err(CutError::WrongTool);
    };
    let passes = passes.unwrap_or_else(|| proposed_pass_count(pitch));
    let depth = if internal { thread_depth_internal(pitch) } else { thread_depth_external(pitch) };
    let (n, capped) = spin(at, diameter, record)?;
    let rate = thread_feed_rate(pitch, n);
    record.step(&THREAD_FEED_RATE, rate.into(), || vec![("P", pitch.into()), ("n", n.into())]);
    let path = length + run_in + run_out;
    let pass_time = travel_time(path, rate);
    record.step(&TRAVEL_TIME, pass_time.into(), || vec![("L", path.into()), ("v_f", rate.into())]);
    Ok(Motion {
        diameter,
        spindle_speed: n,
        feed_rate: rate,
        passes,
        depth: Some(depth / f64::from(passes.max(1))),
        advance: pitch,
        runs: vec![(cutting_speed(n, diameter), pass_time * f64::from(passes))],
        back: Duration::ZERO,
        rapid: at.cut.rapid + path * f64::from(passes),
        capped,
    })
}

fn hole(at: &Setting<'_>, record: &mut impl Record) -> Result<Motion, CutError> {
    let diameter = at.tool_diameter()?;
    let feed = at.feed_per_rev()?;
    let (path, holes) = match at.cut.work {
        Work::Drill { depth, holes, approach, through } => {
            let angle = at.point_angle();
            let allowance = point_allowance(diameter, angle);
            record.step(&POINT_ALLOWANCE, allowance.into(), || {
                vec![("D", diameter.into()), ("sigma", angle.into())]
            });
            (depth + approach + through + allowance, holes)
        }
        Work::Ream { depth, holes, approach } => (depth + approach, holes),
        _ => return Err(CutError::WrongTool),
    };
    let (n, capped) = spin(at, diameter, record)?;
    let time = drilling_time(path, feed, n);
    record
        .step(&DRILLING_TIME, time.into(), || vec![("L", path.into()), ("f", feed.into()), ("n", n.into())]);
    Ok(Motion {
        diameter,
        spindle_speed: n,
        feed_rate: feed_rate(feed, n),
        passes: holes,
        depth: None,
        advance: Length::mm(feed.to_mm_per_rev()),
        runs: vec![(cutting_speed(n, diameter), time * f64::from(holes))],
        back: Duration::ZERO,
        rapid: (at.cut.rapid + path) * f64::from(holes),
        capped,
    })
}

fn tap(at: &Setting<'_>, record: &mut impl Record) -> Result<Motion, CutError> {
    let Work::Tap { depth, pitch, holes, approach } = at.cut.work else {
        return Err(CutError::WrongTool);
    };
    let diameter = at.tool_diameter()?;
    let (n, capped) = spin(at, diameter, record)?;
    let path = depth + approach;
    let rate = thread_feed_rate(pitch, n);
    let way_in = travel_time(path, rate);
    let time = tapping_time(path, pitch, n, n);
    record.step(&TAPPING_TIME, time.into(), || {
        vec![("L", path.into()), ("P", pitch.into()), ("n", n.into()), ("n_back", n.into())]
    });
    Ok(Motion {
        diameter,
        spindle_speed: n,
        feed_rate: rate,
        passes: holes,
        depth: None,
        advance: pitch,
        runs: vec![(cutting_speed(n, diameter), way_in * f64::from(holes))],
        back: (time - way_in) * f64::from(holes),
        rapid: at.cut.rapid * f64::from(holes),
        capped,
    })
}

fn mill(at: &Setting<'_>, record: &mut impl Record) -> Result<Motion, CutError> {
    let Work::Mill { shape, length, width, depth, offset } = at.cut.work else {
        return Err(CutError::WrongTool);
    };
    let diameter = at.tool_diameter()?;
    let teeth = at.teeth()?;
    let feed = at.feed_per_tooth()?;
    let passes = pass_count(depth, at.cut.depth.unwrap_or(depth));
    let run_up = match shape {
        MillShape::Face => face_approach(diameter, width, offset),
        MillShape::Shoulder => side_approach(diameter, width),
        MillShape::Slot => diameter,
    };
    let (n, capped) = spin(at, diameter, record)?;
    let rate = table_feed(feed, teeth, n);
    record.step(&TABLE_FEED, rate.into(), || {
        vec![("f_z", feed.into()), ("z", Term::Plain(f64::from(teeth))), ("n", n.into())]
    });
    let path = length + run_up;
    let time = travel_time(path, rate);
    record.step(&TRAVEL_TIME, time.into(), || vec![("L", path.into()), ("v_f", rate.into())]);
    Ok(Motion {
        diameter,
        spindle_speed: n,
        feed_rate: rate,
        passes,
        depth: Some(depth / f64::from(passes.max(1))),
        advance: Length::mm(feed.to_mm_per_tooth()),
        runs: vec![(cutting_speed(n, diameter), time * f64::from(passes))],
        back: Duration::ZERO,
        rapid: at.cut.rapid + path * f64::from(passes.saturating_sub(1)),
        capped,
    })
}

fn hob(at: &Setting<'_>, record: &mut impl Record) -> Result<Motion, CutError> {
    let Work::Hob { cuts, overrun: behind, hand, spacer } = at.cut.work else {
        return Err(CutError::WrongTool);
    };
    let gear = at.gear()?;
    if cuts > MOST_PASSES {
        return Err(CutError::TooManyPasses { passes: cuts });
    }
    let hob = Hob { diameter: at.tool_diameter()?, starts: at.starts()? };
    let feed = at.feed_per_rev()?;
    let stacked = f64::from(at.operation.pieces.max(1));
    let behind = behind.unwrap_or_else(|| overrun(gear, swivel_angle(gear, &hob, hand)));
    let depth = gear.whole_depth / f64::from(cuts.max(1));
    let run_up = approach(gear, &hob, hand, depth);
    record.step(&APPROACH, run_up.into(), || {
        vec![("h", depth.into()), ("d_a0", hob.diameter.into()), ("beta", gear.helix.into())]
    });
    let (n, capped) = spin(at, hob.diameter, record)?;
    let path = run_up + gear.face * stacked + spacer * (stacked - 1.0) + behind;
    let cut = HobbingCut { gear_teeth: gear.teeth, starts: hob.starts, speed: n, axial_feed: feed, path };
    let time = hobbing_time(cut);
    record.step(&HOBBING_TIME, time.into(), || {
        vec![
            ("z", Term::Plain(f64::from(gear.teeth))),
            ("L", path.into()),
            ("z_0", Term::Plain(f64::from(hob.starts))),
            ("n_0", n.into()),
            ("f_a", feed.into()),
        ]
    });
    let rate = FeedRate::mm_per_min(
        feed.to_mm_per_rev() * n.to_rpm() * f64::from(hob.starts) / f64::from(gear.teeth.max(1)),
    );
    Ok(Motion {
        diameter: hob.diameter,
        spindle_speed: n,
        feed_rate: rate,
        passes: cuts,
        depth: Some(depth),
        advance: Length::mm(feed.to_mm_per_rev()),
        runs: vec![(cutting_speed(n, hob.diameter), time * f64::from(cuts) / stacked)],
        back: Duration::ZERO,
        rapid: (at.cut.rapid + path * f64::from(cuts)) / stacked,
        capped,
    })
}

impl Setting<'_> {
    fn feed_per_rev(&self) -> Result<FeedPerRev, CutError> {
        match self.cut.feed {
            Some(Feed::PerRev(feed)) => Ok(feed),
            _ => Err(CutError::NoFeed { wanted: "mm/rev" }),
        }
    }

    fn feed_per_tooth(&self) -> Result<FeedPerTooth, CutError> {
        match self.cut.feed {
            Some(Feed::PerTooth(feed)) => Ok(feed),
            _ => Err(CutError::NoFeed { wanted: "mm/tooth" }),
        }
    }
}

/// Reports a feed rate worked from feed and speed.
pub(super) fn record_feed_rate(motion: &Motion, feed: Option<Feed>, record: &mut impl Record) {
    if let Some(Feed::PerRev(feed)) = feed {
        record.step(&FEED_RATE, motion.feed_rate.into(), || {
            vec![("f", feed.into()), ("n", motion.spindle_speed.into())]
        });
    }
}
