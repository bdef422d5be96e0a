//! Firms outside that do operations: hardening, plating, grinding.

use crate::quantity::Duration;

/// A firm outside.
#[derive(Debug, Clone, PartialEq)]
pub struct Firm {
    /// Key in the scenario.
    pub key: String,
    /// In words.
    pub title: String,
    /// Time from sending pieces until they are back.
    pub away: Duration,
    /// Pieces it takes in a shift of the plant; `None`: any number.
    pub a_shift: Option<u32>,
}
