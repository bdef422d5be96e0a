//! Rolling a gear against a master: limits of its grade, and the share of gears that miss them.

use crate::cutting::hobbing::{Gear, pitch_diameter};
use crate::cutting::roll_test::{
    COMPOSITE_LIMIT, Composite, REJECT_SHARE, composite_limit, joint_reject_share, reject_share,
};
use crate::quantity::{Fraction, Length, Range, Record, Term};

/// How a deviation scatters from gear to gear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// Mean.
    pub mean: Length,
    /// Standard deviation.
    pub deviation: Length,
}

/// A double-flank roll test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RollTest {
    /// Grade asked, 4 to 12.
    pub grade: u8,
    /// Total radial composite deviation Fi''.
    pub total: Spread,
    /// Tooth-to-tooth radial composite deviation fi''.
    pub tooth: Option<Spread>,
}

/// One deviation against its limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RolledDeviation {
    /// Symbol: `Fi''`.
    pub symbol: &'static str,
    /// How it scatters.
    pub spread: Spread,
    /// Limit of the grade.
    pub limit: Length,
    /// Share of gears beyond it.
    pub reject: Fraction,
}

/// What the test finds.
#[derive(Debug, Clone, PartialEq)]
pub struct RollVerdict {
    /// Each deviation.
    pub deviations: Vec<RolledDeviation>,
    /// Share of gears that miss either limit, from the least to the most it can be: how the two go together is not known.
    pub reject: Range<Fraction>,
}

/// Holds a roll test against the limits of ISO 1328-2:1997; `None` outside the sizes of the standard.
pub fn roll_verdict(gear: &Gear, test: &RollTest, record: &mut impl Record) -> Option<RollVerdict> {
    let diameter = pitch_diameter(gear);
    let mut deviations = Vec::new();
    let both = [("Fi''", Composite::Total, Some(test.total)), ("fi''", Composite::Tooth, test.tooth)];
    for (symbol, which, spread) in both {
        let Some(spread) = spread else { continue };
        let limit = composite_limit(which, gear.module, diameter, test.grade)?;
        record.step(&COMPOSITE_LIMIT, limit.into(), || {
            vec![
                ("m_n", gear.module.into()),
                ("d", diameter.into()),
                ("Q", Term::Plain(f64::from(test.grade))),
            ]
        });
        let reject = reject_share(limit, spread.mean, spread.deviation);
        record.step(&REJECT_SHARE, Term::Plain(reject.value()), || {
            vec![("L", limit.into()), ("mu", spread.mean.into()), ("s", spread.deviation.into())]
        });
        deviations.push(RolledDeviation { symbol, spread, limit, reject });
    }
    let total = deviations.first().map_or(Fraction::ZERO, |deviation| deviation.reject);
    let tooth = deviations.get(1).map_or(Fraction::ZERO, |deviation| deviation.reject);
    Some(RollVerdict { reject: joint_reject_share(total, tooth), deviations })
}
