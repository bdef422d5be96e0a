//! Thread milling by helical interpolation.

use std::f64::consts::PI;

use crate::quantity::{FeedRate, Formula, Length};

/// Which side of the material a thread is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ThreadSide {
    /// In a hole.
    Internal,
    /// On a shaft.
    External,
}

/// Formula of [`centre_path_diameter`].
pub const CENTRE_PATH_DIAMETER: Formula = Formula {
    figure: "path of the cutter's axis",
    text: "d_c = D - d internal, D + d external",
    source: "common-practice",
};

/// Diameter of the circle on which the axis of a thread mill runs.
///
/// d_c = D - d internal, D + d external
///
/// # Symbols
/// d_c diameter of the path. D diameter that the edge traces: the major diameter of an internal thread, the minor diameter
/// of an external one. d diameter of the cutter.
/// # Range
/// Internal: d below D, in practice up to about 0.7 D, else the flanks are cut out of shape.
/// # Source
/// [common-practice]: geometry. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{ThreadSide, centre_path_diameter};
/// use wearland::quantity::Length;
/// let path = centre_path_diameter(Length::mm(20.0), Length::mm(14.0), ThreadSide::Internal);
/// assert!((path.to_mm() - 6.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn centre_path_diameter(traced: Length, cutter: Length, side: ThreadSide) -> Length {
    match side {
        ThreadSide::Internal => traced - cutter,
        ThreadSide::External => traced + cutter,
    }
}

/// Formula of [`centre_feed_rate`].
pub const CENTRE_FEED_RATE: Formula = Formula {
    figure: "feed rate of the cutter's axis",
    text: "v_fm = v_f * d_c / D",
    source: "common-practice",
};

/// Feed rate of the cutter's axis that gives the edge its own feed rate on the wall.
///
/// v_fm = v_f * d_c / D, that is v_f * (1 - d / D) internal and v_f * (1 + d / D) external
///
/// # Symbols
/// v_fm feed rate of the axis. v_f feed rate at the edge, f_z * z * n. d_c diameter of the path of the axis. D diameter that the
/// edge traces.
/// # Range
/// Circular and helical paths.
/// # Source
/// [common-practice]: geometry. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::centre_feed_rate;
/// use wearland::quantity::{FeedRate, Length};
/// let rate = centre_feed_rate(FeedRate::mm_per_min(500.0), Length::mm(6.0), Length::mm(20.0));
/// assert!((rate.to_mm_per_min() - 150.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn centre_feed_rate(rate: FeedRate, path: Length, traced: Length) -> FeedRate {
    rate * (path / traced)
}

/// Formula of [`helix_turn`].
pub const HELIX_TURN: Formula =
    Formula { figure: "turn of the helix", text: "L = sqrt((pi * d_c)^2 + P^2)", source: "derived" };

/// Path of one turn of a helix.
///
/// L = sqrt((pi * d_c)^2 + P^2)
///
/// # Symbols
/// L path. d_c diameter of the helix. P pitch.
/// # Range
/// Any.
/// # Source
/// \[derived\]. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::helix_turn;
/// use wearland::quantity::Length;
/// assert!((helix_turn(Length::mm(6.0), Length::mm(2.5)).to_mm() - 19.0146).abs() < 1e-4);
/// ```
#[must_use]
pub fn helix_turn(path: Length, pitch: Length) -> Length {
    Length::mm((PI * path.to_mm()).hypot(pitch.to_mm()))
}

/// Formula of [`lead_arc`].
pub const LEAD_ARC: Formula = Formula {
    figure: "lead-in arc",
    text: "L = pi * d_c / 4 internal, pi * d / 4 external",
    source: "common-practice",
};

/// Arc on which a thread mill runs into the wall, or out of it.
///
/// L = pi * d_c / 4 internal: half a circle from the middle of the hole; pi * d / 4 external: a quarter of a circle of the
/// cutter's own radius
///
/// # Symbols
/// L arc. d_c diameter of the path of the axis. d diameter of the cutter.
/// # Range
/// One arc; a cut has one in and one out. Programs differ: this is one usual choice.
/// # Source
/// [common-practice]. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{ThreadSide, lead_arc};
/// use wearland::quantity::Length;
/// let arc = lead_arc(Length::mm(6.0), Length::mm(14.0), ThreadSide::Internal);
/// assert!((arc.to_mm() - 4.7124).abs() < 1e-4);
/// ```
#[must_use]
pub fn lead_arc(path: Length, cutter: Length, side: ThreadSide) -> Length {
    match side {
        ThreadSide::Internal => path * (PI / 4.0),
        ThreadSide::External => cutter * (PI / 4.0),
    }
}

/// Turns of the helix along a thread: one if the cutter is as long as the thread, else one for each of its lengths; a cutter
/// with one row of teeth takes a turn for each pitch.
#[must_use]
pub fn thread_mill_turns(length: Length, cutting_length: Length, pitch: Length) -> u32 {
    let reach = if cutting_length > pitch { cutting_length } else { pitch };
    crate::cutting::turning::pass_count(length, reach).max(1)
}
