//! What catalog and scenario know of the tool and material of a log.

use super::FitRequest;
use super::group::{Axis, Group, Per};
use crate::calibrate::Prior;
use crate::commands::failure::Failure;
use crate::input::{Entries, entries};
use crate::quantity::Length;
use crate::tooling::{LifeLaw, LifeShape, Material, ReferenceLife, Tool, ToolKind};

/// Spread of a catalog life about that of a shop: a factor of two either way counts as one standard deviation.
pub(super) const LIFE_DOUBT: f64 = std::f64::consts::LN_2;
/// Spread of an exponent n of the catalog: two laboratories with one pairing found 0.22 and 0.53.
pub(super) const N_DOUBT: f64 = 0.1;
/// Spread of an exponent of feed or depth of the catalog.
pub(super) const EXPONENT_DOUBT: f64 = 0.15;

/// Tool and material of a group, where the log names them and they are known.
pub(super) struct Known {
    pub(super) tool: Option<Tool>,
    pub(super) material: Option<Material>,
    /// Factor of the log's coolant on the speed, against the coolant of the law.
    pub(super) coolant: f64,
    /// Factor of the hardness of what was cut, against the usual hardness of the material.
    pub(super) hardness: f64,
    /// Feed of the log for one of the tool's law: the teeth, where the log gives it for a turn and the law for a tooth.
    pub(super) teeth: f64,
}

impl Known {
    /// Looks up what a group names.
    pub(super) fn of(request: &FitRequest, group: &Group) -> Result<Self, Failure> {
        let needed = request.prior || request.overlay.is_some();
        let missing = |what: &str| {
            Failure::Usage(format!(
                "the log has no column `{what}`: say which it is with --{what}, since --prior and --to need it"
            ))
        };
        if needed && group.tool.is_none() {
            return Err(missing("tool"));
        }
        if needed && group.material.is_none() {
            return Err(missing("material"));
        }
        if !needed {
            return Ok(Self { tool: None, material: None, coolant: 1.0, hardness: 1.0, teeth: 1.0 });
        }
        let names = [group.tool.as_deref(), group.material.as_deref(), group.coolant.as_deref()];
        let Entries { tool, material, coolants } = entries(&request.scenario, names)?;
        let law =
            tool.as_ref().zip(material.as_ref()).and_then(|(tool, material)| tool.life_in(material.group));
        // Without a law there is no coolant to compare with.
        let coolant = group.coolant.as_ref().zip(law).map(|(own, law)| {
            let factor = |key: &str| {
                let coolant = coolants.iter().find(|coolant| coolant.key == key)?;
                let (tool, material) = (tool.as_ref()?, material.as_ref()?);
                coolant.factor(tool.substrate, material.group).map(|factor| factor.value.value)
            };
            Some(factor(own)? / factor(&law.coolant)?)
        });
        let no_factor = || {
            Failure::Usage(format!("{}: its coolant has no factor for this edge and material", group.name()))
        };
        let hardness = material.as_ref().and_then(|material| {
            let exponent = material.hardness_exponent.as_ref()?.value;
            let own = request.hardness?;
            Some((material.hardness.value / own).powf(exponent))
        });
        let teeth = tool.as_ref().map_or(Ok(1.0), |tool| teeth(tool, group))?;
        let coolant = coolant.map_or(Ok(1.0), |known| known.ok_or_else(no_factor))?;
        Ok(Self { tool, material, coolant, hardness: hardness.unwrap_or(1.0), teeth })
    }

    /// Factor of the material as it was cut on the speed of the law.
    pub(super) fn index(&self) -> f64 {
        self.hardness * self.material.as_ref().map_or(1.0, |material| material.speed_index.value)
    }

    /// The law of the tool in the material.
    pub(super) fn law(&self) -> Option<&LifeLaw> {
        self.tool.as_ref()?.life_in(self.material.as_ref()?.group)
    }

    /// Reference cut of the law as it holds for the material and coolant of the log: m/min, mm, mm.
    pub(super) fn reference(&self, axis: Axis) -> Option<f64> {
        let law = self.law()?;
        match axis {
            Axis::Speed => Some(law.speed.value.to_m_per_min() * self.index() * self.coolant),
            Axis::Feed => law.feed.map(|feed| feed.to_mm() * self.teeth),
            Axis::Depth => law.depth.map(Length::to_mm),
        }
    }

    /// What the catalog says of the coefficients of ln T on the logarithms of `axes` over those of the reference cut;
    /// `None` where its law is of another form.
    pub(super) fn prior(&self, group: &Group, axes: &[Axis]) -> Option<Prior> {
        let law = self.law()?;
        let (LifeShape::Taylor(taylor), ReferenceLife::Time(life)) = (&law.shape, law.life.value) else {
            return None;
        };
        let n = taylor.n.value;
        // What the log held fixed is not that of the reference cut: the law itself says what follows.
        let mut log_life = life.to_min().ln();
        for (axis, exponent) in [(Axis::Feed, taylor.feed_exponent), (Axis::Depth, taylor.depth_exponent)] {
            if let (false, Some(own), Some(reference)) =
                (axes.contains(&axis), group.middle(axis), self.reference(axis))
            {
                log_life -= exponent / n * (own / reference).ln();
            }
        }
        let (mut mean, mut sd) = (vec![log_life], vec![LIFE_DOUBT]);
        for axis in axes {
            let (value, doubt) = match axis {
                Axis::Speed => (-1.0 / n, N_DOUBT / (n * n)),
                Axis::Feed => (-taylor.feed_exponent / n, EXPONENT_DOUBT / n),
                Axis::Depth => (-taylor.depth_exponent / n, EXPONENT_DOUBT / n),
            };
            // Without a reference of its own the law says nothing of the axis.
            let known = self.reference(*axis).is_some();
            mean.push(if known { value } else { 0.0 });
            sd.push(if known { doubt } else { f64::INFINITY });
        }
        Some(Prior { mean, sd })
    }
}

/// Teeth by which a feed of the log is that of the law: mills, broaches and saws have laws for a tooth.
fn teeth(tool: &Tool, group: &Group) -> Result<f64, Failure> {
    let by_tooth =
        matches!(tool.kind, ToolKind::Mill | ToolKind::ThreadMill | ToolKind::Broach | ToolKind::SawBand);
    let refuse = |what: &str| {
        Err(Failure::Usage(format!(
            "`{}` is a {}: its feeds are for a {what}, write the log's in that unit",
            tool.key,
            tool.kind.name()
        )))
    };
    match (group.per, group.lives.iter().all(|life| life.feed.is_none())) {
        (_, true) => Ok(1.0),
        (Per::Rev, _) if by_tooth => match tool.geometry.teeth {
            Some(teeth) => Ok(f64::from(teeth)),
            None => refuse("tooth"),
        },
        (Per::Tooth, _) if !by_tooth => refuse("turn"),
        _ => Ok(1.0),
    }
}
