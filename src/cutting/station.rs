//! A conveyor that carries pieces through a station: from piece to piece, time through, pieces inside.

use crate::quantity::{Duration, FeedRate, Formula, Length};

use super::turning::travel_time;

/// Pieces on a conveyor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conveyor {
    /// Way from loading to unloading.
    pub length: Length,
    /// Speed of the belt or chain.
    pub speed: FeedRate,
    /// From one row of pieces to the next.
    pub spacing: Length,
    /// Pieces side by side in a row.
    pub abreast: u32,
}

/// Formula of [`conveyor_interval`].
pub const CONVEYOR_INTERVAL: Formula =
    Formula { figure: "from piece to piece", text: "t = s / (v * k)", source: "derived" };

/// Time from one piece to the next at the end of a full conveyor.
///
/// t = s / (v * k)
///
/// # Symbols
/// t time. s spacing of the rows. v speed. k pieces abreast.
/// # Range
/// v and k above zero; every place is loaded.
/// # Source
/// \[derived\]. Worked examples: tests/published/station.toml.
/// # Example
/// ```
/// use wearland::cutting::station::{Conveyor, conveyor_interval};
/// use wearland::quantity::{FeedRate, Length};
/// let time = conveyor_interval(Conveyor {
///     length: Length::m(12.0),
///     speed: FeedRate::m_per_min(1.5),
///     spacing: Length::mm(400.0),
///     abreast: 2,
/// });
/// assert!((time.to_s() - 8.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn conveyor_interval(conveyor: Conveyor) -> Duration {
    travel_time(conveyor.spacing, conveyor.speed) / f64::from(conveyor.abreast)
}

/// Formula of [`conveyor_passage`].
pub const CONVEYOR_PASSAGE: Formula =
    Formula { figure: "time through", text: "t = L / v", source: "derived" };

/// Time of a piece from one end of the conveyor to the other.
///
/// t = L / v
///
/// # Symbols
/// t time. L length. v speed.
/// # Range
/// v above zero.
/// # Source
/// \[derived\]. Worked examples: tests/published/station.toml.
/// # Example
/// ```
/// use wearland::cutting::station::{Conveyor, conveyor_passage};
/// use wearland::quantity::{FeedRate, Length};
/// let time = conveyor_passage(Conveyor {
///     length: Length::m(12.0),
///     speed: FeedRate::m_per_min(1.5),
///     spacing: Length::mm(400.0),
///     abreast: 1,
/// });
/// assert!((time.to_min() - 8.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn conveyor_passage(conveyor: Conveyor) -> Duration {
    travel_time(conveyor.length, conveyor.speed)
}

/// Formula of [`conveyor_pieces`].
pub const CONVEYOR_PIECES: Formula =
    Formula { figure: "pieces inside", text: "N = L / s * k", source: "derived" };

/// Pieces on a full conveyor, on average: its throughput times the time through.
///
/// N = L / s * k
///
/// # Symbols
/// N pieces. L length. s spacing of the rows. k pieces abreast.
/// # Range
/// s above zero. Not whole where the length is no multiple of the spacing: the count then goes up and down by a row.
/// # Source
/// \[derived\]. Worked examples: tests/published/station.toml.
/// # Example
/// ```
/// use wearland::cutting::station::{Conveyor, conveyor_pieces};
/// use wearland::quantity::{FeedRate, Length};
/// let pieces = conveyor_pieces(Conveyor {
///     length: Length::m(12.0),
///     speed: FeedRate::m_per_min(1.5),
///     spacing: Length::mm(400.0),
///     abreast: 2,
/// });
/// assert!((pieces - 60.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn conveyor_pieces(conveyor: Conveyor) -> f64 {
    conveyor.length / conveyor.spacing * f64::from(conveyor.abreast)
}
