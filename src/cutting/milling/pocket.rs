//! Pockets and keyways: path of the cutter by the area it clears, and the way in.

use std::f64::consts::PI;

use crate::quantity::{Angle, Formula, Length};

/// Share of its feed rate at which a mill plunges: common practice of mills that cut over their middle.
pub const PLUNGE_SHARE: f64 = 0.3;

/// A rectangular pocket whose corners are as round as the cutter, seen from above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pocket {
    /// Its longer side.
    pub length: Length,
    /// Its shorter side.
    pub width: Length,
    /// Diameter of the cutter.
    pub diameter: Length,
    /// Distance between two rows or rounds.
    pub step_over: Length,
}

/// Formula of [`clearing_path`].
pub const CLEARING_PATH: Formula =
    Formula { figure: "clearing path", text: "L = (l - D) + l * (w - D) / b", source: "derived" };

/// Path that clears one level of a pocket, in rows or in rounds.
///
/// L = (l - D) + l * (w - D) / b
///
/// # Symbols
/// L path of the cutter's axis. l, w sides of the pocket. D diameter. b step-over.
/// # Range
/// A model by removal: a first slot along the pocket at full width, the rest of the area at one step-over. w from D up;
/// b up to about 0.7 D, so that no ridge is left in the corners of the rounds. Rows are not rounded up to whole ones: for
/// three rows or more the path is within a few percent of rows worked one by one.
/// # Source
/// \[derived\]: area l * w - (4 - pi) * D^2 / 4 less the first slot, divided by the step-over. Worked examples:
/// tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{Pocket, clearing_path};
/// use wearland::quantity::Length;
/// let pocket = Pocket {
///     length: Length::mm(100.0),
///     width: Length::mm(60.0),
///     diameter: Length::mm(16.0),
///     step_over: Length::mm(8.0),
/// };
/// assert!((clearing_path(pocket).to_mm() - 634.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn clearing_path(pocket: Pocket) -> Length {
    let beside = (pocket.width - pocket.diameter).larger(Length::ZERO);
    (pocket.length - pocket.diameter) + pocket.length * (beside / pocket.step_over)
}

/// Formula of [`wall_path`].
pub const WALL_PATH: Formula =
    Formula { figure: "wall path", text: "L = 2 * (l - D) + 2 * (w - D)", source: "derived" };

/// Path of one pass round the wall of a pocket.
///
/// L = 2 * (l - D) + 2 * (w - D)
///
/// # Symbols
/// L path of the cutter's axis. l, w sides of the pocket. D diameter.
/// # Range
/// Corners as round as the cutter; with wider ones the path is shorter by (8 - 2 * pi) times the difference of the radii.
/// # Source
/// \[derived\]. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{Pocket, wall_path};
/// use wearland::quantity::Length;
/// let (length, width) = (Length::mm(100.0), Length::mm(60.0));
/// let pocket = Pocket { length, width, diameter: Length::mm(16.0), step_over: Length::mm(8.0) };
/// assert!((wall_path(pocket).to_mm() - 256.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn wall_path(pocket: Pocket) -> Length {
    (pocket.length + pocket.width - pocket.diameter * 2.0) * 2.0
}

/// Formula of [`ramp_path`].
pub const RAMP_PATH: Formula = Formula { figure: "ramp", text: "L = a_p / sin(alpha)", source: "derived" };

/// Path of a ramp down one level, straight or to and fro.
///
/// L = a_p / sin(alpha)
///
/// # Symbols
/// L path. a_p depth of the level. alpha angle of the ramp.
/// # Range
/// alpha above 0, up to 90 degrees; the slope it leaves is cleared by the first slot.
/// # Source
/// \[derived\]. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::ramp_path;
/// use wearland::quantity::{Angle, Length};
/// assert!((ramp_path(Length::mm(5.0), Angle::deg(30.0)).to_mm() - 10.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn ramp_path(depth: Length, angle: Angle) -> Length {
    depth / angle.to_rad().sin()
}

/// Formula of [`helix_path`].
pub const HELIX_PATH: Formula =
    Formula { figure: "helix", text: "L = a_p / sin(alpha) + pi * (d_h - D)", source: "derived" };

/// Path of a helix down one level, with a full turn at the bottom.
///
/// L = a_p / sin(alpha) + pi * (d_h - D)
///
/// # Symbols
/// L path of the cutter's axis. a_p depth of the level. alpha angle of the helix. d_h diameter of the hole it opens. D diameter.
/// # Range
/// d_h above D, up to 2 D: beyond, a core stays.
/// # Source
/// \[derived\]. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::helix_path;
/// use wearland::quantity::{Angle, Length};
/// let path = helix_path(Length::mm(5.0), Angle::deg(30.0), Length::mm(30.0), Length::mm(20.0));
/// assert!((path.to_mm() - 41.416).abs() < 1e-3);
/// ```
#[must_use]
pub fn helix_path(depth: Length, angle: Angle, hole: Length, diameter: Length) -> Length {
    ramp_path(depth, angle) + (hole - diameter) * PI
}

/// Ends of a keyway.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum KeywayEnds {
    /// Round at both ends; the cutter plunges.
    #[default]
    Closed,
    /// Running out at one end, where the cutter comes in from outside.
    Open,
}

impl KeywayEnds {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 2] = [("closed", Self::Closed), ("open", Self::Open)];
}

/// Formula of [`keyway_path`].
pub const KEYWAY_PATH: Formula =
    Formula { figure: "keyway path", text: "L = l - D closed, L = l open at one end", source: "derived" };

/// Path of one level of a keyway milled by an end mill of its width.
///
/// L = l - D closed; L = l open at one end, D / 2 of it from first touch to the end of the work
///
/// # Symbols
/// L path of the cutter's axis. l length of the keyway over its round end or ends. D diameter.
/// # Range
/// l from D up. The plunge of a closed keyway is not in it.
/// # Source
/// \[derived\]. Worked examples: tests/published/milling-pocket.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{KeywayEnds, keyway_path};
/// use wearland::quantity::Length;
/// let path = keyway_path(Length::mm(40.0), Length::mm(8.0), KeywayEnds::Closed);
/// assert!((path.to_mm() - 32.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn keyway_path(length: Length, diameter: Length, ends: KeywayEnds) -> Length {
    match ends {
        KeywayEnds::Closed => length - diameter,
        KeywayEnds::Open => length,
    }
}
