//! ISO 1832: the designation of an indexable insert, position by position.

use super::letters::{
    BY_SIZE, CLEARANCES, EDGE_ANGLES, EDGE_FORMS, Faces, HANDS, SHAPES, Shape, THICKNESSES, TOLERANCES, TYPES,
};
use super::size::{edge_length, inch_code, inscribed_circle};
use crate::quantity::{Angle, Length, Measure, Quantity, significant};
use std::ops::Range;
use thiserror::Error;

/// One position of a designation.
#[derive(Debug, Clone, PartialEq)]
pub struct Position {
    /// Number in the standard.
    pub number: u32,
    /// What it tells.
    pub name: &'static str,
    /// Its characters.
    pub characters: String,
    /// What they mean.
    pub meaning: String,
    /// Its figure, if it has one.
    pub value: Option<Measure>,
}

/// A designation decoded.
#[derive(Debug, Clone, PartialEq)]
pub struct Insert {
    /// Its positions.
    pub positions: Vec<Position>,
    /// Usable edges; `None` for round and special inserts.
    pub edges: Option<u32>,
    /// Inscribed circle IC; `None` where the code does not tell it.
    pub inscribed_circle: Option<Length>,
    /// Length of the cutting edge L.
    pub edge_length: Length,
    /// Thickness S.
    pub thickness: Length,
    /// Corner radius RE; `None` for wiper corners of milling inserts.
    pub corner_radius: Option<Length>,
    /// Edge angle of a milling insert.
    pub edge_angle: Option<Angle>,
    /// The inch form of size, thickness and corner, with the same letters in front.
    pub inch_code: Option<String>,
}

/// A character that cannot stand where it does.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("position {number}, {name}: `{found}` means nothing there")]
pub struct DesignationError {
    /// Bytes of the designation at fault.
    pub at: Range<usize>,
    /// Number of the position.
    pub number: u32,
    /// What the position tells.
    pub name: &'static str,
    /// What stands there.
    pub found: String,
    /// What may stand there.
    pub expected: String,
}

/// Reads on through a designation, past blanks.
struct Reader<'c> {
    code: &'c str,
    next: usize,
}

impl<'c> Reader<'c> {
    fn skip_blanks(&mut self) {
        while self.code[self.next..].starts_with(' ') {
            self.next += 1;
        }
    }

    /// The next so many characters, fewer at the end.
    fn peek(&mut self, count: usize) -> (&'c str, Range<usize>) {
        self.skip_blanks();
        let rest = &self.code[self.next..];
        let length = rest.char_indices().nth(count).map_or(rest.len(), |(at, _)| at);
        (&rest[..length], self.next..self.next + length)
    }

