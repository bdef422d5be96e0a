//! Position 7 of an insert designation: its corner.

use super::letters::{CLEARANCES, EDGE_ANGLES};
use crate::quantity::{Angle, Length, Measure, Quantity};

/// What position 7 may hold.
pub(super) const CORNERS: &str = "tenths of a millimetre such as 08; 00 sharp or round, M0 round metric; or two letters of a \
    milling insert: edge angle A D E F G P Z and wiper clearance A B C D E F G N P Z";

/// What position 7 says.
pub(super) enum Corner {
    /// Sharp, or round by the inch series.
    Sharp,
    /// Round by the metric series.
    RoundMetric,
    /// Corner radius, mm.
    Radius(f64),
    /// Edge angle and wiper clearance; `None` where special.
    Wiper(Option<f64>, Option<f64>),
}

impl Corner {
    /// Its figure, if it has one.
    pub(super) fn value(&self) -> Option<Measure> {
        match self {
            Self::Radius(radius) => Some(Length::mm(*radius).measure()),
            Self::Wiper(Some(angle), _) => Some(Angle::deg(*angle).measure()),
            Self::Sharp | Self::RoundMetric | Self::Wiper(None, _) => None,
        }
    }
}

/// The corner two characters stand for; makers also write the nought of `M0` as a letter.
pub(super) fn corner_of(text: &str) -> Option<Corner> {
    match text {
        "00" => return Some(Corner::Sharp),
        "M0" | "MO" => return Some(Corner::RoundMetric),
        _ => {}
    }
    if text.bytes().all(|byte| byte.is_ascii_digit()) {
        return text.parse::<f64>().ok().map(|tenths| Corner::Radius(tenths / 10.0));
    }
    let mut both = text.chars();
    let (first, second) = (both.next()?, both.next()?);
    let of = |list: &[(char, f64)], letter: char| match letter {
        'Z' => Some(None),
        _ => list.iter().find(|(known, _)| *known == letter).map(|(_, angle)| Some(*angle)),
    };
    Some(Corner::Wiper(of(&EDGE_ANGLES, first)?, of(&CLEARANCES, second)?))
}

/// A corner in words.
pub(super) fn corner_meaning(corner: &Corner) -> String {
    let degrees =
        |angle: &Option<f64>| angle.map_or_else(|| "special".to_owned(), |angle| format!("{angle} deg"));
    match corner {
        Corner::Sharp => "sharp corner, or round by the inch series".to_owned(),
        Corner::RoundMetric => "round, diameter in whole millimetres".to_owned(),
        Corner::Radius(_) => "corner radius RE".to_owned(),
        Corner::Wiper(angle, wiper) => {
            format!("edge angle {}, clearance of the wiper {}", degrees(angle), degrees(wiper))
        }
    }
}

/// Whether a corner can begin so.
pub(super) fn starts_corner(first: char) -> bool {
    first.is_ascii_digit()
        || matches!(first, 'M' | 'Z')
        || EDGE_ANGLES.iter().any(|(known, _)| *known == first)
}
