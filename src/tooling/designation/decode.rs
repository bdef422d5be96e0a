//! ISO 1832: the designation of an indexable insert, position by position.

use super::corner::{CORNERS, Corner, corner_meaning, corner_of, starts_corner};
use super::letters::{CLEARANCES, EDGE_FORMS, Faces, HANDS, SHAPES, Shape, THICKNESSES, TOLERANCES, TYPES};
use super::meaning::{clearance_meaning, shape_meaning, size_meaning, tolerance_meaning};
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
#[error("position {number}, {name}: {}", ill(found))]
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

/// What is wrong with what was found; nothing is found where the designation ends too early.
fn ill(found: &str) -> String {
    if found == NOTHING {
        "the designation ends before it".to_owned()
    } else {
        format!("`{found}` means nothing there")
    }
}

/// Found where the designation ends.
const NOTHING: &str = "nothing";

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
            None => Err(self.fault((number, name), at.start + first_wrong(number, found), expected())),
        }
    }

    /// A fault at one character; past the end it is laid to the last one.
    fn fault(&self, position: (u32, &'static str), start: usize, expected: String) -> DesignationError {
        let (number, name) = position;
        let (at, found) = match self.code[start..].chars().next() {
            Some(found) => (start..start + found.len_utf8(), found.to_string()),
            None => (self.code.trim_end().len().saturating_sub(1)..start, "nothing".to_owned()),
        };
        DesignationError { at, number, name, found, expected }
    }
}

/// Where in the characters of a position the first wrong one stands.
fn first_wrong(number: u32, found: &str) -> usize {
    let Some(first) = letter(found) else { return 0 };
    let may_start = match number {
        5 => first.is_ascii_digit(),
        6 => THICKNESSES.iter().any(|(code, _)| code.starts_with(first)),
        7 => starts_corner(first),
        _ => false,
    };
    if may_start { first.len_utf8() } else { 0 }
}

fn letter(text: &str) -> Option<char> {
    text.chars().next()
}

fn letters(list: impl IntoIterator<Item = char>) -> String {
    list.into_iter().map(String::from).collect::<Vec<_>>().join(" ")
}

/// The meaning of a position, with its characters.
type Read<T> = (T, String);

/// Positions 1 to 4.
struct Letters {
    shape: Read<&'static Shape>,
    clearance: Read<Option<f64>>,
    tolerance: Read<&'static (char, [f64; 2], [f64; 2], f64)>,
    kind: Read<&'static (char, Faces, &'static str)>,
}

/// Positions 5 to 7.
struct Numbers {
    size: Read<u32>,
    circle: Option<f64>,
    edge: f64,
    thickness: Read<f64>,
    corner: Read<Corner>,
}

/// Decodes an insert designation in capitals, such as `CNMG120408` or `SEKN 12 03 AF TN`.
///
/// After a blank, letters are the edge and the hand where they can be read so (`TN`, `E`, `R`), else the maker's own;
/// after a dash they are always the maker's own.
///
/// # Errors
/// [`DesignationError`] points at the first character that cannot stand where it does.
pub fn decode_insert(code: &str) -> Result<Insert, DesignationError> {
    let mut reader = Reader { code, next: 0 };
    let letters = read_letters(&mut reader)?;
    let numbers = read_numbers(&mut reader, letters.shape.0)?;
    let mut positions = described(&letters, &numbers);
    tail(&mut reader, &mut positions)?;
    let (shape, corner) = (letters.shape.0, &numbers.corner.0);
    let two_sided = letters.kind.0.1 == Faces::Both && letters.clearance.0.is_some_and(|angle| angle == 0.0);
    let radius = match corner {
        Corner::Radius(radius) => Some(*radius),
        Corner::Sharp | Corner::RoundMetric | Corner::Wiper(..) => None,
    };
    let inch = numbers
        .circle
        .zip(radius)
        .filter(|(circle, _)| *circle > 3.9)
        .and_then(|(circle, radius)| inch_code(circle, numbers.thickness.0, radius))
        .map(|figures| {
            let four: String = positions[..4].iter().map(|position| position.characters.as_str()).collect();
            format!("{four}{figures}")
        });
    Ok(Insert {
        edges: shape
            .corners
            .filter(|_| letters.kind.0.0 != 'X')
            .map(|corners| if two_sided { corners * 2 } else { corners }),
        inscribed_circle: numbers.circle.map(Length::mm),
        edge_length: Length::mm(numbers.edge),
        thickness: Length::mm(numbers.thickness.0),
        corner_radius: radius.map(Length::mm),
        edge_angle: match corner {
            Corner::Wiper(Some(angle), _) => Some(Angle::deg(*angle)),
            _ => None,
        },
        inch_code: inch,
        positions,
    })
}

