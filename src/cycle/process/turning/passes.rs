//! Passes of one tool, gathered one by one.

use super::super::super::setting::{CutError, Setting};
use super::super::Finishing;
use super::{Motion, spin_at};
use crate::cutting::turning::{
    TAPER_TIME, TURNING_TIME, TaperCut, cone_path, cutting_speed, feed_rate, spindle_speed, taper_time,
    turning_time,
};
use crate::quantity::{CuttingSpeed, Duration, FeedPerRev, Length, Record, SpindleSpeed};

/// What is gathered from pass to pass.
#[derive(Debug, Default)]
pub(super) struct Passes {
    runs: Vec<(CuttingSpeed, Duration)>,
    first: Option<(Length, SpindleSpeed, FeedPerRev)>,
    top: Option<SpindleSpeed>,
    capped: bool,
    finishing: Option<Finishing>,
}

/// A pass at one spindle speed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Level {
    /// Diameter on which the speed is held.
    pub(super) diameter: Length,
    /// Path at feed.
    pub(super) path: Length,
    /// Cutting speed.
    pub(super) speed: CuttingSpeed,
    /// Feed.
    pub(super) feed: FeedPerRev,
}

impl Passes {
    /// What comes from here on is the finishing pass; alone, it is as any other.
    pub(super) fn finish(&mut self, advance: FeedPerRev, depth: Length, spindle_speed: SpindleSpeed) {
        if !self.runs.is_empty() {
            self.finishing = Some(Finishing {
                from: self.runs.len(),
                advance: Length::mm(advance.to_mm_per_rev()),
                depth,
                spindle_speed,
            });
        }
    }

    /// Adds a pass at one spindle speed.
    pub(super) fn level(
        &mut self,
        at: &Setting<'_>,
        pass: Level,
        record: &mut impl Record,
    ) -> Result<(), CutError> {
        let (n, held) = spin_at(at, pass.speed, pass.diameter, record)?;
        let time = turning_time(pass.path, pass.feed, n);
        record.step(&TURNING_TIME, time.into(), || {
            vec![("L", pass.path.into()), ("f", pass.feed.into()), ("n", n.into())]
        });
        self.runs.push((cutting_speed(n, pass.diameter), time));
        self.begin((pass.diameter, n, pass.feed), n);
        self.capped |= held;
        Ok(())
    }

    /// Adds a straight side at constant cutting speed, the control following the tip of the tool.
    pub(super) fn side(&mut self, cut: TaperCut, record: &mut impl Record) {
        let path = cone_path(cut.from, cut.to, cut.length);
        if path == Length::ZERO {
            return;
        }
        let time = taper_time(cut);
        record.step(&TAPER_TIME, time.into(), || {
            vec![
                ("D", cut.from.into()),
                ("d", cut.to.into()),
                ("s", path.into()),
                ("v_c", cut.speed.into()),
                ("f", cut.feed.into()),
                ("n_max", cut.fastest.into()),
            ]
        });
        let mean = SpindleSpeed::rpm(path.to_mm() / cut.feed.to_mm_per_rev() / time.to_min());
        // Path of the edge over the work, shared by the time: the cutting speed itself while the spindle follows.
        self.runs.push((cutting_speed(mean, (cut.from + cut.to) / 2.0), time));
        let at_end = |diameter| spindle_speed(cut.speed, diameter).smaller(cut.fastest);
        let slim = cut.from.smaller(cut.to);
        self.begin((cut.from, at_end(cut.from), cut.feed), at_end(slim));
        self.capped |= cut.length > Length::ZERO && spindle_speed(cut.speed, slim) > cut.fastest;
    }

    fn begin(&mut self, first: (Length, SpindleSpeed, FeedPerRev), top: SpindleSpeed) {
        self.first.get_or_insert(first);
        self.top = Some(self.top.map_or(top, |fastest| fastest.larger(top)));
    }

    /// What all passes together are; depth, rapid and volume are left to the caller.
    pub(super) fn motion(self, passes: u32) -> Motion {
        let still = Motion::still(self.first.map_or(Length::ZERO, |(diameter, ..)| diameter));
        let Some((_, n, feed)) = self.first else {
            return still;
        };
        Motion {
            spindle_speed: Some(n),
            top_speed: self.top,
            feed_rate: feed_rate(feed, n),
            passes,
            advance: Length::mm(feed.to_mm_per_rev()),
            runs: self.runs,
            finishing: self.finishing,
            capped: self.capped,
            ..still
        }
    }
}
