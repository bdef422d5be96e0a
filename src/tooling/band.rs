//! How far lives scatter where a tool does not say: bands of practice by kind of tool and edge.

use super::{LifeFamily, Sourced, Substrate, ToolKind};

/// A usual scatter of tool life.
#[derive(Debug, Clone, PartialEq)]
pub struct ScatterBand {
    /// Key in the catalog.
    pub key: String,
    /// In words.
    pub title: String,
    /// Tools it holds for; empty means all.
    pub kinds: Vec<ToolKind>,
    /// Edges it holds for; empty means all.
    pub substrates: Vec<Substrate>,
    /// Coefficient of variation: standard deviation over mean.
    pub variation: Sourced<f64>,
    /// Band in which practice finds it.
    pub band: Option<(f64, f64)>,
    /// Family of the distribution.
    pub family: LifeFamily,
}

impl ScatterBand {
    /// Whether it holds for a tool of this kind and edge.
    #[must_use]
    pub fn holds_for(&self, kind: ToolKind, substrate: Substrate) -> bool {
        (self.kinds.is_empty() || self.kinds.contains(&kind))
            && (self.substrates.is_empty() || self.substrates.contains(&substrate))
    }
}
