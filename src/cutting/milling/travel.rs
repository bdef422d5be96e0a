//! Approach and travel of a milling cutter.

use crate::quantity::{Formula, Length};

/// Formula of [`side_approach`].
pub const SIDE_APPROACH: Formula = Formula {
    figure: "approach",
    text: "A = sqrt(a_e * (D - a_e)), from a_e = D / 2 on A = D / 2",
    source: "sharma",
};

/// Approach of a cutter that mills with its side: travel of its axis from first touch to the edge of the work.
///
/// A = sqrt(a_e * (D - a_e)); from a_e = D / 2 on, A = D / 2
///
/// # Symbols
/// A approach. a_e engagement across the feed. D diameter.
/// # Range
/// a_e from 0 to D. The overrun of a cut that must clean up is as long.
/// # Source
/// \[sharma\]. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::side_approach;
/// use wearland::quantity::Length;
/// assert!((side_approach(Length::mm(100.0), Length::mm(2.0)).to_mm() - 14.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn side_approach(diameter: Length, engagement: Length) -> Length {
    let engagement = engagement.smaller(diameter / 2.0);
    Length::mm((engagement.to_mm() * (diameter - engagement).to_mm()).sqrt())
}

/// Formula of [`face_approach`].
pub const FACE_APPROACH: Formula = Formula {
    figure: "approach",
    text: "A = D / 2 - sqrt((D / 2)^2 - (w / 2 + e)^2), from w / 2 + e = D / 2 on A = D / 2",
    source: "sharma",
};

/// Approach of a face mill: travel from first touch until the whole width is reached.
///
/// A = D / 2 - sqrt((D / 2)^2 - (w / 2 + e)^2); from w / 2 + e = D / 2 on, A = D / 2
///
/// # Symbols
/// A approach. D diameter. w width of the work. e distance of the cutter's axis from the middle of the work.
/// # Range
/// Roughing; a cut that must clean up runs D beyond the work in all.
/// # Source
/// \[sharma\] for e = 0; the offset is geometry. Worked examples: tests/published/milling.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::face_approach;
/// use wearland::quantity::Length;
/// let approach = face_approach(Length::mm(100.0), Length::mm(60.0), Length::mm(10.0));
/// assert!((approach.to_mm() - 20.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn face_approach(diameter: Length, width: Length, offset: Length) -> Length {
    let radius = diameter.to_mm() / 2.0;
    let reach = (width.to_mm() / 2.0 + offset.to_mm().abs()).min(radius);
    Length::mm(radius - (radius.powi(2) - reach.powi(2)).sqrt())
}

/// How far a milling cut runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum CleanUp {
    /// Until the work is covered.
    #[default]
    Rough,
    /// Until the whole cutter has left the work, so that its back teeth wipe the face once more.
    Full,
}

impl CleanUp {
    /// As written in scenarios.
    pub const NAMES: [(&'static str, Self); 2] = [("rough", Self::Rough), ("full", Self::Full)];
}

/// Formula of [`face_travel`].
pub const FACE_TRAVEL: Formula = Formula {
    figure: "travel",
    text: "L = l + A rough, L = l + D full clean-up",
    source: "mitsubishi-technical-data",
};

/// Travel of a face mill over a length of work.
///
/// L = l + A rough; L = l + D full clean-up
///
/// # Symbols
/// L travel. l length of the work. A approach of a face mill. D diameter.
/// # Range
/// `approach` from [`face_approach`]; clearance on both sides is added by the caller.
/// # Source
/// [mitsubishi-technical-data]. Worked examples: tests/published/milling-travel.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{CleanUp, face_travel};
/// use wearland::quantity::Length;
/// let travel = face_travel(Length::mm(500.0), Length::mm(6.26), Length::mm(150.0), CleanUp::Full);
/// assert!((travel.to_mm() - 650.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn face_travel(length: Length, approach: Length, diameter: Length, clean_up: CleanUp) -> Length {
    length
        + match clean_up {
            CleanUp::Rough => approach,
            CleanUp::Full => diameter,
        }
}

/// Formula of [`side_travel`].
pub const SIDE_TRAVEL: Formula =
    Formula { figure: "travel", text: "L = l + A rough, L = l + 2 * A full clean-up", source: "sharma" };

/// Travel of a cutter that mills with its side over a length of work.
///
/// L = l + A rough: from first touch until the axis is over the end; L = l + 2 * A full clean-up: until it has left the work
///
/// # Symbols
/// L travel. l length of the work. A approach of a side mill.
/// # Range
/// `approach` from [`side_approach`]. A slot, a_e = D, is D / 2 in and, run right through, D / 2 out.
/// # Source
/// \[sharma\] for the rough cut. Worked examples: tests/published/milling-travel.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::{CleanUp, side_travel};
/// use wearland::quantity::Length;
/// let slot = side_travel(Length::mm(150.0), Length::mm(8.0), CleanUp::Full);
/// assert!((slot.to_mm() - 166.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn side_travel(length: Length, approach: Length, clean_up: CleanUp) -> Length {
    length
        + match clean_up {
            CleanUp::Rough => approach,
            CleanUp::Full => approach * 2.0,
        }
}

/// Formula of [`flat_length`].
pub const FLAT_LENGTH: Formula =
    Formula { figure: "length of flat", text: "c = 2 * sqrt(a * (d - a))", source: "sharma" };

/// Length of a flat milled across a round bar, the cutter fed square to the bar.
///
/// c = 2 * sqrt(a * (d - a))
///
/// # Symbols
/// c length of the flat. a depth. d diameter of the bar.
/// # Range
/// a from 0 to d.
/// # Source
/// \[sharma\]. Worked examples: tests/published/milling-travel.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::flat_length;
/// use wearland::quantity::Length;
/// assert!((flat_length(Length::mm(50.0), Length::mm(19.0)).to_mm() - 48.539).abs() < 1e-3);
/// ```
#[must_use]
pub fn flat_length(bar: Length, depth: Length) -> Length {
    Length::mm(2.0 * (depth.to_mm() * (bar - depth).to_mm()).sqrt())
}

/// Formula of [`flat_approach`].
pub const FLAT_APPROACH: Formula = Formula {
    figure: "approach",
    text: "A = sqrt(((D + d) / 2)^2 - ((D + d) / 2 - a)^2) - sqrt(a * (d - a))",
    source: "sharma",
};

/// Approach of a cutter that mills a flat across a round bar with its side, from first touch to the start of the flat.
///
/// A = sqrt(((D + d) / 2)^2 - ((D + d) / 2 - a)^2) - sqrt(a * (d - a))
///
/// # Symbols
/// A approach. D diameter of the cutter. d diameter of the bar. a depth.
/// # Range
/// a from 0 to d.
/// # Source
/// \[sharma\]. Worked examples: tests/published/milling-travel.toml.
/// # Example
/// ```
/// use wearland::cutting::milling::flat_approach;
/// use wearland::quantity::Length;
/// let approach = flat_approach(Length::mm(100.0), Length::mm(50.0), Length::mm(19.0));
/// assert!((approach.to_mm() - 25.621).abs() < 1e-3);
/// ```
#[must_use]
pub fn flat_approach(cutter: Length, bar: Length, depth: Length) -> Length {
    let apart = ((cutter + bar) / 2.0).to_mm();
    let touch = (apart.powi(2) - (apart - depth.to_mm()).powi(2)).sqrt();
    Length::mm(touch) - flat_length(bar, depth) / 2.0
}
