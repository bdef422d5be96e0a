//! What a station does to the pieces that pass it.

use crate::quantity::Duration;

/// What a station does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StationWork {
    /// One piece at a time.
    Fixed {
        /// Time for a piece.
        time: Duration,
    },
    /// A load of pieces at a time.
    Batch {
        /// Time for a load.
        time: Duration,
        /// Pieces in a full load.
        pieces: u32,
    },
    /// Several pieces beside each other, each with its own start.
    Slots {
        /// Time for a piece.
        time: Duration,
        /// Places.
        slots: u32,
    },
    /// One piece in so many; the others pass.
    Sample {
        /// Time for a piece.
        time: Duration,
        /// One piece in so many.
        every: u32,
    },
}
