//! Coolant states and what they do to the speed at equal life.

use super::{Group, Sourced, Substrate};

/// A factor on the cutting speed at equal life, against soluble flood.
#[derive(Debug, Clone, PartialEq)]
pub struct CoolantFactor {
    /// Edges it holds for; empty means all.
    pub substrates: Vec<Substrate>,
    /// Work materials it holds for; empty means all.
    pub groups: Vec<Group>,
    /// The factor.
    pub value: Sourced<f64>,
    /// Band in which practice finds it.
    pub band: Option<(f64, f64)>,
}

/// A coolant state: dry, soluble flood, neat oil, minimum quantity, high pressure, air.
#[derive(Debug, Clone, PartialEq)]
pub struct Coolant {
    /// Key in the catalog.
    pub key: String,
    /// In words.
    pub title: String,
    /// Factors; the first that matches counts.
    pub factors: Vec<CoolantFactor>,
    /// What can hurt: mist, oil fire.
    pub caution: Option<String>,
}

impl Coolant {
    /// The factor for an edge and a work material.
    #[must_use]
    pub fn factor(&self, substrate: Substrate, group: Group) -> Option<&CoolantFactor> {
        self.factors.iter().find(|factor| {
            (factor.substrates.is_empty() || factor.substrates.contains(&substrate))
                && (factor.groups.is_empty() || factor.groups.contains(&group))
        })
    }
}
