//! Single-point threads.

use super::Side;
use crate::quantity::Length;

/// A single-point thread.
#[derive(Debug, Clone, PartialEq)]
pub struct ThreadWork {
    /// Outside or inside.
    pub side: Side,
    /// Nominal diameter.
    pub diameter: Length,
    /// Pitch.
    pub pitch: Length,
    /// Length threaded.
    pub length: Length,
    /// Passes; `None`: as proposed for the pitch.
    pub passes: Option<u32>,
    /// Least infeed of the last pass: where it would be less, fewer passes are made.
    pub last_pass: Option<Length>,
    /// Path before the thread.
    pub run_in: Length,
    /// Path behind the thread.
    pub run_out: Length,
}