fn read_letters(reader: &mut Reader<'_>) -> Result<Letters, DesignationError> {
    let shape = reader.take(
        (1, "shape", 1),
        || letters(SHAPES.iter().map(|shape| shape.letter)),
        |text| SHAPES.iter().find(|shape| Some(shape.letter) == letter(text)),
    )?;
    let clearance = reader.take(
        (2, "normal clearance", 1),
        || format!("{} O", letters(CLEARANCES.map(|(letter, _)| letter))),
        |text| match letter(text) {
            Some('O') => Some(None),
            given => {
                CLEARANCES.iter().find(|(known, _)| Some(*known) == given).map(|(_, angle)| Some(*angle))
            }
        },
    )?;
    let tolerance = reader.take(
        (3, "tolerance class", 1),
        || letters(TOLERANCES.map(|(letter, ..)| letter)),
        |text| TOLERANCES.iter().find(|(known, ..)| Some(*known) == letter(text)),
    )?;
    let kind = reader.take(
        (4, "type", 1),
        || letters(TYPES.map(|(letter, ..)| letter)),
        |text| TYPES.iter().find(|(known, ..)| Some(*known) == letter(text)),
    )?;
    Ok(Letters { shape, clearance, tolerance, kind })
}

fn read_numbers(reader: &mut Reader<'_>, shape: &Shape) -> Result<Numbers, DesignationError> {
    let size = reader.take(
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
    let thickness = reader.take(
        (6, "thickness", 2),
        || THICKNESSES.map(|(code, _)| code).join(" "),
        |text| THICKNESSES.iter().find(|(known, _)| *known == text).map(|(_, thickness)| *thickness),
    )?;
    reader.skip_blanks();
    let start = reader.next;
    let corner = reader.take((7, "corner", 2), || CORNERS.to_owned(), corner_of)?;
    let metric_round = matches!(corner.0, Corner::RoundMetric);
    let circle = inscribed_circle((shape.letter, shape.angle), size.0, &corner.0);
    let edge = circle
        .and_then(|circle| edge_length(shape.letter, shape.angle, circle))
        .unwrap_or_else(|| f64::from(size.0));
    if metric_round && shape.letter != 'R' {
        return Err(reader.fault((7, "corner"), start, "M0 for round inserts (R) alone".to_owned()));
    }
    if let (Corner::Radius(radius), Some(circle)) = (&corner.0, circle)
        && circle / 2.0 < *radius
    {
        let expected =
            format!("a corner radius up to half the inscribed circle of {} mm", significant(circle, 5));
        return Err(reader.fault((7, "corner"), start, expected));
    }
    Ok(Numbers { size, circle, edge, thickness, corner })
}

fn described(letters: &Letters, numbers: &Numbers) -> Vec<Position> {
    let (shape, one) = &letters.shape;
    let (clearance, two) = &letters.clearance;
    let (tolerance, three) = &letters.tolerance;
    let (kind, four) = &letters.kind;
    let (size, thickness, corner) = (&numbers.size.1, &numbers.thickness, &numbers.corner);
    vec![
        position(
            1,
            "shape",
            one.clone(),
            shape_meaning(shape),
            (shape.angle > 0.0).then(|| Angle::deg(shape.angle).measure()),
        ),
        position(
            2,
            "normal clearance",
            two.clone(),
            clearance_meaning(*clearance),
            clearance.map(|angle| Angle::deg(angle).measure()),
        ),
        position(
            3,
            "tolerance class",
            three.clone(),
            tolerance_meaning(tolerance, shape, numbers.circle),
            None,
        ),
        position(4, "type", four.clone(), kind.2.to_owned(), None),
        position(
            5,
            "size",
            size.clone(),
            size_meaning(shape, numbers.circle, numbers.edge),
            Some(Length::mm(numbers.edge).measure()),
        ),
        position(
            6,
            "thickness",
            thickness.1.clone(),
            "thickness S".to_owned(),
            Some(Length::mm(thickness.0).measure()),
        ),
        position(7, "corner", corner.1.clone(), corner_meaning(&corner.0), corner.0.value()),
    ]
}

/// Positions 8 and 9, and what the maker adds after a dash or blank.
fn tail(reader: &mut Reader<'_>, positions: &mut Vec<Position>) -> Result<(), DesignationError> {
    if edge_and_hand_apart(&reader.code[reader.next..]) {
        reader.skip_blanks();
    }
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

/// Whether the word after the blanks is an edge, a hand or both. K and P are left to makers, whose own marks begin so.
fn edge_and_hand_apart(rest: &str) -> bool {
    let Some(word) = rest.strip_prefix(' ').and_then(|rest| rest.split_whitespace().next()) else {
        return false;
    };
    let word = word.split('-').next().unwrap_or_default();
    let after = word.strip_prefix(['F', 'E', 'T', 'S']).unwrap_or(word);
    !word.is_empty() && (after.is_empty() || matches!(after, "R" | "L" | "N"))
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
