//! Where a life law, or a factor on it, is stretched beyond what it was made from.

use super::process::Motion;
use super::setting::Setting;
use crate::quantity::{Caution, Length, Limit, Quantity};
use crate::tooling::{LifeLaw, ReferenceLife};

/// What follows from any figure outside its range.
const EXTRAPOLATED: &str = "tool life is extrapolated";

/// Cautions on the life of a cut; `k` is its factor on the speed.
pub(super) fn stretched(at: &Setting<'_>, motion: &Motion, law: &LifeLaw, k: f64) -> Vec<Caution> {
    let source = &law.speed.source;
    let speed = law.speeds.check(
        "cutting speed, brought to the reference cut",
        motion.speed() / k,
        EXTRAPOLATED,
        source,
    );
    let mut cautions: Vec<Caution> = speed.into_iter().collect();
    let finish = motion.finishing;
    if let Some(feeds) = &law.feeds {
        let advances = [Some(motion.advance), finish.map(|finish| finish.advance)];
        cautions.extend(
            advances.into_iter().flatten().filter_map(|feed| feeds.check("feed", feed, EXTRAPOLATED, source)),
        );
    }
    if let Some(depths) = &law.depths {
        let each = [motion.depth, finish.map(|finish| finish.depth)];
        cautions.extend(
            each.into_iter()
                .flatten()
                .filter_map(|depth| depths.check("depth of cut", depth, EXTRAPOLATED, source)),
        );
    }
    cautions.extend(hardness(at, law));
    cautions.extend(land(at, law));
    cautions
}

/// The exponent of the hardness holds where it was fitted.
fn hardness(at: &Setting<'_>, law: &LifeLaw) -> Option<Caution> {
    let material = at.material();
    let exponent = material.hardness_exponent.as_ref()?;
    let own = at.part_hardness().filter(|_| !matches!(law.life.value, ReferenceLife::Volume(_)))?;
    material.hardness_range?.check("hardness of the part", own, EXTRAPOLATED, &exponent.source)
}

/// Beyond the land of the law nothing was measured.
fn land(at: &Setting<'_>, law: &LifeLaw) -> Option<Caution> {
    let (asked, limit): (Length, Length) = (at.cut.wear?, law.wear?);
    (asked > limit).then(|| Caution {
        subject: "wear land",
        value: asked.measure(),
        limit: Limit::AtMost(limit.measure()),
        remark: "the wear curve goes on beyond the end of the life; an edge may fail at once",
        source: law.curve.source.clone(),
    })
}
