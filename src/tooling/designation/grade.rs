//! [iso-513]: application groups of hard cutting materials, such as `P20` or `HC-K10`.

use super::decode::DesignationError;

/// One part of a grade.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GradePosition {
    /// What it tells.
    pub name: &'static str,
    /// Its characters.
    pub characters: String,
    /// What they mean.
    pub meaning: String,
}

/// Letters of the cutting material: from memory of the standard.
const MATERIALS: [(&str, &str); 15] = [
    ("HW", "uncoated carbide"),
    ("HF", "uncoated carbide of fine grain"),
    ("HT", "cermet"),
    ("HC", "coated carbide or cermet"),
    ("CA", "ceramic, aluminium oxide"),
    ("CM", "mixed ceramic"),
    ("CN", "ceramic, silicon nitride"),
    ("CR", "ceramic, whisker reinforced"),
    ("CC", "coated ceramic"),
    ("BL", "boron nitride, little of it"),
    ("BH", "boron nitride, much of it"),
    ("BC", "coated boron nitride"),
    ("DP", "polycrystalline diamond"),
    ("DM", "single-crystal diamond"),
    ("HSS", "high-speed steel"),
];

/// Group letter, work material, colour, highest number.
const GROUPS: [(char, &str, u32); 6] = [
    ('P', "steel, except stainless with austenite (blue)", 50),
    ('M', "stainless steel (yellow)", 40),
    ('K', "cast iron (red)", 40),
    ('N', "non-ferrous metal (green)", 30),
    ('S', "heat-resistant alloy and titanium (brown)", 30),
    ('H', "hard material (grey)", 30),
];

/// Decodes an application group of [iso-513], with or without the cutting material in front.
///
/// # Errors
/// [`DesignationError`] points at the characters that cannot stand where they do.
pub fn decode_grade(code: &str) -> Result<Vec<GradePosition>, DesignationError> {
    let mut positions = Vec::new();
    let material = MATERIALS.iter().find(|(letters, _)| {
        code.strip_prefix(letters).is_some_and(|rest| rest.starts_with(['-', ' ']) || rest.is_empty())
    });
    let mut start = 0;
    if let Some((letters, meaning)) = material {
        positions.push(GradePosition {
            name: "cutting material",
            characters: (*letters).to_owned(),
            meaning: (*meaning).to_owned(),
        });
        start = letters.len();
        start += code[start..].len() - code[start..].trim_start_matches(['-', ' ']).len();
    }
    let fault = |at: std::ops::Range<usize>, number, name, expected: &str| {
        let found = code.get(at.clone()).filter(|text| !text.is_empty()).unwrap_or("nothing");
        DesignationError { at, number, name, found: found.to_owned(), expected: expected.to_owned() }
    };
    let rest = &code[start..];
    let first = rest.chars().next();
    let Some((letter, work, most)) = GROUPS.iter().find(|(letter, ..)| Some(*letter) == first) else {
        let end = start + first.map_or(0, char::len_utf8);
        let at = if end > start { start..end } else { start.saturating_sub(1)..start };
        let expected = "P M K N S H, or a cutting material such as HC and a dash before it";
        return Err(fault(at, 1, "group", expected));
    };
    positions.push(GradePosition {
        name: "group",
        characters: letter.to_string(),
        meaning: (*work).to_owned(),
    });
    let digits = &rest[1..];
    let number = digits
        .parse::<u32>()
        .ok()
        .filter(|_| digits.len() == 2 && digits.bytes().all(|byte| byte.is_ascii_digit()));
    let Some(number) = number.filter(|number| (1..=*most).contains(number)) else {
        let at = if digits.is_empty() { start..start + 1 } else { start + 1..code.len() };
        return Err(fault(at, 2, "number", &format!("two digits from 01 to {most}")));
    };
    let meaning = format!(
        "{number} of {most}: low numbers stand for speed and resistance to wear, high ones for feed and toughness"
    );
    positions.push(GradePosition { name: "number", characters: digits.to_owned(), meaning });
    Ok(positions)
}

#[cfg(test)]
mod tests {
    use super::decode_grade;

    #[test]
    fn groups_and_materials() {
        assert_eq!(decode_grade("P20").unwrap().len(), 2);
        assert_eq!(decode_grade("HC-K10").unwrap().len(), 3);
        assert_eq!(decode_grade("Q20").unwrap_err().at, 0..1);
        assert_eq!(decode_grade("P70").unwrap_err().at, 1..3);
        assert_eq!(decode_grade("HC-X10").unwrap_err().at, 3..4);
        assert_eq!(decode_grade("M").unwrap_err().number, 2);
        assert_eq!(decode_grade("P+5").unwrap_err().at, 1..3);
        assert_eq!(decode_grade("M45").unwrap_err().at, 1..3);
    }
}
