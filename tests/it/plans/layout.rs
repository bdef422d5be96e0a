//! The form in which `tests/published/plans/*.toml` states an example.

use std::collections::BTreeMap;
use std::path::Path;

use serde::Deserialize;

/// What data and optimum may rest on; `derived` is an optimum worked here that no print states.
const STANDINGS: [&str; 5] = ["read", "secondary", "memory", "common practice", "derived"];

/// An example. A slot is a period; hours, pieces or minutes stand for the minutes of a resource.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Example {
    pub(super) source: String,
    pub(super) at: String,
    /// Standing of the data.
    data: String,
    /// Standing of the optimum.
    optimum: String,
    pub(super) note: Option<String>,
    pub(super) goal: Goal,
    pub(super) value: f64,
    /// Relative, for the value and every quantity.
    pub(super) tolerance: f64,
    /// The optimum as printed, in whole units.
    pub(super) printed: Option<f64>,
    pub(super) slots: usize,
    pub(super) resource: Vec<ResourceLine>,
    pub(super) item: Vec<ItemLine>,
    #[serde(default)]
    pub(super) work: Vec<WorkLine>,
    #[serde(default)]
    pub(super) rate: Vec<RateLine>,
    #[serde(default)]
    pub(super) sale: Vec<SaleLine>,
    #[serde(default)]
    pub(super) call_off: Vec<CallOffLine>,
    #[serde(default)]
    pub(super) order: Vec<OrderLine>,
    #[serde(default)]
    pub(super) made: Vec<MadeLine>,
    #[serde(default)]
    pub(super) price: Vec<PriceLine>,
    #[serde(default)]
    pub(super) variant: Vec<VariantLine>,
    pub(super) capacity: Option<CapacityLine>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Goal {
    /// Most money.
    Profit,
    /// Least money.
    Cost,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Kind {
    Machine,
    Crew,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ResourceLine {
    pub(super) name: String,
    pub(super) kind: Kind,
    /// A number, one for each slot, or "unlimited".
    pub(super) units: toml::Value,
    #[serde(default)]
    pub(super) cost: f64,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ItemLine {
    pub(super) name: String,
    #[serde(default)]
    pub(super) inputs: BTreeMap<String, f64>,
    #[serde(default)]
    pub(super) opening: f64,
    #[serde(default)]
    pub(super) closing: f64,
    #[serde(default)]
    pub(super) holding: f64,
}

/// A way to make an item; without `uses` it is bought.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WorkLine {
    pub(super) item: String,
    #[serde(default)]
    pub(super) uses: BTreeMap<String, f64>,
    #[serde(default)]
    pub(super) cost: f64,
}

/// Work told by pieces in an hour of each of its resources, which are open for so many minutes.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RateLine {
    pub(super) item: String,
    pub(super) on: Vec<String>,
    pub(super) hourly: f64,
}

/// Sold in its slot at a price, up to the quantity.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SaleLine {
    pub(super) item: String,
    pub(super) price: f64,
    pub(super) quantity: toml::Value,
}

/// Must leave in its slot, neither before nor after; a missing piece costs more than any way to make one.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CallOffLine {
    pub(super) item: String,
    pub(super) quantity: toml::Value,
    pub(super) missing: f64,
}

/// Owed by the end of its slot.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OrderLine {
    pub(super) item: String,
    pub(super) quantity: toml::Value,
}

/// Pieces expected in each slot, of all ways to make the item or of those that use a resource. Only where the optimum is unique.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct MadeLine {
    pub(super) item: String,
    pub(super) on: Option<String>,
    pub(super) pieces: Vec<f64>,
}

/// What the value changes by for each unit more, and for each unit fewer, of a resource or of what is wanted of an item.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PriceLine {
    /// The resource.
    pub(super) on: Option<String>,
    pub(super) item: Option<String>,
    /// Counted from 1.
    #[serde(default = "first")]
    pub(super) slot: usize,
    pub(super) fewer: f64,
    pub(super) more: f64,
}

fn first() -> usize {
    1
}

/// The example with other units of some resources.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct VariantLine {
    pub(super) units: BTreeMap<String, f64>,
    pub(super) value: Option<f64>,
    pub(super) missing: Option<Missing>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Missing {
    Nothing,
    Some,
}

/// The largest output of a mix.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CapacityLine {
    pub(super) mix: BTreeMap<String, f64>,
    pub(super) units: f64,
    /// Gain by resource; those not named gain nothing. Looked at only if told.
    pub(super) one_more_hour: Option<BTreeMap<String, f64>>,
}

/// All examples with the name of their file, in the order of names.
pub(super) fn examples() -> Result<Vec<(String, Example)>, Box<dyn std::error::Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published/plans");
    let mut files = folder.read_dir()?.map(|entry| Ok(entry?.path())).collect::<std::io::Result<Vec<_>>>()?;
    files.sort();
    let mut examples = Vec::new();
    for file in files {
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        #[expect(clippy::disallowed_methods, reason = "the examples are data of this test")]
        let text = std::fs::read_to_string(&file)?;
        let example: Example = toml::from_str(&text).map_err(|error| format!("{name}: {error}"))?;
        example.check().map_err(|error| format!("{name}: {error}"))?;
        examples.push((name, example));
    }
    Ok(examples)
}

impl Example {
    fn check(&self) -> Result<(), String> {
        for standing in [&self.data, &self.optimum] {
            if !STANDINGS.contains(&standing.as_str()) {
                return Err(format!("standing `{standing}` is none of {}", STANDINGS.join(", ")));
            }
        }
        if self.source.is_empty() || self.at.is_empty() || self.slots == 0 {
            return Err("an example needs a source, a place in it, and slots".to_owned());
        }
        if self.printed.is_none() && self.optimum != "derived" && self.capacity.is_none() {
            return Err("an optimum that a source states needs `printed`".to_owned());
        }
        if !(self.tolerance > 0.0 && self.tolerance <= 1e-6) {
            return Err("the tolerance is above 0, up to 1e-6".to_owned());
        }
        Ok(())
    }
}