    /// The meaning of the next characters, or what is wrong with them.
    fn take<T>(
        &mut self,
        position: (u32, &'static str, usize),
        expected: impl Fn() -> String,
        meaning: impl Fn(&str) -> Option<T>,
    ) -> Result<(T, String), DesignationError> {
        let (number, name, count) = position;
        let (found, at) = self.peek(count);
        let whole = found.chars().count() == count;
        match meaning(found).filter(|_| whole) {
            Some(value) => {
                self.next = at.end;
                Ok((value, found.to_owned()))
            }
            None => Err(DesignationError {
                at: if at.is_empty() { at.start.saturating_sub(1)..at.start } else { at },
                number,
                name,
                found: if found.is_empty() { "nothing".to_owned() } else { found.to_owned() },
                expected: expected(),
            }),
        }
    }
}

fn letter(text: &str) -> Option<char> {
    text.chars().next()
}

fn letters(list: impl IntoIterator<Item = char>) -> String {
    list.into_iter().map(String::from).collect::<Vec<_>>().join(" ")
}

/// Decodes an insert designation, such as `CNMG120408` or `SEKN 12 03 AF TN`.
///
/// # Errors
/// [`DesignationError`] points at the first character that cannot stand where it does.
pub fn decode_insert(code: &str) -> Result<Insert, DesignationError> {
    let mut reader = Reader { code, next: 0 };
    let (shape, one) = reader.take(
        (1, "shape", 1),
        || letters(SHAPES.iter().map(|shape| shape.letter)),
        |text| SHAPES.iter().find(|shape| Some(shape.letter) == letter(text)),
    )?;
    let (clearance, two) = reader.take(
        (2, "normal clearance", 1),
        || format!("{} O", letters(CLEARANCES.map(|(letter, _)| letter))),
        |text| match letter(text) {
            Some('O') => Some(None),
            given => {
                CLEARANCES.iter().find(|(known, _)| Some(*known) == given).map(|(_, angle)| Some(*angle))
            }
        },
    )?;
    let (tolerance, three) = reader.take(
        (3, "tolerance class", 1),
        || letters(TOLERANCES.map(|(letter, ..)| letter)),
        |text| TOLERANCES.iter().find(|(known, ..)| Some(*known) == letter(text)),
    )?;
    let (kind, four) = reader.take(
        (4, "type", 1),
        || letters(TYPES.map(|(letter, ..)| letter)),
        |text| TYPES.iter().find(|(known, ..)| Some(*known) == letter(text)),
    )?;
    let (size, five) = reader.take(
        (5, "size", 2),
        || "two digits: whole millimetres of the edge".to_owned(),
        |text| {
            text.bytes()
                .all(|byte| byte.is_ascii_digit())
                .then(|| text.parse::<u32>().ok())
                .flatten()
                .filter(|size| *size > 0)
        },
    )?;
    let (thickness, six) = reader.take(
        (6, "thickness", 2),
        || THICKNESSES.map(|(code, _)| code).join(" "),
        |text| THICKNESSES.iter().find(|(known, _)| *known == text).map(|(_, thickness)| *thickness),
    )?;
    let (corner, seven) = reader.take(
        (7, "corner", 2),
        || {
            "tenths of a millimetre such as 08; 00 sharp or round, M0 round metric; or two letters of a milling insert: \
             edge angle A D E F G P Z and wiper clearance A B C D E F G N P Z"
                .to_owned()
        },
        corner_of,
    )?;
    let metric_round = matches!(corner, Corner::RoundMetric);
    let circle = inscribed_circle((shape.letter, shape.angle), size, metric_round);
    let edge = circle
        .and_then(|circle| edge_length(shape.letter, shape.angle, circle))
        .unwrap_or_else(|| f64::from(size));
    let two_sided = kind.1 == Faces::Both && clearance.is_some_and(|angle| angle == 0.0);
    let mut positions = vec![
        position(
            1,
            "shape",
            one,
            shape_meaning(shape),
            (shape.angle > 0.0).then(|| Angle::deg(shape.angle).measure()),
        ),
        position(
            2,
            "normal clearance",
            two,
            clearance_meaning(clearance),
            clearance.map(|angle| Angle::deg(angle).measure()),
        ),
        position(3, "tolerance class", three, tolerance_meaning(tolerance, circle), None),
        position(4, "type", four, kind.2.to_owned(), None),
        position(5, "size", five, size_meaning(circle, edge), Some(Length::mm(edge).measure())),
        position(6, "thickness", six, "thickness S".to_owned(), Some(Length::mm(thickness).measure())),
        position(7, "corner", seven, corner_meaning(&corner), corner.value()),
    ];
    tail(&mut reader, &mut positions)?;
    let radius = match corner {
        Corner::Radius(radius) => Some(radius),
        Corner::Sharp | Corner::RoundMetric | Corner::Wiper(..) => None,
    };
    let prefix = &positions[..4];
    let inch = circle.zip(radius).filter(|(circle, _)| *circle > 3.9).map(|(circle, radius)| {
        let letters: String = prefix.iter().map(|position| position.characters.as_str()).collect();
        format!("{letters}{}", inch_code(circle, thickness, radius))
    });
    Ok(Insert {
        edges: shape
            .corners
            .filter(|_| kind.0 != 'X')
            .map(|corners| if two_sided { corners * 2 } else { corners }),
        inscribed_circle: circle.map(Length::mm),
        edge_length: Length::mm(edge),
        thickness: Length::mm(thickness),
        corner_radius: radius.map(Length::mm),
        edge_angle: match corner {
            Corner::Wiper(Some(angle), _) => Some(Angle::deg(angle)),
            _ => None,
        },
        inch_code: inch,
        positions,
    })
}

/// Positions 8 and 9, and what the maker adds after a dash or blank.
fn tail(reader: &mut Reader<'_>, positions: &mut Vec<Position>) -> Result<(), DesignationError> {
    let own = |reader: &Reader<'_>| {
        let rest = &reader.code[reader.next..];
        rest.trim_start().is_empty() || rest.starts_with([' ', '-'])
    };
    if !own(reader) {
        let (found, at) = reader.peek(1);
        let edge = EDGE_FORMS.iter().find(|(known, _)| Some(*known) == letter(found));
        if let Some((_, meaning)) = edge {
            reader.next = at.end;
            positions.push(position(8, "edge", found.to_owned(), (*meaning).to_owned(), None));
        }
    }
    if !own(reader) {
        let (meaning, found) = reader.take(
            (9, "hand", 1),
            || {
                format!(
                    "{} for the edge, {} for the hand, or a dash before the maker's own mark",
                    letters(EDGE_FORMS.map(|(letter, _)| letter)),
                    letters(HANDS.map(|(letter, _)| letter))
                )
            },
            |text| HANDS.iter().find(|(known, _)| Some(*known) == letter(text)).map(|(_, meaning)| *meaning),
        )?;
        positions.push(position(9, "hand", found, meaning.to_owned(), None));
    }
    let rest = reader.code[reader.next..].trim_start_matches([' ', '-']).trim_end();
    if !rest.is_empty() {
        positions.push(position(
            10,
            "maker's own",
            rest.to_owned(),
            "as its maker explains it".to_owned(),
            None,
        ));
    }
    Ok(())
}

