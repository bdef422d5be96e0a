//! What catalog and scenario know of the tool and material of a log.

use super::FitRequest;
use super::group::{Axis, Group};
use crate::calibrate::Prior;
use crate::commands::failure::Failure;
use crate::input::{Entries, entries};
use crate::quantity::Length;
use crate::tooling::{LifeLaw, LifeShape, Material, ReferenceLife, Tool};

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
            return Ok(Self { tool: None, material: None, coolant: 1.0 });
        }
        let names = [group.tool.as_deref(), group.material.as_deref(), group.coolant.as_deref()];
        let Entries { tool, material, coolants } = entries(&request.scenario, names)?;
        let coolant = group.coolant.as_ref().and_then(|own| {
            let law = tool.as_ref()?.life_in(material.as_ref()?.group)?;
            let factor = |key: &str| {
                let coolant = coolants.iter().find(|coolant| coolant.key == key)?;
                coolant
                    .factor(tool.as_ref()?.substrate, material.as_ref()?.group)
                    .map(|factor| factor.value.value)
            };
            Some(factor(own)? / factor(&law.coolant)?)
        });
        Ok(Self { tool, material, coolant: coolant.unwrap_or(1.0) })
    }

    /// The law of the tool in the material.
    pub(super) fn law(&self) -> Option<&LifeLaw> {
        self.tool.as_ref()?.life_in(self.material.as_ref()?.group)
    }

    /// Reference cut of the law as it holds for the material and coolant of the log: m/min, mm, mm.
    pub(super) fn reference(&self, axis: Axis) -> Option<f64> {
        let law = self.law()?;
        match axis {
            Axis::Speed => Some(
                law.speed.value.to_m_per_min() * self.material.as_ref()?.speed_index.value * self.coolant,
            ),
            Axis::Feed => law.feed.map(Length::to_mm),
            Axis::Depth => law.depth.map(Length::to_mm),
        }
    }

    /// What the catalog says of the coefficients of ln T on the logarithms of `axes` over those of the reference cut;
    /// `None` where its law is of another form.
    pub(super) fn prior(&self, axes: &[Axis]) -> Option<Prior> {
        let law = self.law()?;
        let (LifeShape::Taylor(taylor), ReferenceLife::Time(life)) = (&law.shape, law.life.value) else {
            return None;
        };
        let n = taylor.n.value;
        let (mut mean, mut sd) = (vec![life.to_min().ln()], vec![LIFE_DOUBT]);
        for axis in axes {
            let (value, doubt) = match axis {
                Axis::Speed => (-1.0 / n, N_DOUBT / (n * n)),
                Axis::Feed => (-taylor.feed_exponent / n, EXPONENT_DOUBT / n),
                Axis::Depth => (-taylor.depth_exponent / n, EXPONENT_DOUBT / n),
            };
            mean.push(value);
            sd.push(doubt);
        }
        Some(Prior { mean, sd })
    }
}
