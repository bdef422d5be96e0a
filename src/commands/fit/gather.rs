//! Rows of a log sorted into the groups that are fitted.

use super::FitRequest;
use super::group::{Group, Life, Per};
use crate::calibrate::{
    Outcome as End, PowerLife, WearLife, fit_power_curve, power_life, power_start, wear_life,
};
use crate::commands::failure::Failure;
use crate::cycle::Feed;
use crate::input::log::{Log, Outcome, ToolChange, WearTest};
use crate::quantity::{Duration, Length};

/// Groups as they fill.
struct Gather<'r> {
    request: &'r FitRequest,
    groups: Vec<Group>,
    /// Line of a feed in another unit than those before it.
    mixed: Option<u32>,
}

/// Tool, material, coolant as the log names them.
type Names = [Option<String>; 3];

/// The groups of a log, in the order in which they first come.
pub(super) fn groups(request: &FitRequest, log: Log) -> Result<Vec<Group>, Failure> {
    let mut gather = Gather { request, groups: Vec::new(), mixed: None };
    match (log, request.limit) {
        (Log::Changes(changes), None) => changes.into_iter().for_each(|change| gather.change(change)),
        (Log::Readings(tests), Some(limit)) => tests.into_iter().for_each(|test| gather.test(test, limit)),
        (Log::Changes(_), Some(_)) => {
            return Err(Failure::Usage(
                "--limit is for wear readings: this log holds tool changes".to_owned(),
            ));
        }
        (Log::Readings(_), None) => {
            return Err(Failure::Usage(
                "this log holds wear readings: say at which wear land an edge is worn, --limit \"0.3 mm\""
                    .to_owned(),
            ));
        }
    }
    if let Some(line) = gather.mixed {
        return Err(Failure::Usage(format!(
            "the feed in line {line} is for another turn, tooth or stroke than those before it: write all feeds of a tool in one unit"
        )));
    }
    gather.groups.retain(|group| !group.lives.is_empty());
    if gather.groups.is_empty() {
        return Err(Failure::Usage("the log holds no edge whose life could be read".to_owned()));
    }
    Ok(gather.groups)
}

impl Gather<'_> {
    /// The group of such names, with a feed of this unit.
    fn group(&mut self, names: Names, feed: Option<Feed>, line: u32) -> &mut Group {
        let [tool, material, coolant] = names;
        let tool = tool.or_else(|| self.request.tool.clone());
        let material = material.or_else(|| self.request.material.clone());
        let coolant = coolant.or_else(|| self.request.coolant.clone());
        let same =
            |group: &Group| group.tool == tool && group.material == material && group.coolant == coolant;
        let per = feed.map(Per::of);
        let place = self.groups.iter().position(same).unwrap_or_else(|| {
            self.groups.push(Group {
                tool,
                material,
                coolant,
                lives: Vec::new(),
                limit: self.request.limit,
                per: per.unwrap_or(Per::Rev),
                silent: Vec::new(),
                named: true,
            });
            self.groups.len() - 1
        });
        if per.is_some_and(|per| per != self.groups[place].per) {
            self.mixed = self.mixed.or(Some(line));
        }
        &mut self.groups[place]
    }

    fn change(&mut self, change: ToolChange) {
        let (end, outcome) = match change.outcome {
            Outcome::Worn => (End::Failed, "worn"),
            Outcome::Broken => (End::Failed, "broken"),
            Outcome::Early => (End::RightCensored, "early"),
        };
        let group = self.group([change.tool, change.material, change.coolant], change.feed, change.line);
        group.named &= change.id.is_some();
        group.lives.push(Life {
            name: format!("line {}", change.line),
            speed: Some(change.speed),
            feed: change.feed.map(Feed::advance),
            depth: change.depth,
            life: change.life,
            end,
            outcome,
            count: change.count,
            line: change.line,
            span: change.span,
            curve: None,
        });
    }

    /// The life of an edge at a wear land: where its readings cross it, or longer than its last reading. An edge read only when
    /// new, or first read when worn, says nothing.
    fn test(&mut self, test: WearTest, limit: Length) {
        let readings: Vec<(f64, f64)> =
            test.readings.iter().map(|reading| (reading.time.to_min(), reading.wear.to_mm())).collect();
        let Some(last) = test.readings.last() else { return };
        let (line, span) = (last.line, last.span);
        let setting = test.setting;
        let group = self.group([setting.tool, setting.material, setting.coolant], setting.feed, line);
        let (minutes, end, outcome) = match wear_life(&readings, limit.to_mm()) {
            Ok(WearLife::Reached(minutes)) => (minutes, End::Failed, "read at the limit"),
            Ok(WearLife::NotReached(minutes)) if minutes > 0.0 => {
                (minutes, End::RightCensored, "limit not reached")
            }
            Ok(WearLife::NotReached(_) | WearLife::AtFirstReading(_)) | Err(_) => {
                group.silent.push(test.edge);
                return;
            }
        };
        group.lives.push(Life {
            name: test.edge,
            speed: setting.speed,
            feed: setting.feed.map(Feed::advance),
            depth: setting.depth,
            life: Duration::min(minutes),
            end,
            outcome,
            count: 1,
            line,
            span,
            curve: curve(&readings, limit),
        });
    }
}

/// Life by VB = a t^b through all readings of an edge that show wear.
fn curve(readings: &[(f64, f64)], limit: Length) -> Option<PowerLife> {
    let worn: Vec<(f64, f64)> =
        readings.iter().copied().filter(|(time, wear)| *time > 0.0 && *wear > 0.0).collect();
    let fit = fit_power_curve(&worn, power_start(&worn).ok()?).ok()?;
    power_life(&fit, limit.to_mm())
}
