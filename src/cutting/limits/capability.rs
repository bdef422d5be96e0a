//! What a process holds in size and in finish.

use crate::quantity::{Range, Roughness};

use super::tolerance::Grade;

/// A process by what it leaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Process {
    /// Lapping.
    Lapping,
    /// Honing.
    Honing,
    /// Cylindrical grinding.
    Grinding,
    /// Turning and boring with a fine finishing cut.
    FineTurning,
    /// Broaching.
    Broaching,
    /// Reaming.
    Reaming,
    /// Turning.
    Turning,
    /// Boring.
    Boring,
    /// Milling.
    Milling,
    /// Drilling.
    Drilling,
    /// Sawing.
    Sawing,
}

/// Tolerance grades a process holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Capability {
    /// Best, with care.
    pub finest: Grade,
    /// Finest of ordinary work, where the charts tell it from the best.
    pub usual: Grade,
    /// Coarsest it is used for.
    pub coarsest: Grade,
}

/// Tolerance grades of a process, from the common chart (memory).
#[must_use]
pub const fn capability(process: Process) -> Capability {
    let (finest, usual, coarsest) = match process {
        Process::Lapping => (3, 3, 5),
        Process::Honing => (4, 4, 6),
        Process::Grinding | Process::FineTurning => (5, 5, 7),
        Process::Broaching => (5, 5, 8),
        Process::Reaming => (6, 6, 10),
        Process::Turning => (7, 7, 13),
        Process::Boring => (8, 8, 13),
        Process::Milling => (8, 10, 13),
        Process::Drilling => (10, 10, 13),
        Process::Sawing => (14, 14, 18),
    };
    Capability { finest: Grade(finest), usual: Grade(usual), coarsest: Grade(coarsest) }
}

/// Mean roughness Ra a process leaves.
///
/// Ra as charted
///
/// # Symbols
/// Ra mean roughness.
/// # Range
/// Ordinary work, least to most; nothing for lapping, which the chart leaves out here. Fine turning counts as turning.
/// # Source
/// [asme-b46-1]. Worked examples: tests/published/tolerances.toml.
/// # Example
/// ```
/// use wearland::cutting::limits::{Process, roughness_range};
/// let range = roughness_range(Process::Grinding).unwrap();
/// assert!((range.low.to_um() - 0.1).abs() < 1e-12);
/// ```
#[must_use]
pub fn roughness_range(process: Process) -> Option<Range<Roughness>> {
    let (low, high) = match process {
        Process::Lapping => return None,
        Process::Honing => (0.1, 0.8),
        Process::Grinding => (0.1, 1.6),
        Process::Broaching | Process::Reaming => (0.8, 3.2),
        Process::FineTurning | Process::Turning | Process::Boring => (0.4, 6.3),
        Process::Milling => (0.8, 6.3),
        Process::Drilling => (1.6, 6.3),
        Process::Sawing => (3.2, 25.0),
    };
    Some(Range { low: Roughness::um(low), high: Roughness::um(high) })
}