fn position(
    number: u32,
    name: &'static str,
    characters: String,
    meaning: String,
    value: Option<Measure>,
) -> Position {
    Position { number, name, characters, meaning, value }
}

/// What position 7 says.
enum Corner {
    Sharp,
    RoundMetric,
    Radius(f64),
    /// Edge angle and wiper clearance; `None` where special.
    Wiper(Option<f64>, Option<f64>),
}

impl Corner {
    fn value(&self) -> Option<Measure> {
        match self {
            Self::Radius(radius) => Some(Length::mm(*radius).measure()),
            Self::Wiper(Some(angle), _) => Some(Angle::deg(*angle).measure()),
            Self::Sharp | Self::RoundMetric | Self::Wiper(None, _) => None,
        }
    }
}

fn corner_of(text: &str) -> Option<Corner> {
    match text {
        "00" => return Some(Corner::Sharp),
        "M0" => return Some(Corner::RoundMetric),
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

fn corner_meaning(corner: &Corner) -> String {
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

fn shape_meaning(shape: &Shape) -> String {
    if shape.angle > 0.0 {
        format!("{}, included angle {} deg", shape.name, shape.angle)
    } else {
        shape.name.to_owned()
    }
}

fn clearance_meaning(clearance: Option<f64>) -> String {
    match clearance {
        None => "special".to_owned(),
        Some(angle) if angle == 0.0 => "no clearance: both faces can cut".to_owned(),
        Some(angle) => format!("{angle} deg: one face cuts"),
    }
}

fn tolerance_meaning(class: &(char, [f64; 2], [f64; 2], f64), circle: Option<f64>) -> String {
    let (letter, corner, inscribed, thickness) = class;
    let of_size = circle.and_then(|circle| BY_SIZE.iter().find(|(size, ..)| (size - circle).abs() < 0.01));
    let (corner, inscribed) = match (letter, of_size) {
        ('M' | 'N', Some((_, [m, d], _))) | ('U', Some((_, _, [m, d]))) => ([*m, *m], [*d, *d]),
        _ => (*corner, *inscribed),
    };
    let span = |[low, high]: [f64; 2]| {
        if (high - low).abs() < 1e-9 { significant(low, 3) } else { format!("{low} to {high}") }
    };
    format!(
        "+/- mm: corner height m {}, inscribed circle {}, thickness {thickness}",
        span(corner),
        span(inscribed)
    )
}

fn size_meaning(circle: Option<f64>, edge: f64) -> String {
    match circle {
        Some(circle) => {
            format!("inscribed circle IC {} mm, edge {} mm", significant(circle, 5), significant(edge, 4))
        }
        None => format!("edge {edge} mm"),
    }
}
