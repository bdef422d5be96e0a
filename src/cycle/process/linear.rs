//! Broaching and sawing: nothing turns, the edge runs along its path.

use super::super::item::{Bar, Feed, Making, Stock};
use super::super::setting::{CutError, Setting};
use super::super::work::LinearWork;
use super::Motion;
use crate::cutting::bar::{SECTION_AREA, Section, section_area};
use crate::cutting::broaching::{BROACHING_TIME, broaching_time};
use crate::cutting::sawing::{SAWING_TIME, sawing_time};
use crate::cutting::turning::travel_time;
use crate::quantity::{FeedRate, Length, Record, SawingRate, Volume};

pub(super) fn motion(
    at: &Setting<'_>,
    work: &LinearWork,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    match *work {
        LinearWork::Broach { stroke, back, .. } => Ok(broach(at, stroke, back, record)),
        LinearWork::Saw { bar, rate } => saw(at, bar, rate, record),
    }
}

fn broach(at: &Setting<'_>, stroke: Length, back: FeedRate, record: &mut impl Record) -> Motion {
    let speed = at.cut.speed;
    let along = FeedRate::m_per_min(speed.to_m_per_min());
    let time = broaching_time(stroke, speed, back);
    record.step(&BROACHING_TIME, time.into(), || {
        vec![("L", stroke.into()), ("v_c", speed.into()), ("v_b", back.into())]
    });
    let cutting = travel_time(stroke, along);
    Motion {
        feed_rate: along,
        advance: at.cut.feed.map_or(Length::ZERO, Feed::advance),
        runs: vec![(speed, cutting)],
        idle: time - cutting,
        rapid: at.cut.rapid,
        ..Motion::still(Length::ZERO)
    }
}

fn saw(
    at: &Setting<'_>,
    bar: Option<(Section, Length)>,
    rate: SawingRate,
    record: &mut impl Record,
) -> Result<Motion, CutError> {
    let (section, size) = bar.or_else(|| bar_of(at)).ok_or(CutError::NoPart { missing: "bar to saw" })?;
    let area = section_area(section, size);
    record.step(&SECTION_AREA, area.into(), || vec![("s", size.into())]);
    let time = sawing_time(area, rate);
    record.step(&SAWING_TIME, time.into(), || vec![("A", area.into()), ("Q_A", rate.into())]);
    let kerf = at.tool().geometry.width;
    Ok(Motion {
        feed_rate: FeedRate::mm_per_min(size.to_mm() / time.to_min()),
        runs: vec![(at.cut.speed, time)],
        rapid: at.cut.rapid,
        removed: kerf.map(|kerf| Volume::cm3(area.to_mm2() * kerf.to_mm() / 1000.0)),
        ..Motion::still(size)
    })
}

fn bar_of(at: &Setting<'_>) -> Option<(Section, Length)> {
    match &at.item.making {
        Making::Part { stock: Stock::Bar(Bar { section, size, .. }), .. } => Some((*section, *size)),
        _ => None,
    }
}
